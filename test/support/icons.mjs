// @ts-check
/**
 * The icons of the installed page: `npm run icons` draws a bevel gear seen from the side and writes it to `public/`, as SVG and,
 * by way of a Chromium (see browser.mjs beside this), as PNG in the sizes that browsers ask for.
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { ROOT } from "../../src/cli/launch.mjs";
import { findBrowser, NO_BROWSER, WITHOUT_WEBGL } from "./browser.mjs";

/** Units of the drawing, square, the middle at 0, 0; y runs down. */
const SIZE = 64;
const GROUND = "#16232e";
const COLOURS = { land: "#99ccee", end: "#5f93c4", body: "#2f5b84", hub: "#4b7aa8", axis: "#ffc04d" };

/** The gear: so many teeth, the pitch angle (degrees), heel radius, toe as a part of the heel, tooth height over and under the pitch cone. */
const GEAR = { teeth: 14, pitchAngle: 46, heel: 25, toe: 0.52, addendum: 2.8, dedendum: 3.6, half: 0.24 };
/** How far down the heel's pitch circle lies. */
const HEEL_Y = 8;

const { teeth, heel, toe, addendum, dedendum, half } = GEAR;
const delta = (GEAR.pitchAngle * Math.PI) / 180;
const apexY = HEEL_Y - heel / Math.tan(delta);

/**
 * A circle of the gear: radius and height, at a part of the cone distance and so far out from the pitch cone.
 * @param {number} part @param {number} out
 */
const ring = (part, out) => ({
  radius: part * (heel + out * Math.cos(delta)),
  y: apexY + part * (HEEL_Y - out * Math.sin(delta) - apexY),
});
const HEEL = { tip: ring(1, addendum), root: ring(1, -dedendum) };
const TOE = { tip: ring(toe, addendum), root: ring(toe, -dedendum) };

const n = (/** @type {number} */ value) => String(Math.round(value * 100) / 100);
/** @param {readonly (readonly [number, number])[]} points @param {string} fill */
const area = (points, fill) => `<path fill="${fill}" d="M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join("L")}Z"/>`;
/** Where a point at `angle` on a circle is seen from the side. @param {{ radius: number, y: number }} at @param {number} angle @returns {[number, number]} */
const seen = ({ radius, y }, angle) => [radius * Math.sin(angle), y];

const toothAt = (/** @type {number} */ middle) => {
  // A tooth is narrower at its tip than at its root.
  const tip = [middle - (half * Math.PI) / teeth, middle + (half * Math.PI) / teeth];
  const root = [middle - (2.4 * half * Math.PI) / teeth, middle + (2.4 * half * Math.PI) / teeth];
  const [a = 0, b = 0] = tip;
  const [c = 0, d = 0] = root;
  return [
    area([seen(TOE.root, c), seen(TOE.tip, a), seen(HEEL.tip, a), seen(HEEL.root, c)], COLOURS.end),
    area([seen(TOE.root, d), seen(TOE.tip, b), seen(HEEL.tip, b), seen(HEEL.root, d)], COLOURS.end),
    area([seen(HEEL.tip, a), seen(HEEL.tip, b), seen(HEEL.root, d), seen(HEEL.root, c)], COLOURS.end),
    area([seen(TOE.tip, a), seen(TOE.tip, b), seen(HEEL.tip, b), seen(HEEL.tip, a)], COLOURS.land),
  ].join("");
};

const drawing = () => {
  const angles = Array.from({ length: teeth }, (_, i) => ((i + 0.5) * 2 * Math.PI) / teeth - Math.PI);
  // Those of the near side, the middle ones last, since they stand before their neighbours.
  const near = angles.filter((angle) => Math.cos(angle) > -1e-9).sort((a, b) => Math.abs(b) - Math.abs(a));
  const { root } = HEEL;
  const bar = (
    /** @type {number} */ x,
    /** @type {number} */ from,
    /** @type {number} */ to,
    /** @type {string} */ fill,
  ) =>
    area(
      [
        [-x, from],
        [x, from],
        [x, to],
        [-x, to],
      ],
      fill,
    );
  return [
    // An axis is a long-dashed dotted line (ISO 128-2, line 04.1).
    `<path fill="none" stroke="${COLOURS.axis}" stroke-width="1.3" stroke-dasharray="6 1.6 1.3 1.6" d="M0-29.5V30.5"/>`,
    bar(4, TOE.root.y - 6, TOE.root.y, COLOURS.hub),
    area(
      [
        [-TOE.root.radius, TOE.root.y],
        [TOE.root.radius, TOE.root.y],
        [root.radius, root.y],
        [-root.radius, root.y],
      ],
      COLOURS.body,
    ),
    area(
      [
        [-root.radius, root.y],
        [root.radius, root.y],
        [9, root.y + 4.5],
        [-9, root.y + 4.5],
      ],
      COLOURS.body,
    ),
    ...near.map(toothAt),
    bar(9, root.y + 4.5, root.y + 8, COLOURS.hub),
    bar(4, root.y + 8, root.y + 15, COLOURS.hub),
  ].join("\n    ");
};

/** @param {number} round radius of the ground's corners @param {number} scale of the gear on it */
const icon = (round, scale) =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${-SIZE / 2} ${-SIZE / 2} ${SIZE} ${SIZE}">
  <rect x="${-SIZE / 2}" y="${-SIZE / 2}" width="${SIZE}" height="${SIZE}" rx="${round}" fill="${GROUND}"/>
  <g transform="scale(${scale})">
    ${drawing()}
  </g>
</svg>
`;

/** A system that cuts icons to a shape of its own leaves at least the circle of 80 % of the width (W3C, Web Application Manifest). */
const FILES = [
  { name: "icon.svg", text: icon(12, 1) },
  { name: "icon-192.png", text: icon(12, 1), pixels: 192 },
  { name: "icon-512.png", text: icon(12, 1), pixels: 512 },
  { name: "icon-maskable-512.png", text: icon(0, 0.74), pixels: 512 },
  { name: "icon-apple-180.png", text: icon(0, 0.85), pixels: 180 },
];

const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
const browser = await chromium.launch({ executablePath: program, args: [...WITHOUT_WEBGL] });
try {
  for (const { name, text, pixels } of FILES) {
    const file = join(ROOT, "public", name);
    if (pixels === undefined) writeFileSync(file, text);
    else {
      const page = await browser.newPage({ viewport: { width: pixels, height: pixels } });
      await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw}</style>${text}`);
      await page.screenshot({ path: file, omitBackground: true });
      await page.close();
    }
  }
} finally {
  await browser.close();
}

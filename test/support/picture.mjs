// @ts-check
/**
 * Pictures for README.md, taken of the built page: `npm run picture`. Needs a Chromium (see browser.mjs beside this).
 */
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { DIST, ensureBuilt, ROOT } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "./browser.mjs";

const SIZE = { width: 1440, height: 900 };
/** The bench is then as wide as the frames of the sheet of pairs are, to their height. */
const PAIR_SIZE = { width: 1330, height: 1000 };
/** ms for the bench to come, the eye to settle and the notices to go. */
const SETTLE = 4000;

/** A gear pair on a bench of its own: kind, teeth, and the shaft angle where axes meet. */
const PAIRS = [
  { name: "Spur", kinds: ["spur", "spur"], teeth: [17, 43] },
  { name: "Ring", kinds: ["spur", "internal"], teeth: [20, 60] },
  { name: "Bevel, 60°", kinds: ["bevel", "bevel"], teeth: [20, 30], angle: 60 },
  { name: "Bevel, 90°", kinds: ["bevel", "bevel"], teeth: [16, 32], angle: 90 },
  { name: "Crown, 120°", kinds: ["bevel", "bevel"], teeth: [20, 40], angle: 120 },
  { name: "Internal bevel, 150°", kinds: ["bevel", "bevel"], teeth: [20, 60], angle: 150 },
];

/** @param {(typeof PAIRS)[number]} pair */
const pairDrive = ({ name, kinds, teeth, angle }) =>
  JSON.stringify({
    format: "turnwise.drive",
    version: 1,
    title: name,
    shafts: [
      { id: "A", name: "Pinion", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } },
      { id: "B", name: "Wheel" },
    ],
    gears: kinds.map((kind, i) => ({
      id: i === 0 ? "a1" : "b1",
      shaft: i === 0 ? "A" : "B",
      kind,
      teeth: teeth[i],
      module: 2,
      face: kind === "bevel" ? 9 : 16,
      ...(kind === "bevel" ? { apex: "-" } : {}),
    })),
    meshes: [{ id: "m1", gears: ["a1", "b1"], ...(angle ? { shaftAngle: angle } : {}) }],
    ports: [{ shaft: "A", role: "input", speed: 20 }],
  });

/**
 * Opens the page with a drive, as a person drops a file on it.
 * @param {import("playwright-core").Page} page @param {string} address @param {string} text
 */
const show = async (page, address, text) => {
  await page.goto(`${address}?drawing=full&first=no`);
  await page.locator("canvas").waitFor();
  await page.evaluate((content) => {
    const data = new DataTransfer();
    data.items.add(new File([content], "picture.drive.json", { type: "application/json" }));
    for (const type of ["dragenter", "dragover", "drop"]) {
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
    }
  }, text);
  await page.waitForTimeout(SETTLE);
};

const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
await ensureBuilt();
const { server, url } = await serveFolder(DIST, 0);
const browser = await chromium.launch({ executablePath: program, args: [...WITH_WEBGL] });
try {
  const page = await browser.newPage({ viewport: SIZE });
  await show(page, url, await readFile(join(ROOT, "test/support/mixer.drive.json"), "utf8"));
  await page.screenshot({ path: join(ROOT, "public/turnwise.png") });

  await show(page, url, pairDrive({ name: "Bevel, 90°", kinds: ["bevel", "bevel"], teeth: [16, 32], angle: 90 }));
  await page.getByRole("button", { name: "Close look" }).click();
  await page.getByRole("button", { name: "Section" }).click();
  const place = page.getByRole("slider", { name: "Place of the section" });
  await place.focus();
  for (let step = 0; step < 10; step++) await place.press("ArrowRight");
  await page.waitForTimeout(SETTLE);
  await page.locator("canvas").screenshot({ path: join(ROOT, "public/close-look.png") });

  const shots = [];
  await page.setViewportSize(PAIR_SIZE);
  for (const pair of PAIRS) {
    await show(page, url, pairDrive(pair));
    // What stands over the picture would be cut.
    await page.getByRole("button", { name: "Corner" }).evaluate((button) => {
      const row = button.closest("main > div");
      if (row instanceof HTMLElement) row.style.visibility = "hidden";
    });
    const canvas = await page.locator("canvas").screenshot();
    shots.push({ name: pair.name, picture: canvas.toString("base64") });
  }
  const sheet = await browser.newPage({ viewport: { width: 1440, height: 860 } });
  await sheet.setContent(
    `<style>body{margin:0;display:grid;grid-template-columns:repeat(3,1fr);font:20px sans-serif;background:#f3f4f6}
     figure{margin:0;padding:8px}img{width:100%;height:380px;object-fit:contain}figcaption{text-align:center}</style>
     ${shots.map(({ name, picture }) => `<figure><img src="data:image/png;base64,${picture}"><figcaption>${name}</figcaption></figure>`).join("")}`,
  );
  await sheet.waitForTimeout(500);
  await sheet.screenshot({ path: join(ROOT, "public/teeth.png") });
} finally {
  await browser.close();
  server.close();
}

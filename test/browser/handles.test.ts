/** The handles in the built page, by mouse and by finger: each is found, dragged, taken back and undone, and none lies on another. */
import type { CDPSession, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { type App, openApp } from "./harness";
import { drop, violations } from "./steps";

const TRAIN = {
  format: "turnwise.drive",
  version: 1,
  title: "Sack hoist",
  shafts: [
    { id: "A", name: "Motor", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } },
    { id: "B", name: "Layshaft" },
    { id: "C", name: "Drum" },
  ],
  gears: [
    { id: "a1", shaft: "A", kind: "spur", teeth: 20, module: 3, face: 16 },
    { id: "b1", shaft: "B", kind: "spur", teeth: 30, module: 3, face: 16 },
    { id: "b2", shaft: "B", at: 70, kind: "bevel", teeth: 18, module: 4, face: 18, apex: "+" },
    { id: "c1", shaft: "C", kind: "bevel", teeth: 27, module: 4, face: 18, apex: "-" },
  ],
  meshes: [
    { id: "m1", gears: ["a1", "b1"], azimuth: 60 },
    { id: "m2", gears: ["b2", "c1"], shaftAngle: 75, azimuth: 20 },
  ],
  ports: [
    { shaft: "A", role: "input", speed: 60 },
    { shaft: "C", role: "output", torque: 4 },
  ],
};

/** A hand on the page. */
interface Hand {
  down(x: number, y: number): Promise<void>;
  move(x: number, y: number): Promise<void>;
  up(): Promise<void>;
}

const mouse = ({ mouse }: Page): Hand => ({
  down: async (x, y) => {
    await mouse.move(x, y);
    await mouse.down();
  },
  move: (x, y) => mouse.move(x, y),
  up: () => mouse.up(),
});

const finger = (session: CDPSession): Hand => {
  const send = async (
    type: "touchStart" | "touchMove" | "touchEnd",
    points: { x: number; y: number }[],
  ): Promise<void> => {
    await session.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  };
  return {
    down: (x, y) => send("touchStart", [{ x, y }]),
    move: (x, y) => send("touchMove", [{ x, y }]),
    up: () => send("touchEnd", []),
  };
};

/** Points of a gear in the page, from its object in the scene: on its face, well away from the rod. */
const spotsOf = (page: Page, gear: string): Promise<{ x: number; y: number }[]> =>
  page.evaluate((gear) => {
    interface Matrix {
      readonly elements: readonly number[];
    }
    interface Picture {
      readonly scene: { getObjectByName(name: string): { readonly matrixWorld: Matrix } | undefined };
      readonly camera: { readonly matrixWorldInverse: Matrix; readonly projectionMatrix: Matrix };
    }
    const spots: { x: number; y: number }[] = [];
    const canvas = document.querySelector('[data-drawn="3d"] canvas');
    const times = ({ elements: m }: Matrix, v: readonly number[]): number[] =>
      [0, 1, 2, 3].map((row) => [0, 1, 2, 3].reduce((sum, k) => sum + (m[4 * k + row] ?? 0) * (v[k] ?? 0), 0));
    const ask = ({ scene, camera }: Picture): void => {
      const object = scene.getObjectByName(`gear ${gear}`);
      const box = canvas?.getBoundingClientRect();
      if (!object || !box) return;
      for (const r of [22, 26, 18]) {
        for (let k = 0; k < 12; k++) {
          const a = (k * Math.PI) / 6;
          const world = times(object.matrixWorld, [r * Math.cos(a), r * Math.sin(a), 0, 1]);
          const [x = 0, y = 0, , w = 1] = times(camera.projectionMatrix, times(camera.matrixWorldInverse, world));
          spots.push({
            x: box.left + (box.width * (1 + x / w)) / 2,
            y: box.top + (box.height * (1 - y / w)) / 2,
          });
        }
      }
    };
    canvas?.dispatchEvent(new CustomEvent("bench:inspect", { detail: ask }));
    return spots;
  }, gear);

async function selectGear(page: Page, hand: Hand, gear: string, name: RegExp): Promise<void> {
  const bench = await page.getByRole("application").boundingBox();
  if (!bench) throw new Error("no bench");
  for (const { x, y } of await spotsOf(page, gear)) {
    const isIn = x > bench.x && x < bench.x + bench.width && y > bench.y + 60 && y < bench.y + bench.height;
    if (!isIn) continue;
    await hand.down(x, y);
    await hand.up();
    const found = await page
      .getByRole("slider", { name })
      .waitFor({ timeout: 3000 })
      .then(
        () => true,
        () => false,
      );
    if (found) return;
  }
  throw new Error(`gear ${gear} could not be selected`);
}

const numberOf = async (page: Page, name: RegExp): Promise<number> =>
  Number(await page.getByRole("slider", { name }).getAttribute("aria-valuenow"));

/** Where a knob stands once the eye has come to rest: after an edit it may glide to where all is seen. */
async function middleOf(page: Page, name: RegExp): Promise<{ x: number; y: number }> {
  const read = () => page.getByRole("slider", { name }).boundingBox();
  let box = await read();
  for (let k = 0; k < 40; k++) {
    await page.waitForTimeout(150);
    const before = box;
    box = await read();
    if (box && before && box.x === before.x && box.y === before.y) break;
  }
  if (!box) throw new Error(`${name} is not seen`);
  // As it is laid out: the box on the screen has the rounding of its place in it.
  const size = await page
    .getByRole("slider", { name })
    .evaluate((knob) => (knob instanceof HTMLElement ? Math.min(knob.offsetWidth, knob.offsetHeight) : 0));
  expect(size).toBeGreaterThanOrEqual(44);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Each knob is what lies uppermost at its own middle: under no other, nor under the buttons of the views. */
async function expectFree(page: Page): Promise<void> {
  const covered = await page.getByRole("slider").evaluateAll((knobs) =>
    knobs
      .filter((knob) => knob.closest('[role="application"]'))
      .filter((knob) => {
        const box = knob.getBoundingClientRect();
        const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
        return !top || !knob.contains(top);
      })
      .map((knob) => knob.getAttribute("aria-label")),
  );
  expect(covered).toEqual([]);
}

/** Drags a knob one way or the other until its value changes; then one undo puts all back. Another drag is taken back by Escape. */
async function tryKnob(app: App, hand: Hand, name: RegExp): Promise<void> {
  const { page } = app;
  await expectFree(page);
  const before = await numberOf(page, name);
  const drag = async (): Promise<void> => {
    const from = await middleOf(page, name);
    await hand.down(from.x + 3, from.y + 2);
    for (const [dx, dy] of [
      [20, -14],
      [45, -30],
      [45, 34],
      [-45, 34],
    ] as const) {
      await hand.move(from.x + 3 + dx, from.y + 2 + dy);
      await page.waitForTimeout(60);
      if ((await numberOf(page, name)) !== before) return;
    }
  };
  await drag();
  const changed = await numberOf(page, name);
  expect(changed, String(name)).not.toBe(before);
  await hand.up();
  expect(await numberOf(page, name)).toBe(changed);
  await page.keyboard.press("Control+z");
  await expect.poll(() => numberOf(page, name)).toBe(before);
  await drag();
  await page.keyboard.press("Escape");
  expect(await numberOf(page, name)).toBe(before);
  await hand.up();
  expect(await numberOf(page, name)).toBe(before);
}

describe("handles", () => {
  it.each([
    ["by mouse", 1440, 900, false, "light"],
    ["by finger", 390, 844, true, "dark"],
  ] as const)("are dragged %s", { timeout: 240_000 }, async (_, width, height, touch, theme) => {
    const app = await openApp({ width, height, touch, theme, path: "?first=no&drawing=full" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await drop(page, "hoist.drive.json", "application/json", Buffer.from(JSON.stringify(TRAIN)));
    await page.getByRole("button", { name: "Layshaft", exact: true }).first().waitFor();
    await page.getByRole("button", { name: "Pause" }).click();
    const hand = touch ? finger(await app.context.newCDPSession(page)) : mouse(page);

    await page.getByRole("button", { name: "Layshaft", exact: true }).first().click();
    await page.getByRole("slider", { name: /^Lean/ }).waitFor();
    await app.screenshot(`handles-shaft-${width}`);
    await tryKnob(app, hand, /^Lean/);
    await tryKnob(app, hand, /^Swing/);

    await page.getByRole("button", { name: "Motor", exact: true }).first().click();
    await page.getByRole("slider", { name: /^Place z/ }).waitFor();
    await app.screenshot(`handles-root-${width}`);
    for (const name of [/^Place x/, /^Place y/, /^Place z/]) await tryKnob(app, hand, name);

    await selectGear(page, hand, "b2", /^Slide: place of b2/);
    await app.screenshot(`handles-gear-${width}`);
    await tryKnob(app, hand, /^Lean/);
    await tryKnob(app, hand, /^Slide/);
    await tryKnob(app, hand, /^Teeth of b2/);
    for (const [words, name] of [
      [/ratio is kept/, /^Teeth of b2/],
      [/Same teeth, other size/, /^Size: module/],
    ] as const) {
      await page.getByRole("button", { name: /^What the size handle changes/ }).click();
      await page.getByRole("menuitemradio", { name: words }).click();
      await tryKnob(app, hand, name);
    }
    await app.screenshot(`handles-size-${width}`);
    expect(await violations(page)).toEqual([]);
    await app.close();
  });
});

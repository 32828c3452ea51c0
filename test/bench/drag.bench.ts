/**
 * Drags of handles in the built page with a real mouse: the thread's own time of script for each pointer event (its dispatch and all
 * that it causes up to the next one: React, layout, drawing), on drives of 40 and of 200 gears; and steps of a tooth count in the parts
 * list. Each drag must end where the pointer ended, with one solution a frame at the most. The calls that fill pixels are left out, as in
 * `frames.bench.ts`: software that stands in for a graphics card would take both cores, and half a second a frame.
 */
import { type Browser, chromium, type Locator, type Page } from "playwright-core";
import { DIST, ensureBuilt } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { writeDrive } from "../../src/engine/drive/write";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "../support/browser.mjs";
import { randomTree } from "../support/random-drives";
import { countDraws } from "./count-draws";
import { report } from "./measure";
import { part, traced } from "./script-time";

const EVENTS = { 40: 24, 200: 12 } as const;
/** Moves before the clock runs: the engine of the browser has then seen most of what is run. */
const WARM_UP = { 40: 24, 200: 6 } as const;
/** The shaft and the gear whose handles are dragged: of the seeded tree, with shafts and gears beyond them. */
const SHAFT = "s5";
const GEAR = "g6a";
const TARGETS = { 40: 8, 200: 16 } as const;

/** A tree of shafts with two gears to a mesh: 21 shafts have 40 gears. */
async function openTree(gears: number, url: string): Promise<Page> {
  // Small: what is painted isn't measured. Not so small that it becomes the page of a phone.
  const context = await browser.newContext({ viewport: { width: 1100, height: 520 } });
  const page = await context.newPage();
  await page.addInitScript(countDraws);
  await page.goto(`${url}?first=no&drawing=full`);
  await page.waitForSelector("canvas", { timeout: 60_000 });
  const tree = randomTree(3, gears / 2 + 1, 8, { ports: [{ shaft: "s0", role: "input", speed: 100 }] });
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], "tree.drive.json", { type: "application/json" }));
    for (const type of ["dragenter", "dragover", "drop"]) {
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
    }
  }, writeDrive(tree));
  await page.locator(`[data-part="shaft ${SHAFT}"]`).first().waitFor();
  await page.getByRole("button", { name: "Pause" }).click();
  // Bodies are built, and findings counted.
  await page.waitForTimeout(1500);
  return page;
}

/** Where a knob stands once the eye has come to rest. */
async function middleOf(knob: Locator): Promise<{ readonly x: number; readonly y: number }> {
  for (let tries = 0, before = ""; tries < 40; tries++) {
    const box = await knob.boundingBox();
    if (box && JSON.stringify(box) === before) return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    before = JSON.stringify(box);
    await knob.page().waitForTimeout(120);
  }
  throw new Error("A knob doesn't come to rest.");
}

const wordsOf = async (knob: Locator): Promise<string> => (await knob.getAttribute("aria-valuetext")) ?? "";

interface Dragged {
  readonly times: readonly number[];
  /** Values that the page showed while `sent` moves came in one go. */
  readonly shown: number;
  readonly sent: number;
}

async function drag(page: Page, name: RegExp, gears: 40 | 200): Promise<Dragged> {
  const knob = page.getByRole("application").getByRole("slider", { name }).first();
  await knob.waitFor();
  const { x, y } = await middleOf(knob);
  const at = (step: number) => [x + 70 * Math.sin(step * 0.35), y + 50 * Math.sin(step * 0.25)] as const;
  const { mouse } = page;
  let step = 0;
  const move = async (count: number): Promise<void> => {
    for (let i = 0; i < count; i++) {
      step++;
      await mouse.move(...at(step));
      await page.waitForTimeout(8);
    }
  };
  await mouse.move(x, y);
  await mouse.down();
  await move(WARM_UP[gears]);
  const times = await traced(browser, page, "pointermove", () => move(EVENTS[gears]));

  // Many moves at once: gathered to one edit a frame, and the last place counts.
  await knob.evaluate((element) => {
    const counts = { shown: 0, frames: 0 };
    const count = (): void => {
      counts.frames++;
      requestAnimationFrame(count);
    };
    requestAnimationFrame(count);
    new MutationObserver(() => counts.shown++).observe(element, { attributeFilter: ["aria-valuetext"] });
    Object.assign(window, { dragCounts: counts });
  });
  const sent = 20;
  await Promise.all(Array.from({ length: sent }, (_, i) => mouse.move(...at(step + i / 4))));
  await mouse.move(...at(3));
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const first = await wordsOf(knob);
  const { shown, frames } = await page.evaluate(
    () => (window as unknown as { dragCounts: { shown: number; frames: number } }).dragCounts,
  );
  if (shown > frames) throw new Error(`${shown} solutions in ${frames} frames.`);
  // The same place again, come to in one move from elsewhere: the same value, or the last position did not win.
  await mouse.move(...at(9));
  await page.waitForTimeout(100);
  await mouse.move(...at(3));
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await mouse.up();
  await page.waitForTimeout(100);
  if ((await wordsOf(knob)) !== first) throw new Error(`${name}: ${first} became ${await wordsOf(knob)}.`);
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(400);
  return { times, shown, sent };
}

const select = async (page: Page, kind: "shaft" | "gear", id: string): Promise<void> => {
  await page
    .locator(`[data-part="${kind} ${id}"] ${kind === "gear" ? "h4" : "h3"}`)
    .first()
    .click();
};

const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
await ensureBuilt();
const browser: Browser = await chromium.launch({ executablePath: program, args: [...WITH_WEBGL] });
const server = await serveFolder(DIST, 0);
try {
  for (const gears of [40, 200] as const) {
    const page = await openTree(gears, server.url);
    const tell = (what: string, times: readonly number[]): void => {
      const name = `${what}, ${gears} gears: script for each event`;
      report({ name, value: part(times, 0.5), unit: "ms", against: null, ratio: null, target: `<= ${TARGETS[gears]}` });
      report({
        name: `${name}, 95th percentile`,
        value: part(times, 0.95),
        unit: "ms",
        against: null,
        ratio: null,
        target: null,
      });
    };
    for (const [what, kind, id, name] of [
      ["lean", "shaft", SHAFT, /^Lean/],
      ["swing", "shaft", SHAFT, /^Swing/],
      ["slide", "gear", GEAR, /^Slide/],
      ["teeth", "gear", GEAR, /^Teeth/],
    ] as const) {
      if (kind === "gear") await select(page, "shaft", SHAFT);
      await select(page, kind, id);
      const { times, shown, sent } = await drag(page, name, gears);
      tell(what, times);
      report({
        name: `${what}, ${gears} gears: solutions for ${sent} moves sent at once`,
        value: shown,
        unit: "",
        against: null,
        ratio: null,
        target: null,
      });
    }
    const field = page.getByRole("spinbutton", { name: /^teeth of/i }).first();
    await field.focus();
    const press = async (times: number): Promise<void> => {
      for (let i = 0; i < times; i++) {
        await field.press(i % 2 === 0 ? "ArrowUp" : "ArrowDown");
        await page.waitForTimeout(16);
      }
    };
    await press(WARM_UP[gears]);
    tell("a step of a tooth count", await traced(browser, page, "keydown", () => press(EVENTS[gears])));
    await page.context().close();
  }
} finally {
  await browser.close();
  server.server.close();
}

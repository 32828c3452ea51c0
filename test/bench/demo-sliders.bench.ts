/**
 * Sliders of the demonstrations in the built page, pulled by keys: the thread's own time of script for each event, the dispatch and all that it
 * causes up to the next one, pictures included. The calls that fill pixels are left out, as in `frames.bench.ts`.
 */
import { chromium } from "playwright-core";
import { DIST, ensureBuilt } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "../support/browser.mjs";
import { countDraws } from "./count-draws";
import { report } from "./measure";
import { part, traced } from "./script-time";

const EVENTS = 40;
/** ms between two: a key that is held repeats about as often. */
const PAUSE = 34;
const DEMOS = [
  ["Any shaft angle", "Shaft angle"],
  ["Taper", "Section, heel to toe"],
  ["Surface speed", /^Pitch angle/],
  ["Rolling cup", "Way round"],
] as const;

const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
await ensureBuilt();
const browser = await chromium.launch({ executablePath: program, args: [...WITH_WEBGL] });
const server = await serveFolder(DIST, 0);
try {
  const context = await browser.newContext({ viewport: { width: 1100, height: 520 } });
  const page = await context.newPage();
  await page.addInitScript(countDraws);
  await page.goto(`${server.url}?first=no&drawing=full`);
  await page.waitForSelector("canvas", { timeout: 60_000 });
  await page.getByRole("button", { name: "Pause" }).click();
  await page.keyboard.press("k");
  const panel = page.getByRole("region", { name: "Demonstrations on one pair" });
  for (const [demo, name] of DEMOS) {
    await panel.getByRole("button", { name: demo }).click();
    const slider = panel.getByRole("slider", { name }).first();
    await slider.focus();
    // Bodies are built.
    await page.waitForTimeout(1500);
    const pull = async (): Promise<void> => {
      for (let i = 0; i < EVENTS; i++) {
        await page.keyboard.press(i < EVENTS / 2 ? "ArrowRight" : "ArrowLeft");
        await page.waitForTimeout(PAUSE);
      }
    };
    await pull();
    const before = await slider.inputValue();
    const times = await traced(browser, page, "input", pull);
    if ((await slider.inputValue()) !== before) throw new Error(`${demo}: the slider did not come back.`);
    const told = { unit: "ms", against: null, ratio: null };
    report({ ...told, name: `demonstration ${demo}: script for each event`, value: part(times, 0.5), target: "<= 8" });
    report({ ...told, name: `demonstration ${demo}, 95th percentile`, value: part(times, 0.95), target: null });
  }
} finally {
  await browser.close();
  server.server.close();
}

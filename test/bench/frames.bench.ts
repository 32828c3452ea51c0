/**
 * The built page in a real browser at 1280 by 800: script a frame while a drive turns, against a scene of three with as many moving
 * bodies and nothing else; calls to the graphics card; memory after a thousand edits.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { DIST, ensureBuilt, ROOT } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { writeDrive } from "../../src/engine/drive/write";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "../support/browser.mjs";
import { randomTree } from "../support/random-drives";
import type { BareObject } from "./bare-scene";
import { report } from "./measure";

const OUT = join(ROOT, "node_modules/.cache/turnwise-bench-page");
const FRAMES = 40;

/** Runs in the page, before its own script: how long each round of frame callbacks takes, and how many calls draw something. */
function watchFrames(): void {
  const real = window.requestAnimationFrame.bind(window);
  const times: number[] = [];
  let [stamp, sum] = [0, 0];
  window.requestAnimationFrame = (callback) =>
    real((time) => {
      if (time !== stamp) {
        if (sum > 0) times.push(sum);
        [stamp, sum] = [time, 0];
      }
      const begun = performance.now();
      callback(time);
      sum += performance.now() - begun;
    });
  const counts = { draws: 0 };
  const context = WebGL2RenderingContext.prototype;
  for (const name of ["drawElements", "drawArrays", "drawElementsInstanced", "drawArraysInstanced"] as const) {
    const draw = context[name] as (...args: unknown[]) => void;
    Object.assign(context, {
      [name](this: WebGL2RenderingContext, ...args: unknown[]) {
        counts.draws++;
        draw.apply(this, args);
      },
    });
  }
  Object.assign(window, { frameTimes: times, drawCounts: counts });
}

declare global {
  interface Window {
    readonly frameTimes: number[];
    readonly drawCounts: { draws: number };
    startBare(objects: readonly BareObject[]): void;
  }
}

interface Frames {
  /** Median script a frame, ms. */
  readonly script: number;
  readonly draws: number;
}

async function framesOf(page: Page): Promise<Frames> {
  await page.waitForFunction(() => window.frameTimes.length > 10, undefined, { timeout: 120_000 });
  await page.evaluate(() => {
    window.frameTimes.length = 0;
    window.drawCounts.draws = 0;
  });
  await page.waitForFunction((frames) => window.frameTimes.length >= frames, FRAMES, { timeout: 240_000 });
  return page.evaluate(() => {
    const times = [...window.frameTimes].sort((a, b) => a - b);
    return { script: times[times.length >> 1] ?? 0, draws: window.drawCounts.draws / times.length };
  });
}

/** A tree of shafts with two gears to a mesh: 21 shafts have 40 gears. */
const treeOf = (gears: number): string =>
  writeDrive(randomTree(3, gears / 2 + 1, 8, { ports: [{ shaft: "s0", role: "input", speed: 100 }] }));

async function openTree(context: BrowserContext, url: string, gears: number): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(watchFrames);
  await page.goto(`${url}?first=no&drawing=full`);
  await page.waitForSelector("canvas");
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], "tree.drive.json", { type: "application/json" }));
    for (const type of ["dragenter", "dragover", "drop"]) {
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
    }
  }, treeOf(gears));
  await page.waitForFunction(
    (count) => document.title.length > 0 && document.querySelectorAll("canvas").length > 0 && count > 0,
    gears,
  );
  await page.waitForTimeout(4000);
  return page;
}

/** What hangs in the bench's scene now. */
const objectsOf = (page: Page): Promise<readonly (BareObject & { readonly of: string })[]> =>
  page.evaluate(() => {
    const found: { of: string; isLine: boolean; corners: number; triangles: number }[] = [];
    type Node = {
      name: string;
      visible: boolean;
      isMesh?: boolean;
      isLine?: boolean;
      geometry?: { attributes: { position?: { count: number } }; index: { count: number } | null };
      children: Node[];
    };
    const visit = (node: Node, gear: string): void => {
      if (!node.visible) return;
      const of = node.name.startsWith("gear ") ? node.name : gear;
      if (node.isMesh || node.isLine) {
        found.push({
          of,
          isLine: node.isLine === true,
          corners: node.geometry?.attributes.position?.count ?? 0,
          triangles: Math.floor((node.geometry?.index?.count ?? 0) / 3),
        });
      }
      for (const child of node.children) visit(child, of);
    };
    const ask = (picture: { scene: Node }): void => visit(picture.scene, "");
    document.querySelector("canvas")?.dispatchEvent(new CustomEvent("bench:inspect", { detail: ask }));
    return found;
  });

async function heapOf(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await page.waitForTimeout(1500);
  for (let i = 0; i < 3; i++) await session.send("HeapProfiler.collectGarbage");
  const { usedSize } = (await session.send("Runtime.getHeapUsage")) as { usedSize: number };
  await session.detach();
  return usedSize;
}

/** Steps the first tooth count up and down by key. */
async function edit(page: Page, times: number): Promise<void> {
  const field = page.getByRole("spinbutton", { name: /teeth/i }).first();
  await field.focus();
  for (let i = 0; i < times; i++) await field.press(i % 2 === 0 ? "ArrowUp" : "ArrowDown");
}

const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
await ensureBuilt();
mkdirSync(OUT, { recursive: true });
await build({
  configFile: false,
  root: ROOT,
  logLevel: "warn",
  build: {
    outDir: OUT,
    copyPublicDir: false,
    emptyOutDir: true,
    lib: { entry: join(ROOT, "test/bench/bare-scene.ts"), formats: ["es"], fileName: "bare" },
  },
});
writeFileSync(
  join(OUT, "index.html"),
  '<!doctype html><title>bare</title><style>body{margin:0}</style><script type="module" src="bare.js"></script>',
);

const browser: Browser = await chromium.launch({ executablePath: program, args: [...WITH_WEBGL] });
const [ours, bare] = [await serveFolder(DIST, 0), await serveFolder(OUT, 0)];
try {
  for (const gears of [40, 200]) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    const page = await openTree(context, ours.url, gears);
    const objects = await objectsOf(page);
    const onGears = objects.filter(({ of }) => of !== "");
    if (new Set(onGears.map(({ of }) => of)).size !== gears) throw new Error("Not every gear is drawn.");
    const own = await framesOf(page);
    await page.close();
    const other = await context.newPage();
    await other.addInitScript(watchFrames);
    await other.goto(bare.url);
    await other.waitForFunction(() => "startBare" in window);
    await other.evaluate((list) => window.startBare(list), objects);
    const against = await framesOf(other);
    await context.close();
    if (gears === 40) {
      report({
        name: "script a frame, 40 gears, over a bare scene of as many moving bodies",
        value: own.script,
        unit: "ms",
        against: against.script,
        ratio: own.script / against.script,
        target: "<= 1.3",
      });
      report({
        name: "draw calls a gear",
        value: onGears.length / gears,
        unit: "calls",
        against: own.draws,
        ratio: null,
        target: "<= 3",
      });
    } else {
      report({
        name: "script a frame, 200 gears",
        value: own.script,
        unit: "ms",
        against: against.script,
        ratio: null,
        target: "<= 12",
      });
    }
  }
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await openTree(context, ours.url, 40);
  // Fills the undo history, which keeps 200 steps.
  await edit(page, 250);
  const before = await heapOf(page);
  await edit(page, 1000);
  const after = await heapOf(page);
  report({
    name: "memory after 1,000 edits over memory before",
    value: after / 2 ** 20,
    unit: "MiB",
    against: before / 2 ** 20,
    ratio: after / before,
    target: "<= 1.05",
  });
} finally {
  await browser.close();
  ours.server.close();
  bare.server.close();
}

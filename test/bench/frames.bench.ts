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
import { makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../../src/engine/drive/defaults";
import { writeDrive } from "../../src/engine/drive/write";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "../support/browser.mjs";
import type { BareObject } from "./bare-scene";
import { countDraws } from "./count-draws";
import { report } from "./measure";

const OUT = join(ROOT, "node_modules/.cache/turnwise-bench-page");
const FRAMES = 60;
const ROUNDS = 5;

declare global {
  interface Window {
    readonly drawCounts: { draws: number; frames: number };
    startBare(objects: readonly BareObject[]): void;
  }
}

interface Frames {
  /** Median over frames of the time that the page's thread was busy in frame callbacks, ms: what other programs do doesn't count. */
  readonly script: number;
  readonly draws: number;
}

interface TraceEvent {
  readonly name: string;
  /** Microseconds of the thread's own time. */
  readonly tdur?: number;
}

async function framesOf(page: Page): Promise<Frames> {
  // A page behind another one draws nothing.
  await page.bringToFront();
  await page.evaluate(() => Object.assign(window.drawCounts, { draws: 0, frames: 0 }));
  await browser.startTracing(page, { categories: ["devtools.timeline"] });
  await page.waitForFunction((frames) => window.drawCounts.frames >= frames, FRAMES, {
    timeout: 240_000,
    polling: 500,
  });
  const draws = await page.evaluate(() => window.drawCounts.draws / window.drawCounts.frames);
  const trace = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
  // The counter above is a callback too, of next to no time: of each frame the drawing one is meant.
  const times = trace.traceEvents
    .filter(({ name }) => name === "FireAnimationFrame")
    .map(({ tdur = 0 }) => tdur / 1000)
    .sort((a, b) => b - a);
  const drawing = times.slice(0, times.length >> 1);
  return { script: drawing[drawing.length >> 1] ?? 0, draws };
}

interface Against {
  readonly own: number;
  readonly bare: number;
  /** Calls of the page's own frames to the graphics card. */
  readonly draws: number;
  /** Median over the rounds of one over the other. */
  readonly ratio: number;
}

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? 0;

/** The page and a bare scene of the same objects in turn, so that a slow spell of the machine meets both. */
async function compare(page: Page, bareUrl: string): Promise<Against> {
  const own: number[] = [];
  const bare: number[] = [];
  const draws: number[] = [];
  // The first frames of all: programs are being built for the graphics card, and bodies still come.
  await framesOf(page);
  const objects = await objectsOf(page);
  const other = await page.context().newPage();
  await other.addInitScript(countDraws);
  await other.goto(bareUrl);
  await other.waitForFunction(() => "startBare" in window);
  await other.evaluate((list) => window.startBare(list), objects);
  await framesOf(other);
  for (let round = 0; round < ROUNDS; round++) {
    const frames = await framesOf(page);
    if (frames.draws > objects.length + 1) throw new Error("Something is drawn twice.");
    own.push(frames.script);
    draws.push(frames.draws);
    bare.push((await framesOf(other)).script);
  }
  await other.close();
  return {
    own: median(own),
    bare: median(bare),
    draws: median(draws),
    ratio: median(own.map((time, round) => time / (bare[round] ?? 1))),
  };
}

/** A train of shafts side by side, each pair of gears a step further along: none is in another's way, and 21 shafts have 40 gears. */
const trainOf = (gears: number): string => {
  const pairs = Array.from({ length: gears / 2 }, (_, i) => i);
  return writeDrive(
    makeDrive({
      shafts: [
        makeShaft({ id: "s0", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }),
        ...pairs.map((i) => makeShaft({ id: `s${i + 1}` })),
      ],
      gears: pairs.flatMap((i) =>
        [0, 1].map((k) => {
          const id = `g${i}${k === 0 ? "a" : "b"}`;
          return makeGear({ id, shaft: `s${i + k}`, kind: "spur", teeth: 20 + i + k, module: 2, face: 10, at: 30 * i });
        }),
      ),
      meshes: pairs.map((i) => makeMesh({ id: `m${i}`, gears: [`g${i}a`, `g${i}b`], azimuth: 90 })),
      ports: [makePort({ shaft: "s0", role: "input", speed: 100 })],
    }),
  );
};

async function openTrain(context: BrowserContext, url: string, gears: number): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(countDraws);
  await page.goto(`${url}?first=no&drawing=full`);
  await page.waitForSelector("canvas", { timeout: 120_000 });
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], "train.drive.json", { type: "application/json" }));
    for (const type of ["dragenter", "dragover", "drop"]) {
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
    }
  }, trainOf(gears));
  for (let tries = 0; tries < 240; tries++) {
    await page.waitForTimeout(500);
    const drawn = new Set((await objectsOf(page)).map(({ of }) => of).filter(Boolean));
    if (drawn.size === gears) return page;
  }
  throw new Error(`Only some of ${gears} gears came to be drawn.`);
}

/** What hangs in the bench's scene now. */
const objectsOf = (page: Page): Promise<readonly (BareObject & { readonly of: string })[]> =>
  page.evaluate(() => {
    const found: (BareObject & { of: string })[] = [];
    const materials: unknown[] = [];
    type Node = {
      name: string;
      visible: boolean;
      isMesh?: boolean;
      isBatchedMesh?: boolean;
      isLine?: boolean;
      material?: { transparent: boolean };
      geometry?: { attributes: { position?: { count: number } }; index: { count: number } | null };
      children: Node[];
    };
    const visit = (node: Node, gear: string): void => {
      if (!node.visible) return;
      const of = node.name.startsWith("gear ") ? node.name : gear;
      if ((node.isMesh || node.isLine) && !node.isBatchedMesh) {
        if (!materials.includes(node.material)) materials.push(node.material);
        found.push({
          of,
          isTranslucent: node.material?.transparent === true,
          material: materials.indexOf(node.material),
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
  const fold = page.getByRole("button", { name: /^All numbers of/ }).first();
  if ((await fold.getAttribute("aria-expanded")) === "false") await fold.click();
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
    const page = await openTrain(context, ours.url, gears);
    const { own, bare: against, draws, ratio } = await compare(page, bare.url);
    await context.close();
    if (gears === 40) {
      report({
        name: "script a frame, 40 gears, over a bare scene of as many moving bodies",
        value: own,
        unit: "ms",
        against,
        ratio,
        target: "<= 1.3",
      });
      report({
        name: "draw calls a gear",
        value: draws / gears,
        unit: "calls",
        against: null,
        ratio: null,
        target: "<= 3",
      });
    } else {
      report({
        name: "script a frame, 200 gears",
        value: own,
        unit: "ms",
        against,
        ratio: null,
        target: "<= 12",
      });
    }
  }
  // Little to paint in software, and at rest: edits are what counts here.
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await openTrain(context, ours.url, 40);
  await page.getByRole("button", { name: "Pause" }).click();
  // Fills the undo history, which keeps 200 steps, and lets the engine that runs the page compile what edits need.
  await edit(page, 1000);
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

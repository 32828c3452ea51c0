/** The bench in the built page: what its scene objects really do, frame by frame, read from the scene and not from the store. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { readDrive } from "../../src/engine/drive/parse";
import { solve } from "../../src/engine/solve";
import type { Solved } from "../../src/engine/solved";
import { openApp } from "./harness";
import { drop } from "./steps";

/** Of one gear object: its attitude in the world as a quaternion x, y, z, w. */
type Attitudes = Record<string, readonly [number, number, number, number]>;

interface Reading {
  readonly time: number;
  readonly attitudes: Attitudes;
}

/** Waits for the 3D picture. */
const drawn = (page: Page): Promise<unknown> => page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });

/** Attitudes of all gear objects over so many frames of the page, as they stand when each frame is shown. */
const readFrames = (page: Page, frames: number): Promise<Reading[]> =>
  page.evaluate(
    (frames) =>
      new Promise<Reading[]>((done) => {
        const canvas = document.querySelector('[data-drawn="3d"] canvas');
        const readings: Reading[] = [];
        const read = (): void => {
          const attitudes: Record<string, [number, number, number, number]> = {};
          interface Seen {
            readonly name: string;
            readonly matrixWorld: { readonly elements: readonly number[] };
            traverse(visit: (object: Seen) => void): void;
          }
          const ask = ({ scene }: { scene: Seen }): void =>
            scene.traverse(({ name, matrixWorld: { elements: m } }) => {
              if (!name.startsWith("gear ")) return;
              const at = (k: number): number => m[k] ?? 0;
              // Largest part first, so that no root is of a small number.
              const w = Math.sqrt(Math.max(0, 1 + at(0) + at(5) + at(10))) / 2;
              const x = (Math.sqrt(Math.max(0, 1 + at(0) - at(5) - at(10))) / 2) * Math.sign(at(6) - at(9) || 1);
              const y = (Math.sqrt(Math.max(0, 1 - at(0) + at(5) - at(10))) / 2) * Math.sign(at(8) - at(2) || 1);
              const z = (Math.sqrt(Math.max(0, 1 - at(0) - at(5) + at(10))) / 2) * Math.sign(at(1) - at(4) || 1);
              attitudes[name.slice(5)] = [x, y, z, w];
            });
          canvas?.dispatchEvent(new CustomEvent("bench:inspect", { detail: ask }));
          readings.push({ time: performance.now(), attitudes });
          if (readings.length < frames) requestAnimationFrame(read);
          else done(readings);
        };
        requestAnimationFrame(read);
      }),
    frames,
  );

/** Radians by which a gear turned from one reading to the next, about its shaft's axis where that stands still. */
function turned(before: Reading, after: Reading, gear: string, axis: readonly [number, number, number]): number {
  const [ax, ay, az, aw] = after.attitudes[gear] ?? [0, 0, 0, 1];
  const [bx, by, bz, bw] = before.attitudes[gear] ?? [0, 0, 0, 1];
  // after · before⁻¹
  const x = -aw * bx + ax * bw - ay * bz + az * by;
  const y = -aw * by + ay * bw - az * bx + ax * bz;
  const z = -aw * bz + az * bw - ax * by + ay * bx;
  const w = aw * bw + ax * bx + ay * by + az * bz;
  const along = x * axis[0] + y * axis[1] + z * axis[2];
  return 2 * Math.atan2(w < 0 ? -along : along, Math.abs(w));
}

/** Opens a sample's file by dropping it on the page, which also ends the first minute. */
async function openSample(page: Page, name: string): Promise<void> {
  const bytes = readFileSync(`public/samples/${name}.drive.json`);
  await drop(page, `${name}.drive.json`, "application/json", bytes);
}

function solvedSample(name: string): Solved {
  const parsed = readDrive(JSON.parse(readFileSync(`public/samples/${name}.drive.json`, "utf8")));
  if (!("drive" in parsed) || !parsed.drive) throw new Error(`${name} is not a drive`);
  return solve(parsed.drive);
}

/** Counts every commit of every React renderer on the page, by the hook that React offers its developer tools. */
const countCommits = async (page: Page): Promise<void> => {
  await page.addInitScript(() => {
    const counter = { commits: 0 };
    Object.assign(window, {
      commitCounter: counter,
      __REACT_DEVTOOLS_GLOBAL_HOOK__: {
        isDisabled: false,
        supportsFiber: true,
        renderers: new Map(),
        inject: () => 1,
        onCommitFiberRoot: () => {
          counter.commits++;
        },
        onCommitFiberUnmount: () => {},
        onPostCommitFiberRoot: () => {},
        onScheduleFiberRoot: () => {},
        checkDCE: () => {},
      },
    });
  });
};
const commits = (page: Page): Promise<number> =>
  page.evaluate(() => (window as unknown as { commitCounter: { commits: number } }).commitCounter.commits);

describe("the bench in a browser", () => {
  it.each(["well-hoist", "two-leaning-lanterns"])("turns the gears of %s in the engine's ratios", async (name) => {
    const solved = solvedSample(name);
    const app = await openApp({ path: "?drawing=full" });
    await drawn(app.page);
    await openSample(app.page, name);
    const last = solved.drive.gears.at(-1)?.id ?? "";
    await expect.poll(async () => Object.keys((await readFrames(app.page, 1))[0]?.attitudes ?? {})).toContain(last);
    const readings = await readFrames(app.page, 12);
    const first = readings[0] as Reading;
    const total = new Map<string, number>();
    for (const [k, reading] of readings.entries()) {
      if (k === 0) continue;
      for (const [i, gear] of solved.drive.gears.entries()) {
        const axis = solved.placement.shafts[solved.index.shaftOfGear[i] ?? -1]?.axis ?? [1, 0, 0];
        const step = turned(readings[k - 1] ?? first, reading, gear.id, axis);
        total.set(gear.id, (total.get(gear.id) ?? 0) + step);
        // Never more than a quarter pitch of the fastest mesh in one picture, so a quarter pitch of no gear (teeth would seem to run backwards).
        const pitch = "teeth" in gear ? (2 * Math.PI) / gear.teeth : Number.POSITIVE_INFINITY;
        expect(Math.abs(step)).toBeLessThanOrEqual(pitch * 0.25 * 1.001);
      }
    }
    const speedOf = (i: number): number => solved.motion.speed[solved.index.shaftOfGear[i] ?? -1] ?? 0;
    const drive = total.get(solved.drive.gears[0]?.id ?? "") ?? 0;
    expect(Math.abs(drive)).toBeGreaterThan(0.01);
    for (const [i, gear] of solved.drive.gears.entries()) {
      expect((total.get(gear.id) ?? 0) / drive).toBeCloseTo(speedOf(i) / speedOf(0), 4);
    }
    await app.close();
  });

  it("renders nothing in React for its frames, and draws none while paused", async () => {
    const app = await openApp({ path: "?drawing=full", before: countCommits });
    await drawn(app.page);
    await openSample(app.page, "well-hoist");
    await app.page.waitForTimeout(1500);
    const readFromScene = await readFrames(app.page, 2);
    expect(readFromScene[0]?.attitudes).not.toEqual(readFromScene[1]?.attitudes);
    const before = await commits(app.page);
    expect(before).toBeGreaterThan(0);
    const readings = await readFrames(app.page, 30);
    const spent = ((readings.at(-1)?.time ?? 0) - (readings[0]?.time ?? 0)) / 1000;
    // Readouts may write their counters a few times a second; the bench nothing at all. Far below one commit a frame.
    expect((await commits(app.page)) - before).toBeLessThanOrEqual(Math.ceil(spent * 5));
    await app.page.getByRole("button", { name: "Pause" }).click();
    await app.page.waitForTimeout(300);
    const paused = await readFrames(app.page, 5);
    expect(paused.at(-1)?.attitudes).toEqual(paused[0]?.attitudes);
    const atRest = await commits(app.page);
    await readFrames(app.page, 20);
    expect((await commits(app.page)) - atRest).toBe(0);
    await app.close();
  });

  it("cranks the drive under the pointer, and selects by a click", async () => {
    const app = await openApp({ path: "?drawing=full" });
    const { page } = app;
    await drawn(page);
    await openSample(page, "well-hoist");
    await page.getByRole("button", { name: "Pause" }).click();
    const box = await page.getByRole("application").boundingBox();
    if (!box) throw new Error("no bench");
    // Look for a gear: the pointer changes over one.
    let spot: { x: number; y: number } | null = null;
    for (let y = 0.3; y < 0.8 && !spot; y += 0.06) {
      for (let x = 0.3; x < 0.8 && !spot; x += 0.06) {
        await page.mouse.move(box.x + box.width * x, box.y + box.height * y);
        await page.waitForTimeout(40);
        if ((await page.getByRole("application").getAttribute("data-part")) === "true") {
          spot = { x: box.x + box.width * x, y: box.y + box.height * y };
        }
      }
    }
    if (!spot) throw new Error("no gear found");
    const [before] = await readFrames(page, 1);
    await page.mouse.move(spot.x, spot.y);
    await page.mouse.down();
    for (let k = 1; k <= 8; k++) await page.mouse.move(spot.x + 6 * k, spot.y - 5 * k);
    await page.mouse.up();
    const [after] = await readFrames(page, 1);
    expect(after?.attitudes).not.toEqual(before?.attitudes);
    await app.close();
  });

  it("comes back from a lost picture, and draws flat where it is lost again and again", async () => {
    const app = await openApp({ path: "?drawing=full" });
    const { page } = app;
    await drawn(page);
    const lose = (): Promise<void> =>
      page.evaluate(() => {
        const canvas = document.querySelector<HTMLCanvasElement>('[data-drawn="3d"] canvas');
        if (canvas) canvas.dataset.old = "true";
        canvas?.getContext("webgl2")?.getExtension("WEBGL_lose_context")?.loseContext();
      });
    for (let k = 0; k < 2; k++) {
      await lose();
      await page.waitForSelector('[data-drawn="3d"] canvas:not([data-old])', { state: "attached" });
    }
    await lose();
    await page.waitForSelector('[data-drawn="flat"] canvas', { state: "attached" });
    await page
      .getByText(/because the graphics card dropped the 3D picture/)
      .first()
      .waitFor();
    await app.close();
  });

  it("draws flat at once where there is no WebGL, turning all the same", async () => {
    const app = await openApp({ webgl: false });
    const { page } = app;
    await page.waitForSelector('[data-drawn="flat"] canvas', { state: "attached" });
    await page
      .getByText(/^This is a flat drawing, because this browser offers no 3D graphics/)
      .first()
      .waitFor();
    const picture = (): Promise<string> =>
      page.evaluate(() => document.querySelector<HTMLCanvasElement>('[data-drawn="flat"] canvas')?.toDataURL() ?? "");
    const first = await picture();
    await page.waitForTimeout(300);
    expect(await picture()).not.toBe(first);
    await app.close();
  });
});

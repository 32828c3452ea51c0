/** `npm run -s solids`: files, the line about them, and what it says to bad arguments. */
import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";

vi.setConfig({ testTimeout: 90_000, hookTimeout: 90_000 });

const ROOT = join(import.meta.dirname, "../../..");
let folder = "";
let file = "";
const MIXER = {
  format: "turnwise.drive",
  version: 1,
  shafts: [{ id: "A", pose: { origin: [10, 20, 30], axis: [1, 1, 0], ref: [0, 0, 1] } }, { id: "B" }, { id: "C" }],
  gears: [
    { id: "a1", shaft: "A", kind: "spur", teeth: 20, module: 2, face: 12, bore: 8 },
    { id: "b1", shaft: "B", kind: "spur", teeth: 50, module: 2, face: 12, bore: 8 },
    { id: "../b2", shaft: "B", at: 60, kind: "bevel", teeth: 16, module: 3, face: 14, apex: "+" },
    { id: "c1", shaft: "C", kind: "bevel", teeth: 32, module: 3, face: 14, apex: "-" },
  ],
  meshes: [
    { id: "m1", gears: ["a1", "b1"] },
    { id: "m2", gears: ["../b2", "c1"], shaftAngle: 90 },
  ],
  ports: [{ shaft: "A", role: "input", speed: 100 }],
};

interface Run {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}
const run = (...args: string[]): Promise<Run> =>
  new Promise((settle) => {
    execFile(process.execPath, [join(ROOT, "src/cli/run.mjs"), "solids", ...args], { cwd: folder }, (error, out, err) =>
      settle({ status: typeof error?.code === "number" ? error.code : 0, out, err }),
    );
  });

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "solids-"));
  file = join(folder, "mixer.drive.json");
  writeFileSync(file, JSON.stringify(MIXER));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Corners of a binary STL, and the volume that they enclose. */
function readStl(path: string) {
  const bytes = readFileSync(path);
  const count = bytes.readUInt32LE(80);
  expect(bytes.length).toBe(84 + 50 * count);
  let volume = 0;
  const middle = [0, 0, 0];
  for (let t = 0; t < count; t++) {
    const c = Array.from({ length: 9 }, (_, k) => bytes.readFloatLE(84 + 50 * t + 12 + 4 * k));
    const [ax = 0, ay = 0, az = 0, bx = 0, by = 0, bz = 0, cx = 0, cy = 0, cz = 0] = c;
    volume += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    c.forEach((x, k) => {
      middle[k % 3] = (middle[k % 3] ?? 0) + x / (3 * count);
    });
  }
  return { count, volume, middle };
}

describe("solids", () => {
  test("one file a gear, closed, with the volume that the line says, where the gear stands", async () => {
    const { status, out, err } = await run(file, "out", "--turn", "33", "--quality", "draft");
    expect([status, err]).toEqual([0, ""]);
    expect(out.endsWith("\n") && out.trim().split("\n").length).toBe(1);
    const { gears } = JSON.parse(out) as {
      gears: { id: string; file: string; triangles: number; volume: number; watertight: boolean }[];
    };
    expect(gears.map(({ id }) => id)).toEqual(["a1", "b1", "../b2", "c1"]);
    expect(gears.map(({ file: path }) => path.slice(folder.length))).toEqual([
      "/out/a1.stl",
      "/out/b1.stl",
      "/out/gear-3.stl",
      "/out/c1.stl",
    ]);
    for (const gear of gears) {
      const { count, volume } = readStl(gear.file);
      expect(gear.watertight).toBe(true);
      expect(count).toBe(gear.triangles);
      expect(Math.abs(volume / gear.volume - 1)).toBeLessThan(1e-3);
    }
    const { middle } = readStl(gears[0]?.file ?? "");
    for (const [k, x] of [10, 20, 30].entries()) expect(Math.abs((middle[k] ?? 0) - x)).toBeLessThan(0.05);
  });
  test("--gear writes that one; another turn another pose, the same volume", async () => {
    const still = JSON.parse((await run(file, "one", "--gear", "a1")).out).gears;
    const turned = JSON.parse((await run(file, "two", "--gear", "a1", "--turn", "-7.5")).out).gears;
    expect(still.length).toBe(1);
    expect(turned[0].volume / still[0].volume).toBeCloseTo(1, 4);
    expect(readFileSync(still[0].file).equals(readFileSync(turned[0].file))).toBe(false);
  });
  test("an error finding: files all the same, status 1", async () => {
    const bad = join(folder, "bad.drive.json");
    writeFileSync(bad, JSON.stringify({ ...MIXER, meshes: MIXER.meshes.slice(0, 1) }));
    const { status, out } = await run(bad, "bad", "--quality", "draft");
    expect(status).toBe(1);
    expect(JSON.parse(out).gears.map(({ id }: { id: string }) => id)).toEqual(["a1", "b1", "../b2"]);
    expect(JSON.parse(out).findings.map(({ code }: { code: string }) => code)).toContain("unreached");
  });
  test.each([
    [["mixer.drive.json"], /^Name one drive file and one folder/],
    [["mixer.drive.json", "out", "--turn", "far"], /^--turn is an angle in degrees, such as 90 or -12.5, not "far"\.$/],
    [["mixer.drive.json", "out", "--quality", "best"], /^--quality is draft or fine, not "best"\.$/],
    [["mixer.drive.json", "out", "--gear", "x"], /^The drive has no gear "x"\.$/],
    [["mixer.drive.json", "out", "--speed", "1"], /^There is no option "--speed"/],
    [["none.drive.json", "out"], /^The file none.drive.json is not there; name a drive file\.$/],
    [["mixer.drive.json", "mixer.drive.json"], /^The folder "mixer.drive.json" /],
  ])("%j: status 2 and one sentence", async (args, sentence) => {
    const { status, out, err } = await run(...args);
    expect([status, out]).toEqual([2, ""]);
    expect(err.trim()).toMatch(sentence);
    expect(err.trim().split("\n").length).toBe(1);
  });
});

/** The figure command: what it writes, and one sentence with status 2 for what it can't. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";

const ROOT = resolve(import.meta.dirname, "../..");
const HOIST = join(ROOT, "public/samples/well-hoist.drive.json");
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "turnwise-figure-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const call = (...args: string[]) => {
  const result = spawnSync(process.execPath, [join(ROOT, "src/cli/run.mjs"), "figure", ...args], {
    encoding: "utf8",
    cwd: folder,
  });
  expect(`${result.stdout}${result.stderr}`).not.toMatch(/\n\s+at |node:internal|Error:/);
  return result;
};

it.each(["front", "top", "side", "section", "schematic", "three"])("writes the %s view, the same each time", (view) => {
  const [a, b] = ["a.svg", "b.svg"].map((name) => {
    const { status, stdout, stderr } = call(HOIST, "--view", view, "--out", name, "--angle", "third");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(JSON.parse(stdout)).toMatchObject({ view, angle: "third", file: join(folder, name) });
    return readFileSync(join(folder, name), "utf8");
  });
  expect(a).toMatch(/^<svg /);
  expect(a).toBe(b);
});

it("says in one sentence what is wrong", () => {
  writeFileSync(join(folder, "no.json"), "{");
  const cases: readonly (readonly string[])[] = [
    [],
    [HOIST, "--view", "front"],
    [HOIST, "--view", "back", "--out", "x.svg"],
    [HOIST, "--view", "section", "--mesh", "none", "--out", "x.svg"],
    [HOIST, "--view", "front", "--out", "no/such/folder/x.svg"],
    [HOIST, "--wide", "1"],
    ["no.json", "--view", "front", "--out", "x.svg"],
    ["missing.json", "--view", "front", "--out", "x.svg"],
  ];
  for (const args of cases) {
    const { status, stdout, stderr } = call(...args);
    expect({ args, status, stdout }).toEqual({ args, status: 2, stdout: "" });
    expect(stderr.trim().split("\n")).toHaveLength(1);
  }
  expect(existsSync(join(folder, "x.svg"))).toBe(false);
});

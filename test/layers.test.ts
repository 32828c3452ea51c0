/**
 * The layers, checked by planting faults: each import that must not be is written into a copy of the tree, and the
 * linter has to see it there; each that may be has to pass. A check that cannot fail would be none.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ROOT } from "../src/cli/launch.mjs";

/** What each folder must not import, as written in a file right inside that folder. */
const FORBIDDEN: Readonly<Record<string, readonly string[]>> = {
  "engine/": [
    "react",
    "three",
    "zustand",
    "node:fs",
    "valibot",
    "../store/document",
    "../bench/Bench",
    "./../app/main",
  ],
  "engine/drive": [
    "react",
    "three",
    "../placement/place",
    "../motion/solve",
    "../../store/document",
    "../solve",
    "../index",
  ],
  "engine/drive/commands": [
    "react",
    "../../placement/place",
    "../../motion/move",
    "../../solve",
    "../../../store/document",
  ],
  "engine/mesh-kinds": ["../placement/place", "../motion/solve", "../load/load", "../checks/checks", "../../panels/x"],
  "engine/placement": [
    "../motion/solve",
    "../load/load",
    "../teeth/flank",
    "../checks/checks",
    "../drive/../motion/solve",
  ],
  "engine/motion": ["../load/load", "../teeth/flank", "../explain/steps", "../solve", "zustand"],
  "engine/load": ["../checks/checks", "../explain/steps", "../teeth/flank", "../solve"],
  "engine/teeth": ["../motion/solve", "../load/load", "../checks/checks", "three", "@react-three/fiber"],
  "engine/checks": ["../explain/steps", "../units/choice", "../solve", "../../store/document"],
  "engine/design": ["../explain/steps", "../load/load", "../../store/document"],
  "engine/measure": ["../motion/solve", "../load/load", "../explain/steps", "../solve", "react"],
  "engine/demos": ["../motion/solve", "../load/load", "../explain/steps", "../solve", "react"],
  "engine/units": ["../wording", "../drive/types", "../solved", "../explain/steps", "../../store/units", "react"],
  "engine/explain": ["../solve", "../index", "../../panels/x", "../collisions/find", "../wishes/change", "react"],
  "engine/collisions": ["../solve", "../load/load", "../design/x", "../../bench/x", "three"],
  "engine/drawing": ["../solve", "../load/load", "../report", "../../panels/x", "three"],
  "engine/question": ["../solve", "../load/load", "../placement/place", "../wishes/wish", "../../panels/x", "react"],
  "engine/wishes": [
    "../question/veil",
    "../report",
    "../../store/document",
    "../../panels/x",
    "react",
    "../solve/../report",
  ],
  store: [
    "../bench/Bench",
    "../panels/x",
    "../lesson/x",
    "../exchange/x",
    "../app/main",
    "react",
    "three",
    "./../app/main",
  ],
  "store/stage": [
    "../../bench/bench",
    "../../panels/x",
    "../../app/main",
    "react",
    "three",
    "../../engine/../app/main",
  ],
  bench: ["../panels/x", "../lesson/x", "../exchange/x", "../app/main", "../../test/support/random-drives"],
  panels: ["../bench/Bench", "../lesson/x", "../exchange/x", "../app/main", "three", "@react-three/fiber"],
  "panels/parts": ["../../bench/Bench", "../../app/main", "three/examples/jsm/x"],
  lesson: ["../bench/Bench", "../panels/x", "../exchange/x", "../app/main", "three"],
  exchange: ["../bench/Bench", "../panels/x", "../lesson/x", "../app/main", "three"],
  app: ["three", "@react-three/fiber", "../cli/solve"],
  cli: ["react", "three", "../store/document", "../panels/x", "../app/main"],
  build: ["react", "three", "../store/document", "../engine/solve", "../app/main", "../cli/serve.mjs"],
};

/** What each folder may import. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  "engine/": ["./vector", "./drive/types", "./motion/rational"],
  "engine/drive": ["valibot", "./types", "../vector", "../findings", "../mesh-kinds/list", "../motion/rational"],
  "engine/drive/commands": ["./edit", "../types", "../../vector", "../../mesh-kinds/list"],
  "engine/mesh-kinds": ["./contract", "../drive/types", "../solved", "../tolerances", "../motion/rational"],
  "engine/placement": ["./place", "../wording", "../drive/types", "../mesh-kinds/list", "../vector"],
  "engine/motion": ["./rational", "../placement/place", "../drive/types", "../mesh-kinds/list"],
  "engine/load": ["../motion/solve", "../placement/place", "../drive/types"],
  "engine/teeth": ["../drive/types", "../placement/place", "../mesh-kinds/list", "../motion/rational"],
  "engine/checks": ["../load/load", "../teeth/flank", "../motion/solve"],
  "engine/design": ["../drive/types", "../mesh-kinds/list"],
  "engine/measure": ["../drive/types", "../placement/place", "../collisions/bodies", "../solved"],
  "engine/demos": ["../drive/types", "../placement/place", "../solved"],
  "engine/units": ["./choice", "../motion/rational"],
  "engine/explain": [
    "../checks/checks",
    "../load/load",
    "../teeth/flank",
    "../design/x",
    "../measure/measure",
    "../units/choice",
  ],
  "engine/collisions": ["../drive/space", "../teeth/blank", "../motion/pose-at", "../explain/ends", "../vector"],
  "engine/drawing": ["../drive/types", "../teeth/gear-mesh", "../collisions/rods", "../standing-solid", "../vector"],
  "engine/question": ["../drive/question", "../motion/move", "../explain/route", "../units/read", "../wording"],
  "engine/wishes": ["../solve", "../checks/bodies", "../explain/ends", "../drive/commands/edit", "../design/x"],
  store: ["zustand", "zustand/vanilla", "zundo", "./clock", "../engine/solve", "../engine"],
  bench: ["react", "three", "@react-three/fiber", "../store/document", "../engine/solved", "./Gear"],
  panels: ["react", "radix-ui", "../store/document", "../engine/solved", "./Card"],
  "panels/parts": ["../../store/document", "../../engine/solved", "../Card"],
  lesson: ["react", "../store/document", "../engine/solved"],
  exchange: ["idb-keyval", "../store/document", "../engine/drive/parse"],
  app: [
    "react",
    "../bench/Bench",
    "../panels/x",
    "../lesson/x",
    "../exchange/x",
    "../store/document",
    "../engine/solve",
  ],
  cli: ["node:fs", "../engine/solve", "./serve.mjs"],
  build: ["node:fs", "vite", "./offline"],
};

type Found = ReadonlyMap<string, ReadonlySet<string>>;

let copy = "";
let forbidden: Found = new Map();

/** One file for each import, so that what is found can be told apart. */
const plant = (table: Readonly<Record<string, readonly string[]>>, name: string): void => {
  for (const [folder, imports] of Object.entries(table)) {
    imports.forEach((from, i) => {
      const file = join(copy, "src", folder, `${name}-${i}.ts`);
      mkdirSync(dirname(file), { recursive: true });
      // All ways to import: for a value, for a type, passed on, and while running.
      const ways = [
        `import { x } from "${from}";\nexport const y = x;\n`,
        `import type { X } from "${from}";\nexport type Y = X;\n`,
        `export { x } from "${from}";\n`,
        `export const y = () => import("${from}");\n`,
      ];
      ways.forEach((text, way) => {
        writeFileSync(file.replace(/\.ts$/, `-${way}.ts`), text);
      });
    });
  }
};

const lint = (): Found => {
  const biome = join(ROOT, "node_modules/@biomejs/biome/bin/biome");
  const args = [biome, "lint", "--only=style/noRestrictedImports", "--reporter=json", "--max-diagnostics=none", "src"];
  const { stdout } = spawnSync(process.execPath, args, { cwd: copy, encoding: "utf8", maxBuffer: 2 ** 28 });
  const report = JSON.parse(stdout) as { diagnostics: { category: string; location: { path: string } }[] };
  const found = new Map<string, Set<string>>();
  for (const { category, location } of report.diagnostics) {
    const rules = found.get(location.path) ?? new Set();
    found.set(location.path, rules.add(category));
  }
  return found;
};

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), "turnwise-layers-"));
  for (const file of ["biome.json", "package.json", "tsconfig.json"]) copyFileSync(join(ROOT, file), join(copy, file));
  symlinkSync(join(ROOT, "node_modules"), join(copy, "node_modules"));
  plant(FORBIDDEN, "forbidden");
  plant(ALLOWED, "allowed");
  forbidden = lint();
}, 60_000);

afterAll(() => rmSync(copy, { recursive: true, force: true }));

const isSeen = (folder: string, name: string, i: number): readonly boolean[] =>
  [0, 1, 2, 3].map((way) => {
    const path = join("src", folder, `${name}-${i}-${way}.ts`);
    return forbidden.get(path)?.has("lint/style/noRestrictedImports") ?? false;
  });

describe("the linter keeps the layers", () => {
  for (const [folder, imports] of Object.entries(FORBIDDEN)) {
    it(`src/${folder} must not import what is not to the left of it`, () => {
      for (const [i, from] of imports.entries()) {
        expect({ from, seen: isSeen(folder, "forbidden", i) }).toEqual({ from, seen: [true, true, true, true] });
      }
    });
  }
  for (const [folder, imports] of Object.entries(ALLOWED)) {
    it(`src/${folder} may import what is to the left of it`, () => {
      for (const [i, from] of imports.entries()) {
        expect({ from, seen: isSeen(folder, "allowed", i) }).toEqual({ from, seen: [false, false, false, false] });
      }
    });
  }
  it("knows every folder of src and of the engine", () => {
    const folders = (path: string): string[] =>
      readdirSync(join(ROOT, path), { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .map((entry) => entry.name);
    const known = new Set(Object.keys(FORBIDDEN));
    for (const name of folders("src")) expect(name === "engine" || known.has(name), name).toBe(true);
    for (const name of folders("src/engine")) expect(known.has(`engine/${name}`), name).toBe(true);
  });
});

describe("the type checker keeps the page out of the engine", () => {
  const check = (text: string, types: readonly string[]): string => {
    const folder = mkdtempSync(join(tmpdir(), "turnwise-types-"));
    try {
      writeFileSync(join(folder, "planted.ts"), text);
      const project = types.includes("node") ? "src/cli/tsconfig.json" : "src/engine/tsconfig.json";
      const typeRoots = [join(ROOT, "node_modules/@types")];
      const config = { extends: join(ROOT, project), compilerOptions: { typeRoots }, include: ["planted.ts"] };
      writeFileSync(join(folder, "tsconfig.json"), JSON.stringify(config));
      const tsc = join(ROOT, "node_modules/typescript/bin/tsc");
      execFileSync(process.execPath, [tsc, "--noEmit", "-p", folder], { encoding: "utf8" });
      return "";
    } catch (error) {
      return (error as { stdout?: string }).stdout ?? String(error);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  };
  it("rejects document and window in the engine and in the command line", () => {
    expect(check("export const title = document.title;\n", [])).toMatch(/TS2584|TS2304/);
    expect(check("export const width = window.innerWidth;\n", [])).toMatch(/TS2304/);
    expect(check("export const title = document.title;\n", ["node"])).toMatch(/TS2584|TS2304/);
  });
  it("rejects what Node has in the engine, and takes it in the command line", () => {
    expect(check("export const args = process.argv;\n", [])).toMatch(/TS2591|TS2580|TS2304/);
    expect(check("export const args = process.argv;\n", ["node"])).toBe("");
  });
  it("takes plain code, and is strict about what an index may miss", () => {
    expect(check("export const first = (list: readonly number[]): number => list[0] ?? 0;\n", [])).toBe("");
    expect(check("export const first = (list: readonly number[]): number => list[0];\n", [])).toMatch(/TS2322/);
    expect(check("export const same = (x) => x;\n", [])).toMatch(/TS7006/);
  });
});

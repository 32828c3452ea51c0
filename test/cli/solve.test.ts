import { spawn, spawnSync } from "node:child_process";
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { mixer, press } from "../engine/drive/files";

const ROOT = resolve(import.meta.dirname, "../..");
const RUN = join(ROOT, "src/cli/run.mjs");
let folder = "";

const put = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
const call = (args: readonly string[], input: string | Uint8Array = "", run = RUN) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [run, "solve", ...args], {
    input,
    encoding: "utf8",
    cwd: folder,
    maxBuffer: 2 ** 28,
  });
  // Never a stack trace, whatever is given.
  expect(`${stdout}${stderr}`).not.toMatch(/\n\s+at |node:internal|Error:/);
  return { status, stdout, stderr };
};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "turnwise-solve-"));
  put("mixer.drive.json", JSON.stringify(mixer()));
  const mismatch = mixer();
  mismatch.gears[1].module = 3;
  put("mismatch.drive.json", JSON.stringify(mismatch));
  const bad = mixer();
  bad.gears[0].teeth = 12.5;
  bad.meshes[1].gears[0] = "zz";
  put("bad.drive.json", JSON.stringify(bad));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("one file", () => {
  it("prints the format's own example, in full doubles", () => {
    const { status, stdout, stderr } = call(["mixer.drive.json"]);
    expect([status, stderr]).toEqual([0, ""]);
    const output = JSON.parse(stdout);
    expect(Object.keys(output)).toEqual(["status", "mobility", "shafts", "gears", "meshes", "findings"]);
    // Source: the example of the format, which shortens its numbers.
    expect(output).toMatchObject({
      status: "determined",
      mobility: 1,
      shafts: [
        {},
        { id: "B", frame: "ground", origin: [0, 0, 70], axis: [1, 0, 0], placedBy: "m1", ratio: "-2/5", speed: -580 },
        { id: "C", ratio: "-1/5", speed: -290, torque: 40 },
      ],
      gears: [{}, {}, {}, { id: "c1", pitchDiameter: 96 }],
      meshes: [{}, { id: "m2", ratio: "2", shaftAngle: 90 }],
    });
    const [, b, c] = output.shafts;
    const c1 = output.gears[3];
    const m2 = output.meshes[1];
    const near: readonly (readonly [number, number, number])[] = [
      [b.angularVelocity[0], -60.737, 3],
      [b.torque, -20.618, 2],
      [b.power, 1252.3, 1],
      [c.power, -1214.7, 1],
      [c1.tipDiameter, 98.68, 2],
      [c1.rootDiameter, 92.65, 2],
      [c1.pitchAngle, 63.435, 3],
      [c1.coneDistance, 53.666, 3],
      [c1.virtualTeeth, 71.554, 3],
      [m2.pitchSpeed, 1.2676, 4],
      [m2.tangentialForce, 988.0, 1],
      [m2.radialForces[0], 321.6, 1],
      [m2.radialForces[1], 160.8, 1],
      [m2.axialForces[0], 160.8, 1],
      [m2.axialForces[1], 321.6, 1],
      [m2.contactRatio, 1.67, 2],
    ];
    for (const [found, expected, digits] of near) expect(found).toBeCloseTo(expected, digits);
    expect(stdout).not.toMatch(/-0[,\]\s}]|NaN|Infinity/);
    expect(stdout.endsWith("}\n")).toBe(true);
  });

  it("exits 1 on an error finding, and prints all the same", () => {
    const { status, stdout } = call(["mismatch.drive.json"]);
    expect(status).toBe(1);
    expect(JSON.parse(stdout).findings[0]).toMatchObject({ severity: "error", code: "module-mismatch" });
  });

  it("exits 2 on what is no drive: a line for each fault on standard error, nothing on standard output", () => {
    expect(call(["bad.drive.json"])).toEqual({
      status: 2,
      stdout: "",
      stderr:
        "/gears/0/teeth: Gear a1: teeth is 12.5; expected a whole number from 1 to 100,000.\n" +
        "/meshes/1/gears/0: Mesh m2 names zz, which is no gear; expected the id of a gear of this drive.\n",
    });
  });

  it("reads standard input for -", () => {
    expect(JSON.parse(call(["-"], JSON.stringify(press())).stdout).status).toBe("determined");
    expect(call(["-"], "")).toEqual({
      status: 2,
      stdout: "",
      stderr: "The file is empty; expected a drive in JSON.\n",
    });
  });

  it.each([
    ["nothing there", () => "none.drive.json", "The file none.drive.json is not there; name a drive file.\n"],
    ["a folder", () => ".", "The file . is a folder; name a drive file.\n"],
    [
      "a file as a folder",
      () => "mixer.drive.json/x",
      "The file mixer.drive.json/x is not there; name a drive file.\n",
    ],
    [
      "an endless name",
      () => "n".repeat(5000),
      `The file ${"n".repeat(200)}… has too long a name; name a drive file.\n`,
    ],
    [
      "a picture",
      () => put("photo.jpg", new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70])),
      "The file is not text in UTF-8 (it may be a picture or another program's own format); expected a drive in JSON.\n",
    ],
    [
      "33 MiB",
      () => put("long.drive.json", new Uint8Array(33 * 1024 * 1024).fill(32)),
      "The file is longer than 32 MiB, which is the limit for a drive.\n",
    ],
    [
      "no JSON",
      () => put("no.drive.json", "{'a': 1}"),
      "Line 1, column 2: this is not JSON; found ', expected a key in double quotes.\n",
    ],
  ])("says in one sentence: %s", (_, name, stderr) => {
    expect(call([name()])).toEqual({ status: 2, stdout: "", stderr });
  });

  it("stops reading a standard input past the limit", () => {
    expect(call(["-"], new Uint8Array(33 * 1024 * 1024).fill(32)).stderr).toMatch(/longer than 32 MiB/);
  });

  it("keeps a fault on its one line, whatever the key", () => {
    const name = put("key.drive.json", JSON.stringify({ ...mixer(), "a\nb\u001b[31m": 1 }));
    const lines = call([name]).stderr.split("\n");
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(/^\/a\\u000ab\\u001b\[31m: /);
  });

  it("runs under npm, with names as seen from the folder in which npm was called", () => {
    const below = join(ROOT, "test");
    const name = relative(below, join(folder, "mixer.drive.json"));
    const { status, stdout, stderr } = spawnSync("npm", ["run", "-s", "solve", "--", name], {
      cwd: below,
      encoding: "utf8",
    });
    expect([status, stderr, JSON.parse(stdout).status]).toEqual([0, "", "determined"]);
  });

  it("says how it is used where no file is named", () => {
    expect(call([])).toEqual({
      status: 2,
      stdout: "",
      stderr: 'Name at least one drive file: npm run -s solve -- FILE... (a single "-" reads standard input).\n',
    });
  });

  it("may not read what it may not read", () => {
    const name = put("secret.drive.json", "{}");
    chmodSync(name, 0);
    const mayRead = process.getuid?.() === 0;
    expect(call([name]).stderr).toMatch(
      mayRead ? /^\/format: format is missing;/ : /^The file .* may not be read; name a drive file\.\n$/,
    );
  });
});

describe("several files", () => {
  it("prints a compact object a line, goes on past a bad one, and exits with the worst status", () => {
    const names = ["mixer.drive.json", "bad.drive.json", "none.drive.json", "mismatch.drive.json", "-"];
    const { status, stdout, stderr } = call(names, JSON.stringify(mixer()));
    const lines = stdout.trimEnd().split("\n");
    expect([status, stderr, lines.length]).toEqual([2, "", 5]);
    const objects = lines.map((line) => JSON.parse(line));
    expect(objects.map((one) => Object.keys(one)[0])).toEqual(["file", "file", "file", "file", "file"]);
    expect(objects.map((one) => one.file)).toEqual(names);
    expect(objects[1].faults).toEqual([
      { pointer: "/gears/0/teeth", message: "Gear a1: teeth is 12.5; expected a whole number from 1 to 100,000." },
      {
        pointer: "/meshes/1/gears/0",
        message: "Mesh m2 names zz, which is no gear; expected the id of a gear of this drive.",
      },
    ]);
    expect(objects[2]).toEqual({
      file: "none.drive.json",
      faults: [{ pointer: "", message: "The file none.drive.json is not there; name a drive file." }],
    });
    expect(lines.map((line) => JSON.stringify(JSON.parse(line)))).toEqual(lines);
    const { file, ...single } = objects[4];
    expect(single).toEqual(JSON.parse(call(["mixer.drive.json"]).stdout));
    expect(call(["mixer.drive.json", "mismatch.drive.json"]).status).toBe(1);
    expect(call(["mixer.drive.json", "mixer.drive.json"]).status).toBe(0);
  });

  it("is quiet where nobody reads on", async () => {
    const child = spawn(process.execPath, [RUN, "solve", ...new Array(400).fill("mixer.drive.json")], { cwd: folder });
    let stderr = "";
    child.stderr.on("data", (chunk) => {
      stderr += chunk;
    });
    child.stdout.once("data", () => child.stdout.destroy());
    const status = await new Promise((settle) => child.on("close", settle));
    expect([stderr, status]).toEqual(["", 0]);
  });
});

describe("the launcher", () => {
  let tree = "";
  let run = "";

  beforeAll(() => {
    tree = join(folder, "tree");
    run = join(tree, "src/cli/run.mjs");
    for (const name of ["src/engine", "src/cli"]) cpSync(join(ROOT, name), join(tree, name), { recursive: true });
    for (const name of ["package.json", "tsconfig.json"]) cpSync(join(ROOT, name), join(tree, name));
    mkdirSync(join(tree, "node_modules"));
    for (const name of ["vite", "valibot"])
      symlinkSync(join(ROOT, "node_modules", name), join(tree, "node_modules", name));
  });

  it("builds quietly when two start at once, and leaves one bundle and no litter", async () => {
    const runs = [1, 2, 3].map(
      () =>
        new Promise<readonly unknown[]>((settle) => {
          const child = spawn(process.execPath, [run, "solve", "mixer.drive.json"], { cwd: folder });
          let output = "";
          let errors = "";
          child.stdout.on("data", (chunk) => (output += chunk));
          child.stderr.on("data", (chunk) => (errors += chunk));
          child.on("close", (status) => settle([status, errors, output.includes('"status": "determined"')]));
        }),
    );
    expect(await Promise.all(runs)).toEqual([1, 2, 3].map(() => [0, "", true]));
    expect(readdirSync(join(tree, "node_modules/.cache/turnwise"))).toEqual(["solve.mjs"]);
  });

  it("needs no package once it is built, and builds again after an edit", () => {
    const vite = join(tree, "node_modules/vite");
    rmSync(vite);
    expect(call(["mixer.drive.json"], "", run).status).toBe(0);
    const later = new Date(Date.now() + 5000);
    utimesSync(join(tree, "src/engine/vector.ts"), later, later);
    expect(call(["mixer.drive.json"], "", run)).toEqual({
      status: 2,
      stdout: "",
      stderr: 'solve: Packages are missing: run "npm ci" first.\n',
    });
    symlinkSync(join(ROOT, "node_modules/vite"), vite);
    expect(call(["mixer.drive.json"], "", run).status).toBe(0);
  });

  it("says in one line that a source can't be built, or that there is no such command", () => {
    writeFileSync(join(tree, "src/cli/broken.ts"), "export const = ;");
    const broken = spawnSync(process.execPath, [run, "broken"], { encoding: "utf8" });
    expect([broken.status, broken.stderr.split("\n").length]).toEqual([2, 2]);
    const none = spawnSync(process.execPath, [run, "../x"], { encoding: "utf8" });
    expect([none.status, none.stderr]).toEqual([2, "../x: There is no command ../x.\n"]);
  });
});

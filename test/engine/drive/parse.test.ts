import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseDrive, readDrive } from "../../../src/engine/drive/parse";
import { LIMITS } from "../../../src/engine/drive/types";
import { driveFiles, mixer, press } from "./files";
import { AGAINST_RULES, AGAINST_SCHEMA, spoilt } from "./spoilt";

const faultsOf = (text: string) => parseDrive(text).faults ?? [];
const only = (text: string) => {
  const faults = faultsOf(text);
  expect(faults).toHaveLength(1);
  return faults[0];
};

describe("faults of a value", () => {
  it.each([...AGAINST_SCHEMA, ...AGAINST_RULES].map((fault) => [fault.name, fault] as const))("%s", (_, fault) => {
    const { faults } = readDrive(spoilt(fault));
    expect(faults).toContainEqual({ pointer: fault.pointer, message: fault.message });
  });

  it("come all at once, in the order of the file", () => {
    const file = mixer();
    file.gears[3].teeth = 12.5;
    file.gears[0].shaft = "Z";
    file.meshes[0].gears[1] = "nope";
    file.ports[1].torque = -1;
    file.colour = "red";
    file.shafts[0].pose.axis = [0, 0, 0];
    file.gears[1].kind = "helical";
    file.gears[1].face = -1;
    expect(readDrive(file).faults?.map(({ pointer }) => pointer)).toEqual([
      "/colour",
      "/shafts/0/pose/axis",
      "/gears/0/shaft",
      "/gears/1/kind",
      "/gears/1/face",
      "/gears/3/teeth",
      "/meshes/0/gears/1",
      "/ports/1/torque",
    ]);
  });

  it("say of a version from the future that it is newer, and nothing else", () => {
    const file = { ...mixer(), version: 2, wheels: [] };
    expect(readDrive(file).faults).toEqual([
      {
        pointer: "/version",
        message:
          "The drive is of version 2, made by a newer Turnwise; this one reads version 1, so open it with a newer one.",
      },
    ]);
  });

  it("escape a key in the pointer, and point at the object where the key is endless", () => {
    expect(readDrive({ ...mixer(), "a/b~c": 1 }).faults?.[0]?.pointer).toBe("/a~1b~0c");
    const [fault] = readDrive({ ...mixer(), ["k".repeat(100_000)]: 1 }).faults ?? [];
    expect(fault?.pointer).toBe("");
    expect(fault?.message.length).toBeLessThan(250);
  });

  it.each([
    ["shafts", { id: "s" }, LIMITS.shafts],
    ["gears", { id: "g" }, LIMITS.gears],
    ["meshes", { id: "m" }, LIMITS.meshes],
    ["ports", { shaft: "A" }, LIMITS.shafts],
  ])("name the limit on %s and go no further", (list, item, limit) => {
    const file = { ...mixer(), [list]: new Array(1_000_000).fill(item) };
    const limits = `${limit.toLocaleString("en")} ${list}`;
    expect(readDrive(file).faults).toEqual([
      { pointer: `/${list}`, message: `${list} holds 1,000,000 items; the limit is ${limits}.` },
    ]);
  });

  it("tell of a million shafts in a text too", () => {
    const text = JSON.stringify({ ...mixer(), shafts: [] }).replace(
      '"shafts":[]',
      `"shafts":[${'{"id":"s"},'.repeat(999_999)}{}]`,
    );
    expect(only(text)?.message).toBe("shafts holds 1,000,000 items; the limit is 20,000 shafts.");
  });

  it("find every one of 20,000 unknown ids in time that grows with their number", () => {
    const file = {
      ...mixer(),
      gears: Array.from({ length: 20_000 }, (_, i) => ({ ...mixer().gears[0], id: `g${i}`, shaft: `s${i}` })),
    };
    file.meshes = [];
    const start = performance.now();
    expect(readDrive(file).faults).toHaveLength(20_000);
    expect(performance.now() - start).toBeLessThan(3000);
  });

  it("find a circle of 20,000 carriers", () => {
    const file = mixer();
    file.shafts = Array.from({ length: 20_000 }, (_, i) => ({ id: `s${i}`, frame: `s${(i + 1) % 20_000}` }));
    const messages = readDrive(file).faults?.map(({ message }) => message);
    expect(messages).toContain(
      "Shafts s0, s1, s2, s3, s4 and 19995 more carry one another in a circle; leave frame out on one of them.",
    );
  });
});

describe("what is no fault", () => {
  it("takes any text as an id or a name: __proto__, marks from right to left, markup, control characters", () => {
    const file = mixer();
    const names = ["__proto__", "\u202eabc\u0007", "<script>alert(1)</script>"];
    names.forEach((id, i) => {
      file.shafts[i].id = id;
      file.shafts[i].name = id;
    });
    for (const gear of file.gears) gear.shaft = names["ABC".indexOf(gear.shaft)];
    for (const port of file.ports) port.shaft = names["ABC".indexOf(port.shaft)];
    file.title = names[2];
    const { drive, faults } = parseDrive(JSON.stringify(file));
    expect(faults).toBeUndefined();
    expect(drive?.shafts.map(({ id, name }) => [id, name])).toEqual(names.map((id) => [id, id]));
    expect(drive?.title).toBe(names[2]);
  });

  it("takes an id of 100,000 characters", () => {
    const file = mixer();
    file.meshes[0].id = "m".repeat(100_000);
    expect(readDrive(file).faults).toBeUndefined();
  });

  it("takes one id for a shaft, a gear and a mesh: each list has its own", () => {
    const file = mixer();
    file.gears[0].id = "A";
    file.meshes[0] = { id: "A", gears: ["A", "b1"] };
    expect(readDrive(file).faults).toBeUndefined();
  });

  it("fills every default in", () => {
    const { drive } = readDrive({
      format: "turnwise.drive",
      version: 1,
      shafts: [{ id: "A", pose: { origin: [0, 0, 0], axis: [0, 0, 2], ref: [1, 0, 1] } }, { id: "B" }],
      gears: [
        { id: "a", shaft: "A", kind: "bevel", teeth: 20, module: 2 },
        { id: "b", shaft: "B", kind: "bevel", teeth: 40, module: 2 },
      ],
      meshes: [{ id: "m", gears: ["a", "b"], shaftAngle: 60 }],
    });
    const common = {
      at: 0,
      face: 10,
      apex: "+",
      pressureAngle: 20,
      addendum: 1,
      clearance: 0.25,
      shift: 0,
      bore: 0,
      backlash: 0,
      phase: 0,
    };
    expect(drive).toStrictEqual({
      title: "",
      notes: "",
      shafts: [
        { id: "A", name: "", pose: { origin: [0, 0, 0], axis: [0, 0, 2], ref: [1, 0, 1] } },
        { id: "B", name: "" },
      ],
      gears: [
        { id: "a", shaft: "A", kind: "bevel", teeth: 20, module: 2, ...common },
        { id: "b", shaft: "B", kind: "bevel", teeth: 40, module: 2, ...common },
      ],
      meshes: [{ id: "m", gears: ["a", "b"], shaftAngle: 60, azimuth: 0, efficiency: 1 }],
      ports: [],
    });
  });

  it("takes numbers of any size that a double holds", () => {
    const file = mixer();
    file.gears[0].at = -1.7e308;
    file.gears[0].module = 5e-324;
    file.ports[0].speed = 1e300;
    expect(readDrive(file).faults).toBeUndefined();
  });
});

describe("texts that are no drive", () => {
  const place = (text: string): string | undefined => only(text)?.message;

  it.each([
    ["", "The file is empty; expected a drive in JSON."],
    [" \n ", "The file is empty; expected a drive in JSON."],
    [
      '{\n  "format": "turnwise.drive",\n  }',
      "Line 3, column 3: this is not JSON; found }, expected a key in double quotes.",
    ],
    [
      '{"a": NaN}',
      "Line 1, column 7: this is not JSON; found NaN, expected a value: a text in double quotes, a number, a list, an object, true, false or null.",
    ],
    [
      '{"a": -Infinity}',
      "Line 1, column 7: this is not JSON; found -Infinity, expected a number, such as -12.5 or 6e3.",
    ],
    ['{"a": 012}', "Line 1, column 7: this is not JSON; found 012, expected a number, such as -12.5 or 6e3."],
    ['{"a": 1', "Line 1, column 8: this is not JSON; found the end of the text, expected a comma or }."],
    ['{"a" 1}', "Line 1, column 6: this is not JSON; found 1, expected a colon."],
    ['{"a": "b\nc"}', 'Line 1, column 9: this is not JSON; found \\u000a, expected a closing " on the same line.'],
    ['{"a": "b', 'Line 1, column 7: this is not JSON; found a text without an end, expected a closing ".'],
    ['["\\q"]', 'Line 1, column 4: this is not JSON; found q, expected one of " \\ / b f n r t u after a backslash.'],
    ['["\\u12g4"]', "Line 1, column 4: this is not JSON; found u12g4, expected u and four hexadecimal digits."],
    ["{} {}", "Line 1, column 4: this is not JSON; found {, expected nothing more after the drive."],
    [
      "hello there",
      "Line 1, column 1: this is not JSON; found hello, expected a value: a text in double quotes, a number, a list, an object, true, false or null.",
    ],
    [
      `{"a": ${"x".repeat(50)}}`,
      `Line 1, column 7: this is not JSON; found ${"x".repeat(40)}…, expected a value: a text in double quotes, a number, a list, an object, true, false or null.`,
    ],
    [
      "\u0089PNG\r\n\u001a\n\0\0\0\rIHDR",
      "The file is not text (it may be a picture or another program's own format); expected a drive in JSON.",
    ],
    [
      `\ufffd\ufffd\ufffd\ufffd\0\u0010JFIF${"[{".repeat(100)}`,
      "The file is not text (it may be a picture or another program's own format); expected a drive in JSON.",
    ],
  ])("%j", (text, message) => {
    expect(only(text)).toEqual({ pointer: "", message });
  });

  it("refuses 1e400 for what it is: beyond what can be reckoned with", () => {
    const text = JSON.stringify(mixer()).replace('"speed":1450', '"speed":1e400');
    expect(only(text)).toEqual({
      pointer: "/ports/0/speed",
      message:
        "Port number 1: speed is a number beyond 1.8e308, which is more than can be reckoned with; expected a number.",
    });
    expect(only(JSON.stringify(mixer()).replace("{", '{"x-a":[{"b":-1e999}],'))?.pointer).toBe("/x-a");
  });

  it("refuses endless digits and powers of ten of a speed", () => {
    const long = JSON.stringify(mixer()).replace('"speed":1450', `"speed":0.${"3".repeat(5000)}`);
    expect(only(long)?.message).toBe(
      `speed is 0.${"3".repeat(38)}…; expected at most 1,000 digits and a power of ten within ±400.`,
    );
    const small = JSON.stringify(mixer()).replace('"speed":1450', '"speed":1e-999999999');
    expect(only(small)?.pointer).toBe("/ports/0/speed");
    const zero = JSON.stringify(mixer()).replace('"speed":1450', '"speed":0e-999999999');
    expect(faultsOf(zero)).toEqual([]);
  });

  it("reads past a byte order mark", () => {
    expect(faultsOf(`\ufeff${JSON.stringify(mixer())}`)).toEqual([]);
  });

  it("refuses 33 MiB, in bytes of UTF-8", () => {
    const limit = "The file is longer than 32 MiB, which is the limit for a drive.";
    expect(place(" ".repeat(33 * 1024 * 1024))).toBe(limit);
    expect(place("\u00e9".repeat(17 * 1024 * 1024))).toBe(limit);
    expect(place(" ".repeat(32 * 1024 * 1024))).toBe("The file is empty; expected a drive in JSON.");
  });

  it("refuses nesting 10,000 deep wherever it stands, and ten million deep", () => {
    const nest = (n: number): string => "[".repeat(n) + "]".repeat(n);
    const words = "lists and objects nest more than 64 deep, which is the limit.";
    expect(place(nest(10_000))).toBe(`Line 1, column 65: ${words}`);
    expect(place(JSON.stringify(mixer()).replace("{", `{"x-deep":${nest(10_000)},`))).toBe(
      `Line 1, column 74: ${words}`,
    );
    expect(place('{"a":'.repeat(10_000))).toContain(words);
    expect(place(nest(10_000_000))).toContain(words);
    expect(faultsOf(JSON.stringify(mixer()).replace("{", `{"x-deep":${nest(63)},`))).toEqual([]);
    expect(faultsOf(JSON.stringify({ ...mixer(), title: "[".repeat(100) }))).toEqual([]);
  });

  it("refuses nesting, circles and strange things in a value", () => {
    let deep: unknown = 1;
    for (let i = 0; i < 10_000; i++) deep = i % 2 === 0 ? [deep] : { deep };
    const circle: Record<string, unknown> = {};
    circle.self = circle;
    let bush: unknown[] = [];
    for (let i = 0; i < 60; i++) bush = [bush, bush];
    const message = (x: unknown): string | undefined => readDrive({ ...mixer(), "x-a": x }).faults?.[0]?.message;
    expect(message(deep)).toBe("x-a nests more than 64 deep; expected 64 levels at most.");
    expect(message(circle)).toBe("x-a nests more than 64 deep; expected 64 levels at most.");
    expect(message(bush)).toBeUndefined();
    expect(message([() => 1])).toBe("x-a holds a function; expected what JSON can hold.");
    expect(message({ n: Number.NaN })).toBe("x-a holds not a number; expected numbers that can be kept.");
    expect(readDrive(deep).faults).toBeDefined();
    expect(readDrive(circle).faults).toBeDefined();
    expect(readDrive({ ...mixer(), gears: [[deep]] }).faults?.[0]?.pointer).toBe("/gears/0");
    const trap = new Proxy(
      {},
      {
        ownKeys: () => {
          throw new Error("no");
        },
      },
    );
    expect(readDrive(trap).faults).toHaveLength(1);
  });

  it("never throws on 2,000 random texts and values, nor on a drive cut off anywhere", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: "binary" }), fc.json()), (text) => void parseDrive(text)),
      { numRuns: 1000 },
    );
    fc.assert(
      fc.property(fc.anything(), (value) => void readDrive(value)),
      { numRuns: 1000 },
    );
    const text = JSON.stringify(press());
    for (let i = 0; i < text.length; i++) {
      const [fault] = faultsOf(text.slice(0, i));
      expect(fault?.message).toMatch(
        i === 0 ? /empty/ : /^Line 1, column \d+: this is not JSON; found .*, expected .*\.$/,
      );
    }
  });

  it("never throws on a drive in which one place is spoilt, and each fault is one sentence", () => {
    fc.assert(
      fc.property(driveFiles, fc.nat(), fc.string({ maxLength: 2, unit: "binary" }), (file, place, noise) => {
        const text = JSON.stringify(file);
        const i = place % text.length;
        for (const { message } of faultsOf(text.slice(0, i) + noise + text.slice(i + 1))) {
          expect(message).toMatch(/^[^\n\r]{10,600}\.$/);
        }
      }),
      { numRuns: 1000 },
    );
  });
});

/** A lesson as data: read and refused, by an outside judge of its schema too; a drive's own, kept and changed by edits. */
import { readdirSync, readFileSync } from "node:fs";
// An independent judge: a JSON Schema validator that knows nothing of the parser.
import { Ajv2020 } from "ajv/dist/2020";
import { describe, expect, it } from "vitest";
import { SCHEMAS } from "../../../src/cli/schema";
import { type Edit, isRefused } from "../../../src/engine/drive/commands/edit";
import { changeStep, keepStep, moveStep, removeStep } from "../../../src/engine/drive/commands/lesson-steps";
import { LESSON_HEAD } from "../../../src/engine/drive/lesson-key";
import {
  type Lesson,
  type LessonStep,
  lessonOf,
  parseLesson,
  questionOfStep,
  troublesOf,
} from "../../../src/engine/drive/lesson-read";
import { LESSON_LIMITS } from "../../../src/engine/drive/lesson-schema";
import { readDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { decodeCode, encodeDrive } from "../../../src/exchange/share/code";
import { mixer } from "./files";

const published = readFileSync("public/lesson.schema.json", "utf8");
const validate = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false }).compile(
  JSON.parse(published),
);

const drive = readDrive(mixer()).drive as Drive;
const STEP: LessonStep = { text: "Look.", drive: "mixer", lit: { gear: "a1" } };
const file = (patch: object = {}, step: object = {}) => ({
  format: "turnwise.lesson",
  version: 1,
  title: "A lesson",
  drives: [{ name: "mixer", drive: mixer() }],
  steps: [{ ...STEP, ...step }],
  ...patch,
});
const faults = (value: unknown): readonly string[] =>
  parseLesson(JSON.stringify(value)).faults?.map(({ pointer, message }) => `${pointer} ${message}`) ?? [];

describe("public/lesson.schema.json", () => {
  it("is what the reader's schema gives (npm run schema writes it)", () => {
    expect(published).toBe(SCHEMAS["lesson.schema.json"]());
  });

  it.each(readdirSync("public/lessons"))("passes %s", (name) => {
    expect(validate(JSON.parse(readFileSync(`public/lessons/${name}`, "utf8"))), String(validate.errors)).toBe(true);
  });

  // Each of these the reader refuses as well; see below.
  it.each([
    ["a step without a text", file({}, { text: "" })],
    ["two parts lit", file({}, { lit: { gear: "a1", shaft: "A" } })],
    ["an eye with two numbers", file({}, { eye: { towards: [1, 2] } })],
    ["a panel of another name", file({}, { panels: ["gearbox"] })],
    ["a handle of another name", file({}, { free: "tilt" })],
    ["a figure of another name", file({}, { hide: [{ shaft: "C", figures: ["colour"] }] })],
    ["a key of another name", file({}, { sound: true })],
    ["another version", file({ version: 2 })],
    ["a drive that is none", file({ drives: [{ name: "mixer", drive: { format: "turnwise.drive", version: 1 } }] })],
    [
      "what is hidden together with a demonstration",
      file({}, { hide: [], demonstration: { kind: "cup", mesh: "m1" } }),
    ],
  ])("refuses, as the reader does, %s", (_, value) => {
    expect([validate(value), faults(value).length > 0]).toEqual([false, true]);
  });
});

describe("a lesson in a file", () => {
  it("is told from a drive by its first key, and read", () => {
    expect(LESSON_HEAD.test(JSON.stringify(file()))).toBe(true);
    expect(LESSON_HEAD.test(writeDrive(drive))).toBe(false);
    const { lesson } = parseLesson(`\ufeff${JSON.stringify(file())}`);
    expect(lesson?.steps).toEqual([STEP]);
    expect(lesson?.drives.get("mixer")).toEqual(drive);
  });

  it.each([
    [
      file({}, { lit: { gear: "z9" } }),
      "/steps/0/lit Step 1: there is no gear z9 in the drive; name one that is there.",
    ],
    [
      file({}, { hide: [{ shaft: "Z", figures: ["speed"] }] }),
      "/steps/0/hide Step 1: there is no shaft Z in the drive; name one that is there.",
    ],
    [
      file({}, { demonstration: { kind: "taper", mesh: "m7" } }),
      "/steps/0/demonstration Step 1: there is no mesh m7 in the drive; name one that is there.",
    ],
    [file({}, { close: "m7" }), "/steps/0/close Step 1: there is no mesh m7 in the drive; name one that is there."],
    [
      file({}, { drive: "mill" }),
      "/steps/0/drive Step 1: there is no drive mill in this lesson; name one that stands among its drives.",
    ],
    [
      file({ steps: [{ text: "Look." }] }),
      "/steps/0/drive Step 1: no drive is named up to here; name one of the lesson's drives.",
    ],
    [file({ steps: [] }), "/steps The lesson has no steps; give it one at least."],
    [
      file({
        drives: [
          { name: "mixer", drive: mixer() },
          { name: "mixer", drive: mixer() },
        ],
      }),
      "/drives/1/name Two drives are called mixer; give one another name.",
    ],
    [
      file({}, { ask: { text: "Which?", choices: [{ text: "This", because: "So." }] } }),
      "/steps/0/ask Step 1: a question has two choices or more, and one of them is right.",
    ],
    [
      file({ version: 3 }),
      "/version The lesson is of version 3, made by a newer Turnwise; this one reads version 1, so open it with a newer one.",
    ],
  ])("says where, what, and what to do (%#)", (value, sentence) => {
    expect(faults(value)).toEqual([sentence]);
  });

  it("says of a fault in one of its drives which drive, and where in the file", () => {
    const broken = { ...mixer(), ports: [{ shaft: "nobody", role: "input", speed: 1 }] };
    const [first] = faults(file({ drives: [{ name: "mixer", drive: broken }] }));
    expect(first).toMatch(/^\/drives\/0\/drive\/ports\/0\/shaft Drive mixer: .*nobody/);
  });

  it.each([
    ["", "The file is empty; expected a lesson in JSON."],
    ["[", "this is not JSON"],
    ["\u0000PNG", "expected a lesson in JSON"],
    ["null", "expected"],
  ])("refuses %j in words", (text, words) => {
    expect(parseLesson(text).faults?.[0]?.message).toContain(words);
  });
});

describe("a drive's own lesson", () => {
  const made = (before: Drive, edit: Edit): Drive => {
    const result = edit(before);
    if (isRefused(result)) throw new Error(result.refused);
    return result;
  };
  const texts = (of: Drive): readonly string[] => (lessonOf(of) as Lesson).steps.map(({ text }) => text);
  const three = ["one", "two", "three"].reduce((so, text) => made(so, keepStep({ text })), drive);

  it("is kept step by step, moved, reworded and removed; the last removed takes the key along", () => {
    expect(lessonOf(drive)).toBeNull();
    expect(texts(three)).toEqual(["one", "two", "three"]);
    expect(texts(made(three, moveStep(2, -1)))).toEqual(["one", "three", "two"]);
    expect(texts(made(three, moveStep(0, -1)))).toEqual(["one", "two", "three"]);
    expect(texts(made(three, changeStep(1, { text: "2" })))).toEqual(["one", "2", "three"]);
    expect((lessonOf(made(three, changeStep(1, { free: "lean" }))) as Lesson).steps[1]).toEqual({
      text: "two",
      free: "lean",
    });
    expect([0, 0, 0].reduce((so, at) => made(so, removeStep(at)), three)).toEqual(drive);
  });

  it("goes with the file and with the link", () => {
    const step: LessonStep = {
      text: "Which way does {way of C}?",
      eye: { towards: [0.5, -1, 0.25], target: [1, 2, 3], distance: 400 },
      lit: { mesh: "m1" },
      panels: ["parts", "question"],
      hide: [{ shaft: "C", figures: ["direction"] }],
      free: "lean",
      turns: true,
    };
    const kept = made(drive, keepStep(step));
    expect(readDrive(JSON.parse(writeDrive(kept))).drive).toEqual(kept);
    expect(decodeCode(encodeDrive(kept))).toMatchObject({ drive: kept });
    expect(questionOfStep(step)).toEqual(new Map([["C", new Set(["direction"])]]));
  });

  it("keeps a title and further keys that stand beside the steps", () => {
    const titled = { ...drive, "x-lesson": { title: "Mine", "x-year": 7, steps: [] } } as Drive;
    expect(made(titled, keepStep({ text: "one" }))["x-lesson"]).toEqual({
      title: "Mine",
      "x-year": 7,
      steps: [{ text: "one" }],
    });
  });

  it.each([[7], ["a lesson"], [{ steps: "none" }], [{ steps: [{}] }]])("that is none (%j) is left as it is", (kept) => {
    const odd = { ...drive, "x-lesson": kept } as Drive;
    expect(lessonOf(odd)).toMatch(/^The drive's own lesson can't be read: /);
    const refused = keepStep({ text: "one" })(odd);
    expect(isRefused(refused) && refused.refused).toMatch(/Take it out of the file first\.$/);
  });

  it("refuses steps that are not there any more, and one more than a class would go", () => {
    expect(removeStep(3)(three)).toEqual({ refused: "There is no step 4 in the drive's lesson any more." });
    const steps = Array.from({ length: LESSON_LIMITS.steps }, () => ({ text: "on" }));
    expect(isRefused(keepStep({ text: "more" })({ ...drive, "x-lesson": { steps } } as Drive))).toBe(true);
  });

  it("says which part of a step is gone", () => {
    const step: LessonStep = { text: "Look.", lit: { gear: "b9" }, close: "m1" };
    expect(troublesOf(step, drive)).toEqual([
      { key: "lit", what: "there is no gear b9 in the drive", mend: "name one that is there" },
    ]);
  });
});

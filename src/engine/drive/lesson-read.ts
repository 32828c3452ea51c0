/** Lessons read: from a file with drives of its own, or from a drive's `x-lesson`. Nothing here throws. */
import * as v from "valibot";
import { nameText } from "../wording";
import { pointerTo } from "./describe";
import { readJson } from "./json-file";
import { LESSON_KEY } from "./lesson-key";
import { LESSON_FILE, LESSON_VERSION, OWN_LESSON, type StepFile } from "./lesson-schema";
import { faultOf, readDrive } from "./parse";
import { readQuestion } from "./question";
import { isRecord, own } from "./schema-parts";
import type { Drive, Fault } from "./types";

export type LessonStep = StepFile;

export interface Lesson {
  readonly title: string;
  readonly about: string;
  /** By the names that steps call them; none in a drive's own lesson. */
  readonly drives: ReadonlyMap<string, Drive>;
  readonly steps: readonly LessonStep[];
}

export type ParsedLesson =
  | { readonly lesson: Lesson; readonly faults?: undefined }
  | { readonly lesson?: undefined; readonly faults: readonly Fault[] };

const whole = (message: string): ParsedLesson => ({ faults: [{ pointer: "", message }] });

/** Reads a lesson from the text of a file: the lesson, or all faults of the text. */
export const parseLesson = (text: string): ParsedLesson => readJson(text, "a lesson", readLesson, whole);

function readLesson(value: unknown): ParsedLesson {
  if (isRecord(value)) {
    const version = own(value, "version");
    if (typeof version === "number" && Number.isInteger(version) && version > LESSON_VERSION) {
      const message = `The lesson is of version ${version}, made by a newer Turnwise; this one reads version ${LESSON_VERSION}, so open it with a newer one.`;
      return { faults: [{ pointer: "/version", message }] };
    }
  }
  const { issues } = v.safeParse(LESSON_FILE, value, { abortPipeEarly: true });
  // A drive is read, and complained of, as a file of its own would be.
  const ofDrive = ({ path }: v.BaseIssue<unknown>): boolean =>
    path?.[0]?.key === "drives" && path[2]?.key === "drive" && path.length > 3;
  const faults = (issues ?? []).filter((issue) => !ofDrive(issue)).map((issue) => faultOf(issue, value));
  const drives = new Map<string, Drive>();
  const named = isRecord(value) ? own(value, "drives") : undefined;
  if (Array.isArray(named)) {
    for (const [i, one] of (named as unknown[]).entries()) {
      if (!isRecord(one) || !isRecord(own(one, "drive"))) continue;
      const name = String(own(one, "name"));
      const read = readDrive(own(one, "drive"));
      if (drives.has(name)) {
        faults.push({ pointer: `/drives/${i}/name`, message: `Two drives are called ${name}; give one another name.` });
      }
      if (read.drive) drives.set(name, read.drive);
      for (const { pointer, message } of read.faults ?? [])
        faults.push({ pointer: `/drives/${i}/drive${pointer}`, message: `Drive ${name}: ${message}` });
    }
  }
  if (faults.length > 0) return { faults };
  const file = value as v.InferInput<typeof LESSON_FILE>;
  const lesson: Lesson = { title: file.title, about: file.about ?? "", drives, steps: file.steps };
  const missing = lesson.steps.length === 0 ? [noSteps] : faultsOfSteps(lesson);
  return missing.length > 0 ? { faults: missing } : { lesson };
}

const noSteps: Fault = { pointer: "/steps", message: "The lesson has no steps; give it one at least." };

/** The drive that stands on the bench at each step: the last that was named. */
function drivesAt({ drives, steps }: Lesson): readonly (Drive | undefined)[] {
  let name: string | undefined;
  return steps.map(({ drive }) => {
    name = drive ?? name;
    return name === undefined ? undefined : drives.get(name);
  });
}

function faultsOfSteps(lesson: Lesson): readonly Fault[] {
  const at = drivesAt(lesson);
  return lesson.steps.flatMap((step, i): Fault[] => {
    const fault = (key: string, message: string): Fault => ({
      pointer: pointerTo(["steps", i, key]),
      message: `Step ${i + 1}: ${message}`,
    });
    const drive = at[i];
    if (!drive) {
      const name = step.drive;
      return [
        fault(
          "drive",
          name === undefined
            ? "no drive is named up to here; name one of the lesson's drives."
            : `there is no drive ${name} in this lesson; name one that stands among its drives.`,
        ),
      ];
    }
    return troublesOf(step, drive).map((trouble) => fault(trouble.key, troubleWords(trouble)));
  });
}

interface Trouble {
  readonly key: keyof LessonStep & string;
  /** What is wrong, as the beginning of a sentence. */
  readonly what: string;
  /** What whoever wrote the step can do, as the end of one; null where the beginning says so. */
  readonly mend: string | null;
}

/** A trouble as the author of the lesson is told it. */
export const troubleWords = ({ what, mend }: Trouble): string => (mend === null ? `${what}.` : `${what}; ${mend}.`);

/** What of a step can't be shown on a drive: parts that aren't there, questions without a right answer. */
export function troublesOf(step: LessonStep, drive: Drive): readonly Trouble[] {
  const { lit, demonstration, close, hide, ask } = step;
  const list = { shaft: drive.shafts, gear: drive.gears, mesh: drive.meshes };
  const lost = (key: Trouble["key"], kind: keyof typeof list, id: string | undefined): Trouble[] =>
    id === undefined || list[kind].some((part) => part.id === id)
      ? []
      : [{ key, what: `there is no ${kind} ${nameText(id)} in the drive`, mend: "name one that is there" }];
  const rights = ask?.choices.filter(({ right }) => right === true).length;
  return [
    ...lost("lit", "shaft", lit?.shaft),
    ...lost("lit", "gear", lit?.gear),
    ...lost("lit", "mesh", lit?.mesh),
    ...lost("demonstration", "mesh", demonstration?.mesh),
    ...lost("close", "mesh", close),
    ...(hide ?? []).flatMap(({ shaft }) => lost("hide", "shaft", shaft)),
    ...(ask && (ask.choices.length < 2 || rights !== 1)
      ? [{ key: "ask" as const, what: "a question has two choices or more, and one of them is right", mend: null }]
      : []),
  ];
}

/** What a step hides, as a question. */
export const questionOfStep = ({ hide }: LessonStep): ReturnType<typeof readQuestion> => readQuestion(hide);

const known = new WeakMap<object, Lesson | string>();

/**
 * The drive's own lesson; null where it has none; a sentence where what stands under `x-lesson` is none (it is kept as it is). Parts that
 * its steps name need not be there any more: `troublesOf` says so.
 */
export function lessonOf(drive: Drive): Lesson | string | null {
  const kept = drive[LESSON_KEY];
  if (kept === undefined) return null;
  if (typeof kept !== "object" || kept === null) return "The drive's own lesson can't be read: it is no object.";
  const found = known.get(kept) ?? readOwn(kept);
  known.set(kept, found);
  return found;
}

function readOwn(kept: object): Lesson | string {
  const { issues, output } = v.safeParse(OWN_LESSON, kept, { abortPipeEarly: true });
  const [first] = issues ?? [];
  if (first) return `The drive's own lesson can't be read: ${faultOf(first, kept).message}`;
  const { title, steps } = output as v.InferInput<typeof OWN_LESSON>;
  return { title: title ?? "", about: "", drives: new Map(), steps };
}

/**
 * A lesson as data: a walk in steps over drives on the bench, in a `.lesson.json` file or as a drive's own `x-lesson`. One schema for both;
 * `public/lesson.schema.json` is made from it. What it can't say (parts that exist, drives that are named) `lesson.ts` checks.
 */
import * as v from "valibot";
import { FIGURES } from "./question";
import { DRIVE_FILE } from "./schema";
import { list, record, row } from "./schema-parts";

export const LESSON_FORMAT = "turnwise.lesson";
export const LESSON_VERSION = 1;
/** Our own limits: a walk that is longer is none that a class would go. */
export const LESSON_LIMITS = { steps: 200, drives: 50, choices: 6, hidden: 100 } as const;

/** What can stand open beside the bench: the parts list, and one of the others. */
export const LESSON_PANELS = [
  "parts",
  "workings",
  "findings",
  "measure",
  "structure",
  "question",
  "demonstrations",
  "drawings",
] as const;
export const DEMONSTRATIONS = ["friction", "cup", "sweep", "speeds", "taper", "either"] as const;
/** Handles of the bench by what they pull; `none`: no handle is to be had in this step. */
export const FREE_HANDLES = ["none", "lean", "swing", "slide", "size"] as const;

const isOne = <const T extends readonly string[]>(choices: T, description: string) => {
  const expected = `${choices.slice(0, -1).join(", ")} or ${choices.at(-1)}`;
  return v.pipe(v.picklist(choices, expected), v.description(description));
};

const SOME_TEXT = "a text of one character or more";
const text = (description: string) =>
  v.pipe(v.string(SOME_TEXT), v.minLength(1, SOME_TEXT), v.description(description));
const AN_ID = "an id, a text of one character or more";
const id = (description: string) => v.pipe(v.string(AN_ID), v.minLength(1, AN_ID), v.description(description));
const A_BOOLEAN = "true or false";
const boolean = (description: string) => v.pipe(v.boolean(A_BOOLEAN), v.description(description));
const A_NUMBER = "a number";
const vector = (description: string) =>
  v.pipe(
    row(v.pipe(v.number(A_NUMBER), v.finite(A_NUMBER)), 3, "a list of three numbers, [x, y, z]"),
    v.description(description),
  );
const ABOVE_ZERO = "a number above 0";

const ONE_PART = "leave one of them out, since one part is lit";
const PART = record(
  {
    shaft: v.optional(id("Id of a shaft.")),
    gear: v.optional(id("Id of a gear.")),
    mesh: v.optional(id("Id of a mesh.")),
  },
  {
    name: "a part",
    apart: [
      { keys: ["shaft", "gear"], because: ONE_PART },
      { keys: ["shaft", "mesh"], because: ONE_PART },
      { keys: ["gear", "mesh"], because: ONE_PART },
    ],
  },
);

const EYE = record(
  {
    towards: vector("Direction from the drive to the eye, world; any length but 0."),
    target: v.optional(vector("Point that is looked at, mm; left out with distance: the whole drive is seen.")),
    distance: v.optional(
      v.pipe(
        v.number(ABOVE_ZERO),
        v.finite(ABOVE_ZERO),
        v.gtValue(0, ABOVE_ZERO),
        v.description("From the eye to that point, mm."),
      ),
    ),
  },
  { name: "an eye" },
);

const DEMONSTRATION = record(
  { kind: isOne(DEMONSTRATIONS, "Which one."), mesh: id("Id of the mesh that it is shown on.") },
  { name: "a demonstration" },
);

const HIDDEN = record(
  {
    shaft: id("Id of the shaft."),
    figures: list(isOne(FIGURES, "A figure that is hidden and asked."), FIGURES.length, "figures"),
  },
  { name: "what is hidden of a shaft" },
);

const CHOICE = record(
  {
    text: text("The answer in words."),
    right: v.optional(boolean("Whether it is right; left out: it is not.")),
    because: text("Said once it is chosen: why it is right, or where it goes wrong."),
  },
  { name: "a choice" },
);
const ASK = record(
  { text: text("The question."), choices: list(CHOICE, LESSON_LIMITS.choices, "choices") },
  { name: "a question in words" },
);

/** Keys in the order in which they are written. */
export const STEP = record(
  {
    title: v.optional(v.pipe(v.string("a text"), v.description("A few words.")), ""),
    text: text("What is said; figures of the drive stand in braces, as in {speed of B}."),
    drive: v.optional(id("Name of the drive that stands on the bench; left out: the same as before.")),
    eye: v.optional(v.pipe(EYE, v.description("Where one looks from; left out: as it is."))),
    lit: v.optional(v.pipe(PART, v.description("The part that is selected; left out: none."))),
    panels: v.optional(
      v.pipe(
        list(isOne(LESSON_PANELS, "A panel."), LESSON_PANELS.length, "panels"),
        v.description("What stands open beside the bench; left out: as it is."),
      ),
    ),
    demonstration: v.optional(v.pipe(DEMONSTRATION, v.description("Shown where that panel is open."))),
    close: v.optional(id("Id of a mesh that is looked at closely.")),
    hide: v.optional(
      v.pipe(list(HIDDEN, LESSON_LIMITS.hidden, "shafts"), v.description("What is hidden, guessed and revealed.")),
    ),
    free: v.optional(isOne(FREE_HANDLES, "The one handle of the lit part that may be pulled; left out: all.")),
    turns: v.optional(boolean("Whether the drive turns; left out: as it is.")),
    ask: v.optional(v.pipe(ASK, v.description("A question with answers to choose from."))),
  },
  {
    name: "a step",
    apart: [
      { keys: ["hide", "demonstration"], because: "leave one of them out, since a demonstration tells what is hidden" },
    ],
  },
);

const NAMED_DRIVE = record({ name: id("Named by the steps."), drive: DRIVE_FILE }, { name: "a drive of a lesson" });

export const LESSON_FILE = record(
  {
    format: v.literal(LESSON_FORMAT, `"${LESSON_FORMAT}"`),
    version: v.pipe(v.literal(LESSON_VERSION, `the number ${LESSON_VERSION}`), v.description("Version of the format.")),
    title: text("Title of the lesson."),
    about: v.optional(v.pipe(v.string("a text"), v.description("One sentence on what one learns.")), ""),
    drives: list(NAMED_DRIVE, LESSON_LIMITS.drives, "drives"),
    steps: list(STEP, LESSON_LIMITS.steps, "steps"),
  },
  { name: "a lesson" },
);

/** What a drive's own `x-lesson` holds: steps over that very drive. */
export const OWN_LESSON = record(
  {
    title: v.optional(v.pipe(v.string("a text"), v.description("Title of the lesson.")), ""),
    steps: list(STEP, LESSON_LIMITS.steps, "steps"),
  },
  { name: "a drive's own lesson" },
);

type Step = v.InferInput<typeof STEP>;
export type StepFile = { readonly [K in keyof Step]: Step[K] };
export type OwnLessonFile = v.InferInput<typeof OWN_LESSON>;

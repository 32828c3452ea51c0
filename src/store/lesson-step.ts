/** Going through a lesson: each step puts its drive, eye, panels and question before one, by what anybody could do by hand. */

import { LESSON_KEY } from "../engine/drive/lesson-key";
import { type Lesson, type LessonStep, lessonOf, questionOfStep, troublesOf } from "../engine/drive/lesson-read";
import { isSameDrive } from "../engine/drive/same";
import type { Drive } from "../engine/drive/types";
import type { Vec3 } from "../engine/solved";
import { setPlaying } from "./clock";
import { lookAway, lookClosely } from "./close-look";
import { setDemo } from "./demo";
import { askInstead, documentStore, openDrive } from "./document";
import { asLesson, endLesson, type LessonState, lessonStore } from "./lesson-state";
import { type Aside, look, type Part, setView, type ViewState, viewStore } from "./view";

type Page = Pick<ViewState, "panels" | "sideTab" | "sheet" | "aside">;
type PanelOfStep = NonNullable<LessonStep["panels"]>[number];

/** How the page stood before, to go back to. */
let pageBefore: Page | null = null;

/** Begins a lesson with drives of its own at a step; `file` where it lies beside the page. */
export function startLesson(lesson: Lesson, file: string | null = null, at = 0): void {
  const { drive } = documentStore.getState();
  begin({ lesson, isOwn: false, file, before: drive }, at);
}

/** Begins the open drive's own lesson, or goes to one of its steps; what stands there may be none. */
export function startOwnLesson(at = 0): void {
  const lesson = lessonOf(documentStore.getState().drive);
  if (lesson !== null && typeof lesson !== "string" && lesson.steps.length > 0)
    begin({ lesson, isOwn: true, file: null, before: null }, at);
}

type Begun = Pick<LessonState, "isOwn" | "file" | "before"> & { readonly lesson: Lesson };

function begin(begun: Begun, at: number): void {
  // Of a lesson that follows on another, the page stands as the first found it.
  if (!lessonStore.getState().lesson) {
    const { panels, sideTab, sheet, aside } = viewStore.getState();
    pageBefore = { panels, sideTab, sheet, aside };
  }
  lessonStore.setState({ ...begun, at: 0, answers: new Map(), isOffered: false });
  goTo(begun.lesson.steps[at] ? at : 0);
}

/** The drive that a step stands on: the last that was named; null for whichever is open. */
export function driveOfStep({ drives, steps }: Lesson, at: number): Drive | null {
  const name = steps.slice(0, at + 1).findLast(({ drive }) => drive !== undefined)?.drive;
  return name === undefined ? null : (drives.get(name) ?? null);
}

/** Goes to a step, counted from 0: its drive is on the bench as the lesson has it, and all else as the step says. */
export function goTo(at: number): void {
  const { lesson } = lessonStore.getState();
  const step = lesson?.steps[at];
  if (!lesson || !step) return;
  lookAway();
  setView({ adding: null, asking: null, ghost: null });
  setDemo({ shown: null });
  const [wanted, asked] = [driveOfStep(lesson, at), questionOfStep(step)];
  if (wanted && !isSameDrive(wanted, documentStore.getState().drive)) {
    asLesson(() => openDrive(wanted, { keepHistory: true, label: `step ${at + 1} of the lesson`, asked }));
  } else askInstead(asked);
  const { drive } = documentStore.getState();
  const lost = new Set(troublesOf(step, drive).map(({ key }) => key));
  arrange(step, lost);
  if (step.eye) {
    const { towards, target, distance } = step.eye;
    const near = target && distance !== undefined ? { target: vectorOf(target), distance } : null;
    look({ name: "towards", towards: vectorOf(towards), near });
  }
  if (step.close !== undefined && !lost.has("close")) lookClosely(step.close);
  if (step.turns !== undefined) setPlaying(step.turns);
  // Last, so that whoever follows finds all in its place.
  lessonStore.setState({ at });
}

/** The schema counts to three; its type does not. */
const vectorOf = ([x = 0, y = 0, z = 0]: readonly number[]): Vec3 => [x, y, z];

/** Panels, what is selected, and the demonstration. */
function arrange(step: LessonStep, lost: ReadonlySet<string>): void {
  const shown = step.demonstration && !lost.has("demonstration") ? step.demonstration : null;
  setView({
    ...(step.panels ? pageOf(step.panels, viewStore.getState()) : {}),
    selection: lost.has("lit") ? null : (litOf(step) ?? (shown ? { kind: "mesh", id: shown.mesh } : null)),
  });
  if (shown) setDemo({ kind: shown.kind, mesh: shown.mesh });
}

function litOf({ lit }: LessonStep): Part | null {
  for (const kind of ["shaft", "gear", "mesh"] as const) {
    const id = lit?.[kind];
    if (id !== undefined) return { kind, id };
  }
  return null;
}

const ASIDES: Readonly<Partial<Record<PanelOfStep, Aside>>> = {
  measure: "measure",
  structure: "structure",
  question: "question",
  demonstrations: "demos",
  drawings: "drawings",
};

/** How the page stands with these panels open and no others. */
function pageOf(panels: readonly PanelOfStep[], { sideTab, sheet }: ViewState): Page {
  const aside = panels.map((panel) => ASIDES[panel]).find((one) => one !== undefined) ?? null;
  const tab = panels.find((panel) => panel === "workings" || panel === "findings");
  const isParts = panels.includes("parts");
  return {
    panels: { parts: isParts, side: tab !== undefined },
    sideTab: tab ?? sideTab,
    sheet: tab ?? (isParts ? "parts" : panels.length === 0 ? "readouts" : sheet),
    aside,
  };
}

/** The panels that stand open, as a step names them. */
export function panelsOnPage({ panels, sideTab, aside }: Page): PanelOfStep[] {
  const open: PanelOfStep[] = panels.parts ? ["parts"] : [];
  const named = (Object.keys(ASIDES) as PanelOfStep[]).find((panel) => aside !== null && ASIDES[panel] === aside);
  if (named) open.push(named);
  else if (panels.side) open.push(sideTab);
  return open;
}

/** Takes the answer to a step's question in words. */
export function answer(choice: number): void {
  const { at, answers } = lessonStore.getState();
  lessonStore.setState({ answers: new Map(answers).set(at, choice) });
}

/** Leaves the lesson: the drive stays, and the panels are as they were before. */
export function leaveLesson(): void {
  if (!lessonStore.getState().lesson) return;
  endLesson();
  lookAway();
  setDemo({ shown: null });
  askInstead(null);
  const asksOwn = documentStore.getState().solved.veil !== undefined;
  if (pageBefore) setView({ ...pageBefore, ...(asksOwn ? { aside: "question" as const } : {}) });
  pageBefore = null;
}

/** Puts the drive from before the lesson back on the bench; one undo step. */
export function backToOwnDrive(before: Drive): void {
  leaveLesson();
  openDrive(before, { keepHistory: true, label: "going back to your own drive" });
}

// The drive's own lesson is walked through as it stands: a step that is reworded reads so at once.
documentStore.subscribe(({ drive }, before) => {
  const { lesson, isOwn, at } = lessonStore.getState();
  if (!lesson || !isOwn || drive[LESSON_KEY] === before.drive[LESSON_KEY]) return;
  const now = lessonOf(drive);
  if (now === null || typeof now === "string" || now.steps.length === 0) leaveLesson();
  else lessonStore.setState({ lesson: now, at: Math.min(at, now.steps.length - 1) });
});

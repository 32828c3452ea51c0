/**
 * The lesson that is walked through, and at which step: all that the bench and the layout have to know of it. What goes from step to step
 * comes with the first lesson (`lesson-step.ts`). Never part of undo.
 */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { LESSON_KEY } from "../engine/drive/lesson-key";
import type { Lesson, LessonStep } from "../engine/drive/lesson-read";
import type { Drive } from "../engine/drive/types";
import { documentStore } from "./document";

export interface LessonState {
  /** Null while none is walked through. */
  readonly lesson: Lesson | null;
  /** It is the open drive's own. */
  readonly isOwn: boolean;
  /** Name of its file beside the page; null where it came from elsewhere. */
  readonly file: string | null;
  /** Step, counted from 0. */
  readonly at: number;
  /** By step: which choice was taken last. */
  readonly answers: ReadonlyMap<number, number>;
  /** What stood on the bench before a lesson put drives of its own there; null where it puts none. */
  readonly before: Drive | null;
  /** The open drive came with a lesson of its own, which nobody has begun or put away yet. */
  readonly isOffered: boolean;
}

const NONE: LessonState = {
  lesson: null,
  isOwn: false,
  file: null,
  at: 0,
  answers: new Map(),
  before: null,
  isOffered: false,
};

export const lessonStore = createStore<LessonState>()(() => NONE);
export const useLesson = <T>(selector: (state: LessonState) => T): T => useStore(lessonStore, selector);

export const stepNow = ({ lesson, at }: LessonState): LessonStep | null => lesson?.steps[at] ?? null;

/** Whether what the step leaves out may be done on the bench: all of it where no step says otherwise. */
export const freeHandle = (state: LessonState): NonNullable<LessonStep["free"]> | null => stepNow(state)?.free ?? null;

/** Puts the offer of a drive's own lesson away. */
export const notNow = (): void => lessonStore.setState({ isOffered: false });
export const endLesson = (): void => lessonStore.setState(NONE);

let byLesson = false;
/** Opens drives that belong to the lesson: it goes on. */
export function asLesson(open: () => void): void {
  byLesson = true;
  try {
    open();
  } finally {
    byLesson = false;
  }
}

// Another drive ends the lesson of the one before, and may bring its own. It is offered, never begun: a teacher may be at work on it.
documentStore.subscribe(({ opened, drive }, before) => {
  if (opened === before.opened || byLesson) return;
  const isOffered = drive[LESSON_KEY] !== undefined;
  lessonStore.setState({ ...NONE, isOffered });
});

/** Edits of the drive's own lesson, kept as `x-lesson`: a step is kept, reworded, moved, removed. */

import { LESSON_KEY } from "../lesson-key";
import { type LessonStep, lessonOf } from "../lesson-read";
import { LESSON_LIMITS } from "../lesson-schema";
import { isRecord } from "../schema-parts";
import type { Drive } from "../types";
import { type Edit, refuse, without } from "./edit";

/** The same edit wherever the drive's lesson is one; refused where what stands there can't be read. */
const ofSteps =
  (change: (steps: readonly LessonStep[]) => readonly LessonStep[] | string): Edit =>
  (drive) => {
    const lesson = lessonOf(drive);
    if (typeof lesson === "string") return refuse(`${lesson} Take it out of the file first.`);
    const steps = change(lesson?.steps ?? []);
    return typeof steps === "string" ? refuse(steps) : withSteps(drive, steps);
  };

function withSteps(drive: Drive, steps: readonly LessonStep[]): Drive {
  const kept = drive[LESSON_KEY];
  // Its title, and further keys that are somebody's.
  const rest = isRecord(kept) ? without(kept, "steps") : {};
  if (steps.length === 0) return without(drive, LESSON_KEY) as Drive;
  return { ...drive, [LESSON_KEY]: { ...rest, steps } };
}

const gone = (at: number): string => `There is no step ${at + 1} in the drive's lesson any more.`;
const isThere = (steps: readonly LessonStep[], at: number): boolean => steps[at] !== undefined;

/** Keeps a step as the last of the lesson. */
export const keepStep = (step: LessonStep): Edit =>
  ofSteps((steps) =>
    steps.length >= LESSON_LIMITS.steps
      ? `A lesson has ${LESSON_LIMITS.steps} steps at most, and this one has them; remove some first.`
      : [...steps, step],
  );

/** Changes step `at`, counted from 0; keys that are undefined are taken out. */
export const changeStep = (at: number, patch: Partial<LessonStep>): Edit =>
  ofSteps((steps) =>
    isThere(steps, at)
      ? steps.map((step, i) => (i === at ? (without({ ...step, ...patch }) as LessonStep) : step))
      : gone(at),
  );

export const removeStep = (at: number): Edit =>
  ofSteps((steps) => (isThere(steps, at) ? steps.filter((_, i) => i !== at) : gone(at)));

/** Moves step `at` before (-1) or after (1) its neighbour; at the end of the list nothing moves. */
export const moveStep = (at: number, by: 1 | -1): Edit =>
  ofSteps((steps) => {
    const step = steps[at];
    if (!step) return gone(at);
    const others = steps.filter((_, i) => i !== at);
    const to = Math.min(Math.max(at + by, 0), others.length);
    return [...others.slice(0, to), step, ...others.slice(to)];
  });

/** Edits of what the drive's question hides. */
import { FIGURES, type Figure, QUESTION_KEY, type Question, questionOf } from "../question";
import { isRecord } from "../schema-parts";
import type { Drive } from "../types";
import { type Edit, missing, shaftOf, without } from "./edit";

/** Hides one figure of a shaft, or shows it again. A question that hides nothing any more is taken out of the drive. */
export const setHidden =
  (shaft: string, figure: Figure, isHidden: boolean): Edit =>
  (drive) => {
    if (!shaftOf(drive, shaft)) return missing("shaft", shaft);
    const now = questionOf(drive);
    if ((now.get(shaft)?.has(figure) ?? false) === isHidden) return drive;
    const figures = new Set(now.get(shaft));
    if (isHidden) figures.add(figure);
    else figures.delete(figure);
    const next = new Map(now);
    if (figures.size > 0) next.set(shaft, figures);
    else next.delete(shaft);
    return written(drive, next);
  };

/** Takes the whole question out of the drive. */
export const endQuestion: Edit = (drive) =>
  drive[QUESTION_KEY] === undefined ? drive : (without(drive, QUESTION_KEY) as Drive);

function written(drive: Drive, question: Question): Drive {
  if (question.size === 0) return without(drive, QUESTION_KEY) as Drive;
  const kept = drive[QUESTION_KEY];
  const hide = drive.shafts.flatMap(({ id }) => {
    const figures = question.get(id);
    return figures ? [{ shaft: id, figures: FIGURES.filter((figure) => figures.has(figure)) }] : [];
  });
  // Further keys of the question are somebody's.
  return { ...drive, [QUESTION_KEY]: { ...(isRecord(kept) ? kept : {}), hide } };
}

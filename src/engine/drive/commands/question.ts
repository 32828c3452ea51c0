/** Edits of what the drive's question hides; entries of another form stay where they are. */
import { FIGURES, type Figure, QUESTION_KEY, questionOf } from "../question";
import { isRecord, own } from "../schema-parts";
import type { Drive } from "../types";
import { type Edit, missing, shaftOf, without } from "./edit";

/** Hides one figure of a shaft, or shows it again. A question that hides nothing any more is taken out of the drive. */
export const setHidden =
  (shaft: string, figure: Figure, isHidden: boolean): Edit =>
  (drive) => {
    if (!shaftOf(drive, shaft)) return missing("shaft", shaft);
    const now = questionOf(drive).get(shaft);
    if ((now?.has(figure) ?? false) === isHidden) return drive;
    const figures = FIGURES.filter((one) => (one === figure ? isHidden : now?.has(one)));
    const others = entriesOf(drive).filter((entry) => shaftOfEntry(entry) !== shaft);
    return withEntries(drive, figures.length === 0 ? others : [...others, { shaft, figures }]);
  };

/** Takes the whole question out of the drive. */
export const endQuestion: Edit = (drive) =>
  drive[QUESTION_KEY] === undefined ? drive : (without(drive, QUESTION_KEY) as Drive);

/** The drive without what is hidden of shafts that `before` had and it has no more: another shaft may get the id. */
export function withoutLostHidden(before: Drive, after: Drive): Drive {
  const entries = entriesOf(after);
  const kept = entries.filter((entry) => {
    const shaft = shaftOfEntry(entry);
    return shaft === null || shaftOf(after, shaft) !== undefined || shaftOf(before, shaft) === undefined;
  });
  return kept.length === entries.length ? after : withEntries(after, kept);
}

function entriesOf(drive: Drive): readonly unknown[] {
  const kept = drive[QUESTION_KEY];
  const list = isRecord(kept) ? own(kept, "hide") : undefined;
  return Array.isArray(list) ? list : [];
}

/** The shaft that an entry is about; null where it is of another form. */
function shaftOfEntry(entry: unknown): string | null {
  if (!isRecord(entry) || !Array.isArray(own(entry, "figures"))) return null;
  const shaft = own(entry, "shaft");
  return typeof shaft === "string" ? shaft : null;
}

function withEntries(drive: Drive, entries: readonly unknown[]): Drive {
  const kept = drive[QUESTION_KEY];
  // Further keys of the question are somebody's.
  const rest = isRecord(kept) ? without(kept, "hide") : {};
  if (entries.length === 0 && Object.keys(rest).length === 0) return without(drive, QUESTION_KEY) as Drive;
  return { ...drive, [QUESTION_KEY]: { ...rest, hide: entries } };
}

/** Edits of the notes pinned to a drive (`x-notes`); entries of another form stay where they are. */
import { hasPlace, NOTES_KEY, type NotePlace, noteEntries, readNote, writePlace } from "../notes";
import type { Drive } from "../types";
import { type Edit, type EditFault, missing, refuse } from "./edit";

/** Characters of one note, and how many notes a drive holds. Our own limits: a note is a remark, not a report. */
export const LONGEST_NOTE = 1000;
export const MOST_NOTES = 200;

const FOREIGN = `The ${NOTES_KEY} of this drive hold something else than a list of notes; rename that key in the file, then pin notes.`;
const GONE = "This note is not in the drive any more; choose another.";

const withEntries = (drive: Drive, entries: readonly unknown[]): Drive => {
  const { [NOTES_KEY]: _, ...rest } = drive;
  return entries.length === 0 ? (rest as Drive) : { ...drive, [NOTES_KEY]: entries };
};

function wordsFault(text: string): EditFault | null {
  if (text.trim() === "") return refuse("A note needs words; write some, or remove the note.");
  if (text.length > LONGEST_NOTE) {
    return refuse(
      `A note has at most ${LONGEST_NOTE.toLocaleString("en")} characters, and this one has ${text.length.toLocaleString("en")}; make it shorter.`,
    );
  }
  return null;
}

function placeFault(drive: Drive, at: NotePlace): EditFault | null {
  if (at.part === "point") {
    return at.point.every(Number.isFinite) ? null : refuse("A note's point needs three numbers.");
  }
  return hasPlace(drive, at) ? null : missing(at.part, at.id);
}

/** Pins a note to a shaft, gear or mesh of the drive, or to a point of the world (mm). */
export const addNote =
  (text: string, at: NotePlace): Edit =>
  (drive) => {
    const entries = noteEntries(drive);
    if (!entries) return refuse(FOREIGN);
    if (entries.length >= MOST_NOTES) {
      return refuse(`A drive holds ${MOST_NOTES} notes at most, and this one has them; remove some first.`);
    }
    const fault = wordsFault(text) ?? placeFault(drive, at);
    return fault ?? withEntries(drive, [...entries, { text, at: writePlace(at) }]);
  };

/** Changes the words of a note, or what it is pinned to; what else its entry holds stays. */
export const changeNote =
  (entry: number, patch: { readonly text?: string; readonly at?: NotePlace }): Edit =>
  (drive) => {
    const entries = noteEntries(drive);
    const held = entries?.[entry];
    if (!entries || !readNote(held)) return refuse(GONE);
    const { text, at } = patch;
    const fault = (text === undefined ? null : wordsFault(text)) ?? (at ? placeFault(drive, at) : null);
    if (fault) return fault;
    const changed = {
      ...(held as object),
      ...(text === undefined ? {} : { text }),
      ...(at ? { at: writePlace(at) } : {}),
    };
    return withEntries(
      drive,
      entries.map((other, i) => (i === entry ? changed : other)),
    );
  };

export const removeNote =
  (entry: number): Edit =>
  (drive) => {
    const entries = noteEntries(drive);
    if (!entries || !readNote(entries[entry])) return refuse(GONE);
    return withEntries(
      drive,
      entries.filter((_, i) => i !== entry),
    );
  };

/** The drive without the notes of parts that `before` had and it has no more: a note goes with its part. */
export function withoutLostNotes(before: Drive, after: Drive): Drive {
  const entries = noteEntries(after);
  if (!entries || entries.length === 0) return after;
  const kept = entries.filter((entry) => {
    const note = readNote(entry);
    return !note || hasPlace(after, note.at) || !hasPlace(before, note.at);
  });
  return kept.length === entries.length ? after : withEntries(after, kept);
}

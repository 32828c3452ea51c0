/** The notes pinned to the drive: each with its place, to change and to remove; and a new one. */
import { MapPin, Pencil, Trash2 } from "lucide-react";
import { type ReactNode, useId, useState } from "react";
import { addNote, changeNote, LONGEST_NOTE, removeNote } from "../../engine/drive/commands/notes";
import { hasPlace, type NotePlace, notesOf, type PinnedNote } from "../../engine/drive/notes";
import { notePlaceWords } from "../../engine/explain/note-words";
import { useDocument } from "../../store/document";
import { toggleNote, useMeasuring } from "../../store/measuring";
import { announce, hover, type Part, useView } from "../../store/view";
import { tryEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import { NumberField } from "../fields/number-field";
import { choiceValue, partChoices, partOfChoice } from "./choices";
import styles from "./measure.module.css";

export const NoteList = () => {
  const solved = useDocument((state) => state.solved);
  const heading = useId();
  const notes = notesOf(solved.drive);
  return (
    <section className={styles.group} aria-labelledby={heading}>
      <h3 id={heading}>Notes</h3>
      {notes.length === 0 ? (
        <p className={styles.soft}>None yet. A note is pinned to a part or a point, and saved with the drive.</p>
      ) : (
        <ul className={styles.notes} aria-label="Notes">
          {notes.map((note) => (
            <NoteItem key={note.entry} note={note} />
          ))}
        </ul>
      )}
      <NewNote />
    </section>
  );
};

const partAt = (at: NotePlace): Part | null => (at.part === "point" ? null : { kind: at.part, id: at.id });

const NoteItem = ({ note }: { readonly note: PinnedNote }) => {
  const solved = useDocument((state) => state.solved);
  const isShown = useMeasuring((state) => state.note === note.entry);
  const [isEdited, setEdited] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);
  const part = partAt(note.at);
  const place = notePlaceWords(solved, note.at);
  const isThere = hasPlace(solved.drive, note.at);
  const remove = (): void => {
    const refused = tryEdit(removeNote(note.entry), `removing note ${note.number}`);
    setRefusal(refused);
    if (refused === null) announce(`Removed note ${note.number}. Undo brings it back.`);
  };
  if (isEdited) {
    return (
      <li className={styles.note}>
        <NoteForm
          label={`Words of note ${note.number}`}
          text={note.text}
          button="Keep"
          onDone={(text) => {
            const refused = tryEdit(changeNote(note.entry, { text }), `note ${note.number}`);
            if (refused === null) setEdited(false);
            return refused;
          }}
          onCancel={() => setEdited(false)}
        />
      </li>
    );
  }
  return (
    <li
      className={styles.note}
      data-shown={isShown || undefined}
      onPointerEnter={() => hover(part && isThere ? part : null)}
      onPointerLeave={() => hover(null)}
    >
      <p className={styles.text}>
        <b>{note.number}</b> {note.text}
      </p>
      <p className={styles.soft}>{place}</p>
      {refusal === null ? null : <p role="alert">{refusal}</p>}
      <div className={styles.row}>
        {isThere ? (
          <button
            type="button"
            className={styles.button}
            aria-label={`Show note ${note.number}`}
            aria-pressed={isShown}
            onClick={() => toggleNote(note.entry, part)}
          >
            <MapPin aria-hidden size={18} /> Show
          </button>
        ) : null}
        <button
          type="button"
          className={styles.button}
          aria-label={`Change note ${note.number}`}
          onClick={() => setEdited(true)}
        >
          <Pencil aria-hidden size={18} /> Change
        </button>
        <button type="button" className={styles.button} aria-label={`Remove note ${note.number}`} onClick={remove}>
          <Trash2 aria-hidden size={18} /> Remove
        </button>
      </div>
    </li>
  );
};

const POINT = { value: "point", words: "A point of the room" };
const AXES = ["x", "y", "z"] as const;

const NewNote = () => {
  const solved = useDocument((state) => state.solved);
  const selection = useView((state) => state.selection);
  /** Chosen here; null as long as it follows the selection. */
  const [chosen, setChosen] = useState<string | null>(null);
  const [point, setPoint] = useState<readonly [number, number, number]>([0, 0, 0]);
  const first = solved.drive.shafts[0];
  const followed: Part | null = selection ?? (first ? { kind: "shaft", id: first.id } : null);
  const value = chosen ?? choiceValue(followed);
  const part = partOfChoice(value);
  const at: NotePlace = part ? { part: part.kind, id: part.id } : { part: "point", point };
  return (
    <NoteForm
      key={solved.drive.shafts[0]?.id}
      label="New note"
      text=""
      button="Pin the note"
      onDone={(text) => {
        const refused = tryEdit(addNote(text, at), "a note");
        if (refused === null) announce(`Pinned a note ${notePlaceWords(solved, at)}.`);
        return refused;
      }}
    >
      <ChoiceField
        label="Pinned to"
        value={value}
        choices={[...partChoices(solved, part, true), POINT]}
        onChange={setChosen}
      />
      {part ? null : (
        <div className={styles.row}>
          {AXES.map((axis, i) => (
            <NumberField
              key={axis}
              label={`${axis} of the point`}
              shortLabel={axis}
              value={point[i] ?? 0}
              unit="mm"
              spokenUnit="millimetres"
              step={1}
              onChange={(x) => {
                setPoint(point.map((old, k) => (k === i ? x : old)) as unknown as readonly [number, number, number]);
                return null;
              }}
            />
          ))}
        </div>
      )}
    </NoteForm>
  );
};

interface FormProps {
  readonly label: string;
  readonly text: string;
  readonly button: string;
  /** Null where it went through, else why not. */
  readonly onDone: (text: string) => string | null;
  readonly onCancel?: () => void;
  readonly children?: ReactNode;
}

const NoteForm = ({ label, text, button, onDone, onCancel, children }: FormProps) => {
  const [words, setWords] = useState(text);
  const [refusal, setRefusal] = useState<string | null>(null);
  const id = useId();
  return (
    <form
      className={styles.form}
      onSubmit={(event) => {
        event.preventDefault();
        const refused = onDone(words);
        setRefusal(refused);
        if (refused === null) setWords(onCancel ? words : "");
      }}
    >
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={2}
        maxLength={LONGEST_NOTE}
        value={words}
        // biome-ignore lint/a11y/noAutofocus: who asked to change a note goes on in it.
        autoFocus={onCancel !== undefined}
        aria-describedby={refusal === null ? undefined : `${id}-refusal`}
        onChange={(event) => setWords(event.target.value)}
      />
      {children}
      {refusal === null ? null : (
        <p id={`${id}-refusal`} className={styles.reason} role="alert">
          {refusal}
        </p>
      )}
      <div className={styles.row}>
        <button type="submit" className={styles.button}>
          {button}
        </button>
        {onCancel ? (
          <button type="button" className={styles.button} onClick={onCancel}>
            Leave as it was
          </button>
        ) : null}
      </div>
    </form>
  );
};

/** What a learner answers, and the reveal: the drive turns, and the first mesh where the guess went another way is selected. */
import { Copy, Eye, EyeOff } from "lucide-react";
import { type FormEvent, type RefObject, useEffect, useRef, useState } from "react";
import { answerWords, rightAnswer } from "../../engine/question/answers";
import { isComplaint } from "../../engine/question/guess";
import type { Solved } from "../../engine/solved";
import { nameText } from "../../engine/wording";
import { setPlaying } from "../../store/clock";
import { documentStore, reveal, useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { announce, select } from "../../store/view";
import { copyAloud } from "../workings/copy-aloud";
import { AskFields } from "./ask-fields";
import { type Asked, guessStore, guessText, NOTHING, readField, useGuesses, verdictOf } from "./guesses";
import { Hands } from "./hands";
import styles from "./question.module.css";

interface SideProps {
  readonly truth: Solved;
  readonly asked: readonly Asked[];
}

const shownWords = ({ motion }: Solved): string =>
  motion.speed.some((speed) => speed !== null && speed !== 0)
    ? "Revealed: the drive turns, and every figure is shown."
    : "Revealed: every figure is shown. Nothing turns.";

const isAsked = ({ figures }: Asked): boolean => figures.size > 0;

export function LearnerSide({ truth, asked }: SideProps) {
  const isRevealed = useDocument((state) => state.isRevealed);
  const units = useUnits();
  const [isChecked, setChecked] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  useFocusAfter(form, isRevealed);
  const typedOf = (id: string) => guessStore.getState().typed.get(id) ?? NOTHING;

  const submit = (event: FormEvent): void => {
    event.preventDefault();
    setChecked(true);
    const isUnread = asked.some(({ id, figures }) =>
      (["ratio", "speed", "torque"] as const).some((field) => {
        const read = figures.has(field) ? readField(field, typedOf(id), units) : null;
        return read !== null && isComplaint(read);
      }),
    );
    if (isUnread) {
      announce("One guess can't be read.");
      // The complaint is there once this is rendered.
      setTimeout(() => form.current?.querySelector<HTMLElement>("[aria-invalid=true]")?.focus());
      return;
    }
    const verdicts = asked
      .filter(isAsked)
      .map((one) => ({ one, verdict: verdictOf(truth, one, typedOf(one.id), units) }));
    reveal(true);
    setPlaying(true);
    const wrong = verdicts.find(({ verdict }) => verdict?.mesh != null)?.verdict;
    const mesh = truth.drive.meshes[wrong?.mesh ?? -1]?.id;
    select(mesh === undefined ? null : { kind: "mesh", id: mesh });
    const told = verdicts.map(
      ({ one, verdict }) => `${one.name}: ${verdict?.sentence ?? toldWords(truth, one, units)}`,
    );
    announce(told.length === 0 ? shownWords(truth) : told.join(" "));
  };

  return (
    <form ref={form} className={styles.group} aria-label="Your guess" noValidate onSubmit={submit}>
      <p className={styles.soft}>
        {isRevealed
          ? shownWords(truth)
          : "Hidden until you reveal it. The drive stands still meanwhile; workings, drawings, demonstrations, wishes and new parts are closed."}
      </p>
      {asked.map((one) => (
        <fieldset key={one.id} className={styles.asked}>
          <legend>{one.name}</legend>
          <AskFields truth={truth} asked={one} isChecked={isChecked} isLocked={isRevealed} />
          {one.notes.map((note) => (
            <p key={note} className={styles.soft}>
              {note}
            </p>
          ))}
          {isRevealed && isAsked(one) ? <Outcome truth={truth} asked={one} /> : null}
          <Hands truth={truth} asked={one} isRevealed={isRevealed} />
        </fieldset>
      ))}
      <div className={styles.row}>
        {isRevealed ? (
          // A key of its own: the same element, turned into the other button by this click, would submit at once.
          <button key="hide" type="button" className={styles.button} onClick={() => reveal(false)}>
            <EyeOff size={20} aria-hidden /> Hide again
          </button>
        ) : (
          <button key="reveal" type="submit" className={styles.main}>
            <Eye size={20} aria-hidden /> Reveal
          </button>
        )}
        {asked.some(isAsked) ? <CopyAnswers truth={truth} asked={asked.filter(isAsked)} /> : null}
      </div>
    </form>
  );
}

/** The button that was pressed goes: the focus moves to what came out, and when all is hidden again to the first field. */
function useFocusAfter(form: RefObject<HTMLFormElement | null>, isRevealed: boolean): void {
  const was = useRef(isRevealed);
  useEffect(() => {
    if (was.current === isRevealed) return;
    was.current = isRevealed;
    const at = document.activeElement;
    if (at !== document.body && !form.current?.contains(at)) return;
    const told = isRevealed ? form.current?.querySelector<HTMLElement>("[data-outcome]") : null;
    (told ?? form.current?.querySelector<HTMLElement>("button:not(:disabled), input"))?.focus();
  }, [form, isRevealed]);
}

/** For a shaft of which nothing was guessed. */
function toldWords(truth: Solved, { shaft, figures }: Asked, units: ReturnType<typeof useUnits>): string {
  const right = rightAnswer(truth, shaft);
  return right
    ? `Not guessed; in truth ${answerWords(truth, shaft, right, figures, units)}.`
    : "The drive doesn't fix how it turns.";
}

/** What the reveal says of one shaft, and the way to the mesh that it points at. */
function Outcome({ truth, asked }: { readonly truth: Solved; readonly asked: Asked }) {
  const units = useUnits();
  const typed = useGuesses((state) => state.typed.get(asked.id) ?? NOTHING);
  const verdict = verdictOf(truth, asked, typed, units);
  const mesh = truth.drive.meshes[verdict?.mesh ?? -1]?.id;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset holds fields, and this holds what came of them.
    <div
      role="group"
      tabIndex={-1}
      aria-label={`What comes out at ${asked.name}`}
      className={styles.outcome}
      data-outcome
      data-right={verdict ? verdict.isRight : undefined}
    >
      <p>{verdict?.sentence ?? toldWords(truth, asked, units)}</p>
      {mesh === undefined ? null : (
        <button type="button" className={styles.button} onClick={() => select({ kind: "mesh", id: mesh })}>
          Show mesh {nameText(mesh)}
        </button>
      )}
    </div>
  );
}

/** The answers as text: where the browser forbids copying, to be copied by hand. */
function CopyAnswers({ truth, asked }: SideProps) {
  const units = useUnits();
  const typed = useGuesses((state) => state.typed);
  const isRevealed = useDocument((state) => state.isRevealed);
  const [byHand, setByHand] = useState<string | null>(null);
  const copy = async (): Promise<void> => {
    const title = documentStore.getState().drive.title.trim();
    const lines = asked.map((one) => {
      const own = typed.get(one.id) ?? NOTHING;
      const verdict = isRevealed ? verdictOf(truth, one, own, units) : null;
      return `${one.name}: ${guessText(truth, one, own, units)}${verdict ? `\n  ${verdict.sentence}` : ""}`;
    });
    const text = [title === "" ? "My answers" : `My answers to “${title}”`, ...lines].join("\n");
    setByHand((await copyAloud(text, "Your answers")) ? null : text);
  };
  return (
    <>
      <button type="button" className={styles.button} onClick={() => void copy()}>
        <Copy size={20} aria-hidden /> Copy my answers
      </button>
      {byHand === null ? null : (
        <label className={styles.byHand}>
          The browser does not let this page copy; copy it by hand:
          <textarea readOnly rows={5} value={byHand} onFocus={(event) => event.currentTarget.select()} />
        </label>
      )}
    </>
  );
}

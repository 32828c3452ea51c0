/** A step's question in words: each answer that is taken says why, and a wrong one leaves the others open. */
import { Check, X } from "lucide-react";
import type { LessonStep } from "../engine/drive/lesson-read";
import { useLesson } from "../store/lesson-state";
import { answer } from "../store/lesson-step";
import { announce } from "../store/view";
import styles from "./lesson.module.css";
import { useFigured } from "./use-figured";

interface AskProps {
  readonly ask: NonNullable<LessonStep["ask"]>;
  readonly at: number;
}

export const Ask = ({ ask, at }: AskProps) => {
  const taken = useLesson((state) => state.answers.get(at));
  const figured = useFigured();
  const chosen = taken === undefined ? undefined : ask.choices[taken];
  const isRight = chosen?.right === true;
  const take = (i: number): void => {
    const choice = ask.choices[i];
    if (!choice) return;
    answer(i);
    announce(`${choice.right ? "Right." : "Not so."} ${figured(choice.because)}`);
  };
  return (
    <fieldset className={styles.ask}>
      <legend>{figured(ask.text)}</legend>
      {ask.choices.map((choice, i) => (
        <button
          // biome-ignore lint/suspicious/noArrayIndexKey: answers stand in their order and have no other name.
          key={i}
          type="button"
          className={styles.choice}
          aria-pressed={i === taken}
          data-right={i === taken ? isRight : undefined}
          onClick={() => take(i)}
        >
          {figured(choice.text)}
        </button>
      ))}
      {chosen ? (
        <p className={styles.because} data-right={isRight}>
          {isRight ? <Check aria-hidden size={20} /> : <X aria-hidden size={20} />}
          <span>
            <b>{isRight ? "Right." : "Not so."}</b> {figured(chosen.because)}
          </span>
        </p>
      ) : null}
    </fieldset>
  );
};

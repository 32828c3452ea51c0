/** Choices A to D for a show of hands: each with one count, kept on this page alone. */
import { Minus, Plus } from "lucide-react";
import { useMemo } from "react";
import { answerWords, choicesFor } from "../../engine/question/answers";
import type { Solved } from "../../engine/solved";
import { useUnits } from "../../store/units";
import { announce } from "../../store/view";
import { type Asked, setHands, useGuesses } from "./guesses";
import styles from "./question.module.css";

const LETTERS = ["A", "B", "C", "D"] as const;
const NO_HANDS: readonly number[] = [];

interface HandsProps {
  readonly truth: Solved;
  readonly asked: Asked;
  readonly isRevealed: boolean;
}

export function Hands({ truth, asked, isRevealed }: HandsProps) {
  const units = useUnits();
  const { id, shaft, figures, name } = asked;
  const choices = useMemo(() => choicesFor(truth, shaft, figures, units), [truth, shaft, figures, units]);
  const counts = useGuesses((state) => state.hands.get(id) ?? NO_HANDS);
  if (choices.length < 2) return null;
  const change = (i: number, by: number): void => {
    const next = choices.map((_, k) => Math.max(0, (counts[k] ?? 0) + (k === i ? by : 0)));
    setHands(id, next);
    announce(`${LETTERS[i]}: ${next[i]}`);
  };
  return (
    <details className={styles.hands}>
      <summary>Choices for a show of hands</summary>
      <ol aria-label={`Choices for ${name}`}>
        {choices.map((choice, i) => {
          const letter = LETTERS[i] ?? "";
          const isRight = choice.slip === null;
          return (
            <li key={letter} data-right={isRevealed ? isRight : undefined}>
              <b>{letter}</b>
              <span className={styles.choice}>
                {answerWords(truth, shaft, choice, figures, units)}
                {isRevealed && isRight ? <strong> – right</strong> : null}
              </span>
              <span className={styles.count}>
                <button type="button" aria-label={`One hand less for ${letter}`} onClick={() => change(i, -1)}>
                  <Minus size={18} aria-hidden />
                </button>
                <output aria-label={`Hands for ${letter}`}>{counts[i] ?? 0}</output>
                <button type="button" aria-label={`One hand more for ${letter}`} onClick={() => change(i, 1)}>
                  <Plus size={18} aria-hidden />
                </button>
              </span>
            </li>
          );
        })}
      </ol>
      <button type="button" className={styles.button} onClick={() => setHands(id, [])}>
        Count anew
      </button>
    </details>
  );
}

/** The drive's question: what is hidden and asked, the guess, and the reveal; and for the teacher, what to hide. */
import { useEffect, useMemo, useRef, useState } from "react";
import { type Question, questionOf } from "../../engine/drive/question";
import { hiddenFigures } from "../../engine/question/veil";
import { solve } from "../../engine/solve";
import type { Solved } from "../../engine/solved";
import { useDocument } from "../../store/document";
import { useView } from "../../store/view";
import { AsideHead } from "../aside-head";
import { type Asked, askedOf } from "./guesses";
import { LearnerSide } from "./learner-side";
import styles from "./question.module.css";
import { TeacherSide } from "./teacher-side";

/** The drive's solution with nothing hidden, for this panel alone. */
function useTruth(): Solved {
  const solved = useDocument((state) => state.solved);
  return useMemo(() => (solved.veil ? solve(solved.drive) : solved), [solved]);
}

/** Every shaft that the question hides something of, in the order of the drive. */
const allAsked = (truth: Solved, question: Question): readonly Asked[] =>
  truth.drive.shafts.flatMap(({ id }, shaft) => {
    const hidden = hiddenFigures(truth.drive, id, question);
    return hidden.size === 0 ? [] : askedOf(truth, shaft, hidden);
  });

export const QuestionPanel = () => {
  const truth = useTruth();
  // A lesson asks in the place of the drive's own question, which is then not to be edited.
  const byLesson = useDocument((state) => state.asked);
  const question = byLesson ?? questionOf(truth.drive);
  const asked = useMemo(() => allAsked(truth, question), [truth, question]);
  // A presentation changes nothing in the drive.
  const isPresenting = useView((state) => state.presenting);
  // Stays as it is while ticks are set: only the first look decides.
  const [isForTeacher] = useState(asked.length === 0);
  const isLearning = isPresenting || byLesson !== null;
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    // The panel itself, for a field would bring up the keyboard of a phone; but a page that has only just come keeps its beginning.
    if (document.activeElement === document.body || document.activeElement?.closest("[data-keeps-focus]")) return;
    panel.current?.focus({ preventScroll: true });
  }, []);
  return (
    <section ref={panel} tabIndex={-1} className={styles.panel} aria-label="Guess and reveal">
      <AsideHead title="Question" />
      <div className={styles.body}>
        {asked.length > 0 ? <LearnerSide truth={truth} asked={asked} /> : null}
        {isLearning ? null : (
          <details className={styles.fold} open={isForTeacher}>
            <summary>What the question hides</summary>
            <TeacherSide truth={truth} />
          </details>
        )}
        {isLearning && asked.length === 0 ? (
          <p className={styles.soft}>{byLesson ? "Nothing is asked here." : "The drive asks nothing."}</p>
        ) : null}
      </div>
    </section>
  );
};

/** The drive's question: what is hidden and asked, the guess, and the reveal; and for the teacher, what to hide. */
import { useEffect, useMemo, useRef, useState } from "react";
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
const allAsked = (truth: Solved): readonly Asked[] =>
  truth.drive.shafts.flatMap(({ id }, shaft) => {
    const hidden = hiddenFigures(truth.drive, id);
    return hidden.size === 0 ? [] : askedOf(truth, shaft, hidden);
  });

export const QuestionPanel = () => {
  const truth = useTruth();
  const asked = useMemo(() => allAsked(truth), [truth]);
  // A presentation changes nothing in the drive.
  const isPresenting = useView((state) => state.presenting);
  // Stays as it is while ticks are set: only the first look decides.
  const [isForTeacher] = useState(asked.length === 0);
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    // The panel itself, for a field would bring up the keyboard of a phone; but a page that has only just come keeps its beginning.
    if (document.activeElement !== document.body) panel.current?.focus({ preventScroll: true });
  }, []);
  return (
    <section ref={panel} tabIndex={-1} className={styles.panel} aria-label="Guess and reveal">
      <AsideHead title="Question" />
      <div className={styles.body}>
        {asked.length > 0 ? <LearnerSide truth={truth} asked={asked} /> : null}
        {isPresenting ? null : (
          <details className={styles.fold} open={isForTeacher}>
            <summary>What the question hides</summary>
            <TeacherSide truth={truth} />
          </details>
        )}
        {isPresenting && asked.length === 0 ? <p className={styles.soft}>The drive asks nothing.</p> : null}
      </div>
    </section>
  );
};

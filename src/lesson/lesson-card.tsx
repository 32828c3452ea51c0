/** One step of a lesson: what is said, what is asked, and the way on and back. */
import { Check, ChevronLeft, ChevronRight, RotateCcw, X } from "lucide-react";
import { useEffect, useId, useRef } from "react";
import { useLesson } from "../store/lesson-state";
import { driveOfStep, goTo, leaveLesson } from "../store/lesson-step";
import { announce, useView } from "../store/view";
import { Ask } from "./ask";
import styles from "./lesson.module.css";
import { useFigured } from "./use-figured";
import { useTroubles } from "./use-troubles";

interface CardProps {
  /** What is offered at the end beside leaving; null for nothing. */
  readonly onBack: (() => void) | null;
}

export const LessonCard = ({ onBack }: CardProps) => {
  const lesson = useLesson((state) => state.lesson);
  const at = useLesson((state) => state.at);
  const isPresenting = useView((state) => state.presenting);
  const figured = useFigured();
  const troubles = useTroubles();
  const heading = useRef<HTMLHeadingElement>(null);
  const textId = useId();
  const step = lesson?.steps[at];
  const first = useRef(true);

  // biome-ignore lint/correctness/useExhaustiveDependencies: each step is begun at its title, as each page is.
  useEffect(() => {
    if (!isPresenting) heading.current?.focus();
    if (!first.current || isPresenting) announce(step ? figured(step.text) : "");
    first.current = false;
  }, [at, lesson?.title]);

  if (!lesson || !step) return null;
  const { length: count } = lesson.steps;
  const isLast = at === count - 1;
  return (
    <section className={styles.card} aria-label={`Lesson: ${lesson.title || "of this drive"}`} data-keeps-focus>
      <header className={styles.head}>
        <label className={styles.place}>
          <span className="only-heard">Step of the lesson</span>
          <select value={at} onChange={({ target }) => goTo(Number(target.value))}>
            {lesson.steps.map((one, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: steps stand in their order and have no other name.
              <option key={i} value={i}>
                {`${i + 1} of ${count}${one.title ? `: ${one.title}` : ""}`}
              </option>
            ))}
          </select>
        </label>
        <button type="button" className={styles.icon} title="Start this step anew" onClick={() => goTo(at)}>
          <RotateCcw aria-hidden size={18} />
          <span className="only-heard">Start this step anew</span>
        </button>
        <button type="button" className={styles.icon} title="Leave the lesson; the drive stays" onClick={leaveLesson}>
          <X aria-hidden size={20} />
          <span className="only-heard">Leave the lesson; the drive stays</span>
        </button>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <div className={styles.body} tabIndex={0}>
        <h2 ref={heading} tabIndex={-1} aria-describedby={textId}>
          {step.title || `Step ${at + 1}`}
        </h2>
        <div id={textId} className={styles.text}>
          {figured(step.text)
            .split("\n\n")
            .map((paragraph) => (
              <p key={paragraph}>{paragraph}</p>
            ))}
        </div>
        {troubles.map((trouble) => (
          <p key={trouble} className={styles.trouble} role="alert">
            This step can’t be shown whole: {trouble}
            {driveOfStep(lesson, at) ? " Start this step anew to have its own drive back." : ""}
          </p>
        ))}
        {step.ask ? <Ask key={at} ask={step.ask} at={at} /> : null}
      </div>
      <footer className={styles.foot}>
        <button type="button" disabled={at === 0} onClick={() => goTo(at - 1)}>
          <ChevronLeft aria-hidden size={20} /> Back
        </button>
        {isLast ? (
          <>
            {onBack ? (
              <button type="button" title="Put your own drive back on the bench" onClick={onBack}>
                Your own drive
              </button>
            ) : null}
            <button type="button" className={styles.main} onClick={leaveLesson}>
              <Check aria-hidden size={20} /> Done
            </button>
          </>
        ) : (
          <button type="button" className={styles.main} onClick={() => goTo(at + 1)}>
            Next <ChevronRight aria-hidden size={20} />
          </button>
        )}
      </footer>
    </section>
  );
};

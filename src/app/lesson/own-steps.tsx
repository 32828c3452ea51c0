/** The steps of the open drive's own lesson: walked from any of them, reworded, moved, removed; each change one undo step. */
import { ArrowDown, ArrowUp, type LucideIcon, Play, Trash2 } from "lucide-react";
import { changeStep, moveStep, removeStep } from "../../engine/drive/commands/lesson-steps";
import { type LessonStep, lessonOf, troublesOf, troubleWords } from "../../engine/drive/lesson-read";
import { doEdit } from "../../panels/edit";
import { useDocument } from "../../store/document";
import { showDialog } from "../dialogs/dialog-store";
import css from "./lesson-forms.module.css";
import { withLessons } from "./with-lessons";

const walkFrom = (at: number): void => {
  showDialog(null);
  withLessons(({ startOwnLesson }) => startOwnLesson(at));
};

export const OwnSteps = () => {
  const drive = useDocument((state) => state.drive);
  const lesson = lessonOf(drive);
  const steps = typeof lesson === "string" ? [] : (lesson?.steps ?? []);
  return (
    <section className={css.part} aria-label="The lesson of this drive">
      <h3>The lesson of this drive</h3>
      {typeof lesson === "string" ? <p role="alert">{lesson}</p> : null}
      {steps.length === 0 ? (
        <p className={css.soft}>
          No steps yet. Put the bench as the class should see it, then keep it as a step below. Steps go with the file
          and with the link.
        </p>
      ) : (
        <>
          <button type="button" className={css.main} onClick={() => walkFrom(0)}>
            <Play aria-hidden size={18} /> Walk through it
          </button>
          <ol className={css.steps}>
            {steps.map((step, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: steps stand in their order and have no other name.
              <li key={at}>
                <Step step={step} at={at} count={steps.length} troubles={troublesOf(step, drive)} />
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
};

interface StepProps {
  readonly step: LessonStep;
  readonly at: number;
  readonly count: number;
  readonly troubles: ReturnType<typeof troublesOf>;
}

const Step = ({ step, at, count, troubles }: StepProps) => {
  const name = `step ${at + 1}`;
  /** Leaving the field keeps what was typed; an empty sentence is none to keep. */
  const reword = (text: string): void => {
    if (text.trim() !== "" && text !== step.text) doEdit(changeStep(at, { text }), `rewording ${name}`);
  };
  return (
    <>
      <textarea
        key={step.text}
        rows={2}
        defaultValue={step.text}
        aria-label={`What step ${at + 1} says`}
        onBlur={({ target }) => reword(target.value)}
      />
      {troubles.map((trouble) => (
        <p key={trouble.what} className={css.trouble}>
          Step {at + 1}: {troubleWords(trouble)}
        </p>
      ))}
      <div className={css.row}>
        <button type="button" className={css.button} onClick={() => walkFrom(at)}>
          <Play aria-hidden size={18} /> Go to {name}
        </button>
        <IconButton
          words={`Move ${name} earlier`}
          icon={ArrowUp}
          isOff={at === 0}
          act={() => doEdit(moveStep(at, -1), `moving ${name}`, `Step ${at + 1} is now step ${at}.`)}
        />
        <IconButton
          words={`Move ${name} later`}
          icon={ArrowDown}
          isOff={at === count - 1}
          act={() => doEdit(moveStep(at, 1), `moving ${name}`, `Step ${at + 1} is now step ${at + 2}.`)}
        />
        <IconButton
          words={`Remove ${name}`}
          icon={Trash2}
          act={() => doEdit(removeStep(at), `removing ${name}`, `Step ${at + 1} is removed; Undo brings it back.`)}
        />
      </div>
    </>
  );
};

interface IconProps {
  readonly words: string;
  readonly icon: LucideIcon;
  readonly isOff?: boolean;
  readonly act: () => void;
}

const IconButton = ({ words, icon: Icon, isOff = false, act }: IconProps) => (
  <button type="button" className={css.button} title={words} aria-label={words} disabled={isOff} onClick={act}>
    <Icon aria-hidden size={18} />
  </button>
);

/** Keeps what is on screen as a step of the drive's own lesson, with one sentence; says beforehand what it keeps. */
import { BookmarkPlus } from "lucide-react";
import { type FormEvent, useId, useState } from "react";
import { keepStep } from "../../engine/drive/commands/lesson-steps";
import { type LessonStep, lessonOf } from "../../engine/drive/lesson-read";
import { tryEdit } from "../../panels/edit";
import { ChoiceField } from "../../panels/fields/choice-field";
import { useDocument } from "../../store/document";
import { keptWords, stepOnScreen } from "../../store/lesson-keep";
import { announce, useView } from "../../store/view";
import css from "./lesson-forms.module.css";

type Free = NonNullable<LessonStep["free"]> | "all";

const FREE: readonly { readonly value: Free; readonly words: string }[] = [
  { value: "all", words: "all handles" },
  { value: "none", words: "no handle" },
  { value: "lean", words: "lean: the shaft angle" },
  { value: "swing", words: "swing round the axis" },
  { value: "slide", words: "slide along the shaft" },
  { value: "size", words: "size" },
];

const NO_WORDS = "Write what this step says; one sentence will do.";

export const KeepStep = () => {
  const drive = useDocument((state) => state.drive);
  const isPresenting = useView((state) => state.presenting);
  const [text, setText] = useState("");
  const [free, setFree] = useState<Free>("all");
  const [complaint, setComplaint] = useState<string | null>(null);
  const field = useId();
  const lesson = lessonOf(drive);
  const count = lesson === null || typeof lesson === "string" ? 0 : lesson.steps.length;
  if (isPresenting) return null;

  const keep = (event: FormEvent): void => {
    event.preventDefault();
    const said = text.trim();
    const step: LessonStep = { ...stepOnScreen(said), ...(free === "all" ? {} : { free }) };
    const refused = said === "" ? NO_WORDS : tryEdit(keepStep(step), "keeping a step of the lesson");
    setComplaint(refused);
    if (refused !== null) {
      document.getElementById(field)?.focus();
      return;
    }
    setText("");
    announce("Kept as the last step of this drive’s lesson. Undo takes it away.");
  };

  return (
    <form className={css.part} aria-label="Keep as a step" noValidate onSubmit={keep}>
      <h3>Keep as a step</h3>
      <p className={css.soft}>What is on screen now: {keptWords(stepOnScreen(""), drive).join("; ")}.</p>
      <label htmlFor={field}>What the step says</label>
      <textarea
        id={field}
        rows={2}
        value={text}
        aria-invalid={complaint !== null || undefined}
        aria-describedby={complaint === null ? undefined : `${field}-complaint`}
        placeholder="Which way will the wheel turn?"
        onChange={({ target }) => {
          setText(target.value);
          setComplaint(null);
        }}
      />
      {complaint === null ? null : (
        <p id={`${field}-complaint`} className={css.trouble} role="alert">
          {complaint}
        </p>
      )}
      <ChoiceField label="May be pulled" value={free} choices={FREE} onChange={setFree} />
      <details className={css.soft}>
        <summary>Figures within the sentence</summary>
        <p>
          In braces they are those of the drive as it then is: {"{speed of B}"}, {"{way of B}"}, {"{torque of B}"},{" "}
          {"{power of B}"}, {"{turns of A and B}"}; of a gear {"{size of a1}"}, {"{radius of a1}"},{" "}
          {"{pitch angle of a1}"}, {"{cone distance of a1}"}, {"{cone height of a1}"}; of a mesh {"{shaft angle of m1}"}{" "}
          and {"{slip torque of m1}"}. Shafts, gears and meshes go by their ids in the parts list.
        </p>
      </details>
      <button type="submit" className={css.main}>
        <BookmarkPlus aria-hidden size={18} /> Keep as step {count + 1}
      </button>
    </form>
  );
};

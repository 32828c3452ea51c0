/** Lessons to walk through; the steps of the drive's own; and what is on screen, kept as one more. */
import { fetchLesson, LESSONS, type LessonName } from "../../exchange/lessons";
import { notify } from "../../exchange/notices";
import { KeepStep } from "../lesson/keep-step";
import { OwnSteps } from "../lesson/own-steps";
import { withLessons } from "../lesson/with-lessons";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import css from "./lessons-dialog.module.css";
import list from "./samples-dialog.module.css";

const pick = async (name: LessonName): Promise<void> => {
  showDialog(null);
  const lesson = await fetchLesson(name);
  if (!lesson) return;
  // What was said of another drive.
  notify(null);
  withLessons(({ startLesson }) => startLesson(lesson, name.file));
};

export const LessonsDialog = () => (
  <Dialog title="Lessons" onClose={() => showDialog(null)}>
    <div className={css.body}>
      <p className={css.soft}>
        A lesson puts drives of its own on the bench, step by step; leaving it keeps the drive, and Undo brings yours
        back.
      </p>
      <ul className={list.list}>
        {LESSONS.map((name) => (
          <li key={name.file}>
            <button type="button" onClick={() => void pick(name)}>
              <strong>{name.title}</strong>
              <span>{name.about}</span>
            </button>
          </li>
        ))}
      </ul>
      <OwnSteps />
      <KeepStep />
    </div>
  </Dialog>
);

/** The card of the lesson, with the way back to the drive from before it. */
import { LessonCard } from "../../lesson/lesson-card";
import { useLesson } from "../../store/lesson-state";
import { backToOwnDrive } from "../../store/lesson-step";

export const LessonHere = () => {
  const before = useLesson((state) => state.before);
  return <LessonCard onBack={before && (() => backToOwnDrive(before))} />;
};

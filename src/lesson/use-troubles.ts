import { useMemo } from "react";
import { troublesOf } from "../engine/drive/lesson-read";
import { useDocument } from "../store/document";
import { useLesson } from "../store/lesson-state";
import { driveOfStep } from "../store/lesson-step";

const NONE: readonly string[] = [];
const OTHER = "another drive is on the bench.";

/** What of the present step can't be shown on the drive as it is now, each as a sentence. */
export function useTroubles(): readonly string[] {
  const lesson = useLesson((state) => state.lesson);
  const at = useLesson((state) => state.at);
  const drive = useDocument((state) => state.drive);
  return useMemo(() => {
    const step = lesson?.steps[at];
    if (!step) return NONE;
    const own = driveOfStep(lesson, at);
    // Undo goes back beyond the lesson's drive, whose parts are called alike in most drives; its title tells.
    if (own && own.title !== drive.title) return [OTHER];
    return troublesOf(step, drive).map(({ what }) => `${what}.`);
  }, [lesson, at, drive]);
}

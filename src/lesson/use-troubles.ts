import { useMemo } from "react";
import { troublesOf } from "../engine/drive/lesson-read";
import { useDocument } from "../store/document";
import { stepNow, useLesson } from "../store/lesson-state";

const NONE: readonly string[] = [];

/** What of the present step can't be shown on the drive as it is now, each as a sentence. */
export function useTroubles(): readonly string[] {
  const step = useLesson(stepNow);
  const drive = useDocument((state) => state.drive);
  return useMemo(() => (step ? troublesOf(step, drive).map(({ sentence }) => sentence) : NONE), [step, drive]);
}

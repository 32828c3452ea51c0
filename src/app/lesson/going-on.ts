/** A page that is loaded anew in the middle of one of our lessons offers to go on with it; its drive came back by itself. */
import { notify } from "../../exchange/notices";
import { mark } from "../../exchange/slots";
import { lessonStore } from "../../store/lesson-state";
import { withLessons } from "./with-lessons";

const KEY = "turnwise.lesson";

interface Place {
  readonly file: string;
  readonly at: number;
}

function kept(): Place | null {
  try {
    const { file, at } = JSON.parse(mark("sessionStorage", KEY) ?? "null") as Partial<Place>;
    return typeof file === "string" && typeof at === "number" && Number.isInteger(at) && at >= 0 ? { file, at } : null;
  } catch {
    return null;
  }
}

const goOn = ({ file, at }: Place): void =>
  withLessons(async ({ startLesson }) => {
    const { fetchLesson, LESSONS } = await import("../../exchange/lessons");
    const name = LESSONS.find((one) => one.file === file);
    const lesson = name && (await fetchLesson(name));
    if (lesson) startLesson(lesson, file, at);
  });

/** Offers to go on where this tab was, and keeps the place in it from now on. */
export function followPlace(): void {
  const place = kept();
  if (place) {
    notify({
      tone: "polite",
      text: `You were at step ${place.at + 1} of a lesson.`,
      action: { words: "Go on with it", run: () => goOn(place) },
    });
  }
  lessonStore.subscribe(({ lesson, file, at }, before) => {
    if (lesson === before.lesson && file === before.file && at === before.at) return;
    mark("sessionStorage", KEY, lesson && file !== null ? JSON.stringify({ file, at }) : null);
  });
}

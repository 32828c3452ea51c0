/** Lessons: those of ours under `lessons/`, fetched when one is picked, and those of others from a file. */
import { type Lesson, parseLesson } from "../engine/drive/lesson-read";
import { textBeside } from "./beside-text";
import { shownName } from "./file-name";
import { notify, refuse } from "./notices";

export interface LessonName {
  /** The file `lessons/<file>.lesson.json`. */
  readonly file: string;
  readonly title: string;
  /** One sentence on what one learns; the same as in the file. */
  readonly about: string;
}

/** Title and sentence are those of the files, and a test keeps them so. */
export const LESSONS: readonly LessonName[] = [
  {
    file: "two-wheels-to-bevels",
    title: "From two wheels to bevel gears",
    about:
      "Why wheels get teeth, why shafts that meet get cones, what sets the ratio and the way round, and why bevel teeth taper.",
  },
];

/** The lesson in a file's text; null where there is none, and the reader is told why. */
export function lessonFrom(text: string, name: string): Lesson | null {
  const { lesson, faults } = parseLesson(text);
  if (lesson) return lesson;
  refuse({ name: shownName(name), faults });
  return null;
}

/** Fetches one of our lessons; null where it did not come, and the reader is told. */
export async function fetchLesson({ file, title }: LessonName): Promise<Lesson | null> {
  try {
    return lessonFrom(await textBeside(`lessons/${file}.lesson.json`), title);
  } catch {
    notify({
      tone: "alert",
      text: `The lesson "${title}" could not be fetched: try again when you are online.`,
    });
    return null;
  }
}

import { notify } from "../../exchange/notices";

/** Loads what goes through lessons, and begins; says so where it does not come. */
export const withLessons = (begin: (lessons: typeof import("../../store/lesson-step")) => unknown): void => {
  import("../../store/lesson-step").then(begin).catch(() =>
    notify({
      tone: "alert",
      text: "The lesson could not be loaded. Everything else works without it.",
      action: { words: "Load the lesson again", run: () => withLessons(begin) },
    }),
  );
};

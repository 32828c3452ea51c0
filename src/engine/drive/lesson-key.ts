/** How a lesson is told from afar; apart from `lesson.ts`, so that a page can look for one without the schema of it. */

/** Where a drive keeps a lesson of its own. */
export const LESSON_KEY = "x-lesson";

/** How the text of a lesson begins. */
export const LESSON_HEAD = /^\ufeff?\s*\{\s*"format"\s*:\s*"turnwise\.lesson"/;

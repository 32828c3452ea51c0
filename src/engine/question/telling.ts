/** Edits that would give away what a question hides, and so wait for its reveal. */
import { type Question, questionOf } from "../drive/question";
import type { Drive } from "../drive/types";
import { shaftName } from "../wording";
import { hiddenFigures } from "./veil";

/**
 * Why an edit must wait while a question hides something (the drive's own, unless another is asked in its place): the drive itself would
 * give what is asked, as where the asked shaft becomes the input, or a new part would show it, as a copy of the asked shaft does. Null
 * where it need not: it gives nothing away, or it changes what is asked.
 */
export function whyTelling(before: Drive, after: Drive, asked: Question | null = null): string | null {
  const [question, next] = [asked ?? questionOf(before), asked ?? questionOf(after)];
  const given = before.shafts.findIndex(({ id }) => {
    const hidden = hiddenFigures(after, id, next);
    return [...hiddenFigures(before, id, question)].some((one) => next.get(id)?.has(one) && !hidden.has(one));
  });
  if (given >= 0) {
    return `This would give away what the question asks of ${shaftName(before, given)}: reveal it first.`;
  }
  return hasNew(before.shafts, after.shafts) || hasNew(before.meshes, after.meshes)
    ? "New parts would give away what the question hides: reveal it first."
    : null;
}

type Parts = readonly { readonly id: string }[];

function hasNew(before: Parts, after: Parts): boolean {
  if (before === after) return false;
  const known = new Set(before.map(({ id }) => id));
  return after.some(({ id }) => !known.has(id));
}

/** Edits from the panels: made through the document, answered with the sentence that says why one can't be. */
import { documentStore, type Edit, perform } from "../store/document";
import { announce } from "../store/view";

/** Makes an edit; null if it went through, else why not. */
export function tryEdit(edit: Edit, label: string): string | null {
  if (perform(edit, label)) return null;
  return documentStore.getState().refusal ?? "This can't be done here.";
}

/** The same where there is no field to write the sentence beside: it is announced. */
export function doEdit(edit: Edit, label: string, done?: string): boolean {
  const refused = tryEdit(edit, label);
  if (refused) announce(refused);
  else if (done) announce(done);
  return refused === null;
}

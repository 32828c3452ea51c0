/** Edits from the panels: made through the document, answered with the sentence that says why one can't be. */
import { createStore } from "zustand/vanilla";
import type { Edit } from "../engine/drive/commands/edit";
import { documentStore, perform } from "../store/document";
import { announce } from "../store/view";

/** Why the last command was refused, for where there is no field to say it beside; null once anything went through. */
export const refusalStore = createStore<{ readonly sentence: string | null }>()(() => ({ sentence: null }));

documentStore.subscribe((state, before) => {
  if (state.drive !== before.drive) hush();
});

export function hush(): void {
  if (refusalStore.getState().sentence !== null) refusalStore.setState({ sentence: null });
}

/** Makes an edit; null if it went through, else why not. */
export function tryEdit(edit: Edit, label: string): string | null {
  if (perform(edit, label)) return null;
  return documentStore.getState().refusal ?? "This can't be done here.";
}

/** Makes an edit from a menu, a list or a button; says why where it can't be made, and `done` to a screen reader where it was. */
export function doEdit(edit: Edit, label: string, done?: string): boolean {
  const refused = tryEdit(edit, label);
  refusalStore.setState({ sentence: refused });
  if (refused === null && done) announce(done);
  return refused === null;
}

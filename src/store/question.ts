/**
 * While a drive's question hides figures: what would tell them by working them out anew (a stage that is added, changes looked for, a ghost, a
 * demonstration) stays closed, and the panel of the question stands in its place.
 */
import { documentStore, useDocument } from "./document";
import { announce, setView, viewStore } from "./view";

/** Whether anything of the open drive is hidden now. */
export const isHiding = (): boolean => documentStore.getState().solved.veil !== undefined;
export const useIsHiding = (): boolean => useDocument(({ solved }) => solved.veil !== undefined);

export const CLOSED = "Closed until the question is revealed, for it would tell what is hidden.";

function close(): void {
  const { adding, asking, ghost, aside } = viewStore.getState();
  if (!isHiding() || (!adding && !asking && !ghost && aside !== "demos")) return;
  setView({ adding: null, asking: null, ghost: null, aside: "question" });
  announce(CLOSED);
}

viewStore.subscribe(close);
documentStore.subscribe(({ solved, opened }, before) => {
  if (solved === before.solved) return;
  close();
  // A class that opens a link sees what it is asked.
  if (opened !== before.opened && isHiding()) setView({ aside: "question" });
});

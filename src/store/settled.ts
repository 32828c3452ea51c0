/**
 * The solution as it stood when edits last paused: for what takes long to work out and may follow a moment later (findings, their
 * count), so that no step of a drag or of a held key waits for it.
 */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Solved } from "../engine/solved";
import { documentStore, isHeldByHand } from "./document";
import { pausing } from "./pause";

/** ms after the last edit: longer than the pause between two steps of a held key. */
const SETTLED = 120;
interface Settled {
  readonly solved: Solved;
}

export const settledStore = createStore<Settled>()(() => ({ solved: documentStore.getState().solved }));

/** Reads the settled solution in a component; the selector must give a stable value. */
export const useSettled = <T>(selector: (state: Settled) => T): T => useStore(settledStore, selector);

const settling = pausing(SETTLED, Number.POSITIVE_INFINITY, () => {
  // A hand that rests goes on without a hitch.
  if (isHeldByHand()) settling.touched();
  else settle();
});

/** Takes the present solution over at once. */
export function settle(): void {
  settling.stop();
  const { solved } = documentStore.getState();
  if (settledStore.getState().solved !== solved) settledStore.setState({ solved });
}

documentStore.subscribe((state, before) => {
  if (state.solved === before.solved) return;
  // Another drive: what was found on the one before says nothing of it.
  if (state.opened !== before.opened) {
    settle();
    return;
  }
  settling.touched();
});

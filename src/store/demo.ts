/** The demonstration that is on: which, of which pair, and the drive that the bench shows in the place of the document's. Never part of undo. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Solved } from "../engine/solved";
import { watchGuest } from "./clock";
import { documentStore } from "./document";

export type DemoKind = "sweep" | "either" | "cup" | "taper" | "speeds" | "friction";

/** What each is called, in the order of the chain of thought. */
export const DEMO_TITLES: Readonly<Record<DemoKind, string>> = {
  friction: "Friction to teeth",
  cup: "Rolling cup",
  sweep: "Any shaft angle",
  speeds: "Surface speed",
  taper: "Taper",
  either: "Either drives",
};

export interface DemoState {
  readonly kind: DemoKind;
  /** Id of the mesh; null until one is chosen. */
  readonly mesh: string | null;
  /** What the bench shows while it is looked at; null: the drive itself. The document stays as it is. */
  readonly shown: {
    readonly solved: Solved;
    readonly words: string;
    /** Height of the teeth drawn, 0 smooth to 1 as they are; left out: as they are. */
    readonly growth?: number | undefined;
  } | null;
}

const AT_FIRST: DemoState = { kind: "sweep", mesh: null, shown: null };

export const demoStore = createStore<DemoState>()(() => AT_FIRST);
export const useDemo = <T>(selector: (state: DemoState) => T): T => useStore(demoStore, selector);
export const setDemo = (patch: Partial<DemoState>): void => demoStore.setState(patch);

/** The solution that is on the bench. */
export const solvedOnBench = (): Solved => (demoStore.getState().shown ?? documentStore.getState()).solved;
export const isDemoOnBench = (): boolean => demoStore.getState().shown !== null;

demoStore.subscribe(({ shown }) => watchGuest(shown?.solved ?? null));
documentStore.subscribe(({ solved, opened }, before) => {
  if (opened !== before.opened) demoStore.setState(AT_FIRST);
  // Shown of a drive that is no more it would mislead; the panel puts the new one there.
  else if (solved !== before.solved && isDemoOnBench()) demoStore.setState({ shown: null });
});

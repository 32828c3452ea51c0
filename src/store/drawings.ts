/** How drawings are laid out: for the panel and for figures alike. Never part of undo. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { DrawingWishes } from "../engine/drawing/sheet";
import { documentStore } from "./document";

export interface DrawingChoices extends Pick<DrawingWishes, "angle" | "gears"> {
  /** Id of the mesh that the section goes through; null for the selected one, else the first. */
  readonly mesh: string | null;
  readonly size: "small" | "medium" | "large";
}

export const drawingsStore = createStore<DrawingChoices>()(() => ({
  angle: "first",
  gears: "simplified",
  mesh: null,
  size: "small",
}));

export const useDrawings = <T>(selector: (state: DrawingChoices) => T): T => useStore(drawingsStore, selector);
export const setDrawings = (patch: Partial<DrawingChoices>): void => drawingsStore.setState(patch);

// Another drive has other meshes.
documentStore.subscribe(({ opened }, before) => {
  if (opened !== before.opened) drawingsStore.setState({ mesh: null });
});

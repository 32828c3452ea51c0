/** Leading to a part: it is selected (and so lit on the bench) and its row in the parts list comes into view, with the focus. */
import { createStore } from "zustand/vanilla";
import type { Solved } from "../engine/solved";
import { type Part, setView, viewStore } from "../store/view";

export interface RevealState {
  readonly part: Part | null;
  /** Rises with each wish, so that the same part can be wished for again. */
  readonly count: number;
}

export const revealStore = createStore<RevealState>()(() => ({ part: null, count: 0 }));

export function reveal(part: Part): void {
  const { panels } = viewStore.getState();
  setView({ selection: part, panels: { ...panels, parts: true }, sheet: "parts" });
  revealStore.setState(({ count }) => ({ part, count: count + 1 }));
}

/** The part that an id of a finding means. */
export function partOf({ index }: Solved, id: string): Part | null {
  if (index.shafts.has(id)) return { kind: "shaft", id };
  if (index.gears.has(id)) return { kind: "gear", id };
  if (index.meshes.has(id)) return { kind: "mesh", id };
  return null;
}

/** The index of the shaft in whose block a part stands in the parts list; -1 for none. */
export function shaftOfPart({ index, placement }: Solved, part: Part): number {
  if (part.kind === "shaft") return index.shafts.get(part.id) ?? -1;
  if (part.kind === "gear") return index.shaftOfGear[index.gears.get(part.id) ?? -1] ?? -1;
  const mesh = index.meshes.get(part.id);
  const shafts = mesh === undefined ? undefined : index.shaftsOfMesh[mesh];
  if (!shafts) return -1;
  // A mesh stands with the shaft that it places; one that closes a loop, with its second gear.
  const placed = shafts.find((shaft) => placement.shafts[shaft]?.placedBy === part.id);
  return placed ?? shafts[1];
}

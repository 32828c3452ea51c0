/** The close look at one mesh: which, from where, at what section, and how high its teeth are drawn. Never part of undo. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Solved } from "../engine/solved";
import { clockStore, setRate, watchMesh } from "./clock";
import { documentStore } from "./document";
import { type Part, viewStore } from "./view";

export interface CloseLook {
  /** Id of the mesh; null when the whole drive is looked at. */
  readonly mesh: string | null;
  /** Ids of its gears. */
  readonly gears: readonly string[];
  /** Along the contact line, from the heel; or from the side, across it. */
  readonly from: "along" | "side";
  /** Counts wishes to stand there, so that a repeated one is heard. */
  readonly aimed: number;
  /** The section drawn, 0 heel to 1 toe; null for none. */
  readonly section: number | null;
  /** Height of the teeth drawn, 0 smooth to 1 as they are. */
  readonly growth: number;
  /** Whether the line of action is drawn and told from the contact line. */
  readonly action: boolean;
}

const AT_REST: CloseLook = { mesh: null, gears: [], from: "along", aimed: 0, section: null, growth: 1, action: false };
/** At this rate a tooth passes in four seconds. */
const CLOSE_RATE = 0.5;

export const closeStore = createStore<CloseLook>()(() => AT_REST);
export const useClose = <T>(selector: (state: CloseLook) => T): T => useStore(closeStore, selector);
export const setClose = (patch: Pick<Partial<CloseLook>, "section" | "growth" | "action">): void =>
  closeStore.setState(patch);
export const lookFrom = (from: CloseLook["from"]): void =>
  closeStore.setState(({ aimed }) => ({ from, aimed: aimed + 1 }));

/** Toothed and placed. */
const isShowable = ({ placement }: Solved, mesh: number | undefined): mesh is number => {
  const placed = mesh === undefined ? null : placement.meshes[mesh];
  return !!placed && !placed.kind.isFriction;
};

/** The mesh that a close look would be at: the selected one, or one of the selected gear or shaft, or the first; null for none. */
export function meshToLookAt(solved: Solved, selection: Part | null): string | null {
  const { index, drive } = solved;
  const all = drive.meshes.map((_, i) => i).filter((i) => isShowable(solved, i));
  const chosen = ((): number[] => {
    if (!selection) return all;
    if (selection.kind === "mesh") return all.filter((i) => drive.meshes[i]?.id === selection.id);
    if (selection.kind === "gear") return all.filter((i) => drive.meshes[i]?.gears.includes(selection.id));
    const shaft = index.shafts.get(selection.id);
    return all.filter((i) => shaft !== undefined && index.shaftsOfMesh[i]?.includes(shaft));
  })();
  return drive.meshes[chosen[0] ?? -1]?.id ?? null;
}

/** The rate of the clock before the close look, to go back to. */
let rateBefore = CLOSE_RATE;

export function lookClosely(mesh: string): void {
  if (closeStore.getState().mesh === null) rateBefore = clockStore.getState().rate;
  watchMesh(mesh);
  setRate(CLOSE_RATE);
  const gears = documentStore.getState().drive.meshes.find(({ id }) => id === mesh)?.gears ?? [];
  closeStore.setState({ ...AT_REST, mesh, gears });
}

export function lookAway(): void {
  if (closeStore.getState().mesh === null) return;
  watchMesh(null);
  setRate(rateBefore);
  closeStore.setState(AT_REST);
}

documentStore.subscribe(({ solved, opened }, before) => {
  const { mesh } = closeStore.getState();
  if (mesh === null || solved === before.solved) return;
  if (opened !== before.opened || !isShowable(solved, solved.index.meshes.get(mesh))) lookAway();
});
viewStore.subscribe(({ adding, asking, selection }, before) => {
  // A stage that would be has to be seen whole.
  if ((adding && !before.adding) || (asking && !before.asking)) lookAway();
  const { mesh } = closeStore.getState();
  if (mesh === null || selection === before.selection || selection?.kind !== "mesh" || selection.id === mesh) return;
  const { solved } = documentStore.getState();
  if (isShowable(solved, solved.index.meshes.get(selection.id))) lookClosely(selection.id);
});

/** What goes on while a stage is being added: the ghost on the bench, and another shaft picked meanwhile. */
import { useEffect } from "react";
import type { Solved } from "../../engine/solved";
import { documentStore } from "../../store/document";
import { ghostOf } from "../../store/stage/ghost";
import { setView, viewStore } from "../../store/view";

export const cancelAdding = (): void => setView({ adding: null, ghost: null });

/** The drive that would be, on the bench as long as it is chosen. */
export function useGhost(next: Solved | null): void {
  useEffect(() => {
    setView({ ghost: next && ghostOf(documentStore.getState().solved, next) });
  }, [next]);
  useEffect(() => () => setView({ ghost: null }), []);
}

/** Another shaft or gear picked on the bench or in the list is the one to add to. */
export function useFollowSelection(): void {
  useEffect(
    () =>
      viewStore.subscribe(({ selection, adding }, before) => {
        if (!adding || !selection || selection === before.selection) return;
        if (selection.kind === "shaft" && selection.id !== adding.shaft) setView({ adding: { shaft: selection.id } });
        if (selection.kind !== "gear" || selection.id === adding.gear) return;
        const gear = documentStore.getState().drive.gears.find(({ id }) => id === selection.id);
        if (gear) setView({ adding: { shaft: gear.shaft, gear: gear.id } });
      }),
    [],
  );
}

/** What goes on while a stage is being added: the ghost on the bench, and another shaft picked meanwhile. */
import { useEffect } from "react";
import type { Solved } from "../../engine/solved";
import { documentStore } from "../../store/document";
import { setView, type ViewState, viewStore } from "../../store/view";

export const cancelAdding = (): void => setView({ adding: null, ghost: null });

/** The drive that would be, on the bench as long as it is chosen. */
export function useGhost(next: Solved | null): void {
  useEffect(() => {
    setView({ ghost: next && ghostOf(next) });
  }, [next]);
  useEffect(() => () => setView({ ghost: null }), []);
}

/** What is new in a drive that differs from the document's by one stage. */
function ghostOf(next: Solved): ViewState["ghost"] {
  const { drive } = documentStore.getState();
  const shafts = next.drive.shafts.slice(drive.shafts.length).map(({ id }) => id);
  const gears = next.drive.gears
    .slice(drive.gears.length)
    .flatMap(({ id, shaft }) => (shafts.includes(shaft) ? [] : id));
  return { solved: next, shafts, gears };
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

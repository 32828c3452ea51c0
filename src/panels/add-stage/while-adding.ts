/** What goes on while a stage is being added: the ghost on the bench, the focus, Escape, and another shaft picked meanwhile. */
import { type RefObject, useEffect } from "react";
import type { Solved } from "../../engine/solved";
import { documentStore, isDragging } from "../../store/document";
import { setView, type ViewState, viewStore } from "../../store/view";

/** ms after opening at which the focus moves in: a menu that led here gives its own back first. */
const MENU_CLOSES = 30;

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

/** Escape leaves all as it was, wherever the focus is; what has a use of its own for the key keeps it to itself. */
export function useEscape(): void {
  useEffect(() => {
    const leave = (event: KeyboardEvent): void => {
      if (event.key !== "Escape" || event.defaultPrevented || event.isComposing || isDragging()) return;
      if (event.target instanceof Element && event.target.closest("dialog")) return;
      event.preventDefault();
      cancelAdding();
    };
    document.addEventListener("keydown", leave);
    return () => document.removeEventListener("keydown", leave);
  }, []);
}

/** The focus goes to the first choice, and afterwards back to where it came from. */
export function useFocus(form: RefObject<HTMLFormElement | null>): void {
  useEffect(() => {
    let from = document.activeElement;
    const timer = setTimeout(() => {
      if (form.current?.contains(document.activeElement)) return;
      from = document.activeElement;
      form.current?.querySelector<HTMLInputElement>("input[type=radio]")?.focus();
    }, MENU_CLOSES);
    return () => {
      clearTimeout(timer);
      // Once the page has settled: the button that led here may be disabled until then.
      setTimeout(() => {
        if (document.activeElement !== null && document.activeElement !== document.body) return;
        if (from instanceof HTMLElement && from !== document.body && from.isConnected) from.focus();
        if (document.activeElement === document.body) document.getElementById("bench")?.focus();
      });
    };
  }, [form]);
}

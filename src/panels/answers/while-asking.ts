/** What goes on while changes are looked for: the ghost on the bench, Escape, another shaft picked meanwhile, and the search itself. */
import { type RefObject, useEffect, useState } from "react";
import type { Change } from "../../engine/wishes/change";
import { documentStore, isDragging } from "../../store/document";
import { type Asking, announce, setView, viewStore } from "../../store/view";
import { tryEdit } from "../edit";

export const leaveAsking = (): void => setView({ asking: null, ghost: null });

/** What of the drive that a change gives the bench draws as a ghost: all that is new, moved or cut anew; else the shaft asked about. */
function ghostOf({ solved, difference }: Change, shaft: string) {
  const shafts = [...difference.newShafts, ...difference.moved];
  const gears = [...difference.newGears, ...difference.recut, ...difference.slid];
  return { solved, shafts: shafts.length + gears.length > 0 ? shafts : [shaft], gears };
}

/** The change that is looked at stands on the bench, as long as it is. */
export function useShown(shaft: string): (change: Change | null) => void {
  const [shown, setShown] = useState<Change | null>(null);
  useEffect(() => {
    setView({ ghost: shown && ghostOf(shown, shaft) });
  }, [shown, shaft]);
  useEffect(() => () => setView({ ghost: null }), []);
  // A ghost of a drive that is no more would mislead.
  useEffect(
    () =>
      documentStore.subscribe((state, before) => {
        if (state.drive !== before.drive) setShown(null);
      }),
    [],
  );
  return setShown;
}

/** Makes a change as one undo step and says so; null, or why it could not be made. */
export function makeChange(change: Pick<Change, "edit" | "title" | "sentence" | "also">): string | null {
  const refused = tryEdit(change.edit, change.title);
  if (refused !== null) return refused;
  leaveAsking();
  announce([`Done: ${change.title}.`, change.sentence, ...change.also].join(" "));
  return null;
}

/** What `find` finds, looked for after the page has shown what was asked; null until then, or where nothing is asked. */
export function useAnswer<T>(find: (() => T) | null): T | null {
  const [found, setFound] = useState<{ readonly of: (() => T) | null; readonly answer: T | null }>({
    of: null,
    answer: null,
  });
  useEffect(() => {
    if (!find) return;
    const timer = setTimeout(() => setFound({ of: find, answer: find() }));
    return () => clearTimeout(timer);
  }, [find]);
  return find && found.of === find ? found.answer : null;
}

/** Escape leaves all as it was, wherever the focus is; what has a use of its own for the key keeps it to itself. */
export function useLeaveOnEscape(): void {
  useEffect(() => {
    const leave = (event: KeyboardEvent): void => {
      if (event.key !== "Escape" || event.defaultPrevented || event.isComposing || isDragging()) return;
      if (event.target instanceof Element && event.target.closest("dialog")) return;
      event.preventDefault();
      leaveAsking();
    };
    document.addEventListener("keydown", leave);
    return () => document.removeEventListener("keydown", leave);
  }, []);
}

/** Another shaft picked on the bench or in the list is the one to ask about; while joining, the one to join with. */
export function useFollowPicked(): void {
  useEffect(
    () =>
      viewStore.subscribe(({ selection, asking }, before) => {
        if (!asking || !selection || selection === before.selection) return;
        const { drive } = documentStore.getState();
        const shaft =
          selection.kind === "shaft"
            ? selection.id
            : selection.kind === "gear"
              ? drive.gears.find(({ id }) => id === selection.id)?.shaft
              : undefined;
        const next = shaft === undefined ? null : pickedWhile(asking, shaft);
        if (next) setView({ asking: next });
      }),
    [],
  );
}

function pickedWhile(asking: Asking, shaft: string): Asking | null {
  if (asking.kind === "wish" && shaft !== asking.shaft) return { kind: "wish", shaft };
  if (asking.kind === "join" && shaft !== asking.shaft && shaft !== asking.to) return { ...asking, to: shaft };
  return null;
}

/** ms after opening at which the focus moves in: a menu that led here gives its own back first. */
const MENU_CLOSES = 30;

/** The focus goes to the first field, and afterwards back to where it came from, or to the bench. */
export function useFocusWithin(panel: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    let from = document.activeElement;
    const timer = setTimeout(() => {
      if (panel.current?.contains(document.activeElement)) return;
      from = document.activeElement;
      panel.current?.querySelector<HTMLElement>("[data-body] :is(input, select, button), button")?.focus();
    }, MENU_CLOSES);
    return () => {
      clearTimeout(timer);
      setTimeout(() => {
        if (document.activeElement !== null && document.activeElement !== document.body) return;
        if (from instanceof HTMLElement && from !== document.body && from.isConnected) from.focus();
        if (document.activeElement === document.body) document.getElementById("bench")?.focus();
      });
    };
  }, [panel]);
}

/** What goes on while a panel stands beside the bench for a while: the focus, and Escape. */
import { type RefObject, useEffect } from "react";
import { isDragging } from "../store/document";

/** ms after opening at which the focus moves in: a menu that led here gives its own back first. */
const MENU_CLOSES = 30;

/** Gives the focus back to where it came from, or to the bench, if what had it is gone. */
function giveBack(from: Element | null): void {
  // Once the page has settled: the button that led here may be disabled until then.
  setTimeout(() => {
    if (document.activeElement !== null && document.activeElement !== document.body) return;
    if (from instanceof HTMLElement && from !== document.body && from.isConnected) from.focus();
    if (document.activeElement === document.body) document.getElementById("bench")?.focus();
  });
}

/** A panel that opens takes the focus, but from where it is kept: a lesson opens panels beside its own words. */
export function focusFirst(within: HTMLElement | null, first = "select"): void {
  if (document.activeElement?.closest("[data-keeps-focus]")) return;
  within?.querySelector<HTMLElement>(first)?.focus();
}

/** The focus goes back to where it came from, once the panel has gone. */
export function useFocusBack(): void {
  useEffect(() => {
    const from = document.activeElement;
    return () => giveBack(from);
  }, []);
}

/** The focus goes to the first field that `first` selects, where there is none to the first button, and afterwards back to where it came from. */
export function useFocusWithin(panel: RefObject<HTMLElement | null>, first: string): void {
  useEffect(() => {
    let from = document.activeElement;
    const timer = setTimeout(() => {
      if (panel.current?.contains(document.activeElement)) return;
      from = document.activeElement;
      const field = panel.current?.querySelector<HTMLElement>(first);
      (field ?? panel.current?.querySelector("button"))?.focus();
    }, MENU_CLOSES);
    return () => {
      clearTimeout(timer);
      giveBack(from);
    };
  }, [panel, first]);
}

/** Escape leaves all as it was, wherever the focus is; what has a use of its own for the key keeps it to itself. `leave` must stay the same. */
export function useLeaveOnEscape(leave: () => void): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.key !== "Escape" || event.defaultPrevented || event.isComposing || isDragging()) return;
      if (event.target instanceof Element && event.target.closest("dialog")) return;
      event.preventDefault();
      leave();
    };
    document.addEventListener("keydown", press);
    return () => document.removeEventListener("keydown", press);
  }, [leave]);
}

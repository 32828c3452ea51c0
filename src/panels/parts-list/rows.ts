/** What the rows of the parts list share: selecting and lighting up a part, and coming into view when it is led to. */
import { type PointerEvent, type RefObject, useEffect, useRef } from "react";
import { useStore } from "zustand";
import { hover, isPart, type PartKind, select, useView, viewStore } from "../../store/view";
import { revealStore } from "../reveal";

const FOCUSABLE = "input, select, button, [tabindex='0']";

/** The wish that was met last, so that a row that is made anew doesn't take the focus again. */
let met = 0;

export function useRow<E extends HTMLElement>(kind: PartKind, id: string) {
  const ref: RefObject<E | null> = useRef<E>(null);
  const selected = useView((state) => isPart(state.selection, kind, id));
  const lit = useView((state) => isPart(state.hover, kind, id));
  const wished = useStore(revealStore, (state) => (isPart(state.part, kind, id) ? state.count : 0));

  useEffect(() => {
    const row = ref.current;
    if (!row || wished <= met) return;
    met = wished;
    row.scrollIntoView?.({ block: "center" });
    row.querySelector<HTMLElement>(FOCUSABLE)?.focus({ preventScroll: true });
  }, [wished]);

  // Selected on the bench: into view, the focus stays where it is.
  useEffect(() => {
    const row = ref.current;
    if (selected && row && !row.contains(document.activeElement)) row.scrollIntoView?.({ block: "nearest" });
  }, [selected]);

  const pick = () => {
    if (!isPart(viewStore.getState().selection, kind, id)) select({ kind, id });
  };
  return {
    ref,
    "data-part": `${kind} ${id}`,
    "data-selected": selected || undefined,
    "data-lit": lit || undefined,
    // A gear's row stands within its shaft's: the innermost one is meant.
    onFocus: (event: { stopPropagation(): void }) => {
      event.stopPropagation();
      pick();
    },
    onPointerOver: (event: PointerEvent) => {
      event.stopPropagation();
      if (event.pointerType !== "touch" && !isPart(viewStore.getState().hover, kind, id)) hover({ kind, id });
    },
    onPointerLeave: () => {
      if (isPart(viewStore.getState().hover, kind, id)) hover(null);
    },
    onClick: (event: { stopPropagation(): void }) => {
      event.stopPropagation();
      pick();
    },
  };
}

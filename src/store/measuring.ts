/** What is being measured, and the note that is looked at. Never part of undo. While the panel is open, what is selected is picked. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { documentStore } from "./document";
import { type Part, select, viewStore } from "./view";

export interface Pick {
  readonly kind: "shaft" | "gear";
  readonly id: string;
}

export interface Measuring {
  readonly first: Pick | null;
  readonly second: Pick | null;
  /** Entry of the drive's notes; its pin shows its words. */
  readonly note: number | null;
}

const NOTHING: Measuring = { first: null, second: null, note: null };

export const measuringStore = createStore<Measuring>()(() => NOTHING);
export const useMeasuring = <T>(selector: (state: Measuring) => T): T => useStore(measuringStore, selector);
export const setMeasuring = (patch: Partial<Measuring>): void => measuringStore.setState(patch);

const asPick = (part: Part | null): Pick | null =>
  part && part.kind !== "mesh" ? { kind: part.kind, id: part.id } : null;
const isSame = (a: Pick | null, b: Pick | null): boolean => a?.kind === b?.kind && a?.id === b?.id;

/** A part picked on the bench or in a list: the first, then the second, then a first again. */
export function pickPart(part: Part | null): void {
  const pick = asPick(part);
  if (!pick) return;
  const { first, second } = measuringStore.getState();
  if (!first || second) setMeasuring({ first: pick, second: null });
  else if (!isSame(first, pick)) setMeasuring({ second: pick });
}

/** The panel opens: what is selected is measured from. */
export function beginMeasuring(): void {
  const { first } = measuringStore.getState();
  if (!first) pickPart(viewStore.getState().selection);
}

let isLedByNote = false;

/** Shows the words of a note on the bench and selects its part, or closes them. What is being measured stays. */
export function toggleNote(entry: number, part: Part | null): void {
  const isShown = measuringStore.getState().note === entry;
  setMeasuring({ note: isShown ? null : entry });
  if (isShown || !part) return;
  isLedByNote = true;
  select(part);
  isLedByNote = false;
}

viewStore.subscribe(({ selection, aside }, before) => {
  if (isLedByNote) return;
  if (aside === "measure" && before.aside === "measure" && selection !== before.selection) pickPart(selection);
});
documentStore.subscribe(({ opened, drive }, before) => {
  if (opened !== before.opened) measuringStore.setState(NOTHING);
  // Entries move up where one is taken away.
  else if (drive["x-notes"] !== before.drive["x-notes"]) setMeasuring({ note: null });
});

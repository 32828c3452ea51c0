/** What of the workings is shown: which way to the ratio, in which form it is copied, and how far a class has come. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { CopyForm } from "../../engine/explain/working-forms";
import type { RatioForm, WorkingLine, WorkingStep, WorkingTable } from "../../engine/explain/working-lines";

export interface ShownState {
  readonly ratio: RatioForm | "every";
  readonly copy: CopyForm;
  /** How many lines are shown, one at a time; null for all of them. */
  readonly lines: number | null;
  /** How many lines there are in all. */
  readonly count: number;
}

export const shownStore = createStore<ShownState>()(() => ({ ratio: "teeth", copy: "text", lines: null, count: 0 }));
export const useShown = <T>(selector: (state: ShownState) => T): T => useStore(shownStore, selector);
export const setShown = (patch: Partial<ShownState>): void => shownStore.setState(patch);

/** One thing that is shown at a time. */
export type Item =
  | { readonly kind: "line"; readonly line: WorkingLine }
  | { readonly kind: "table"; readonly table: WorkingTable };

export interface ShownStep {
  readonly step: WorkingStep;
  readonly items: readonly Item[];
  /** Of its first item among all. */
  readonly first: number;
}

/** The lines of a step with the ratio worked in one way, the usual one where it can't be worked in that. */
export function inForm(step: WorkingStep, ratio: ShownState["ratio"]): WorkingStep {
  if (ratio === "every") return step;
  const forms = step.lines.flatMap((line) => line.form ?? []);
  const form = forms.includes(ratio) ? ratio : forms[0];
  return { ...step, lines: step.lines.filter((line) => line.form === undefined || line.form === form) };
}

/** Steps with their items counted through. */
export function itemsOf(steps: readonly WorkingStep[]): ShownStep[] {
  let first = 0;
  return steps.map((step) => {
    const items: Item[] = [
      ...step.lines.map((line) => ({ kind: "line", line }) as const),
      ...(step.tables ?? []).map((table) => ({ kind: "table", table }) as const),
    ];
    const shown = { step, items, first };
    first += items.length;
    return shown;
  });
}

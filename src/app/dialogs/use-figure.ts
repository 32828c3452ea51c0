/** The figure that is asked for: drawn on another thread, or set as text at once. */
import { useMemo } from "react";
import type { ShownView } from "../../engine/drawing/sheet";
import { sectionMesh } from "../../panels/drawings/drawings-panel";
import { type Figure, figureOf, type Order } from "../../panels/drawings/orders";
import { readoutsSheet, workingsSheet } from "../../panels/drawings/text-figures";
import { useDrafts } from "../../panels/drawings/use-drafts";
import type { Choice } from "../../panels/fields/choice-field";
import { useShown } from "../../panels/workings/shown";
import { useDocument } from "../../store/document";
import { useDrawings } from "../../store/drawings";
import { CLOSED, useIsHiding } from "../../store/question";
import { useUnits } from "../../store/units";
import { useView } from "../../store/view";

export type SubjectName = ShownView | "workings" | "readouts";

/** The 3D as an animation, which is no drawing on paper. */
export const LOOP = "loop";

export const SUBJECTS: readonly Choice<SubjectName | typeof LOOP>[] = [
  { value: "three", words: "Three views" },
  { value: "front", words: "Front view" },
  { value: "top", words: "Top view" },
  { value: "side", words: "Side view" },
  { value: "section", words: "Section" },
  { value: "schematic", words: "Schematic" },
  { value: "workings", words: "Workings" },
  { value: "readouts", words: "Readouts" },
  { value: LOOP, words: "3D, looped animation (GIF)" },
];

export const isDrawn = (subject: SubjectName): subject is ShownView => subject !== "workings" && subject !== "readouts";

export interface Wanted {
  /** Null while it is on its way, and where there is none. */
  readonly figure: Figure | null;
  /** Why there is none; null where there is one, or will be. */
  readonly trouble: string | null;
  /** What draws broke down. */
  readonly isFailed: boolean;
  readonly again: () => void;
}

export function useFigure(subject: SubjectName): Wanted {
  const solved = useDocument((state) => state.solved);
  const selection = useView((state) => state.selection);
  const ratio = useShown((state) => state.ratio);
  const units = useUnits();
  const { angle, gears, mesh } = useDrawings((state) => state);
  const isHidden = useIsHiding();
  const section = sectionMesh(solved, mesh, selection);
  const order = useMemo((): Omit<Order, "count"> | null => {
    if (isHidden || !isDrawn(subject)) return null;
    const cut = subject === "section" && section !== undefined ? { mesh: section } : {};
    return { drive: solved.drive, units, wishes: [{ view: subject, angle, gears, ...cut }], form: "figure" };
  }, [solved, units, subject, angle, gears, section, isHidden]);
  const { shown, progress, isFailed, again } = useDrafts(order);
  const text = useMemo(() => {
    if (isDrawn(subject)) return null;
    const sheet =
      subject === "readouts" ? readoutsSheet(solved, units) : workingsSheet(solved, selection, ratio, units);
    return "trouble" in sheet ? sheet : figureOf(sheet);
  }, [subject, solved, selection, ratio, units]);
  if (isHidden) return { figure: null, trouble: CLOSED, isFailed: false, again };
  if (text) {
    const is = "trouble" in text ? { figure: null, trouble: text.trouble } : { figure: text, trouble: null };
    return { ...is, isFailed: false, again };
  }
  const drawn = shown.get(subject);
  const good = drawn?.good && "figure" in drawn.good ? drawn.good.figure : null;
  // What is saved is what is wished for now, never what was before.
  const isNow = progress === null && !isFailed && drawn?.trouble === null;
  return { figure: isNow ? good : null, trouble: progress ? null : (drawn?.trouble ?? null), isFailed, again };
}

import { useMemo } from "react";
import { textWithFigures } from "../engine/explain/figures-in-text";
import { useDocument } from "../store/document";
import { useUnits } from "../store/units";

/** Fills the figures of the drive on the bench into a text, as they are now. */
export function useFigured(): (text: string) => string {
  const solved = useDocument((state) => state.solved);
  const units = useUnits();
  return useMemo(() => (text) => textWithFigures(text, solved, units).text, [solved, units]);
}

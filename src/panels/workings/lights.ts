/** Lines and parts light one another up: what a line speaks of on the bench and in every panel, and the lines that speak of a part. */
import type { Solved } from "../../engine/solved";
import { useDocument } from "../../store/document";
import { hover, type Part, useView } from "../../store/view";
import { partOf } from "../reveal";

/** The part that a line is chiefly about; null for none that is there. */
export const chiefPart = (solved: Solved, about: readonly string[]): Part | null =>
  about.map((id) => partOf(solved, id)).find((found) => found !== null) ?? null;

/** Whether a line speaks of a part. */
const speaksOf = (solved: Solved, about: readonly string[], part: Part | null): boolean =>
  part !== null && about.includes(part.id) && partOf(solved, part.id)?.kind === part.kind;

/**
 * Handlers and marks of a line. Pointing at a part lights every line about it; a selected gear marks them for as long. Only the
 * lines whose light changes are drawn anew: a long way has hundreds.
 */
export function useLight(about: readonly string[]): Record<string, unknown> {
  const solved = useDocument((state) => state.solved);
  const lit = useView(({ hover, selection }) => {
    if (speaksOf(solved, about, hover)) return "pointed";
    return selection?.kind === "gear" && speaksOf(solved, about, selection) ? "selected" : undefined;
  });
  const part = chiefPart(solved, about);
  if (part === null) return {};
  return {
    "data-about": `${part.kind} ${part.id}`,
    "data-lit": lit,
    onPointerEnter: () => hover(part),
    onPointerLeave: () => hover(null),
    onFocus: () => hover(part),
    onBlur: () => hover(null),
  };
}

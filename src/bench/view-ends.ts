/** Ends of shafts as the view store names them. */
import { tellingEnd } from "../engine/explain/directions";
import type { Solved } from "../engine/solved";

export { endNames } from "../engine/explain/ends";

/** The end from which a shaft's turning is told, so that the eye there sees what the words say. */
export const tellingEndOf = (solved: Solved, shaft: number): "+" | "-" =>
  tellingEnd(solved, shaft) === "plus" ? "+" : "-";

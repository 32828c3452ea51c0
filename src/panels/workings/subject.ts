/** What the workings are about, and their steps. */
import { routeOf } from "../../engine/explain/route";
import type { WorkingStep } from "../../engine/explain/working-lines";
import { meshWorkings, workings } from "../../engine/explain/workings";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { nameText, shaftName } from "../../engine/wording";
import type { Part } from "../../store/view";
import { shaftOfPart } from "../reveal";

/** Steps shown of a very long way; the first ones, since every later one is like them. */
export const MOST_STEPS = 60;

/** What is worked out: a mesh, or a shaft by its index. */
export interface Subject {
  readonly shaft: number;
  /** Id of the mesh; null for a shaft. */
  readonly mesh: string | null;
}

/** The shaft that is worked out: what is selected, else the output, else the last one along the run. */
function workedShaft(solved: Solved, selection: Part | null): number {
  const selected = selection ? shaftOfPart(solved, selection) : -1;
  if (selected >= 0) return selected;
  const output = solved.drive.ports.find((port) => port.role === "output");
  if (output) return solved.index.shafts.get(output.shaft) ?? -1;
  return routeOf(solved).order.at(-1) ?? -1;
}

export function subjectOf(solved: Solved, selection: Part | null): Subject {
  const mesh = selection?.kind === "mesh" && solved.index.meshes.has(selection.id) ? selection.id : null;
  return { shaft: workedShaft(solved, selection), mesh };
}

export function stepsOf(solved: Solved, { shaft, mesh }: Subject, units: UnitChoice): WorkingStep[] {
  if (mesh !== null) return meshWorkings(solved, mesh, units);
  return shaft < 0 ? [] : workings(solved, solved.drive.shafts[shaft]?.id ?? "", units);
}

export function titleOf(solved: Solved, { shaft, mesh }: Subject): string {
  if (mesh === null) return `How ${shaftName(solved.drive, shaft)} turns`;
  const gears = solved.drive.meshes[solved.index.meshes.get(mesh) ?? -1]?.gears ?? [];
  return `How ${gears.map(nameText).join(" and ")} mesh`;
}

/** Which handles there are for what is selected. */
import type { Solved } from "../../engine/solved";
import type { Part } from "../../store/view";
import { leaningMesh } from "../lean";
import type { Handle } from "./handle";
import { leanHandle } from "./lean-handle";
import { rootHandles } from "./root-handles";
import { type SizeWay, sizeHandle } from "./size-handle";
import { slideHandle } from "./slide-handle";
import { swingHandle } from "./swing-handle";

/** Of a shaft: lean and swing of the mesh that placed it, or its place; of a gear: size, slide, and the lean of a pair at an angle; of a mesh: lean and swing. */
export function handlesFor(solved: Solved, selection: Part | null, way: SizeWay): readonly Handle[] {
  if (!selection) return [];
  const { index } = solved;
  const mesh = leaningMesh(solved, selection);
  const lean = leanHandle(solved, mesh);
  if (selection.kind === "gear") {
    const gear = index.gears.get(selection.id) ?? -1;
    return [lean, sizeHandle(solved, gear, way), slideHandle(solved, gear)].filter((handle) => handle !== null);
  }
  if (selection.kind === "shaft") {
    const roots = rootHandles(solved, index.shafts.get(selection.id) ?? -1);
    if (roots.length > 0) return roots;
  }
  return [lean, swingHandle(solved, mesh)].filter((handle) => handle !== null);
}

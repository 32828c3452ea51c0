/** Which parts are lit: what is selected and what is pointed at, on the bench or in any panel. */
import { documentStore } from "../store/document";
import { type Part, useView } from "../store/view";

export type Light = "selected" | "pointed" | null;

/** Whether a gear belongs to a part: the gear itself, its shaft, or a mesh of it. */
function touchesGear(part: Part | null, gear: string, shaft: string): boolean {
  if (!part) return false;
  if (part.kind === "gear") return part.id === gear;
  if (part.kind === "shaft") return part.id === shaft;
  const { index } = documentStore.getState().solved;
  const pair = index.gearsOfMesh[index.meshes.get(part.id) ?? -1];
  const own = index.gears.get(gear);
  return own !== undefined && (pair?.includes(own) ?? false);
}

export const useGearLight = (gear: string, shaft: string): Light =>
  useView(({ selection, hover, posed }) => {
    if (posed) return null;
    return touchesGear(selection, gear, shaft) ? "selected" : touchesGear(hover, gear, shaft) ? "pointed" : null;
  });

const is = (part: Part | null, kind: Part["kind"], id: string): boolean => part?.kind === kind && part.id === id;

const useLight = (kind: Part["kind"], id: string): Light =>
  useView(({ selection, hover, posed }) => {
    if (posed) return null;
    return is(selection, kind, id) ? "selected" : is(hover, kind, id) ? "pointed" : null;
  });

export const useShaftLight = (shaft: string): Light => useLight("shaft", shaft);

export const useMeshLight = (mesh: string): Light => useLight("mesh", mesh);

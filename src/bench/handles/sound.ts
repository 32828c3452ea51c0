/** Edits by hand stop where a pair would no longer be one: the reason is that of the pair's own checks. */
import { type Edit, gearOf, isRefused, meshOf, refuse } from "../../engine/drive/commands/edit";
import type { Drive } from "../../engine/drive/types";
import { kindOf } from "../../engine/mesh-kinds/list";

/** The edit, refused where it brings an error on one of these meshes that wasn't there before. */
export const soundEdit =
  (edit: Edit, meshes: readonly string[]): Edit =>
  (drive) => {
    const result = edit(drive);
    if (isRefused(result) || result === drive) return result;
    for (const id of meshes) {
      const known = new Set(errors(drive, id).map(({ code }) => code));
      const worse = errors(result, id).find(({ code }) => !known.has(code));
      if (worse) return refuse(worse.message);
    }
    return result;
  };

function errors(drive: Drive, id: string) {
  const mesh = meshOf(drive, id);
  const [first, second] = (mesh?.gears ?? []).map((gear) => gearOf(drive, gear));
  const kind = first && second && kindOf(first.kind, second.kind);
  if (!mesh || !first || !second || !kind) return [];
  const gears = [first, second] as const;
  return kind.checks({ mesh, gears, shape: kind.shape(mesh, gears) }).filter(({ severity }) => severity === "error");
}

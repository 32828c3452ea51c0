/** How fast teeth pass at the fastest mesh: what limits the speed that can be shown. */
import { hasTeeth } from "../drive/types";
import type { Solved } from "../solved";

/** Marks on the rim of a wheel without teeth, which the eye follows as it does teeth. */
export const RIM_MARKS = 24;

/** Pitches a minute at the fastest mesh, each in its mesh's own frame; without meshes rim marks of the fastest shaft; 0 at rest. */
export function fastestMesh({ drive, index, motion }: Solved): number {
  let fastest = 0;
  let isMeshed = false;
  for (const row of motion.rows) {
    if (!row) continue;
    for (const side of [0, 1] as const) {
      const shaft = (index.shaftsOfMesh[row.mesh] as readonly [number, number])[side];
      const gear = drive.gears[(index.gearsOfMesh[row.mesh] as readonly [number, number])[side]];
      const own = motion.speed[shaft];
      const carrier = row.carrier[side];
      const relative = (own ?? 0) - (carrier === -1 ? 0 : row.carrierSign[side] * (motion.speed[carrier] ?? 0));
      const pitches = gear && hasTeeth(gear) ? gear.teeth : RIM_MARKS;
      fastest = Math.max(fastest, Math.abs(relative) * pitches);
      isMeshed = true;
    }
  }
  if (isMeshed && fastest > 0) return fastest;
  for (const speed of motion.speed) fastest = Math.max(fastest, Math.abs(speed ?? 0) * RIM_MARKS);
  return fastest;
}

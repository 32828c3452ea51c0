/** How fast teeth pass at the fastest mesh: what limits the speed that can be shown. */
import { hasTeeth } from "../drive/types";
import type { Solved } from "../solved";

/** Marks on the rim of a wheel without teeth, which the eye follows as it does teeth. */
export const RIM_MARKS = 24;

/** Pitches a minute that pass at a mesh, in its own frame, whole wheels' rim marks where there are no teeth; 0 at rest. */
export function pitchesAtMesh({ drive, index, motion }: Solved, mesh: number): number {
  const row = motion.rows[mesh];
  if (!row) return 0;
  let most = 0;
  for (const side of [0, 1] as const) {
    const shaft = (index.shaftsOfMesh[mesh] as readonly [number, number])[side];
    const gear = drive.gears[(index.gearsOfMesh[mesh] as readonly [number, number])[side]];
    const own = motion.speed[shaft];
    const carrier = row.carrier[side];
    const relative = (own ?? 0) - (carrier === -1 ? 0 : row.carrierSign[side] * (motion.speed[carrier] ?? 0));
    most = Math.max(most, Math.abs(relative) * (gear && hasTeeth(gear) ? gear.teeth : RIM_MARKS));
  }
  return most;
}

/** Pitches a minute at the fastest mesh, each in its mesh's own frame; without meshes rim marks of the fastest shaft; 0 at rest. */
export function fastestMesh(solved: Solved): number {
  let fastest = 0;
  for (const row of solved.motion.rows) if (row) fastest = Math.max(fastest, pitchesAtMesh(solved, row.mesh));
  if (fastest > 0) return fastest;
  for (const speed of solved.motion.speed) fastest = Math.max(fastest, Math.abs(speed ?? 0) * RIM_MARKS);
  return fastest;
}

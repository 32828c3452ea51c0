/** Which shafts are placed at all, without placing them: by a pose, by a mesh, or with the shaft that they are coaxial with. */
import type { Drive } from "../types";

/** Ids of the shafts that placing reaches. A shaft that is coaxial with another is never placed by a mesh. Linear. */
export function reachedShafts(drive: Drive): Set<string> {
  const shaftOfGear = new Map(drive.gears.map((gear) => [gear.id, gear.shaft]));
  const next = new Map<string, string[]>();
  const lead = (from: string, to: string): void => {
    const list = next.get(from);
    if (list) list.push(to);
    else next.set(from, [to]);
  };
  const isCoaxial = new Set<string>();
  for (const { id, coaxial } of drive.shafts) {
    if (coaxial === undefined) continue;
    isCoaxial.add(id);
    lead(coaxial, id);
  }
  for (const { gears } of drive.meshes) {
    const [a, b] = gears.map((gear) => shaftOfGear.get(gear));
    if (a === undefined || b === undefined) continue;
    if (!isCoaxial.has(b)) lead(a, b);
    if (!isCoaxial.has(a)) lead(b, a);
  }
  const reached = new Set<string>();
  for (const { id, pose } of drive.shafts) if (pose) reached.add(id);
  // A set gives what is added while it is walked, too.
  for (const id of reached) for (const other of next.get(id) ?? []) reached.add(other);
  return reached;
}

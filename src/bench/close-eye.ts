/** Where the eye stands for a close look: on the contact line at the heel, or at the side of it. Pure but for `lookIn` and `lookBack`. */

import { reachAcross, reachAlong } from "../engine/collisions/gear-outline";
import type { Poses } from "../engine/motion/pose-at";
import type { Solved, Vec3 } from "../engine/solved";
import { type ContactPath, tangentOf } from "../engine/teeth/contact-path";
import { add, cross, dot, length, scale, sub, unit } from "../engine/vector";
import { documentStore } from "../store/document";
import type { BenchLayout } from "./bench-layout";
import { currentOrbit, glideClose, restingOrbit, screenSize } from "./camera";
import { alongAxis, eyeFrame, type Orbit, VIEW_ANGLE } from "./orbit";
import { directionAt, inFrame } from "./turning";

/** Modules that the shorter side of the screen shows. */
const SHOWN = 11;
/** Pixels that the buttons of the views take at the head of the bench. */
const BUTTONS = 52;

/** The point that the eye is turned to, at time zero: of cones seen along their contact the heel, else the middle of the contact. */
export function aimOf({ placement }: Solved, path: ContactPath, from: "along" | "side"): Vec3 {
  const [heel, toe] = path.line(path.pitch, 1);
  const isConical = placement.gears[path.gear]?.apexPoint !== null;
  return from === "along" && isConical ? heel : scale(add(heel, toe), 0.5);
}

/**
 * @param poses where the drive stands now
 * @param frame the carrier in whose frame the mesh stands still, -1 for ground
 */
export function closeOrbit(
  solved: Solved,
  path: ContactPath,
  from: "along" | "side",
  poses: Poses,
  frame: number,
): Orbit {
  const [heel, toe] = path.line(path.pitch, 1);
  const gear = solved.drive.gears[path.gear];
  const module = gear && "module" in gear ? gear.module : 1;
  const width = length(sub(heel, toe));
  const isConical = solved.placement.gears[path.gear]?.apexPoint !== null;
  const along = width > 0 ? unit(sub(heel, toe)) : (solved.placement.gears[path.gear]?.outward ?? [0, 0, 1]);
  const still = from === "along" ? along : tangentOf(solved, path);
  const direction = frame < 0 ? still : directionAt(poses.frame, frame, still);
  // Cones are looked at from the heel; everything else from the side on which the eye is.
  const isFixed = from === "along" && isConical;
  const back = !isFixed && dot(direction, eyeFrame(currentOrbit()).back) < 0 ? scale(direction, -1) : direction;
  const point = aimOf(solved, path, from);
  const { width: w, height: h } = screenSize();
  const across = Math.max(SHOWN * module, from === "side" ? 1.6 * width : 0);
  const shown = (across * h) / Math.min(w, h);
  const towards = alongAxis(back);
  // The mesh is shown in the middle of what the buttons leave free.
  const lowered = scale(eyeFrame(towards).up, (shown * BUTTONS) / (2 * h));
  return {
    ...towards,
    target: add(inFrame(poses, frame, point), lowered),
    distance: shown / (2 * Math.tan(VIEW_ANGLE / 2)),
  };
}

/** Points round both gears, relative to the pitch point: what stands before all of them hides the mesh. */
export function frontOf(layout: BenchLayout, path: ContactPath, from: "along" | "side"): readonly Vec3[] {
  const { solved } = layout;
  const aim = aimOf(solved, path, from);
  const points: Vec3[] = [];
  for (const gear of solved.index.gearsOfMesh[path.mesh] ?? []) {
    const outline = layout.outlines.get(gear);
    const shaft = solved.placement.shafts[outline?.shaft ?? -1];
    if (!outline || !shaft) continue;
    const y = cross(shaft.axis, shaft.ref);
    for (const at of reachAlong(outline)) {
      const centre = add(shaft.origin, scale(shaft.axis, at));
      for (let k = 0; k < 24; k++) {
        const a = (k * Math.PI) / 12;
        const out = add(scale(shaft.ref, Math.cos(a)), scale(y, Math.sin(a)));
        points.push(sub(add(centre, scale(out, 1.02 * reachAcross(outline))), aim));
      }
    }
  }
  return points;
}

/** Where the eye stood before the close look, and at which drive. */
let before: { readonly orbit: Orbit; readonly opened: number } | null = null;

/** Glides to a close look; where the eye stood before is kept for the way back. */
export function lookIn(orbit: Orbit): void {
  // A picture that was lost and made anew begins while the eye is still on its way back.
  before ??= { orbit: restingOrbit(), opened: documentStore.getState().opened };
  glideClose(orbit);
}

/** Glides back, unless another drive has been opened meanwhile: that one is shown whole already. */
export function lookBack(): void {
  if (before?.opened === documentStore.getState().opened) glideClose(before.orbit);
  before = null;
}

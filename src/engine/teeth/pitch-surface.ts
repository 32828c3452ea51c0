/** The pitch surface of a gear: the open cylinder or cone that rolls on its mate's. In the gear's own frame (gear-mesh.ts). */
import { toothWidth } from "./blank";
import type { GearMesh } from "./gear-mesh";
import type { ToothSpec } from "./spec";

/** Radius and z, in mm along the shaft's positive axis, of the surface's two ends: first the top, or heel. */
export function pitchEnds(spec: ToothSpec): readonly [readonly [number, number], readonly [number, number]] {
  const width = toothWidth(spec);
  if (spec.form !== "conical") {
    return [
      [spec.pitchRadius, width / 2],
      [spec.pitchRadius, -width / 2],
    ];
  }
  const side = spec.isFlipped ? -1 : 1;
  return [
    [spec.pitchRadius, 0],
    [spec.pitchRadius - width * Math.sin(spec.pitchAngle), -side * width * Math.cos(spec.pitchAngle)],
  ];
}

/** Normals point away from the gear's own body, as on its teeth: on a ring towards the axis. `steps` round the axis. */
export function pitchSurface(spec: ToothSpec, steps = 96): GearMesh {
  const ends = pitchEnds(spec);
  const side = spec.isFlipped ? -1 : 1;
  const outward = spec.form === "ring" ? -1 : 1;
  const conical = spec.form === "conical";
  const [radial, axial] = conical ? [Math.cos(spec.pitchAngle), -side * Math.sin(spec.pitchAngle)] : [outward, 0];
  const positions = new Float32Array(6 * steps);
  const normals = new Float32Array(6 * steps);
  const indices = new Uint32Array(6 * steps);
  for (let i = 0; i < steps; i++) {
    const angle = (2 * Math.PI * i) / steps;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    ends.forEach(([r, z], end) => {
      positions.set([r * c, r * s, z], 6 * i + 3 * end);
      normals.set([radial * c, radial * s, axial], 6 * i + 3 * end);
    });
    const [a, b] = [2 * i, 2 * ((i + 1) % steps)];
    // Counterclockwise from where the normal points.
    const isTurned = outward * side < 0;
    indices.set(isTurned ? [a + 1, b, b + 1, a + 1, a, b] : [a + 1, b + 1, b, a + 1, b, a], 6 * i);
  }
  return { positions, normals, indices };
}

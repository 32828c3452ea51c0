/** The gears of a solved drive as solids in the world, at any moment. */
import { crankMode } from "./motion/crank";
import { MATRIX, poseAt, poseModel } from "./motion/pose-at";
import { divide, fromNumber, isZero, minus, multiply, rational, toNumber } from "./motion/rational";
import type { Solved } from "./solved";
import type { GearSolid } from "./teeth/gear-mesh";
import { restPhases } from "./teeth/phases";
import { DEGREE } from "./vector";

/** The shaft of the first input port, -1 for none. */
const firstInput = ({ drive, index }: Solved): number =>
  index.shafts.get(drive.ports.find(({ role }) => role === "input")?.shaft ?? "") ?? -1;

/**
 * Radians that each shaft has turned in its own frame when the first input has turned by `degrees`: by the speeds of the
 * ports where those tell all, else by turning the input by hand. Null where there is no input, or it can't turn.
 */
export function anglesAfter(solved: Solved, degrees: number): Float64Array | null {
  const { drive, motion } = solved;
  if (degrees === 0) return new Float64Array(drive.shafts.length);
  const input = firstInput(solved);
  const own = motion.speeds[input];
  if (own && !isZero(own)) {
    const turn = fromNumber(degrees);
    // Whole turns leave before the angle becomes a double: it stays sharp after any number of them.
    return Float64Array.from(drive.shafts, (_, i) => {
      const speed = motion.speeds[i];
      if (!speed) return 0;
      const turned = divide(multiply(multiply(speed, turn), rational(1n, 360n)), own);
      return toNumber(minus(turned, { n: turned.n / turned.d, d: 1n })) * 2 * Math.PI;
    });
  }
  const mode = input < 0 ? null : crankMode(solved, input);
  return mode === null ? null : mode.map((rate) => rate * degrees * DEGREE);
}

/** Moves a gear's solid from its own frame to where it stands when the shafts have turned by `angles` since time zero. */
export function standingSolids(solved: Solved, angles: Float64Array): (gear: number, solid: GearSolid) => GearSolid {
  const { drive, index, placement } = solved;
  const poses = poseAt(poseModel(solved), angles, restPhases(drive, index, placement));
  return (gear, { points, triangles }) => {
    const { at = 0, phase = 0 } = drive.gears[gear] ?? {};
    const shaft = index.shaftOfGear[gear] ?? 0;
    const m = poses.turned.subarray(shaft * MATRIX, (shaft + 1) * MATRIX);
    const [c, s] = [Math.cos(phase * DEGREE), Math.sin(phase * DEGREE)];
    const moved = new Float64Array(points.length);
    for (let i = 0; i < points.length; i += 3) {
      const [px, py, pz] = [points[i] ?? 0, points[i + 1] ?? 0, (points[i + 2] ?? 0) + at];
      const [x, y] = [c * px - s * py, s * px + c * py];
      for (let k = 0; k < 3; k++) {
        moved[i + k] = (m[k] ?? 0) * x + (m[4 + k] ?? 0) * y + (m[8 + k] ?? 0) * pz + (m[12 + k] ?? 0);
      }
    }
    return { points: moved, triangles };
  };
}

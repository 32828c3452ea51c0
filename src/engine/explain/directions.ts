/**
 * Which way things turn, in words that hold from wherever one looks. "Clockwise" always with the end it is seen from;
 * "the same way" between parallel shafts only; at a mesh the arrows on the near side meet or part.
 */
import { minus, multiply, type Rational, rational, sign } from "../motion/rational";
import type { Solved, Vec3 } from "../solved";
import { CROWN_COSINE, ON_AXIS } from "../tolerances";
import { cross, dot, length, unit } from "../vector";
import { shaftName } from "../wording";
import { type End, endNames, portEnd } from "./ends";

/** Where the eye is at first: from the right, the front and above. Towards it, unit. */
export const FIRST_EYE: Vec3 = unit([0.5, -1, 0.6]);

export const STANDS_STILL = "stands still";
export const NOT_FIXED = "not fixed yet";
/** What stands in the place of a figure that the drive's question hides. */
export const HIDDEN = "hidden by the question";

const isParallel = (a: Vec3, b: Vec3): boolean => length(cross(a, b)) <= ON_AXIS;

/**
 * The end from which a shaft's turning is told where nobody chose one: where its motor, crank or load stands; else on a shaft
 * parallel to the first input's the end on that one's side, so that both are seen from one place; else the end that faces
 * the first eye.
 */
export function tellingEnd(solved: Solved, shaft: number): End {
  const own = portEnd(solved, shaft);
  if (own) return own;
  const axis = solved.placement.shafts[shaft]?.axis;
  if (!axis) return "plus";
  const first = solved.drive.ports.find((port) => port.role === "input");
  const input = first ? (solved.index.shafts.get(first.shaft) ?? -1) : -1;
  const inputAxis = solved.placement.shafts[input]?.axis;
  if (inputAxis && isParallel(axis, inputAxis)) {
    const isAlong = dot(axis, inputAxis) > 0;
    return isAlong === (portEnd(solved, input) === "plus") ? "plus" : "minus";
  }
  return dot(axis, FIRST_EYE) >= 0 ? "plus" : "minus";
}

/** Sense for an eye at an end; null where the shaft stands or its speed isn't fixed. Positive speed: counterclockwise from the + end. */
export function sense(solved: Solved, shaft: number, end: End): "clockwise" | "counterclockwise" | null {
  const way = solved.motion.way[shaft] ?? 0;
  return way === 0 ? null : senseOf(way, end);
}

const senseOf = (way: number, end: End): "clockwise" | "counterclockwise" =>
  way > 0 === (end === "plus") ? "counterclockwise" : "clockwise";

/** The carrier's name where a shaft rides on one: its speed and direction are those that an eye on the carrier sees. */
const riding = (solved: Solved, shaft: number): string => {
  const carrier = solved.index.frameOfShaft[shaft] ?? -1;
  return carrier < 0 ? "" : `, to an eye riding on ${shaftName(solved.drive, carrier)}`;
};

/** "clockwise seen from the motor end", "stands still", "not fixed yet". */
export function turning(solved: Solved, shaft: number, end: End = tellingEnd(solved, shaft)): string {
  if (solved.veil?.hides(shaft, "direction")) return HIDDEN;
  if (!solved.motion.isFixed[shaft]) return NOT_FIXED;
  return wayWords(solved, shaft, solved.motion.way[shaft] ?? 0, end);
}

/** The same of a way that is given: the sign of a speed about the shaft's positive axis. */
export const wayWords = (solved: Solved, shaft: number, way: number, end: End): string =>
  (way === 0 ? STANDS_STILL : `${senseOf(way, end)} seen from the ${endNames(solved, shaft)[end]}`) +
  riding(solved, shaft);

/**
 * Whether two shafts turn the same way. Null where that means nothing: axes not parallel, one of them at rest or not fixed, or
 * carried by different frames, so that each is told as a different eye sees it.
 */
export function sameWay(solved: Solved, a: number, b: number): "the same way" | "the other way" | null {
  const [first, second] = [solved.placement.shafts[a], solved.placement.shafts[b]];
  if (!first || !second || !isParallel(first.axis, second.axis)) return null;
  if ((solved.index.frameOfShaft[a] ?? -1) !== (solved.index.frameOfShaft[b] ?? -1)) return null;
  const product =
    (solved.motion.way[a] ?? 0) * (solved.motion.way[b] ?? 0) * (dot(first.axis, second.axis) > 0 ? 1 : -1);
  return product === 0 ? null : product > 0 ? "the same way" : "the other way";
}

/** Spins of a mesh's two shafts about their positive axes in the frame that they share, rev/min; null where one isn't fixed. */
export function spinsAt(solved: Solved, mesh: number): readonly [Rational, Rational] | null {
  const row = solved.motion.rows[mesh];
  const shafts = solved.index.shaftsOfMesh[mesh];
  if (!row || !shafts) return null;
  const spin = (side: 0 | 1): Rational | null => {
    const own = solved.motion.speeds[shafts[side]] ?? null;
    const carrier = row.carrier[side];
    if (own === null || carrier < 0) return own;
    const carried = solved.motion.speeds[carrier] ?? null;
    return carried && minus(own, multiply(rational(BigInt(row.carrierSign[side])), carried));
  };
  const [first, second] = [spin(0), spin(1)];
  return first && second ? [first, second] : null;
}

/**
 * Whether the arrows on the near side of a mesh meet or part. `toEye`: direction from the mesh to the eye. On each gear take the
 * side that faces the eye; there the surface moves along ω × toEye. The arrows meet where that motion runs towards the
 * contact on both gears, and part where it runs away from it on both. Null where that says nothing: inside a ring, a crown or an internal
 * bevel both near sides run the same way; a carried shaft's mesh goes round, and is soon on the far side; the eye looks
 * along the plane of the two axes; nothing turns.
 */
export function nearSide(solved: Solved, mesh: number, toEye: Vec3): "meet" | "part" | null {
  const placed = solved.placement.meshes[mesh];
  const shafts = solved.index.shaftsOfMesh[mesh];
  const spins = spinsAt(solved, mesh);
  if (!placed || !shafts || !spins) return null;
  if (placed.shape.pitchAngles.some((angle) => Math.cos(angle) < CROWN_COSINE)) return null;
  if (shafts.some((shaft) => (solved.index.frameOfShaft[shaft] ?? -1) !== -1)) return null;
  const eye = unit(toEye);
  const runs = ([0, 1] as const).map((side) => {
    const axis = solved.placement.shafts[shafts[side]]?.axis ?? [0, 0, 0];
    const across = dot(cross(axis, eye), placed.towards[side]);
    return Math.abs(across) <= ON_AXIS ? 0 : sign(spins[side]) * Math.sign(across);
  });
  if (runs[0] === 0 || runs[0] !== runs[1]) return null;
  return runs[0] === 1 ? "meet" : "part";
}

/** "the near-side arrows meet", or null as `nearSide`. */
export function nearSideWords(solved: Solved, mesh: number, toEye: Vec3 = FIRST_EYE): string | null {
  const way = nearSide(solved, mesh, toEye);
  return way && `the near-side arrows ${way}`;
}

/** The right-hand rule for a shaft: which way the thumb points; null where it doesn't turn. */
export function thumbWords(solved: Solved, shaft: number): string | null {
  const way = solved.motion.way[shaft] ?? 0;
  if (way === 0) return null;
  const end = endNames(solved, shaft)[way > 0 ? "plus" : "minus"];
  return `right thumb towards the ${end}: the fingers curl the way it turns`;
}

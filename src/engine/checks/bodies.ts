/**
 * Whether gears on different shafts would stand in one another: bodies up to the tips, as they stand at time zero. Two cylinders
 * on parallel axes are compared exactly; any other two by points on the outside of each. Geometry, no source.
 */
import { type Gear, hasTeeth } from "../drive/types";
import type { PlacedGear, Solved, Vec3 } from "../solved";
import { add, along, cross, DEGREE, distance, dot, length, scale, sub, unit } from "../vector";

/** Distance from the axis, and place along it from the gear's centre. mm */
type Point = readonly [r: number, z: number];

export interface Body {
  readonly gear: number;
  readonly shaft: number;
  readonly centre: Vec3;
  /** Unit; the outward axis of a cone. */
  readonly axis: Vec3;
  /** Closed half section, convex. */
  readonly section: readonly Point[];
  readonly isCylinder: boolean;
  /** Of a sphere about `centre` that holds it, mm. */
  readonly reach: number;
}

/** Modules of solid rim behind the roots of a ring or a hollow cone, and parts of a smooth wheel's diameter: our own. */
const RIM_MODULES = 2;
const SMOOTH_RIM = 1 / 15;
/** Radians of pitch angle from which a cone is a shell that leaves room for its mate. */
const SHELL_FROM = 80 * DEGREE;
/** Bodies that come nearer than this, mm, touch; they do not stand in one another. */
const TOUCHING = 0.01;
/** Points tried round a body, and along each side of its section. */
const ROUND = 48;
const ALONG = 6;

function heights(gear: Gear, isRing: boolean) {
  if (!hasTeeth(gear)) return { addendum: 0, dedendum: 0, rim: gear.diameter * SMOOTH_RIM };
  const shift = isRing ? -gear.shift : gear.shift;
  return {
    addendum: gear.module * (gear.addendum + shift),
    dedendum: gear.module * (gear.addendum + gear.clearance - shift),
    rim: RIM_MODULES * gear.module,
  };
}

function cylinderSection(gear: Gear, radius: number, isRing: boolean): Point[] {
  const { addendum, dedendum, rim } = heights(gear, isRing);
  const [inner, outer] = isRing ? [radius - addendum, radius + dedendum + rim] : [0, radius + addendum];
  const half = gear.face / 2;
  return [
    [inner, -half],
    [outer, -half],
    [outer, half],
    [inner, half],
  ];
}

/** From the heel towards the apex (against the outward axis): the cone up to its tips, solid or a shell. */
function coneSection(gear: Gear, angle: number, coneDistance: number): Point[] {
  const { addendum, dedendum, rim } = heights(gear, false);
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const at = (size: number, height: number): Point => [
    Math.max(0, size * (coneDistance * sin + height * cos)),
    size * (coneDistance * cos - height * sin) - coneDistance * cos,
  ];
  const toe = Math.max(0.02, 1 - gear.face / coneDistance);
  if (angle >= SHELL_FROM)
    return [at(1, addendum), at(toe, addendum), at(toe, -dedendum - rim), at(1, -dedendum - rim)];
  const [tip, root, end] = [at(1, addendum), at(1, -dedendum), at(toe, addendum)];
  return [tip, end, [0, end[1]], [0, root[1]], root];
}

export function bodyOf(solved: Solved, gear: number): Body | null {
  const data = solved.drive.gears[gear];
  const placed = solved.placement.gears[gear];
  if (!data || !placed) return null;
  const section = sectionOf(data, placed);
  if (!section?.every(([r, z]) => Number.isFinite(r) && Number.isFinite(z))) return null;
  return {
    gear,
    shaft: solved.index.shaftOfGear[gear] ?? -1,
    centre: placed.centre,
    axis: placed.outward,
    section,
    isCylinder: placed.coneDistance === null,
    reach: Math.max(...section.map(([r, z]) => Math.hypot(r, z))),
  };
}

function sectionOf(gear: Gear, placed: PlacedGear): Point[] | null {
  if (placed.pitchAngle === null) return null;
  if (placed.coneDistance === null) return cylinderSection(gear, placed.pitchDiameter / 2, placed.pitchAngle > 90);
  return coneSection(gear, placed.pitchAngle * DEGREE, placed.coneDistance);
}

const known = new WeakMap<Solved, readonly Body[]>();

/** The bodies of all gears that are placed and have a pitch surface; reckoned once for each solution. */
export function bodiesOf(solved: Solved): readonly Body[] {
  let bodies = known.get(solved);
  if (!bodies) {
    bodies = solved.drive.gears.flatMap((_, gear) => bodyOf(solved, gear) ?? []);
    known.set(solved, bodies);
  }
  return bodies;
}

/** Least and greatest place of a body along an axis through `origin`; null where it keeps clear of a rod of `radius` mm round it. */
export function shadowOn(body: Body, origin: Vec3, axis: Vec3, radius: number): readonly [number, number] | null {
  const from = sub(body.centre, origin);
  const z = dot(from, axis);
  const away = length(along(from, axis, -z));
  const tilt = Math.abs(dot(body.axis, axis));
  const across = Math.sqrt(Math.max(0, 1 - tilt * tilt));
  const widest = Math.max(...body.section.map(([r]) => r));
  const deepest = Math.max(...body.section.map(([, depth]) => Math.abs(depth)));
  if (away - (widest * tilt + deepest * across) >= radius) return null;
  const ends = body.section.flatMap(([r, depth]) => {
    const middle = z + depth * dot(body.axis, axis);
    return [middle - r * across, middle + r * across];
  });
  return [Math.min(...ends), Math.max(...ends)];
}

/** Whether two bodies on different axes share some space. */
export function standIn(a: Body, b: Body): boolean {
  if (distance(a.centre, b.centre) >= a.reach + b.reach) return false;
  const isParallel = length(cross(a.axis, b.axis)) < 1e-9;
  if (isParallel && a.isCylinder && b.isCylinder) return cylindersMeet(a, b);
  return hasPointIn(a, b) || hasPointIn(b, a);
}

function cylindersMeet(a: Body, b: Body): boolean {
  const span = (body: Body, low: boolean): number =>
    (low ? Math.min : Math.max)(...body.section.map(([, z]) => dot(body.centre, a.axis) + z * dot(body.axis, a.axis)));
  if (Math.min(span(a, false), span(b, false)) - Math.max(span(a, true), span(b, true)) <= TOUCHING) return false;
  const from = sub(b.centre, a.centre);
  const apart = length(along(from, a.axis, -dot(from, a.axis)));
  const [innerA, outerA] = band(a);
  const [innerB, outerB] = band(b);
  const isClear =
    apart >= outerA + outerB - TOUCHING || apart + outerA <= innerB + TOUCHING || apart + outerB <= innerA + TOUCHING;
  return !isClear;
}

const band = ({ section }: Body): readonly [number, number] => {
  const radii = section.map(([r]) => r);
  return [Math.min(...radii), Math.max(...radii)];
};

/** Whether a point on the outside of `a` lies within `b`. */
function hasPointIn(a: Body, b: Body): boolean {
  const x = unit(cross(a.axis, Math.abs(a.axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const y = cross(a.axis, x);
  for (const [r, z] of outside(a.section)) {
    const middle = along(a.centre, a.axis, z);
    for (let k = 0; k < ROUND; k++) {
      const angle = (2 * Math.PI * k) / ROUND;
      const point = add(middle, add(scale(x, r * Math.cos(angle)), scale(y, r * Math.sin(angle))));
      const from = sub(point, b.centre);
      const depth = dot(from, b.axis);
      if (isWithin(b.section, [length(along(from, b.axis, -depth)), depth])) return true;
    }
  }
  return false;
}

function* outside(section: readonly Point[]): Generator<Point> {
  for (const [i, [r, z]] of section.entries()) {
    const [nextR, nextZ] = section[(i + 1) % section.length] as Point;
    for (let k = 0; k < ALONG; k++) yield [r + ((nextR - r) * k) / ALONG, z + ((nextZ - z) * k) / ALONG];
  }
}

/** Inside a convex section by more than a touch. The side on the axis is no outside. */
function isWithin(section: readonly Point[], [r, z]: Point): boolean {
  let turn = 0;
  for (const [i, [r1, z1]] of section.entries()) {
    const [r2, z2] = section[(i + 1) % section.length] as Point;
    const size = Math.hypot(r2 - r1, z2 - z1);
    if (size === 0 || (r1 === 0 && r2 === 0)) continue;
    const side = ((r2 - r1) * (z - z1) - (z2 - z1) * (r - r1)) / size;
    if (Math.abs(side) <= TOUCHING) return false;
    if (turn === 0) turn = Math.sign(side);
    else if (Math.sign(side) !== turn) return false;
  }
  return turn !== 0;
}

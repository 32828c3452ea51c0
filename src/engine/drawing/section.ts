/**
 * A section through both axes of a mesh: the parts whose axes lie in that plane, cut. Shafts and teeth are drawn uncut, as is usual in
 * lengthwise sections (ISO 128-50, ISO 2203, from memory); the rest is hatched at 45 degrees, neighbours in another way or spacing.
 */
import type { GearOutline, RZ } from "../collisions/gear-outline";
import { isShell } from "../collisions/gear-outline";
import { rodsOf } from "../collisions/rods";
import { hasTeeth } from "../drive/types";
import type { PlacedShaft, Solved, Vec3 } from "../solved";
import { cross, dot, length, scale, square, sub, unit } from "../vector";
import { Cover } from "./cover";
import { type Frame, flatDirection, flatten, frameOf } from "./frame";
import { type Hatch, hatchLines, holds } from "./hatching";
import { shownPitch } from "./marks";
import { matesOf } from "./outlines";
import { splitWhere } from "./split";
import type { DrawnPart, LayersToFill, Point } from "./types";

/** Sine of an angle, and part of a size, below which an axis lies in the plane. */
const IN_PLANE = 1e-6;

/** The plane's frame, or one sentence why there is none. */
export function sectionFrame({ index, placement, drive }: Solved, mesh: number): Frame | string {
  const [i, j] = index.shaftsOfMesh[mesh] ?? [-1, -1];
  const [a, b] = [placement.shafts[i], placement.shafts[j]];
  const id = drive.meshes[mesh]?.id ?? "";
  if (!a || !b || !placement.meshes[mesh]) return `The mesh ${id} has no place: put right what its findings say first.`;
  const apart = sub(b.origin, a.origin);
  const across = cross(a.axis, b.axis);
  const isParallel = length(across) < IN_PLANE;
  const normal = isParallel ? cross(a.axis, square(apart, a.axis)) : across;
  if (length(normal) < 1e-12) return `The axes of the mesh ${id} are one line: no plane lies through them alone.`;
  let towards = unit(normal);
  if (!isParallel && Math.abs(dot(apart, towards)) > 1e-4 * (1 + length(apart)))
    return `The axes of the mesh ${id} neither meet nor are parallel: choose another mesh for the section.`;
  // Seen from above, else from the front, else from the right.
  const [x, y, z] = towards;
  const facing = Math.abs(z) > 1e-6 ? z : Math.abs(y) > 1e-6 ? -y : x;
  if (facing < 0) towards = scale(towards, -1);
  const up = square(Math.abs(towards[2]) < 0.9 ? [0, 0, 1] : [0, 1, 0], towards);
  return frameOf(unit(up), towards, a.origin);
}

export function shaftsInPlane({ placement }: Solved, { origin, towards }: Frame): Set<number> {
  const inPlane = new Set<number>();
  placement.shafts.forEach((shaft, i) => {
    if (!shaft || Math.abs(dot(shaft.axis, towards)) > IN_PLANE) return;
    const apart = sub(shaft.origin, origin);
    if (Math.abs(dot(apart, towards)) <= 1e-4 * (1 + length(apart))) inPlane.add(i);
  });
  return inPlane;
}

/** The half section behind the teeth, which is hatched; the whole where there are none. */
export function bodyWithoutTeeth(outline: GearOutline, solved: Solved): readonly RZ[] {
  const gear = solved.drive.gears[outline.gear];
  const { body, rootRadius } = outline;
  if (!gear || !hasTeeth(gear)) return body;
  if (outline.coneDistance === null) {
    const isRing = isShell(outline);
    return body.map(([r, z], i): RZ => {
      const isTip = isRing ? i === 0 || i === 3 : i === 1 || i === 2;
      return [isTip ? rootRadius : r, z];
    });
  }
  if (body.length > 4) return body.slice(2);
  // A shell: its root line lies between tips and back, where whole depth and rim part them (gear-outline.ts).
  const [tipHeel, tipToe, backToe, backHeel] = body as readonly [RZ, RZ, RZ, RZ];
  const depth = 2 * gear.addendum + gear.clearance;
  const part = depth / (depth + 2);
  const at = (a: RZ, b: RZ): RZ => [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])];
  return [at(tipHeel, backHeel), at(tipToe, backToe), backToe, backHeel];
}

/** Keeps what lies outside radius `least`. */
function outside(profile: readonly RZ[], least: number): RZ[] {
  const kept: RZ[] = [];
  profile.forEach((p, i) => {
    const q = profile[(i + 1) % profile.length] as RZ;
    if (p[0] >= least) kept.push(p);
    if (p[0] >= least !== q[0] >= least) {
      const t = (least - p[0]) / (q[0] - p[0]);
      kept.push([least, p[1] + t * (q[1] - p[1])]);
    }
  });
  return kept;
}

/** Ways and spacings of hatching, the first that no neighbour has. */
function hatchOf(taken: ReadonlySet<number>, paper: number): readonly [number, Hatch] {
  let level = 0;
  while (taken.has(level)) level++;
  return [level, { slope: level % 2 === 0 ? 1 : -1, spacing: paper * 2.5 * 0.75 ** Math.floor(level / 2) }];
}

export function drawSection(
  frame: Frame,
  solved: Solved,
  shafts: ReadonlySet<number>,
  paper: number,
  layers: LayersToFill,
): void {
  const { gears, rods } = rodsOf(solved);
  const mates = matesOf(solved);
  const shown = gears.filter(({ shaft }) => shafts.has(shaft));
  const flatOn = (shaft: PlacedShaft): ((r: number, z: number) => Point) => {
    const out: Vec3 = cross(frame.towards, shaft.axis);
    const [ox, oy] = flatten(frame, shaft.origin);
    const [ax, ay] = flatDirection(frame, shaft.axis);
    const [bx, by] = flatDirection(frame, out);
    return (r, z) => [ox + z * ax + r * bx, oy + z * ay + r * by];
  };
  const levels = new Map<number, number>();
  const drawn: { readonly gear: number; readonly halves: readonly (readonly Point[])[] }[] = [];
  const covers = { visible: new Cover(), hidden: new Cover() };
  const draw = (from: Point, to: Point, part: DrawnPart, before: readonly (readonly Point[])[]): void => {
    const at = (t: number): Point => [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
    for (const { from: s, to: e, is } of splitWhere((t) => before.some((half) => holds(half, at(t))), 48)) {
      const layer = is ? "hidden" : "visible";
      layers[layer].push(...covers[layer].line(at(s), at(e), part));
    }
  };
  for (const outline of shown) {
    const shaft = solved.placement.shafts[outline.shaft];
    const rod = rods[outline.shaft];
    if (!shaft) continue;
    const part: DrawnPart = { kind: "gear", id: solved.drive.gears[outline.gear]?.id ?? "" };
    const flat = flatOn(shaft);
    const neighbours = shown.filter(
      (other) => mates[outline.gear]?.has(other.gear) || (other.shaft === outline.shaft && other !== outline),
    );
    const [level, hatch] = hatchOf(new Set(neighbours.flatMap(({ gear }) => levels.get(gear) ?? [])), paper);
    levels.set(outline.gear, level);
    const before = drawn.filter(({ gear }) => mates[outline.gear]?.has(gear)).flatMap(({ halves }) => halves);
    const least = rod && !isShell(outline) ? rod.radius : 0;
    const whole = outside(outline.body, least);
    const cut = outside(bodyWithoutTeeth(outline, solved), least);
    const halves: Point[][] = [];
    for (const side of [1, -1]) {
      const half = whole.map(([r, z]) => flat(side * r, z));
      halves.push(half);
      for (const profile of [whole, cut]) {
        profile.forEach((p, i) => {
          const q = profile[(i + 1) % profile.length] as RZ;
          // Along the shaft the shaft's own edge stands.
          if (p[0] <= least + 1e-9 && q[0] <= least + 1e-9) return;
          draw(flat(side * p[0], p[1]), flat(side * q[0], q[1]), part, before);
        });
      }
      for (const [a, b] of hatchLines(
        cut.map(([r, z]) => flat(side * r, z)),
        hatch,
      )) {
        layers.hatching.push({ shape: "line", points: [a, b], part });
      }
      const [[r0, z0], [r1, z1]] = shownPitch(outline);
      layers.pitch.push({ shape: "line", points: [flat(side * r0, z0), flat(side * r1, z1)], part });
    }
    drawn.push({ gear: outline.gear, halves });
  }
  for (const index of shafts) {
    const [shaft, rod] = [solved.placement.shafts[index], rods[index]];
    if (!shaft || !rod) continue;
    const part: DrawnPart = { kind: "shaft", id: solved.drive.shafts[index]?.id ?? "" };
    const flat = flatOn(shaft);
    const corners = [
      flat(rod.radius, rod.low),
      flat(rod.radius, rod.high),
      flat(-rod.radius, rod.high),
      flat(-rod.radius, rod.low),
    ];
    corners.forEach((corner, i) => {
      draw(corner, corners[(i + 1) % 4] as Point, part, []);
    });
  }
}

/** Visible and hidden edges of the solids in one view. Lengths in mm, flat coordinates of the frame. */
import type { Solved, Vec3 } from "../solved";
import { along, dot, sub } from "../vector";
import { Cover } from "./cover";
import { type Curve, curvesOf } from "./curves";
import { type Frame, flatten } from "./frame";
import { isInside, meetsRay, type RoundSolid } from "./round-solid";
import { splitWhere } from "./split";
import type { DrawnPart, Item, LayersToFill, Point } from "./types";

/** Part of the drive's size by which a ray starts clear of the edge that it comes from. */
const CLEAR = 1e-7;

export const sizeOf = (solids: readonly RoundSolid[]): number => {
  let size = 1e-3;
  const first = solids[0]?.middle ?? [0, 0, 0];
  for (const { middle, reach } of solids) {
    const d = sub(middle, first);
    size = Math.max(size, Math.hypot(...d) + reach);
  }
  return size;
};

/** For each gear the gears that it meshes with. */
export function matesOf({ drive, index }: Solved): Set<number>[] {
  const mates = drive.gears.map(() => new Set<number>());
  for (const [a, b] of index.gearsOfMesh) {
    mates[a]?.add(b);
    mates[b]?.add(a);
  }
  return mates;
}

/** The solids that may stand before this one: their balls overlap as seen, and reach nearer to the eye than its farthest point. */
export function mayCover(frame: Frame, solids: readonly RoundSolid[]): (solid: RoundSolid) => RoundSolid[] {
  const { towards } = frame;
  const balls = solids.map((solid) => {
    const [x, y] = flatten(frame, solid.middle);
    const [a, b, c] = solid.middle;
    return { solid, x, y, reach: solid.reach, depth: a * towards[0] + b * towards[1] + c * towards[2] };
  });
  const byRod = new Map(balls.map((ball) => [ball.solid, ball]));
  return (solid) => {
    const own = byRod.get(solid);
    if (!own) return [];
    return balls
      .filter(
        (b) => Math.hypot(b.x - own.x, b.y - own.y) < b.reach + own.reach && b.depth + b.reach > own.depth - own.reach,
      )
      .map((b) => b.solid);
  };
}

/**
 * Whether something hides a point of this solid from the eye. In the zone of their mesh neither of two gears hides the other: an edge
 * within the mate's tip circle is seen. ISO 2203 (from memory).
 */
export function hiddenBy(
  frame: Frame,
  solid: RoundSolid,
  before: readonly RoundSolid[],
  mates: readonly ReadonlySet<number>[],
): (point: Vec3) => boolean {
  const own = mates[solid.gear];
  // A ray that passes by the ball round a solid, or starts beyond it, needs no closer look.
  const others = before.map((other) => ({ other, middle: other.middle, reach2: other.reach ** 2 }));
  return (point) =>
    others.some(({ other, middle, reach2 }) => {
      const d = sub(middle, point);
      const ahead = dot(d, frame.towards);
      const apart2 = dot(d, d);
      if (apart2 - ahead * ahead > reach2 || (ahead < 0 && apart2 > reach2)) return false;
      return meetsRay(other, point, frame.towards) && !(own?.has(other.gear) && isInside(other, point));
    });
}

const between = (a: Point, b: Point, t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];

/** The piece of a curve from t to t, as far as it isn't drawn yet. */
export function pieceOf(cover: Cover, { flat }: Curve, from: number, to: number, part: DrawnPart): Item[] {
  if (flat.shape === "line") {
    return cover.line(between(flat.from, flat.to, flat.part(from)), between(flat.from, flat.to, flat.part(to)), part);
  }
  const turn = 2 * Math.PI;
  return cover.arc({ ...flat, from: turn * from, to: turn * to }, part);
}

/** Gears simplified: their bodies up to the tips, and the rods of shafts. */
export function drawOutlines(frame: Frame, solved: Solved, solids: readonly RoundSolid[], layers: LayersToFill): void {
  const mates = matesOf(solved);
  const clear = CLEAR * sizeOf(solids);
  const candidates = mayCover(frame, solids);
  const seen: [Curve, number, number, DrawnPart][] = [];
  const unseen: [Curve, number, number, DrawnPart][] = [];
  for (const solid of solids) {
    const isHidden = hiddenBy(frame, solid, candidates(solid), mates);
    for (const curve of curvesOf(frame, solid)) {
      const test = (t: number): boolean => isHidden(along(curve.at(t), curve.free(t), clear));
      for (const { from, to, is } of splitWhere(test, curve.samples)) {
        (is ? unseen : seen).push([curve, from, to, solid.part]);
      }
    }
  }
  // One cover for both: no hidden edge is drawn where a visible one lies.
  const cover = new Cover();
  for (const piece of seen) layers.visible.push(...pieceOf(cover, ...piece));
  for (const piece of unseen) layers.hidden.push(...pieceOf(cover, ...piece));
}

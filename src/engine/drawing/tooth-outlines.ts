/**
 * Gears with their true teeth: sharp edges and silhouettes of the triangles that are exported, as far as they are seen. Hidden edges
 * are left out, as usual where they would only confuse. Lengths in mm.
 */
import type { Solved, Vec3 } from "../solved";
import { anglesAfter, standingSolids } from "../standing-solid";
import { buildSolid, type GearSolid } from "../teeth/gear-mesh";
import { QUALITIES, toothKey, toothSpec } from "../teeth/spec";
import { add, along, cross, dot, length, scale, sub } from "../vector";
import { Cover } from "./cover";
import { curvesOf } from "./curves";
import { type Frame, flatten } from "./frame";
import { hiddenBy, mayCover, pieceOf, sizeOf } from "./outlines";
import type { RoundSolid } from "./round-solid";
import { splitWhere } from "./split";
import { TriangleGrid } from "./triangle-grid";
import type { DrawnPart, LayersToFill } from "./types";

/** Cosine of the angle between two faces from which their edge is drawn: 25 degrees. */
const SHARP = Math.cos((25 * Math.PI) / 180);
const CLEAR = 1e-5;
/** mm of paper for one look along an edge, and how many at the most. */
const LOOK = 1.5;
const MOST_LOOKS = 12;

export interface StandingGear {
  readonly part: DrawnPart;
  readonly solid: GearSolid;
}

const built = new WeakMap<Solved, StandingGear[]>();

/** All gears as solids in the world at time zero; the same for all views. */
export function standingGears(solved: Solved): StandingGear[] {
  const had = built.get(solved);
  if (had) return had;
  const { drive, index, placement } = solved;
  const stand = standingSolids(solved, anglesAfter(solved, 0) as Float64Array);
  const solids = new Map<string, GearSolid>();
  const gears = drive.gears.flatMap((gear, i): StandingGear[] => {
    const placed = placement.gears[i];
    if (!placed || placed.pitchAngle === null) return [];
    const spec = toothSpec(drive, index, placement, i, QUALITIES.bench);
    const key = toothKey(spec);
    const solid = solids.get(key) ?? buildSolid(spec);
    solids.set(key, solid);
    return [{ part: { kind: "gear", id: gear.id }, solid: stand(i, solid) }];
  });
  built.set(solved, gears);
  return gears;
}

interface Edge {
  readonly from: Vec3;
  readonly to: Vec3;
  /** Out of the solid. */
  readonly free: Vec3;
  readonly part: DrawnPart;
}

/** Unit normals of a solid's triangles; [0, 0, 0] where one has no area. */
function normalsOf({ points, triangles }: GearSolid): Float64Array {
  const normals = new Float64Array(triangles.length);
  const point = (i: number): Vec3 => {
    const at = 3 * (triangles[i] as number);
    return [points[at] as number, points[at + 1] as number, points[at + 2] as number];
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const a = point(t);
    const n = cross(sub(point(t + 1), a), sub(point(t + 2), a));
    const size = length(n);
    if (size > 0) normals.set(scale(n, 1 / size), t);
  }
  return normals;
}

function edgesOf(frame: Frame, { part, solid }: StandingGear): Edge[] {
  const { points, triangles } = solid;
  const normals = normalsOf(solid);
  const count = points.length / 3;
  const firstSide = new Map<number, number>();
  const edges: Edge[] = [];
  const normal = (t: number): Vec3 => [normals[t] as number, normals[t + 1] as number, normals[t + 2] as number];
  const point = (i: number): Vec3 => [
    points[3 * i] as number,
    points[3 * i + 1] as number,
    points[3 * i + 2] as number,
  ];
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[t + k] as number, triangles[t + ((k + 1) % 3)] as number];
      const key = a < b ? a * count + b : b * count + a;
      const other = firstSide.get(key);
      if (other === undefined) {
        firstSide.set(key, t);
        continue;
      }
      const [m, n] = [normal(t), normal(other)];
      const [facing, facingOther] = [dot(m, frame.towards), dot(n, frame.towards)];
      if (facing < 1e-6 && facingOther < 1e-6) continue;
      const isSilhouette = facing > 1e-6 !== facingOther > 1e-6;
      if (!isSilhouette && dot(m, n) > SHARP) continue;
      const sum = add(m, n);
      const size = length(sum);
      edges.push({ from: point(a), to: point(b), free: size > 1e-9 ? scale(sum, 1 / size) : m, part });
    }
  }
  return edges;
}

function facingTriangles(frame: Frame, gears: readonly StandingGear[]): Float64Array {
  const total = gears.reduce((sum, { solid }) => sum + solid.triangles.length, 0);
  const corners = new Float64Array(3 * total);
  let at = 0;
  for (const { solid } of gears) {
    const { points, triangles } = solid;
    const flat = new Float64Array(points.length);
    for (let i = 0; i < points.length; i += 3) {
      const p: Vec3 = [points[i] as number, points[i + 1] as number, points[i + 2] as number];
      const [x, y] = flatten(frame, p);
      flat.set([x, y, dot(p, frame.towards)], i);
    }
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [
        3 * (triangles[t] as number),
        3 * (triangles[t + 1] as number),
        3 * (triangles[t + 2] as number),
      ];
      const [ax, ay] = [flat[a] as number, flat[a + 1] as number];
      const area =
        ((flat[b] as number) - ax) * ((flat[c + 1] as number) - ay) -
        ((flat[c] as number) - ax) * ((flat[b + 1] as number) - ay);
      if (area <= 1e-9) continue;
      for (const from of [a, b, c]) {
        corners.set(flat.subarray(from, from + 3), at);
        at += 3;
      }
    }
  }
  return corners.slice(0, at);
}

export function drawToothOutlines(
  frame: Frame,
  solved: Solved,
  solids: readonly RoundSolid[],
  paper: number,
  layers: LayersToFill,
): void {
  const gears = standingGears(solved);
  const rods = solids.filter(({ gear }) => gear < 0);
  const clear = CLEAR * sizeOf(solids);
  const grid = new TriangleGrid(frame, facingTriangles(frame, gears));
  const cover = new Cover();
  const candidates = mayCover(frame, solids);
  const rodsBefore = new Map<string, (point: Vec3) => boolean>();
  for (const solid of solids) {
    const before = candidates(solid).filter(({ gear }) => gear < 0);
    rodsBefore.set(solid.part.id, hiddenBy(frame, solid, before, []));
  }
  for (const gear of gears) {
    const byRod = rodsBefore.get(gear.part.id);
    for (const { from, to, free, part } of edgesOf(frame, gear)) {
      const at = (t: number): Vec3 => along(from, sub(to, from), t);
      const looks = Math.min(MOST_LOOKS, Math.max(1, Math.ceil(length(sub(to, from)) / (LOOK * paper))));
      const isHidden = (t: number): boolean => {
        const p = along(at(t), free, clear);
        return grid.covers(p) || byRod?.(p) === true;
      };
      for (const stretch of splitWhere(isHidden, looks)) {
        if (!stretch.is) {
          layers.visible.push(...cover.line(flatten(frame, at(stretch.from)), flatten(frame, at(stretch.to)), part));
        }
      }
    }
  }
  for (const rod of rods) {
    const behindRods = hiddenBy(
      frame,
      rod,
      candidates(rod).filter(({ gear }) => gear < 0),
      [],
    );
    for (const curve of curvesOf(frame, rod)) {
      const isHidden = (t: number): boolean => {
        const p = along(curve.at(t), curve.free(t), clear);
        return grid.covers(p) || behindRods(p);
      };
      for (const { from, to, is } of splitWhere(isHidden, curve.samples)) {
        if (!is) layers.visible.push(...pieceOf(cover, curve, from, to, rod.part));
      }
    }
  }
}

/** Where no pair fits between two shafts: the nearest moves after which one would, in mm and degrees. */
import { MODULES } from "../design/iso-54";
import type { Edit } from "../drive/commands/edit";
import { setShaft } from "../drive/commands/shaft";
import type { Vec3 } from "../drive/types";
import type { PlacedShaft, Solved } from "../solved";
import { cross, DEGREE, dot, length, scale, square, sub, turn, unit } from "../vector";
import { quantities, quantity, shaftName, toothSizeWords } from "../wording";
import type { JoinMove, Standing, Wanted } from "./join-choice";
import { crossing } from "./join-crossing";
import { countsAcross, moduleNear } from "./join-parallel";

/** Distances tried beside the real one, mm. */
const FURTHEST = 60;

export function nearestMoves(solved: Solved, a: number, b: number, standing: Standing, wanted: Wanted): JoinMove[] {
  if (standing === "skew") return skewMoves(solved, a, b);
  if (standing === "parallel") return apartMoves(solved, a, b, wanted);
  return [];
}

/** The shaft that stands by itself is the one to move: the second, else the first; null where meshes place both. */
function movable({ drive }: Solved, a: number, b: number): number | null {
  if (drive.shafts[b]?.pose) return b;
  return drive.shafts[a]?.pose ? a : null;
}

function moved(
  solved: Solved,
  shaft: number,
  change: (pose: { origin: Vec3; axis: Vec3; ref: Vec3 }) => Partial<{ origin: Vec3; axis: Vec3; ref: Vec3 }>,
): Edit | null {
  const { pose, id } = solved.drive.shafts[shaft] ?? {};
  return pose && id !== undefined ? setShaft(id, { pose: { ...pose, ...change({ ...pose }) } }) : null;
}

const tidy = (v: Vec3): Vec3 => [Number(v[0].toFixed(12)), Number(v[1].toFixed(12)), Number(v[2].toFixed(12))];

function skewMoves(solved: Solved, a: number, b: number): JoinMove[] {
  const [placedA, placedB] = [solved.placement.shafts[a], solved.placement.shafts[b]] as [PlacedShaft, PlacedShaft];
  const { points, apart, degrees } = crossing(placedA, placedB);
  const which = movable(solved, a, b);
  const shaft = which ?? b;
  const name = shaftName(solved.drive, shaft);
  const other = shaftName(solved.drive, shaft === a ? b : a);
  const by = scale(sub(points[0], points[1]), shaft === b ? 1 : -1);
  // To parallel the axes about the line that is square to both.
  const own = shaft === b ? placedB : placedA;
  const mate = shaft === b ? placedA : placedB;
  const axis = dot(own.axis, mate.axis) < 0 ? scale(own.axis, -1) : own.axis;
  const n = unit(cross(axis, mate.axis));
  return [
    {
      millimetres: apart,
      degrees: 0,
      words: `Move ${name} by ${quantity(apart, "mm", 6)} (${quantities(by, ", ", "mm")} along x, y and z): its axis then crosses that of ${other} at ${quantity(degrees, "°", 6)}, and a bevel pair fits.`,
      edit: moved(solved, shaft, ({ origin }) => ({
        origin: tidy([origin[0] + by[0], origin[1] + by[1], origin[2] + by[2]]),
      })),
    },
    {
      millimetres: 0,
      degrees,
      words: `Turn ${name} by ${quantity(degrees, "°", 6)}: its axis then stands parallel to that of ${other}, ${quantity(apart, "mm", 6)} away or more, where a spur pair may fit.`,
      edit: moved(solved, shaft, (pose) => ({
        axis: tidy(turn(unit(pose.axis), n, degrees * DEGREE)),
        ref: tidy(turn(unit(pose.ref), n, degrees * DEGREE)),
      })),
    },
  ];
}

/** Parallel axes at a distance that no module fills: the nearest distance that one does. */
function apartMoves(solved: Solved, a: number, b: number, wanted: Wanted): JoinMove[] {
  const [placedA, placedB] = [solved.placement.shafts[a], solved.placement.shafts[b]] as [PlacedShaft, PlacedShaft];
  const line = square(sub(placedB.origin, placedA.origin), placedA.axis);
  const across = length(line);
  const ratio = wanted.ratio ? wanted.ratio : null;
  const target = ratio ? Number(ratio.n) / Number(ratio.d) : null;
  const own = moduleNear(solved, a, b);
  const distances = new Set(
    MODULES.flatMap((module) => {
      const sum = Math.round((2 * across) / module);
      return Array.from({ length: 41 }, (_, i) => ((sum - 20 + i) * module) / 2);
    }),
  );
  const fitting = [...distances]
    .filter((d) => d > 0 && Math.abs(d - across) > 1e-9 && Math.abs(d - across) <= FURTHEST)
    .sort((x, y) => Math.abs(x - across) - Math.abs(y - across))
    .find((d) => countsAcross(d, target, wanted.isFixed, own).length > 0);
  const [counts] = fitting === undefined ? [] : countsAcross(fitting, target, wanted.isFixed, own);
  if (fitting === undefined || !counts) return [];
  const shaft = movable(solved, a, b) ?? b;
  const by = scale(line, ((fitting - across) / across) * (shaft === b ? 1 : -1));
  return [
    {
      millimetres: Math.abs(fitting - across),
      degrees: 0,
      words: `Move ${shaftName(solved.drive, shaft)} by ${quantity(Math.abs(fitting - across), "mm", 4)}, to ${quantity(fitting, "mm", 6)} from ${shaftName(solved.drive, shaft === b ? a : b)}: ${counts.teeth[0]} and ${counts.teeth[1]} teeth of ${toothSizeWords(counts.module)} fit there.`,
      edit: moved(solved, shaft, ({ origin }) => ({
        origin: tidy([origin[0] + by[0], origin[1] + by[1], origin[2] + by[2]]),
      })),
    },
  ];
}

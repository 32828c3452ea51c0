/** Bevel pairs between two shafts whose axes cross: at the angle of the axes and at its supplement, on either side of the crossing. */
import { teethForRatio } from "../design/teeth-for-ratio";
import { makeGear, makeMesh } from "../drive/defaults";
import type { Gear, ToothedGear, Vec3 } from "../drive/types";
import { kindOf } from "../mesh-kinds/list";
import { rational, toNumber } from "../motion/rational";
import type { PlacedShaft, Solved } from "../solved";
import { along, cross, DEGREE, dot, length, scale, sub } from "../vector";
import { quantity, shaftName, toothSizeWords, turnsWords } from "../wording";
import { type JoinChoice, type PairFields, tried, type Wanted } from "./join-choice";
import { moduleNear } from "./join-parallel";

export interface Crossing {
  /** mm between the nearest points of the two axes. */
  readonly apart: number;
  /** Nearest points, world mm. */
  readonly points: readonly [Vec3, Vec3];
  /** mm along the two shafts. */
  readonly at: readonly [number, number];
  /** Degrees between the lines, 0 to 90. */
  readonly degrees: number;
}

/** Nearest points of two axes that are not parallel. Of parallel ones: the origin and the point beside it. */
export function crossing(a: PlacedShaft, b: PlacedShaft): Crossing {
  const n = cross(a.axis, b.axis);
  const size = dot(n, n);
  const d = sub(b.origin, a.origin);
  const [s, t] =
    size < 1e-18 ? [dot(d, a.axis), 0] : [dot(cross(d, b.axis), n) / size, dot(cross(d, a.axis), n) / size];
  const points = [along(a.origin, a.axis, s), along(b.origin, b.axis, t)] as const;
  return {
    apart: length(sub(points[1], points[0])),
    points,
    at: [s, t],
    degrees: Math.atan2(Math.sqrt(size), Math.abs(dot(a.axis, b.axis))) / DEGREE,
  };
}

const USUAL_MODULE = 2;
const LEAST = 17;
const FACE = 10;
const PAIRS = [
  [20, 20],
  [20, 40],
  [40, 20],
  [20, 60],
  [60, 20],
] as const;
const APEXES = [
  ["-", "-"],
  ["+", "+"],
  ["-", "+"],
  ["+", "-"],
] as const;

/** The pairs at both angles in turn, so that neither crowds out the other. */
export function joinCrossing(solved: Solved, a: number, b: number, wanted: Wanted, most: number): JoinChoice[] {
  const [placedA, placedB] = [solved.placement.shafts[a], solved.placement.shafts[b]] as [PlacedShaft, PlacedShaft];
  const choices: JoinChoice[] = [];
  for (const teeth of pairsFor(wanted)) {
    const angles = new Set<number>();
    for (const apex of bySide(solved, a, b, crossing(placedA, placedB))) {
      const fields = bevelFields(solved, a, b, teeth, apex, moduleNear(solved, a, b) ?? USUAL_MODULE);
      // One side of the crossing for each angle is enough, the one where the gears stand already.
      if (!fields || choices.length >= most || angles.has(Math.round(fields.shaftAngle ?? 0))) continue;
      const choice = tried(solved, a, b, fields, wanted);
      if (!choice) continue;
      angles.add(Math.round(fields.shaftAngle ?? 0));
      choices.push(choice);
    }
  }
  return choices;
}

/** Apexes with the gears' own sides of the crossing first: a shaft is where its gears are. */
function bySide({ drive, index }: Solved, a: number, b: number, { at }: Crossing) {
  const bulk = [a, b].map((shaft, side) =>
    Math.sign(
      (index.gearsOfShaft[shaft] ?? []).reduce(
        (sum, gear) => sum + ((drive.gears[gear] as Gear).at - (at[side] ?? 0)),
        0,
      ),
    ),
  );
  // An apex on the - side stands beyond the crossing, where places along the shaft are greater.
  const score = (apex: readonly ["+" | "-", "+" | "-"]): number =>
    apex.reduce((sum, sign, side) => sum + (sign === "-" ? 1 : -1) * (bulk[side] ?? 0), 0);
  return [...APEXES].sort((x, y) => score(y) - score(x));
}

function pairsFor({ ratio, isFixed }: Wanted): readonly (readonly [number, number])[] {
  if (!ratio) return PAIRS;
  const size = toNumber(ratio);
  const candidates = teethForRatio(ratio, {
    stages: 1,
    least: LEAST,
    most: 200,
    stageRatio: Math.max(6, size, 1 / size),
    count: 3,
  });
  return candidates
    .filter(({ isExact, error }) => (isFixed ? isExact : Math.abs(error) < 0.02))
    .flatMap(({ stages: [stage] }) => (stage ? [[stage.input, stage.output] as const] : []));
}

function bevelFields(
  solved: Solved,
  a: number,
  b: number,
  teeth: readonly [number, number],
  apex: readonly ["+" | "-", "+" | "-"],
  module: number,
): PairFields | null {
  const shafts = [solved.placement.shafts[a], solved.placement.shafts[b]] as [PlacedShaft, PlacedShaft];
  const kind = kindOf("bevel", "bevel");
  if (!kind) return null;
  const u = shafts.map(({ axis }, side) => (apex[side] === "-" ? axis : scale(axis, -1))) as [Vec3, Vec3];
  const raw = Math.atan2(length(cross(u[0], u[1])), dot(u[0], u[1])) / DEGREE;
  const shaftAngle = Math.abs(raw - Math.round(raw)) < 1e-9 ? Math.round(raw) : raw;
  const gears = teeth.map((count, side) =>
    makeGear({ id: `${side}`, shaft: "", kind: "bevel", teeth: count, module, apex: apex[side] }),
  ) as [ToothedGear, ToothedGear];
  const shape = kind.shape(makeMesh({ id: "", gears: ["0", "1"], shaftAngle }), gears);
  const { at } = crossing(...shafts);
  const places = ([0, 1] as const).map((side) => {
    const reach = shape.coneDistances[side] * Math.cos(shape.pitchAngles[side]);
    return Number(((at[side] ?? 0) + (apex[side] === "-" ? reach : -reach)).toFixed(9)) + 0;
  }) as [number, number];
  const most = Math.floor((Math.min(...shape.coneDistances) / 3) * 2) / 2;
  const names = [shaftName(solved.drive, a), shaftName(solved.drive, b)];
  return {
    kinds: ["bevel", "bevel"],
    teeth,
    module,
    shaftAngle,
    at: places,
    apex,
    face: Math.max(1, Math.min(FACE, most)),
    title: `Bevel pair at ${quantity(shaftAngle, "°", 6)}: ${teeth[0]} and ${teeth[1]} teeth, ${toothSizeWords(module)}; ${turnsWords(names[0] ?? "", names[1] ?? "", rational(BigInt(teeth[0]), BigInt(teeth[1])))}`,
  };
}

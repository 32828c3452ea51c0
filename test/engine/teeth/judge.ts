/**
 * The outside judge: manifold-3d, a general library for solids, takes the gears of a drive as they stand and says how much
 * of each mesh's two gears is in both. Nothing here knows what an involute is.
 */
import Module from "manifold-3d";
import { type DriveFields, type GearFields, makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../../../src/engine/drive/defaults";
import type { Drive } from "../../../src/engine/drive/types";
import { MATRIX, newPoses, poseAt, poseModel } from "../../../src/engine/motion/pose-at";
import { toNumber } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { endPoint, toothWidth } from "../../../src/engine/teeth/blank";
import { buildSolid } from "../../../src/engine/teeth/gear-mesh";
import { outlineOf } from "../../../src/engine/teeth/outline";
import { restPhases } from "../../../src/engine/teeth/phases";
import { type Quality, QUALITIES, type ToothSpec, toothSpec } from "../../../src/engine/teeth/spec";

const wasm = await Module();
wasm.setup();
type Solid = InstanceType<typeof wasm.Manifold>;

export const solidOf = (spec: ToothSpec): Solid => {
  const { points, triangles } = buildSolid(spec);
  const mesh = new wasm.Mesh({ numProp: 3, vertProperties: Float32Array.from(points), triVerts: triangles });
  return new wasm.Manifold(mesh);
};

/** Volume of one tooth above the root circle, mm³, by the trapezoid rule on its section. */
export function toothVolume(spec: ToothSpec): number {
  const { rowPlace, rowHalf } = outlineOf(spec);
  let area = 0;
  for (let k = 1; k < rowPlace.length; k++) {
    const [q0, q1] = [rowPlace[k - 1] ?? 0, rowPlace[k] ?? 0];
    const size = spec.form === "conical" ? Math.sin((q0 + q1) / 2) : (q0 + q1) / 2;
    area += ((rowHalf[k - 1] ?? 0) + (rowHalf[k] ?? 0)) * size * Math.abs(q1 - q0);
  }
  if (spec.form !== "conical") return area * spec.face;
  const [far, near] = [spec.coneDistance, spec.coneDistance - toothWidth(spec)];
  return (area * (far ** 3 - near ** 3)) / 3;
}

export { endPoint };

export interface JudgeOptions {
  readonly quality?: Quality;
  /** Turns of each shaft, radians, added to what the phases say (for controls that must fail). */
  readonly off?: ReadonlyMap<string, number>;
}

export interface Judged {
  readonly solved: Solved;
  readonly specs: readonly ToothSpec[];
  /** Largest common volume of each mesh's gears, in parts of a tooth of the smaller gear. */
  readonly overlaps: number[];
  /** Smallest gap of each mesh, mm, over the positions; and the largest one. */
  readonly gaps: number[];
  readonly widest: number[];
}

/** Judges every mesh of a drive at `steps` positions over one tooth pitch of the first gear. */
export function judge(drive: Drive, steps: number, options: JudgeOptions & { readonly gap?: number } = {}): Judged {
  const solved = solve(drive);
  const quality = options.quality ?? QUALITIES.fine;
  const specs = drive.gears.map((_, i) => toothSpec(drive, solved.index, solved.placement, i, quality));
  const solids = specs.map(solidOf);
  const rest = restPhases(drive, solved.index, solved.placement);
  for (const [id, angle] of options.off ?? []) {
    const at = solved.index.shafts.get(id) as number;
    rest[at] = (rest[at] ?? 0) + angle;
  }
  const model = poseModel(solved);
  const overlaps = drive.meshes.map(() => 0);
  const gaps = drive.meshes.map(() => Infinity);
  const widest = drive.meshes.map(() => 0);
  const pitch = (2 * Math.PI) / (specs[0]?.teeth ?? 1);
  const ratios = turnsPerInput(solved);
  for (let step = 0; step < steps; step++) {
    const angles = ratios.map((ratio) => (ratio * pitch * step) / steps);
    const poses = poseAt(model, Float64Array.from(angles), rest, newPoses(model.count));
    const placed = drive.gears.map((gear, i) => standing(solids[i] as Solid, poses.turned, solved, i, gear));
    drive.meshes.forEach((_, i) => {
      const [a, b] = solved.index.gearsOfMesh[i] as readonly [number, number];
      const smaller = (specs[a]?.teeth ?? 0) <= (specs[b]?.teeth ?? 0) ? a : b;
      const [first, second] = [placed[a] as Solid, placed[b] as Solid];
      const common = first.intersect(second);
      const share = common.volume() / toothVolume(specs[smaller] as ToothSpec);
      common.delete();
      overlaps[i] = Math.max(overlaps[i] ?? 0, share);
      if (options.gap !== undefined) {
        const gap = first.minGap(second, options.gap);
        gaps[i] = Math.min(gaps[i] ?? Infinity, gap);
        widest[i] = Math.max(widest[i] ?? 0, gap);
      }
    });
    for (const solid of placed) solid.delete();
  }
  for (const solid of solids) solid.delete();
  return { solved, specs, overlaps, gaps, widest };
}

/** Turns of every shaft, in its own frame, for one turn of the input. */
export function turnsPerInput(solved: Solved): number[] {
  return solved.motion.ratios.map((ratio) => (ratio ? toNumber(ratio) : 0));
}

function standing(solid: Solid, turned: Float64Array, solved: Solved, index: number, gear: Drive["gears"][number]): Solid {
  const shaft = solved.index.shaftOfGear[index] as number;
  const matrix = Array.from(turned.slice(shaft * MATRIX, (shaft + 1) * MATRIX));
  const [x, y] = [Math.cos((gear.phase * Math.PI) / 180), Math.sin((gear.phase * Math.PI) / 180)];
  const key = [x, y, 0, 0, -y, x, 0, 0, 0, 0, 1, 0, 0, 0, gear.at, 1];
  const keyed = solid.transform(key as never);
  const moved = keyed.transform(matrix as never);
  keyed.delete();
  return moved;
}

/** A drive in few words: gears are named after their shafts' small letters. */
export function drive(fields: Omit<DriveFields, "gears" | "shafts"> & { shafts: string[]; gears: GearFields[] }): Drive {
  return makeDrive({
    ...fields,
    shafts: fields.shafts.map((id, i) =>
      makeShaft(i === 0 ? { id, pose: { origin: [3, -4, 5], axis: [0.2, 0.3, 0.9], ref: [1, 0.4, 0] } } : { id }),
    ),
    gears: fields.gears.map(makeGear),
  });
}

export interface PairOptions {
  readonly teeth: readonly [number, number];
  readonly module?: number;
  /** Shaft angle; left out for parallel shafts. */
  readonly angle?: number;
  readonly isRing?: boolean;
  readonly shifts?: readonly [number, number];
  readonly backlash?: number;
  readonly azimuth?: number;
  readonly isSecondPlus?: boolean;
  readonly face?: number;
}

/** One pair: gear a on shaft A, gear b on shaft B, A the input. */
export function pair(options: PairOptions): Drive {
  const { teeth, module = 2, angle, azimuth = 37 } = options;
  const kinds = angle !== undefined ? (["bevel", "bevel"] as const) : (["spur", options.isRing ? "internal" : "spur"] as const);
  const sigma = ((angle ?? 0) * Math.PI) / 180;
  const cone =
    angle === undefined
      ? 0
      : (module * teeth[0]) / 2 / Math.sin(Math.atan2(Math.sin(sigma), teeth[1] / teeth[0] + Math.cos(sigma)));
  const face = options.face ?? (angle === undefined ? 10 : Math.round(0.3 * cone * 1000) / 1000);
  const gear = (i: 0 | 1): GearFields => ({
    id: i === 0 ? "a" : "b",
    shaft: i === 0 ? "A" : "B",
    kind: kinds[i],
    teeth: teeth[i],
    module,
    face,
    bore: 4,
    apex: i === 1 && options.isSecondPlus ? "+" : "-",
    shift: options.shifts?.[i] ?? 0,
    backlash: options.backlash ?? 0,
    phase: i === 0 ? 11 : -5,
  });
  return drive({
    shafts: ["A", "B"],
    gears: [gear(0), gear(1)],
    meshes: [makeMesh({ id: "m", gears: ["a", "b"], azimuth, ...(angle === undefined ? {} : { shaftAngle: angle }) })],
    ports: [makePort({ shaft: "A", role: "input", speed: 60 })],
  });
}

/**
 * The outside judge: manifold-3d, a general library for solids, takes the gears of a drive as they stand and says how much
 * of each mesh's two gears is in both. Nothing here knows what an involute is.
 */
import Module from "manifold-3d";
import {
  type DriveFields,
  type GearFields,
  makeDrive,
  makeGear,
  makeMesh,
  makePort,
  makeShaft,
} from "../../../src/engine/drive/defaults";
import type { Drive, Gear, Vec3 } from "../../../src/engine/drive/types";
import { MATRIX, newPoses, poseAt, poseModel } from "../../../src/engine/motion/pose-at";
import { toNumber } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { toothWidth } from "../../../src/engine/teeth/blank";
import { buildSolid } from "../../../src/engine/teeth/gear-mesh";
import { outlineOf } from "../../../src/engine/teeth/outline";
import { restPhases } from "../../../src/engine/teeth/phases";
import { QUALITIES, type Quality, type ToothSpec, toothSpec } from "../../../src/engine/teeth/spec";

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

export interface JudgeOptions {
  readonly quality?: Quality;
  /** Turns of each shaft, radians, added to what the phases say (for controls that must fail). */
  readonly off?: ReadonlyMap<string, number>;
  /** Look for the smallest gap too, no further than this, mm. */
  readonly gap?: number;
  /** Judge whole gears, not only the teeth within a few pitches of where they mesh. */
  readonly isWhole?: boolean;
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

/** A gear's solid in its shaft's coordinates, keyed and in its place along the shaft. */
function keyed(solid: Solid, gear: Gear): Solid {
  const [x, y] = [Math.cos((gear.phase * Math.PI) / 180), Math.sin((gear.phase * Math.PI) / 180)];
  return solid.transform([x, y, 0, 0, -y, x, 0, 0, 0, 0, 1, 0, 0, 0, gear.at, 1]);
}

type Matrix = Parameters<Solid["transform"]>[0];
const matrixAt = (matrices: Float64Array, shaft: number) =>
  Array.from(matrices.slice(shaft * MATRIX, (shaft + 1) * MATRIX)) as unknown as Matrix;

/** A mesh on the judge's table: both gears, and the common volume or the gap at any rotation of the shafts. */
export class Table {
  readonly solved: Solved;
  readonly specs: readonly ToothSpec[];
  readonly rest: Float64Array;
  private readonly model: ReturnType<typeof poseModel>;
  private readonly pieces: readonly (readonly [Solid, Solid])[];

  constructor(data: Drive, options: JudgeOptions = {}) {
    this.solved = solve(data);
    const { index, placement } = this.solved;
    this.specs = data.gears.map((_, i) => toothSpec(data, index, placement, i, options.quality ?? QUALITIES.fine));
    this.rest = restPhases(data, index, placement);
    for (const [id, angle] of options.off ?? []) {
      const at = index.shafts.get(id) as number;
      this.rest[at] = (this.rest[at] ?? 0) + angle;
    }
    this.model = poseModel(this.solved);
    const start = poseAt(this.model, new Float64Array(this.model.count), this.rest, newPoses(this.model.count));
    const whole = data.gears.map((gear, i) => {
      const solid = solidOf(this.specs[i] as ToothSpec);
      const result = keyed(solid, gear);
      solid.delete();
      return result;
    });
    this.pieces = data.meshes.map((_, i) => {
      const pair = index.gearsOfMesh[i] as readonly [number, number];
      const piece = (side: 0 | 1) => {
        const solid = whole[pair[side]] as Solid;
        if (options.isWhole) return solid.translate([0, 0, 0]);
        const spec = this.specs[pair[side]] as ToothSpec;
        const line = placement.meshes[i]?.contact as readonly [Vec3, Vec3];
        const middle = line[0].map((x, k) => (x + (line[1][k] ?? 0)) / 2);
        const size = 2 * Math.max(2.8 * Math.PI * spec.module, spec.face / 2 + 3 * spec.module);
        const m = matrixAt(start.turned, index.shaftOfGear[pair[side]] as number);
        const from = [0, 1, 2].map((k) => (middle[k] ?? 0) - (m[12 + k] ?? 0));
        const local = [0, 1, 2].map((c) => from.reduce((sum, x, k) => sum + x * (m[4 * c + k] ?? 0), 0));
        const box = wasm.Manifold.cube(size, true).translate(local as [number, number, number]);
        const cut = solid.intersect(box);
        box.delete();
        return cut;
      };
      return [piece(0), piece(1)] as const;
    });
    for (const solid of whole) solid.delete();
  }

  /** Both gears of a mesh, where they stand when the shafts have turned by `angles`. */
  private stand<T>(mesh: number, angles: ArrayLike<number>, ask: (a: Solid, b: Solid) => T): T {
    const poses = poseAt(this.model, Float64Array.from(angles), this.rest, newPoses(this.model.count));
    const on = this.solved.index.shaftsOfMesh[mesh] as readonly [number, number];
    const pair = this.pieces[mesh] as readonly [Solid, Solid];
    const a = pair[0].transform(matrixAt(poses.turned, on[0]));
    const b = pair[1].transform(matrixAt(poses.turned, on[1]));
    const answer = ask(a, b);
    a.delete();
    b.delete();
    return answer;
  }

  /** Common volume in parts of a tooth of the smaller gear. */
  overlap(mesh: number, angles: ArrayLike<number>): number {
    const [a, b] = this.solved.index.gearsOfMesh[mesh] as readonly [number, number];
    const smaller = (this.specs[a]?.teeth ?? 0) <= (this.specs[b]?.teeth ?? 0) ? a : b;
    return this.stand(mesh, angles, (first, second) => {
      const common = first.intersect(second);
      const volume = common.volume();
      common.delete();
      return volume / toothVolume(this.specs[smaller] as ToothSpec);
    });
  }

  /** mm; `furthest` where they are further apart. */
  gap(mesh: number, angles: ArrayLike<number>, furthest: number): number {
    return this.stand(mesh, angles, (first, second) => first.minGap(second, furthest));
  }

  delete(): void {
    for (const pair of this.pieces) for (const solid of pair) solid.delete();
  }
}

/** Judges every mesh of a drive at `steps` positions over one tooth pitch of the first gear. */
export function judge(data: Drive, steps: number, options: JudgeOptions = {}): Judged {
  const table = new Table(data, options);
  const overlaps = data.meshes.map(() => 0);
  const gaps = data.meshes.map(() => Infinity);
  const widest = data.meshes.map(() => 0);
  const pitch = (2 * Math.PI) / (table.specs[0]?.teeth ?? 1);
  const ratios = turnsPerInput(table.solved);
  for (let step = 0; step < steps; step++) {
    const angles = ratios.map((ratio) => (ratio * pitch * step) / steps);
    data.meshes.forEach((_, i) => {
      overlaps[i] = Math.max(overlaps[i] ?? 0, table.overlap(i, angles));
      if (options.gap === undefined) return;
      const gap = table.gap(i, angles, options.gap);
      gaps[i] = Math.min(gaps[i] ?? Infinity, gap);
      widest[i] = Math.max(widest[i] ?? 0, gap);
    });
  }
  table.delete();
  return { solved: table.solved, specs: table.specs, overlaps, gaps, widest };
}

/** Turns of every shaft, in its own frame, for one turn of the input. */
export function turnsPerInput(solved: Solved): number[] {
  return solved.motion.ratios.map((ratio) => (ratio ? toNumber(ratio) : 0));
}

/** A drive in few words: gears are named after their shafts' small letters. */
export function drive(
  fields: Omit<DriveFields, "gears" | "shafts"> & { shafts: string[]; gears: GearFields[] },
): Drive {
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
  const kinds =
    angle !== undefined ? (["bevel", "bevel"] as const) : (["spur", options.isRing ? "internal" : "spur"] as const);
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

/**
 * Where every shaft stands at given angles: rigid poses as 4 × 4 matrices, in nested frames.
 *
 * A shaft's own coordinates: origin at the shaft's origin, z along its positive axis, x along its `ref`, y = z × x. With
 *   B_i  the pose in which placement leaves shaft i at time zero,
 *   Z(a) a turn by `a` about z,
 *   F_c  what carrier c has done to all that it carries since time zero (the identity for ground),
 * a shaft carried by c stands at F_c · B_i · Z(rest_i + angle_i), and F_i = F_c · B_i · Z(angle_i) · B_i⁻¹. The rest rotation only
 * keys the gears to the shaft: it moves nothing that the shaft carries.
 */
import type { Solved, Vec3 } from "../solved";
import { cross } from "../vector";

/** Numbers in one matrix: 16, column by column, as WebGL wants them. */
export const MATRIX = 16;

/** What does not change while the drive turns: reckon it once for each solution. */
export interface PoseModel {
  readonly count: number;
  /** Shafts in an order in which every carrier comes before what it carries; unplaced shafts are left out. */
  readonly order: readonly number[];
  readonly frame: Int32Array;
  /** B_i, 16 numbers a shaft. */
  readonly base: Float64Array;
  readonly carries: readonly boolean[];
}

export interface Poses {
  /** Each shaft as its carrier has moved it, its own turning left out: for what stands beside a shaft (arrow, label). */
  readonly still: Float64Array;
  /** Each shaft as it has turned: for what is keyed to it. */
  readonly turned: Float64Array;
  /** F_i of every shaft that carries another: for meshes and other things that ride on it. */
  readonly frame: Float64Array;
}

const IDENTITY = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

function writeBase(base: Float64Array, shaft: number, origin: Vec3, axis: Vec3, ref: Vec3): void {
  const y = cross(axis, ref);
  base.set([...ref, 0, ...y, 0, ...axis, 0, ...origin, 1], shaft * MATRIX);
}

export function poseModel({ index, placement }: Solved): PoseModel {
  const count = placement.shafts.length;
  const base = new Float64Array(count * MATRIX);
  const carries = new Array<boolean>(count).fill(false);
  const order: number[] = [];
  const seen = new Uint8Array(count);
  for (let shaft = 0; shaft < count; shaft++) {
    base.set(IDENTITY, shaft * MATRIX);
    const placed = placement.shafts[shaft];
    if (placed) writeBase(base, shaft, placed.origin, placed.axis, placed.ref);
    // Up the carriers to one already in order, then down again: no recursion, however deep the nesting.
    const chain: number[] = [];
    for (let s = shaft; s >= 0 && !seen[s]; s = index.frameOfShaft[s] ?? -1) {
      seen[s] = 1;
      chain.push(s);
    }
    for (let k = chain.length - 1; k >= 0; k--) {
      const s = chain[k] as number;
      if (placement.shafts[s]) order.push(s);
    }
    const frame = index.frameOfShaft[shaft] ?? -1;
    if (frame >= 0) carries[frame] = true;
  }
  return { count, order, frame: index.frameOfShaft, base, carries };
}

export function newPoses(count: number): Poses {
  const make = (): Float64Array => {
    const matrices = new Float64Array(count * MATRIX);
    for (let i = 0; i < count; i++) matrices.set(IDENTITY, i * MATRIX);
    return matrices;
  };
  return { still: make(), turned: make(), frame: make() };
}

/** out[o..] = a[i..] · b[j..] for rigid matrices (last row 0 0 0 1). `out` may not be `a` or `b` at the same place. */
function multiply(out: Float64Array, o: number, a: Float64Array, i: number, b: Float64Array, j: number): void {
  for (let column = 0; column < 4; column++) {
    const x = b[j + 4 * column] ?? 0;
    const y = b[j + 4 * column + 1] ?? 0;
    const z = b[j + 4 * column + 2] ?? 0;
    for (let row = 0; row < 3; row++) {
      out[o + 4 * column + row] =
        (a[i + row] ?? 0) * x +
        (a[i + 4 + row] ?? 0) * y +
        (a[i + 8 + row] ?? 0) * z +
        (column === 3 ? (a[i + 12 + row] ?? 0) : 0);
    }
    out[o + 4 * column + 3] = column === 3 ? 1 : 0;
  }
}

/** out[o..] = a[i..] · Z(angle) */
function turnAboutZ(out: Float64Array, o: number, a: Float64Array, i: number, angle: number): void {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  for (let row = 0; row < 4; row++) {
    const x = a[i + row] ?? 0;
    const y = a[i + 4 + row] ?? 0;
    out[o + row] = c * x + s * y;
    out[o + 4 + row] = c * y - s * x;
    out[o + 8 + row] = a[i + 8 + row] ?? 0;
    out[o + 12 + row] = a[i + 12 + row] ?? 0;
  }
}

/** The inverse of a rigid matrix: the rotation transposed. */
function invert(out: Float64Array, o: number, a: Float64Array, i: number): void {
  for (let row = 0; row < 3; row++) {
    let shift = 0;
    for (let column = 0; column < 3; column++) {
      const value = a[i + 4 * row + column] ?? 0;
      out[o + 4 * column + row] = value;
      shift -= value * (a[i + 12 + column] ?? 0);
    }
    out[o + 12 + row] = shift;
    out[o + 4 * row + 3] = 0;
  }
  out[o + 15] = 1;
}

const scratch = new Float64Array(2 * MATRIX);

/**
 * Poses of all placed shafts, in mm in the world; unplaced shafts keep what `out` holds. No memory is taken when `out` is given.
 * @param angles radians each shaft has turned in its own frame since time zero, right-handed about its positive axis
 * @param rest radians at which each shaft stands at time zero
 */
export function poseAt(
  model: PoseModel,
  angles: Float64Array,
  rest: Float64Array | null = null,
  out: Poses = newPoses(model.count),
): Poses {
  for (const shaft of model.order) {
    const o = shaft * MATRIX;
    const carrier = model.frame[shaft] ?? -1;
    if (carrier >= 0) multiply(out.still, o, out.frame, carrier * MATRIX, model.base, o);
    else for (let k = 0; k < MATRIX; k++) out.still[o + k] = model.base[o + k] ?? 0;
    const angle = angles[shaft] ?? 0;
    turnAboutZ(out.turned, o, out.still, o, angle + (rest?.[shaft] ?? 0));
    if (model.carries[shaft]) {
      turnAboutZ(scratch, 0, out.still, o, angle);
      invert(scratch, MATRIX, model.base, o);
      multiply(out.frame, o, scratch, 0, scratch, MATRIX);
    }
  }
  return out;
}

/**
 * The shaft in whose frame a mesh stands still, -1 for ground: the carrier that its two shafts share, or where one of them is
 * that carrier's own neighbour (a sun, an annulus), the carrier of the other.
 */
export function frameOfMesh({ index }: Solved, mesh: number): number {
  const [a, b] = index.shaftsOfMesh[mesh] ?? [-1, -1];
  const frameA = index.frameOfShaft[a] ?? -1;
  const frameB = index.frameOfShaft[b] ?? -1;
  if (frameA === frameB) return frameA;
  if (frameA >= 0 && (index.frameOfShaft[frameA] ?? -1) === frameB) return frameA;
  if (frameB >= 0 && (index.frameOfShaft[frameB] ?? -1) === frameA) return frameB;
  return -1;
}

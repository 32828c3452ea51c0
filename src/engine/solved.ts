/**
 * The solved drive: everything that the engine knows of a drive, in layers, each computed once.
 * Screen, command line, figures and tests all read this; nothing else computes a number.
 */
import type { Figure } from "./drive/question";
import type { Drive, Gear, Mesh, Port, Shaft, Vec3 } from "./drive/types";
import type { Finding } from "./findings";
import type { MeshKind, Misfit, Pair, PairShape } from "./mesh-kinds/contract";
import type { Rational } from "./motion/rational";
import type { System } from "./motion/system";

/** Lists of numbers, one for each owner, end to end: those of owner i are members[start[i]] to members[start[i + 1] - 1]. */
export interface FlatLists {
  readonly start: Int32Array;
  readonly members: Int32Array;
}

/** Maps from ids to things and the joins between them; built once for each drive. Ids are never object keys. */
export interface DriveIndex {
  readonly shafts: ReadonlyMap<string, number>;
  readonly gears: ReadonlyMap<string, number>;
  readonly meshes: ReadonlyMap<string, number>;
  /** For each gear, the index of its shaft. */
  readonly shaftOfGear: Int32Array;
  /** For each mesh, its two gears and its two shafts, by index. */
  readonly gearsOfMesh: readonly (readonly [number, number])[];
  readonly shaftsOfMesh: readonly (readonly [number, number])[];
  /** For each shaft the meshes that touch it, in document order. */
  readonly meshesOfShaft: readonly (readonly number[])[];
  /** For each shaft its gears, in document order. */
  readonly gearsOfShaft: readonly (readonly number[])[];
  /** The four lists above as the engine reads them, flat. Two a mesh: that of side s of mesh m at 2m + s. */
  readonly gearAt: Int32Array;
  readonly shaftAt: Int32Array;
  readonly meshesAt: FlatLists;
  readonly gearsAt: FlatLists;
  /** For each shaft the index of the shaft that carries it, -1 for ground. */
  readonly frameOfShaft: Int32Array;
  /** For each shaft its port, -1 for none. */
  readonly portOfShaft: Int32Array;
}

export interface PlacedShaft {
  /** World, mm. */
  readonly origin: Vec3;
  /** Unit. */
  readonly axis: Vec3;
  /** Unit, square to `axis`: azimuth 0. */
  readonly ref: Vec3;
  /** A mesh id, `pose` or `coaxial`. */
  readonly placedBy: string;
}

export interface PlacedGear {
  /** World, mm: centre of the mid-face plane, or of the outer pitch circle. */
  readonly centre: Vec3;
  /** Outward axis, unit; for parallel kinds the shaft's axis. */
  readonly outward: Vec3;
  readonly pitchDiameter: number;
  /** Degrees: 0 spur, 180 ring; null on a bevel or cone without a mesh. */
  readonly pitchAngle: number | null;
  /** mm; null on parallel kinds. */
  readonly coneDistance: number | null;
  readonly apexPoint: Vec3 | null;
}

export interface PlacedMesh {
  readonly kind: MeshKind;
  /** The two gears and the mesh, as the questions of the kind want them. */
  readonly pair: Pair;
  /** Of the pair. */
  readonly shape: PairShape;
  /** The mesh that placed one of its shafts, or one that closes a loop. */
  readonly closesLoop: boolean;
  /** mm and degrees by which a closing mesh misses; 0 on others. */
  readonly misfit: Misfit;
  /** Working width of the face, mm; 0 where the faces have no part in common. */
  readonly width: number;
  /** Contact line in the world, mm: [heel, toe], or the two ends of the common face. */
  readonly contact: readonly [Vec3, Vec3];
  /** World direction of the pitch point seen from each gear's axis, unit, square to that axis. */
  readonly towards: readonly [Vec3, Vec3];
  /** False where an error of its own leaves its equation out (cone-mismatch, loop-misfit, no-shared-frame). */
  readonly holds: boolean;
}

export interface Placement {
  readonly shafts: readonly (PlacedShaft | null)[];
  readonly gears: readonly (PlacedGear | null)[];
  readonly meshes: readonly (PlacedMesh | null)[];
  readonly findings: readonly Finding[];
}

/**
 * The equation of one mesh in the speeds of shafts, each in its own frame: sum of coefficient · speed = 0.
 * `spins` are the two gears' spins in the frame that they share, as sums over shafts.
 */
export interface MeshRow {
  readonly mesh: number;
  /** Whole numbers (teeth), or diameters scaled to whole numbers: c1 w1 + c2 w2 = 0 about the two shafts' positive axes. */
  readonly coefficients: readonly [bigint, bigint];
  /** The two coefficients as doubles; NaN for both where one of them is beyond 2^53. */
  readonly first: number;
  readonly second: number;
  /** Shaft index of the carrier that a spin is taken relative to, and the sign of its axis against that shaft's; -1 for none. */
  readonly carrier: readonly [number, number];
  readonly carrierSign: readonly [1 | -1, 1 | -1];
}

export type Status = "locked" | "conflict" | "free" | "determined";

export interface Motion {
  readonly status: Status;
  readonly mobility: number;
  /** How many inputs are missing (status free), else 0. */
  readonly missingInputs: number;
  /** For each mesh its row; null where it has none (unplaced, or left out for an error of its own). */
  readonly rows: readonly (MeshRow | null)[];
  /** Exact speed in the shaft's own frame, rev/min; null where it isn't fixed. */
  readonly speeds: readonly (Rational | null)[];
  /** Speed over that of the only turning input; null as format.md says. */
  readonly ratios: readonly (Rational | null)[];
  /** The same speeds as doubles, rev/min (null also where no double holds it). */
  readonly speed: readonly (number | null)[];
  /** Exact sign of each speed: -1, 0 or 1; 0 also where it isn't fixed. */
  readonly way: Int8Array;
  /** 1 where the speed is fixed: what is not null in `speeds`. */
  readonly isFixed: Uint8Array;
  /** Absolute, rad/s, world axes. */
  readonly angularVelocity: readonly (Vec3 | null)[];
  /** For each shaft the number of its joined part (through meshes and frames), for loads and findings. */
  readonly part: Int32Array;
  /** For each shaft whether it is locked by the meshes alone. */
  readonly locked: readonly boolean[];
  /** The reduced speed equations, for questions that come later (turning by hand). */
  readonly system: System;
  readonly findings: readonly Finding[];
}

export interface ShaftLoad {
  /** N·m about the positive axis, see format.md; null where undetermined. */
  readonly torque: number | null;
  /** W. */
  readonly power: number | null;
}

export interface MeshLoad {
  /** 0 or 1: which of its two gears drives; null where nothing is carried or it isn't known. */
  readonly driver: 0 | 1 | null;
  /** Tooth torque on each of the two shafts about its positive axis, N·m. */
  readonly torques: readonly [number, number] | null;
  /** m/s, in the mesh's frame, at the (mean) pitch circle; a size. */
  readonly pitchSpeed: number | null;
  readonly tangentialForce: number | null;
  readonly radialForces: readonly [number, number] | null;
  readonly axialForces: readonly [number, number] | null;
  readonly contactRatio: number | null;
  /** W lost in this mesh. */
  readonly loss: number | null;
  /** Friction pairs: N·m at the driven gear's shaft (a size) from which it slips; null on teeth, or where that isn't known. */
  readonly slipTorque: number | null;
}

export interface Load {
  readonly shafts: readonly ShaftLoad[];
  readonly meshes: readonly MeshLoad[];
  /**
   * For each shaft the torque at it over that of the only input, where no load is given but the shape of the train
   * alone tells (torque multiplication with the efficiencies of the file); null elsewhere.
   */
  readonly gain: readonly (number | null)[];
  readonly findings: readonly Finding[];
}

/** What a question hides of the drive (`question/veil.ts`). Shafts by index. */
export interface Veil {
  /** Whether this figure of a shaft must not be shown, nor anything that gives it away. */
  hides(shaft: number, figure: Figure | "power"): boolean;
  /** A shaft's speed as a size, rev/min, where it may be shown though its direction may not; null elsewhere. */
  speedSize(shaft: number): number | null;
}

export interface Solved {
  readonly drive: Drive;
  readonly index: DriveIndex;
  readonly placement: Placement;
  readonly motion: Motion;
  readonly load: Load;
  /** All findings: errors first, then warnings, then notes; within each in the order of the layers. */
  readonly findings: readonly Finding[];
  /** Stands where figures of this solution are hidden: those are then null, and direction 0. */
  readonly veil?: Veil;
}

export type { Drive, Gear, Mesh, Port, Shaft, Vec3 };

/**
 * What one kind of mesh is. A kind is one object in one file beside this one, and one line in `list.ts`; the rest of
 * the engine asks these questions and never which kind it is.
 */
import type { Gear, GearKind, Mesh, Vec3 } from "../drive/types";
import type { Finding } from "../findings";
import type { PlacedGear, PlacedShaft } from "../solved";

/** Sizes of a pair that follow from its two gears and its mesh alone, wherever it stands. Index 0 and 1: the gears in the mesh's order. */
export interface PairShape {
  /** mm, pitch radius (at the heel). */
  readonly radii: readonly [number, number];
  /** Radians: pitch angle of each gear. 0 spur, π ring. */
  readonly pitchAngles: readonly [number, number];
  /** mm for each gear, Infinity for parallel pairs (equal unless modules differ). */
  readonly coneDistances: readonly [number, number];
  /** Radians between the outward axes: 0 outside pair, π ring pair. */
  readonly shaftAngle: number;
  /** mm between parallel axes; 0 for intersecting pairs. */
  readonly centreDistance: number;
}

export interface Misfit {
  readonly millimetres: number;
  readonly degrees: number;
  /** Largest of both, in parts of the module (of the smaller diameter for friction). */
  readonly modules: number;
  /** mm: that module (or diameter). */
  readonly unit: number;
}

/** A pair as it stands: what the questions below need. */
export interface Pair {
  readonly mesh: Mesh;
  readonly gears: readonly [Gear, Gear];
  readonly shape: PairShape;
}

export interface PairForces {
  /** N, towards the gear's own axis positive; on a ring negative: it pushes outward. */
  readonly radial: readonly [number, number];
  /** N along the gear's outward axis. */
  readonly axial: readonly [number, number];
}

/** Words of a kind, in a student's language. */
export interface KindWords {
  /** "bevel pair" */
  readonly name: string;
  /** What turns how, e.g. "Outside gears turn opposite ways." */
  readonly direction: string;
  /** Usual efficiency of one mesh, offered and never applied silently, with its source. */
  readonly usualEfficiency: { readonly value: number; readonly source: string } | null;
}

export interface MeshKind {
  readonly id: string;
  /** The kinds of gear that it joins, in either order in the file. */
  readonly pairs: readonly [GearKind, GearKind];
  /** Whether its axes meet at an angle that the file gives. */
  readonly needsShaftAngle: boolean;
  /** Whether friction drives rather than teeth. */
  readonly isFriction: boolean;
  readonly words: KindWords;
  /** Sizes from the two gears; never throws, even for proportions that can't work. */
  shape(mesh: Mesh, gears: readonly [Gear, Gear]): PairShape;
  /** Pose of the other gear's shaft, from the placed shaft of gear `from`. format.md, Placing. */
  place(pair: Pair, from: 0 | 1, shaft: PlacedShaft): Omit<PlacedShaft, "placedBy">;
  /** How badly a mesh between two placed shafts fits. */
  misfit(pair: Pair, shafts: readonly [PlacedShaft, PlacedShaft], gears: readonly [PlacedGear, PlacedGear]): Misfit;
  /**
   * Signs (s1, s2) of its equation of motion s1 n1 w1 + s2 n2 w2 = 0, with n the teeth (or diameters) and w the spins
   * about the two shafts' positive axes in the frame that they share.
   */
  signs(pair: Pair, shafts: readonly [PlacedShaft, PlacedShaft]): readonly [1 | -1, 1 | -1];
  /** Working width of the face, mm; 0 where the faces have no part in common. */
  width(pair: Pair, shafts: readonly [PlacedShaft, PlacedShaft], gears: readonly [PlacedGear, PlacedGear]): number;
  /** The contact line in the world, and the direction of the pitch point from each axis. */
  contact(
    pair: Pair,
    shafts: readonly [PlacedShaft, PlacedShaft],
    gears: readonly [PlacedGear, PlacedGear],
  ): { readonly line: readonly [Vec3, Vec3]; readonly towards: readonly [Vec3, Vec3] };
  /** Radius at which the tangential force is reckoned, mm, for each gear: pitch radius, or the mean one of a bevel. */
  forceRadii(pair: Pair, width: number): readonly [number, number];
  /** Radial and axial forces from a tangential force, N; null where the file doesn't say what presses a friction pair. */
  forces(pair: Pair, tangentialForce: number): PairForces | null;
  /** Path of contact over base pitch; null for friction, or where a tip lies within its base circle. */
  contactRatio(pair: Pair): number | null;
  /** What is wrong or unwise about this pair by itself, the error codes of the format first. */
  checks(pair: Pair): readonly Finding[];
}

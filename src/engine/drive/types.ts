/**
 * The drive: plain immutable data, exactly as a `.drive.json` file holds it, with every default filled in.
 * Lengths in mm, angles in degrees, speeds in rev/min, torques in N·m, powers in W, forces in N.
 */

/** A right-handed `[x, y, z]`. */
export type Vec3 = readonly [number, number, number];

/** Any further keys that begin with `x-` are kept as they are, and written back. */
export type Extras = { readonly [key: `x-${string}`]: unknown };

/** Where a root shaft stands. `axis` and `ref` need not be unit vectors; `ref` need not be square to `axis`. */
export interface Pose {
  readonly origin: Vec3;
  readonly axis: Vec3;
  readonly ref: Vec3;
}

export interface Shaft extends Extras {
  readonly id: string;
  readonly name: string;
  /** On root shafts only. */
  readonly pose?: Pose;
  /** The id of the shaft whose origin, axis and ref this one shares. Never together with `pose`. */
  readonly coaxial?: string;
  /** The id of the shaft that carries this one; left out for ground. */
  readonly frame?: string;
}

export const TOOTHED_KINDS = ["spur", "internal", "bevel"] as const;
export const TOOTHLESS_KINDS = ["wheel", "internal-wheel", "cone"] as const;
export const GEAR_KINDS = [...TOOTHED_KINDS, ...TOOTHLESS_KINDS] as const;
export type GearKind = (typeof GEAR_KINDS)[number];

interface GearCommon extends Extras {
  readonly id: string;
  readonly shaft: string;
  /** Position along the shaft's axis of the mid-face plane, or for a bevel or cone of the outer pitch circle (heel). mm */
  readonly at: number;
  /** Face width, mm, > 0. */
  readonly face: number;
  /** Bevel and cone only: outward axis `u` is the reverse of the shaft's axis for `+`, the axis itself for `-`. */
  readonly apex: "+" | "-";
  /** Degrees; meaningless on toothless kinds. */
  readonly pressureAngle: number;
  /** Factor of the module. */
  readonly addendum: number;
  /** Factor of the module; dedendum is addendum + clearance. */
  readonly clearance: number;
  /** Profile shift, factor of the module; on a ring positive moves the profile outward. */
  readonly shift: number;
  /** Bore diameter, mm; 0 for none. */
  readonly bore: number;
  /** mm by which this gear's own teeth are thinned at its pitch circle. */
  readonly backlash: number;
  /** Degrees by which the gear is turned on its shaft, right-handed about the shaft's positive axis. */
  readonly phase: number;
}

export interface ToothedGear extends GearCommon {
  readonly kind: (typeof TOOTHED_KINDS)[number];
  /** Whole, 1 to 100,000. */
  readonly teeth: number;
  /** mm; on a bevel gear the outer (heel) transverse module. */
  readonly module: number;
}

export interface ToothlessGear extends GearCommon {
  readonly kind: (typeof TOOTHLESS_KINDS)[number];
  /** mm; on a cone at the heel. Read as an exact decimal. */
  readonly diameter: number;
  /** The digits of `diameter` as the file had them, where they are more than a double holds. */
  readonly diameterDigits?: string;
}

export type Gear = ToothedGear | ToothlessGear;

export interface Mesh extends Extras {
  readonly id: string;
  readonly gears: readonly [string, string];
  /** Degrees between the two outward axes, 0 < angle < 180; on bevel and cone meshes, nowhere else. */
  readonly shaftAngle?: number;
  /** Degrees; ignored on a mesh that closes a loop. */
  readonly azimuth: number;
  /** 0 < e <= 1, in the frame in which the mesh rolls. */
  readonly efficiency: number;
  /** Friction pairs only: N. */
  readonly normalForce?: number;
  /** Friction pairs only: coefficient. */
  readonly friction?: number;
}

export type PortRole = "input" | "held" | "output";

export interface Port extends Extras {
  readonly shaft: string;
  readonly role: PortRole;
  /** rev/min about the shaft's positive axis; on inputs only. Read as an exact decimal. */
  readonly speed?: number;
  /** The digits of `speed` as the file had them, where they are more than a double holds. */
  readonly speedDigits?: string;
  /** N·m, 0 or more: an output's load, or what an input can give. */
  readonly torque?: number;
  /** W, 0 or more; never together with `torque`. */
  readonly power?: number;
}

export interface Drive extends Extras {
  readonly title: string;
  readonly notes: string;
  readonly shafts: readonly Shaft[];
  readonly gears: readonly Gear[];
  readonly meshes: readonly Mesh[];
  readonly ports: readonly Port[];
}

/** What is wrong with a text that is not a drive, and where. */
export interface Fault {
  /** JSON pointer (RFC 6901) of the place; empty for the whole text. */
  readonly pointer: string;
  /** One sentence: what was found and what was expected. */
  readonly message: string;
}

export const LIMITS = {
  shafts: 20_000,
  gears: 40_000,
  meshes: 40_000,
  teeth: 100_000,
  bytes: 32 * 1024 * 1024,
} as const;

export const hasTeeth = (gear: Gear): gear is ToothedGear => "teeth" in gear;

/** Pitch diameter in mm; at the heel for a bevel gear or a cone. */
export const pitchDiameter = (gear: Gear): number => (hasTeeth(gear) ? gear.teeth * gear.module : gear.diameter);

/**
 * The half section of a gear without its teeth, in its shaft's own coordinates: what simple bodies, the flat drawing, picking
 * and the room that a shaft needs all start from. Lengths in mm, angles in radians.
 */
import { type Gear, hasTeeth } from "../drive/types";
import type { PlacedGear } from "../solved";
import { FARTHEST_APEX } from "../tolerances";
import { DEGREE } from "../vector";

/** A point of a half section: distance from the shaft's axis, and place along it. */
export type RZ = readonly [r: number, z: number];

export interface GearOutline {
  /** Index of the gear and of its shaft. */
  readonly gear: number;
  readonly shaft: number;
  /** Place along the shaft of the mid-face plane, or of the outer pitch circle of a cone. */
  readonly at: number;
  /** 1 where the gear's outward axis is the shaft's axis, -1 where it is the reverse. */
  readonly outward: 1 | -1;
  readonly face: number;
  readonly pitchRadius: number;
  readonly tipRadius: number;
  readonly rootRadius: number;
  /** 0 outside, π ring; of a cone between the two. */
  readonly pitchAngle: number;
  /** null on parallel kinds. */
  readonly coneDistance: number | null;
  /** Closed half section of the body up to the tips. */
  readonly body: readonly RZ[];
  /** The pitch surface: a line from one rim to the other (or from the apex to the heel), that turns into a cylinder or cone. */
  readonly pitch: readonly [RZ, RZ];
}

/** Parts of the module by which a ring or a shell stands behind its roots. Ours, for the drawing only. */
const RIM_MODULES = 2;
/** A toothless wheel is drawn as if it had teeth of this part of its diameter, so that rims and shells have a thickness. */
const SMOOTH_MODULE = 1 / 30;
/** Radians: from here on a cone is drawn as a shell, since a full body would fill the space of its mate. */
const SHELL_FROM = 80 * DEGREE;

interface Heights {
  readonly rim: number;
  readonly addendum: number;
  readonly dedendum: number;
}

function heights(gear: Gear, isRing: boolean): Heights {
  if (!hasTeeth(gear)) return { rim: RIM_MODULES * gear.diameter * SMOOTH_MODULE, addendum: 0, dedendum: 0 };
  const shift = isRing ? -gear.shift : gear.shift;
  return {
    rim: RIM_MODULES * gear.module,
    addendum: gear.module * Math.max(0, gear.addendum + shift),
    dedendum: gear.module * Math.max(0, gear.addendum + gear.clearance - shift),
  };
}

function cylinder(
  gear: Gear,
  placed: PlacedGear,
  isRing: boolean,
): Pick<GearOutline, "body" | "pitch" | "tipRadius" | "rootRadius"> {
  const { rim, addendum, dedendum } = heights(gear, isRing);
  const r = placed.pitchDiameter / 2;
  const [low, high] = [gear.at - gear.face / 2, gear.at + gear.face / 2];
  const side = isRing ? -1 : 1;
  const tipRadius = Math.max(0, r + side * addendum);
  const rootRadius = Math.max(0, r - side * dedendum);
  const inner = isRing ? tipRadius : Math.min(gear.bore / 2, rootRadius);
  const outer = isRing ? rootRadius + rim : tipRadius;
  const body: RZ[] = [
    [inner, low],
    [outer, low],
    [outer, high],
    [inner, high],
  ];
  return {
    body,
    pitch: [
      [r, low],
      [r, high],
    ],
    tipRadius,
    rootRadius,
  };
}

function cone(
  gear: Gear,
  placed: PlacedGear,
  outward: 1 | -1,
): Pick<GearOutline, "body" | "pitch" | "tipRadius" | "rootRadius"> {
  const delta = (placed.pitchAngle ?? 0) * DEGREE;
  const R = placed.coneDistance ?? 0;
  const { rim, addendum, dedendum } = heights(gear, false);
  const [sin, cos] = [Math.sin(delta), Math.cos(delta)];
  const toe = Math.max(0.02, (R - gear.face) / R);
  // In the plane of the axis: along the pitch line from the apex, and `h` square to it, away from the cone's inside.
  const point = (scale: number, h: number): RZ => [
    Math.max(0, scale * (R * sin + h * cos)),
    gear.at + outward * (scale * (R * cos - h * sin) - R * cos),
  ];
  const tipHeel = point(1, addendum);
  const rootHeel = point(1, -dedendum);
  const behind = point(1, -dedendum - rim);
  const body: RZ[] = [tipHeel, point(toe, addendum)];
  if (delta < SHELL_FROM) {
    const back = gear.at + outward * Math.max(dedendum * sin, rim * 0.5);
    body.push(point(toe, -dedendum), [0, point(toe, -dedendum)[1]], [0, back], [rootHeel[0] * 0.8, back], rootHeel);
  } else {
    body.push(point(toe, -dedendum - rim), behind);
  }
  return {
    body,
    pitch: [
      [0, gear.at - outward * R * cos],
      [R * sin, gear.at],
    ],
    tipRadius: tipHeel[0],
    rootRadius: rootHeel[0],
  };
}

interface Made {
  readonly pitchAngle: number;
  readonly outline: GearOutline;
}
const made = new WeakMap<Gear, Made>();

/**
 * The outline of a placed gear; null where it has no pitch surface to draw (a bevel gear without a mesh). The same object again as long
 * as the gear is the same, wherever it has been moved to.
 */
export function gearOutline(gear: Gear, placed: PlacedGear, gearIndex: number, shaft: number): GearOutline | null {
  if (placed.pitchAngle === null) return null;
  const before = made.get(gear);
  if (before?.pitchAngle === placed.pitchAngle && before.outline.gear === gearIndex && before.outline.shaft === shaft) {
    return before.outline;
  }
  const outline = makeOutline(gear, placed, placed.pitchAngle, gearIndex, shaft);
  made.set(gear, { pitchAngle: placed.pitchAngle, outline });
  return outline;
}

function makeOutline(
  gear: Gear,
  placed: PlacedGear,
  pitchAngle: number,
  gearIndex: number,
  shaft: number,
): GearOutline {
  // A cone whose apex lies out of all reach is a cylinder to the eye.
  const isCone = placed.coneDistance !== null && placed.coneDistance < FARTHEST_APEX * placed.pitchDiameter;
  const isRing = !isCone && pitchAngle > 90;
  const outward = isCone && gear.apex === "+" ? -1 : 1;
  return {
    gear: gearIndex,
    shaft,
    at: gear.at,
    outward,
    face: gear.face,
    pitchRadius: placed.pitchDiameter / 2,
    pitchAngle: pitchAngle * DEGREE,
    coneDistance: isCone ? placed.coneDistance : null,
    ...(isCone ? cone(gear, placed, outward) : cylinder(gear, placed, isRing)),
  };
}

/** The same gear at place 0 of its shaft, so that equal gears anywhere are one body. */
export const atOrigin = (outline: GearOutline): GearOutline => {
  const down = ([r, z]: RZ): RZ => [r, z - outline.at];
  return { ...outline, at: 0, body: outline.body.map(down), pitch: [down(outline.pitch[0]), down(outline.pitch[1])] };
};

/** Least and greatest place along the shaft that the body takes. */
export const reachAlong = ({ body }: GearOutline): readonly [number, number] => {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [, z] of body) {
    low = Math.min(low, z);
    high = Math.max(high, z);
  }
  return [low, high];
};

export const reachAcross = ({ body }: GearOutline): number => body.reduce((most, [r]) => Math.max(most, r), 0);

/** Rings and internal cones, whose bodies do not reach their shaft. */
export const isShell = ({ coneDistance, pitchAngle }: GearOutline): boolean =>
  coneDistance === null ? pitchAngle > 1 : pitchAngle > Math.PI / 2 + 1e-6;

/**
 * Place along the shaft at which spokes hold a shell: a ring at the face where its shaft goes on (`side`, 1 for the + end), an
 * internal cone behind its heel, clear of its teeth.
 */
export const spokePlace = (outline: GearOutline, side: 1 | -1): number =>
  outline.coneDistance === null ? reachAlong(outline)[side === 1 ? 1 : 0] : (outline.body.at(-1)?.[1] ?? outline.at);

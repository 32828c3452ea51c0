/**
 * What a gear's teeth and body follow from: plain numbers, so that equal gears share one mesh (`toothKey`) and a change
 * of one gear reaches only itself and its mates (through `tipLimit` and `filletHeight`).
 */
import type { Drive, Gear, ToothedGear } from "../drive/types";
import { hasTeeth, pitchDiameter } from "../drive/types";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import type { DriveIndex, Placement } from "../solved";
import { DEGREE } from "../vector";
import { conicalTipLimit, outsideTipLimit, ringTipLimit, tipLimitInRing } from "./limits";

/** How finely to build: segments along each flank, along each root fillet, and round the body. */
export interface Quality {
  readonly flank: number;
  readonly fillet: number;
  readonly body: number;
  /** Cut tips back to where they would foul the mate's root. */
  readonly trim: boolean;
}

export const QUALITIES = {
  /** For the screen, small: teeth of a few pixels. */
  far: { flank: 2, fillet: 1, body: 32, trim: true },
  /** For the screen: the silhouette is within 0.5 % of the module. */
  bench: { flank: 7, fillet: 3, body: 56, trim: true },
  /** For export while sketching. */
  draft: { flank: 8, fillet: 4, body: 72, trim: true },
  /** For export and for checks. */
  fine: { flank: 16, fillet: 8, body: 144, trim: true },
} as const satisfies Record<string, Quality>;

export interface ToothSpec {
  /** Outside (spur, wheel), ring, or conical at any pitch angle. */
  readonly form: "outside" | "ring" | "conical";
  /** 0 for a smooth wheel or cone. */
  readonly teeth: number;
  /** mm; on a smooth body the size that rim and web are measured in. */
  readonly module: number;
  /** mm, at the heel for a conical gear. */
  readonly pitchRadius: number;
  /** Radians: 0 outside, π ring. */
  readonly pitchAngle: number;
  /** mm; Infinity on parallel kinds. */
  readonly coneDistance: number;
  /** mm. */
  readonly face: number;
  /** Radians. */
  readonly pressureAngle: number;
  /** mm, without shift. */
  readonly addendum: number;
  /** mm, without shift: addendum and clearance. */
  readonly dedendum: number;
  /** mm: largest rounding of the tip of the rack that cuts an outside gear. */
  readonly rounding: number;
  /** mm: profile shift; on a ring positive moves the profile outward. */
  readonly shift: number;
  /** mm by which each tooth is thinned at the pitch circle. */
  readonly thinning: number;
  /** mm, radius. */
  readonly bore: number;
  /** Place (mm radius, or polar angle) beyond which a tip would foul a mate's root; null for none. */
  readonly tipLimit: number | null;
  /** mm from the root that no mate's tip reaches: the room for the root's rounding on rings and conical gears. */
  readonly filletHeight: number;
  /** The gear's outward axis is the reverse of its shaft's. */
  readonly isFlipped: boolean;
  readonly quality: Quality;
}

/** Modules: no cutter's tip is sharper. Our own limit. */
const LEAST_ROUNDING = 0.1;

/** A bevel gear that nothing meshes with has no cone of its own: it is drawn at this pitch angle. */
const LONE_BEVEL = Math.PI / 4;

const keys = new WeakMap<ToothSpec, string>();

/** Equal keys: equal meshes. */
export function toothKey(spec: ToothSpec): string {
  const known = keys.get(spec);
  if (known !== undefined) return known;
  const key = JSON.stringify(spec);
  keys.set(spec, key);
  return key;
}

/** The gear by itself, with no mate to mind. `pitchAngle` in radians. */
export function loneSpec(gear: Gear, pitchAngle: number | null, quality: Quality): ToothSpec {
  const radius = pitchDiameter(gear) / 2;
  const conical = GEAR_FORMS[gear.kind].pitchAngle === null;
  const ring = GEAR_FORMS[gear.kind].pitchAngle === 180;
  const angle = conical ? (pitchAngle ?? LONE_BEVEL) : ring ? Math.PI : 0;
  const common = {
    form: conical ? "conical" : ring ? "ring" : "outside",
    pitchRadius: radius,
    pitchAngle: angle,
    coneDistance: conical ? radius / Math.sin(angle) : Infinity,
    face: gear.face,
    bore: gear.bore / 2,
    tipLimit: null,
    isFlipped: conical && gear.apex === "+",
    quality,
  } as const;
  if (!hasTeeth(gear)) {
    const size = Math.max(radius / 15, Math.min(gear.face / 4, radius / 5));
    return {
      ...common,
      teeth: 0,
      module: size,
      pressureAngle: 0,
      addendum: 0,
      dedendum: 0,
      shift: 0,
      thinning: 0,
      rounding: 0,
      filletHeight: 0,
    };
  }
  return {
    ...common,
    teeth: gear.teeth,
    module: gear.module,
    pressureAngle: gear.pressureAngle * DEGREE,
    addendum: gear.addendum * gear.module,
    dedendum: (gear.addendum + gear.clearance) * gear.module,
    shift: gear.shift * gear.module,
    thinning: gear.backlash,
    // ISO 53: as large as the clearance allows, so that the straight flank of the rack reaches its addendum line.
    rounding: (gear.clearance * gear.module) / (1 - Math.sin(gear.pressureAngle * DEGREE)),
    filletHeight: gear.clearance * gear.module,
  };
}

/** The pitch angle of a placed gear, radians; null where it has none yet. */
export function pitchAngleOf(placement: Placement, gear: number): number | null {
  const degrees = placement.gears[gear]?.pitchAngle;
  return degrees === null || degrees === undefined ? null : degrees * DEGREE;
}

/** What a spec was made of: gears never change, so the same gears at the same pitch angles have the same spec. */
interface Made {
  readonly angle: number | null;
  readonly mates: readonly { readonly gear: Gear; readonly angle: number | null }[];
  readonly spec: ToothSpec;
}
const made = new WeakMap<Quality, WeakMap<Gear, Made>>();

/**
 * Everything that a gear's mesh follows from, its mates included. The same object again as long as neither the gear nor a mate of it has
 * changed, so that what is built from it can be kept.
 */
export function toothSpec(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  gearIndex: number,
  quality: Quality = QUALITIES.bench,
): ToothSpec {
  const gear = drive.gears[gearIndex];
  if (!gear) throw new RangeError(`There is no gear ${gearIndex}.`);
  const angle = pitchAngleOf(placement, gearIndex);
  const mates = matesOf(drive, index, gearIndex).map((mate) => ({
    gear: mate.gear,
    angle: pitchAngleOf(placement, mate.index),
  }));
  const known = made.get(quality) ?? new WeakMap<Gear, Made>();
  made.set(quality, known);
  const before = known.get(gear);
  const isSame =
    before?.angle === angle &&
    before.mates.length === mates.length &&
    before.mates.every((mate, i) => mate.gear === mates[i]?.gear && mate.angle === mates[i]?.angle);
  if (isSame) return before.spec;
  const spec = specAmong(gear, angle, mates, quality);
  known.set(gear, { angle, mates, spec });
  return spec;
}

function specAmong(gear: Gear, angle: number | null, mates: Made["mates"], quality: Quality): ToothSpec {
  const own = loneSpec(gear, angle, quality);
  if (!hasTeeth(gear)) return own;
  let limit: number | null = null;
  let fillet = own.filletHeight;
  let rounding = own.rounding;
  for (const mate of mates) {
    const other = loneSpec(mate.gear, mate.angle, quality);
    rounding = Math.min(rounding, roundingAgainst(own, other));
    const reach = tipLimitAgainst(own, other);
    if (reach !== null) limit = limit === null ? reach : tighter(own, limit, reach);
    // A pair whose shifts don't cancel, or whose mate has longer tips, leaves less room.
    const room = own.dedendum - shiftOut(own) - (other.addendum + shiftOut(other));
    fillet = Math.min(fillet, Math.max(0, room));
  }
  return { ...own, tipLimit: quality.trim ? limit : null, filletHeight: fillet, rounding };
}

/** Profile shift counted positive away from the gear's own body, mm. */
const shiftOut = (spec: ToothSpec): number => (spec.form === "ring" ? -spec.shift : spec.shift);

const tighter = (spec: ToothSpec, a: number, b: number): number =>
  spec.form === "ring" ? Math.max(a, b) : Math.min(a, b);

/** Where the tips of `own` must end, so as not to reach past the start of the mate's involute; null for no limit. */
export function tipLimitAgainst(own: ToothSpec, mate: ToothSpec): number | null {
  if (own.form === "conical") return conicalTipLimit(own, mate);
  if (own.form === "ring") return ringTipLimit(own, { ...mate, rounding: roundingAgainst(mate, own) });
  return mate.form === "ring" ? tipLimitInRing(own, mate) : outsideTipLimit(own, mate);
}

/**
 * Rounding of the rack's tip that leaves a pinion the flank which a ring's tips reach: they go deeper than a rack of the
 * same addendum would, and a rack of the full rounding would leave a fillet in their way. ISO 53 allows less.
 */
function roundingAgainst(own: ToothSpec, mate: ToothSpec): number {
  if (own.form !== "outside" || mate.form !== "ring") return own.rounding;
  const sin = Math.sin(own.pressureAngle);
  const base = mate.pitchRadius * Math.cos(own.pressureAngle);
  const tip = Math.max(base, mate.pitchRadius - mate.addendum + mate.shift);
  const reach = Math.max(0, Math.sqrt(tip * tip - base * base) - (mate.pitchRadius - own.pitchRadius) * sin);
  const depth = (own.pitchRadius * sin - reach) * sin + own.shift;
  return Math.min(own.rounding, Math.max(LEAST_ROUNDING * own.module, (own.dedendum - depth) / (1 - sin)));
}

/** The toothed gears that a gear meshes with, by the drive's meshes in document order. */
export function matesOf(
  drive: Drive,
  index: DriveIndex,
  gearIndex: number,
): { readonly gear: ToothedGear; readonly index: number; readonly mesh: number }[] {
  const mates: { gear: ToothedGear; index: number; mesh: number }[] = [];
  for (const mesh of index.meshesOfShaft[index.shaftOfGear[gearIndex] ?? -1] ?? []) {
    const pair = index.gearsOfMesh[mesh];
    if (!pair || (pair[0] !== gearIndex && pair[1] !== gearIndex)) continue;
    const other = pair[0] === gearIndex ? pair[1] : pair[0];
    const gear = drive.gears[other];
    if (gear && hasTeeth(gear)) mates.push({ gear, index: other, mesh });
  }
  return mates;
}

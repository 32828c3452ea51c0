/** Distance and angle between any two shafts or gears of a solved drive, as it stands at rest (time zero). */
import { trueSection } from "../collisions/bodies";
import { type Gear, hasTeeth, pitchDiameter } from "../drive/types";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import type { Solved, Vec3 } from "../solved";
import { along, distance, dot, sub } from "../vector";
import { gearName, nameText, shaftName } from "../wording";
import { footOn, type Line, linePair, type Relation } from "./lines";

/** What can be measured: a shaft by its axis, a gear by its axis and its centre. */
export interface Measured {
  readonly kind: "shaft" | "gear";
  readonly id: string;
}

/** A straight distance and its two ends, mm. */
export interface Span {
  readonly distance: number;
  readonly feet: readonly [Vec3, Vec3];
}

export interface Measure {
  /** What a sentence calls the two. */
  readonly names: readonly [string, string];
  /** Index of the shaft of each. */
  readonly shafts: readonly [number, number];
  readonly relation: Relation;
  /** Between the two axes, the least. */
  readonly axes: Span;
  /** Degrees between the two lines, 0 to 90. */
  readonly angle: number;
  /** Degrees between the two positive directions, 0 to 180. */
  readonly turn: number;
  /**
   * Between the centres of two gears (on a bevel gear or cone, of its outer pitch circle); from the centre of a gear to the axis
   * of a shaft; null between two shafts.
   */
  readonly centres: Span | null;
  /** mm along the first one's axis from its gear's centre to the other's, towards the axis's + end positive; null but for two gears on parallel axes. */
  readonly along: number | null;
  /** mm over the tips of both, from outside to outside, square to the axes; null but for two outside cylinders on parallel axes. */
  readonly overTips: number | null;
  /** mm between their faces along the axis, where one stands wholly before the other; null likewise, and where they overlap. */
  readonly betweenFaces: number | null;
  /** How many of the two are gears. */
  readonly gears: number;
  /** One of the two rides on a carrier: as the drive turns, the figures may change. */
  readonly isCarried: boolean;
}

/** Why nothing can be measured: one sentence. */
export interface Unmeasured {
  readonly reason: string;
}

export const isMeasured = (result: Measure | Unmeasured): result is Measure => !("reason" in result);

interface Place {
  readonly name: string;
  readonly shaft: number;
  readonly line: Line;
  /** Of a gear. */
  readonly centre: Vec3 | null;
  /** Of a gear with outside teeth, or a wheel, on a cylinder: up to its tips, and half its face; mm. */
  readonly cylinder: { readonly tipRadius: number; readonly halfFace: number } | null;
}

/** format.md: the tip diameter of a spur gear is d + 2 m (addendum + shift); where its teeth end lower, in a point, that is where. */
const cylinderOf = (solved: Solved, gear: Gear, at: number): Place["cylinder"] => {
  if (GEAR_FORMS[gear.kind].pitchAngle !== 0) return null;
  const over = hasTeeth(gear) ? gear.module * (gear.addendum + gear.shift) : 0;
  const asked = pitchDiameter(gear) / 2 + over;
  return { tipRadius: Math.min(asked, trueSection(solved, at)?.reach ?? asked), halfFace: gear.face / 2 };
};

/** Over the tips and between the faces of two cylinders whose axes are `apart` mm from one another; null: not parallel. */
function cylinderSpans(a: Place, b: Place, apart: number | null): Pick<Measure, "overTips" | "betweenFaces"> {
  if (apart === null || !a.cylinder || !b.cylinder || !a.centre || !b.centre)
    return { overTips: null, betweenFaces: null };
  const offset = Math.abs(dot(sub(b.centre, a.centre), a.line.axis));
  const gap = offset - a.cylinder.halfFace - b.cylinder.halfFace;
  return {
    // One within the other's outline doesn't add to it.
    overTips: Math.max(
      apart + a.cylinder.tipRadius + b.cylinder.tipRadius,
      2 * a.cylinder.tipRadius,
      2 * b.cylinder.tipRadius,
    ),
    betweenFaces: gap > 0 ? gap : null,
  };
}

/** Where a part stands; a sentence where it isn't there or isn't placed. */
function placeOf(solved: Solved, { kind, id }: Measured): Place | Unmeasured {
  const { drive, index, placement } = solved;
  const gear = kind === "gear" ? index.gears.get(id) : undefined;
  const shaft = kind === "gear" ? index.shaftOfGear[gear ?? -1] : index.shafts.get(id);
  if (shaft === undefined) return { reason: `There is no ${kind} ${nameText(id)} in this drive; choose another.` };
  const line = placement.shafts[shaft];
  const part = drive.gears[gear ?? -1];
  const name = part ? gearName(drive, part, shaft) : shaftName(drive, shaft);
  if (!line) {
    return {
      reason: `Nothing says yet where ${shaftName(drive, shaft)} stands; mesh one of its gears or give it a place, then measure.`,
    };
  }
  const centre = gear === undefined ? null : (placement.gears[gear]?.centre ?? null);
  const cylinder = part ? cylinderOf(solved, part, gear ?? -1) : null;
  return { name, shaft, line: { origin: centre ?? line.origin, axis: line.axis }, centre, cylinder };
}

/** The middle of the gears of a shaft, as a place along its axis, mm; 0 without gears. */
function middleOf(solved: Solved, shaft: number): number {
  const places = (solved.index.gearsOfShaft[shaft] ?? []).map((gear) => solved.drive.gears[gear]?.at ?? 0);
  return places.length === 0 ? 0 : (Math.min(...places) + Math.max(...places)) / 2;
}

/** For drawing, between parallel axes: at the gear that is measured, else amid the first shaft's gears. */
function parallelFeet(solved: Solved, a: Place, b: Place): readonly [Vec3, Vec3] {
  const from = a.centre ?? (b.centre ? footOn(a.line, b.centre) : null);
  const first = from ?? along(a.line.origin, a.line.axis, middleOf(solved, a.shaft));
  return [first, footOn(b.line, first)];
}

function centreSpan(a: Place, b: Place): Span | null {
  const [from, to] = [a.centre, b.centre];
  if (!from && !to) return null;
  const feet = [from ?? footOn(a.line, to ?? a.line.origin), to ?? footOn(b.line, from ?? b.line.origin)] as const;
  return { distance: distance(...feet), feet };
}

/**
 * Measures between two parts as the drive stands at rest. Never throws: a part that isn't there or isn't placed is answered
 * with a sentence.
 */
export function measure(solved: Solved, first: Measured, second: Measured): Measure | Unmeasured {
  const a = placeOf(solved, first);
  if ("reason" in a) return a;
  const b = placeOf(solved, second);
  if ("reason" in b) return b;
  const { relation, distance: apart, feet, angle, turn } = linePair(a.line, b.line);
  const isParallel = relation === "parallel" || relation === "one line";
  return {
    names: [a.name, b.name],
    shafts: [a.shaft, b.shaft],
    relation,
    axes: {
      distance: relation === "parallel" || relation === "crossing" ? apart : 0,
      feet: isParallel ? parallelFeet(solved, a, b) : feet,
    },
    angle,
    turn,
    centres: centreSpan(a, b),
    along: isParallel && a.centre && b.centre ? dot(sub(b.centre, a.centre), a.line.axis) : null,
    ...cylinderSpans(a, b, isParallel ? apart : null),
    gears: [a, b].filter(({ centre }) => centre).length,
    isCarried: [a, b].some(({ shaft }) => (solved.index.frameOfShaft[shaft] ?? -1) >= 0),
  };
}

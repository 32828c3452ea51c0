/** The clearance of two chosen parts: their least distance at rest and over a full turn of carriers. */
import type { Solved } from "../solved";
import { type Body, bodiesOf, trueBody } from "./bodies";
import { isSameLine, turningsOf } from "./carrying";
import { type Collision, degreesOf } from "./find";
import { bodyName } from "./findings";
import { gapBetween } from "./gap";
import { sweptGap } from "./sweep";

export interface ChosenPart {
  readonly kind: "gear" | "shaft";
  readonly id: string;
}

export interface Clearance {
  /** mm, the least over a full turn of carriers; below 0 minus the thickness of the space that both take up. */
  readonly gap: number;
  /** mm, at rest. */
  readonly rest: number;
  /** Where it is least: the turns of carriers, empty at rest or where no carrier moves one against the other. */
  readonly turns: Collision["turns"];
  /** World, mm: in the middle of the gap, the parts standing as at `turns`. */
  readonly at: readonly [number, number, number];
  /** False where carriers within carriers were followed only so far: `gap` is then the least that was met. */
  readonly isWhole: boolean;
}

/** mm within which a clearance is told. */
const TOLD = 2e-3;
const MOST_STRETCHES = 4000;
const MOST_TURNINGS = 3;

/**
 * Least distance in mm between two gears (up to the tips as drawn) or rods of shafts, or one sentence on why there is none to tell.
 * A shaft is its rod, without the gears on it.
 */
export function clearance(
  solved: Solved,
  first: ChosenPart,
  second: ChosenPart,
): Clearance | { readonly reason: string } {
  const [a, b] = [bodyOf(solved, first), bodyOf(solved, second)];
  if (!a || !b) {
    return {
      reason: `${(a ? second : first).kind === "gear" ? "The gear" : "The shaft"} stands nowhere yet, or has no body; choose another.`,
    };
  }
  const why = belongTogether(solved, a, b);
  if (why) return { reason: why };
  const rest = gapBetween(a, b, { tolerance: TOLD });
  const turnings = turningsOf(solved, [a, b], [a.shaft, b.shaft]);
  const here = { gap: rest.high, rest: rest.high, turns: [], at: rest.at };
  if (turnings.length === 0) return { ...here, isWhole: true };
  if (turnings.length > MOST_TURNINGS) return { ...here, isWhole: false };
  const least = sweptGap([a, b], turnings, { tolerance: TOLD, most: MOST_STRETCHES });
  // The same all the way round, but for rounding: at rest is as good a place as any.
  if (least.high >= rest.high - TOLD) return { ...here, isWhole: least.isWhole };
  const turns = turnings.map(({ carrier }, k) => ({ carrier, degrees: degreesOf(least.angles[k] ?? 0) }));
  return { gap: least.high, rest: rest.high, turns, at: least.at, isWhole: least.isWhole };
}

function bodyOf(solved: Solved, { kind, id }: ChosenPart): Body | null {
  const index = kind === "gear" ? solved.index.gears.get(id) : solved.index.shafts.get(id);
  const body = bodiesOf(solved).find((one) => one.kind === kind && one.index === index);
  return body ? trueBody(solved, body) : null;
}

function belongTogether(solved: Solved, a: Body, b: Body): string | null {
  const { index, placement } = solved;
  if (a.kind === b.kind && a.index === b.index) return "Choose two different parts.";
  if (a.kind === "gear" && b.kind === "gear") {
    const inMesh = index.gearsOfMesh.some((pair) => pair.includes(a.index) && pair.includes(b.index));
    return inMesh
      ? "These two are in mesh: their teeth stand in one another's gaps, and nothing is to be kept clear."
      : null;
  }
  const names = `${bodyName(solved, a)} and ${bodyName(solved, b)}`;
  if (a.shaft === b.shaft)
    return `${names} are one: the gear sits on that shaft.`.replace(/^./, (c) => c.toUpperCase());
  const [first, second] = [placement.shafts[a.shaft], placement.shafts[b.shaft]];
  if (!first || !second || !isSameLine(first, second)) return null;
  return "These two share one line: one of them is a sleeve that the other runs within.";
}

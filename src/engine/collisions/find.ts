/** All collisions of a drive: which two bodies stand in one another, by how much, and at which turn of which carrier. */
import type { Solved } from "../solved";
import { type Body, bodiesOf, trueBody } from "./bodies";
import { candidatePairs } from "./candidates";
import { type Turning, turningsOf } from "./carrying";
import { gapBetween, quickGap } from "./gap";
import { effort } from "./minimise";
import { sweptGap } from "./sweep";
import type { GapWish } from "./turned";

export interface Collision {
  readonly bodies: readonly [Body, Body];
  /** mm: thickness of the space that both take up. */
  readonly overlap: number;
  /** World, mm: in the middle of that space, the first body standing where `turns` have left it. */
  readonly at: readonly [number, number, number];
  /** Carriers, by shaft index, and the degrees (0 to 360) by which they have turned since time zero; empty at rest. */
  readonly turns: readonly { readonly carrier: number; readonly degrees: number }[];
}

export interface Collisions {
  /** Those at rest first, the larger overlap first. */
  readonly list: readonly Collision[];
  /** How many pairs of bodies were near enough to be compared. */
  readonly compared: number;
  /** Pairs of bodies that are near and were not looked at, or not all the way round. */
  readonly unchecked: number;
  /** Whether the search stopped before it knew of every near pair: `unchecked` is then a least number. */
  readonly isCut: boolean;
}

/** mm: bodies that touch may overlap by rounding. Our own limit. */
export const TOUCHING = 1e-3;
/** mm within which an overlap is told. */
const TOLD = 5e-3;

/** What one drive may cost: values looked at by the minimiser, near pairs compared, collisions told. Our own limits: about 0.2 s. */
const MOST_STEPS = 250_000;
const MOST_PAIRS = 120_000;
const MOST_FOUND = 1000;
/** Stretches of the turn of carriers, for one pair. */
const MOST_STRETCHES = 400;
/** Carriers that move two bodies against each other, at the most. */
const MOST_TURNINGS = 2;

const known = new WeakMap<Solved, Collisions>();

/** The same answer for the same solution; nothing of the drive's findings is asked for. */
export function collisionsOf(solved: Solved): Collisions {
  const had = known.get(solved);
  if (had) return had;
  const found = findCollisions(solved);
  known.set(solved, found);
  return found;
}

function findCollisions(solved: Solved): Collisions {
  const bodies = bodiesOf(solved);
  const list: Collision[] = [];
  let unchecked = 0;
  let pairs = 0;
  let isCut = false;
  const began = effort.steps;
  candidatePairs(solved, bodies, (i, j) => {
    const pair = [bodies[i], bodies[j]] as readonly [Body, Body];
    pairs++;
    if (pairs > MOST_PAIRS || effort.steps - began > MOST_STEPS || list.length >= MOST_FOUND) {
      isCut = true;
      unchecked++;
      return false;
    }
    const outcome = collide(solved, pair);
    if (outcome === "unknown") unchecked++;
    else if (outcome) list.push(outcome);
    return true;
  });
  list.sort((a, b) => a.turns.length - b.turns.length || b.overlap - a.overlap);
  return { list, compared: pairs, unchecked, isCut };
}

/** Null where the two keep clear of one another, at rest and all the way round. */
function collide(solved: Solved, asked: readonly [Body, Body]): Collision | "unknown" | null {
  const turnings = turningsOf(solved, asked, [asked[0].shaft, asked[1].shaft]);
  // Tips as the numbers ask reach furthest: what keeps clear with them keeps clear.
  const rough = find(asked, turnings, { ...CLEAR, below: -TOUCHING });
  if (rough === null || rough === "unknown") return rough;
  return find([trueBody(solved, asked[0]), trueBody(solved, asked[1])], turnings, CLEAR);
}

const CLEAR: GapWish = { tolerance: TOLD, enough: 0 };

function find(
  bodies: readonly [Body, Body],
  turnings: readonly Turning[],
  wish: GapWish,
): Collision | "unknown" | null {
  if (quickGap(bodies[0], bodies[1], 0) < 0) {
    const gap = gapBetween(bodies[0], bodies[1], wish);
    if (gap.high < -TOUCHING) return { bodies, overlap: -gap.high, at: gap.at, turns: [] };
  }
  if (turnings.length === 0) return null;
  if (turnings.length > MOST_TURNINGS) return "unknown";
  const gap = sweptGap(bodies, turnings, { ...wish, most: MOST_STRETCHES });
  if (gap.high >= -TOUCHING) return gap.isWhole ? null : "unknown";
  const turns = turnings.map(({ carrier }, k) => ({ carrier, degrees: degreesOf(gap.angles[k] ?? 0) }));
  return { bodies, overlap: -gap.high, at: gap.at, turns };
}

export const degreesOf = (radians: number): number => {
  const degrees = ((radians * 180) / Math.PI) % 360;
  return degrees < 0 ? degrees + 360 : degrees;
};

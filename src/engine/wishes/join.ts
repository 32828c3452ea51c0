/**
 * Join two placed shafts: the pairs that fit between them as they stand (kind, teeth, module, places along both shafts), or
 * the nearest move that makes one fit. Parallel axes take spur pairs and rings, axes that cross take bevel pairs.
 */
import { absolute, isZero, type Rational } from "../motion/rational";
import type { PlacedShaft, Solved } from "../solved";
import { ON_AXIS } from "../tolerances";
import { cross, distance, length, square, sub } from "../vector";
import { quantity, shaftName } from "../wording";
import { type JoinChoice, type JoinMove, knownRatio, type Standing, type Wanted } from "./join-choice";
import { crossing, joinCrossing } from "./join-crossing";
import { nearestMoves } from "./join-moves";
import { joinParallel } from "./join-parallel";

export type JoinAnswer =
  | { readonly choices: readonly JoinChoice[] }
  | { readonly cannot: string; readonly moves: readonly JoinMove[] };

export interface JoinOptions {
  /** Speed of the second shaft over that of the first, its sign left aside; left out: as the drive says, or any. */
  readonly ratio?: Rational;
  /** Length of the list; 8 unless given. */
  readonly most?: number;
}

const MOST_CHOICES = 8;

export function standingOf(a: PlacedShaft, b: PlacedShaft): Standing {
  const sine = length(cross(a.axis, b.axis));
  const across = square(sub(b.origin, a.origin), a.axis);
  if (sine < ON_AXIS) return length(across) < ON_AXIS ? "one-line" : "parallel";
  return crossing(a, b).apart < ON_AXIS ? "crossing" : "skew";
}

/** The pairs that fit between two placed shafts, tried out; or why none does, and the nearest moves after which one would. */
export function joinChoices(solved: Solved, shaftA: string, shaftB: string, options: JoinOptions = {}): JoinAnswer {
  const [a, b] = [solved.index.shafts.get(shaftA) ?? -1, solved.index.shafts.get(shaftB) ?? -1];
  const [placedA, placedB] = [solved.placement.shafts[a], solved.placement.shafts[b]];
  if (a === b || !placedA || !placedB) return { cannot: "Choose two shafts that both have a place.", moves: [] };
  const names = `${shaftName(solved.drive, a)} and ${shaftName(solved.drive, b)}`;
  const known = knownRatio(solved, a, b);
  const ratio = options.ratio && !isZero(options.ratio) ? absolute(options.ratio) : null;
  const wanted: Wanted = { ratio: known && !isZero(known) ? absolute(known) : ratio, isFixed: known !== null };
  if (known && isZero(known)) {
    return {
      cannot: `${names} turn in ways that no pair can join: one of them stands still while the other turns.`,
      moves: [],
    };
  }
  const most = options.most ?? MOST_CHOICES;
  const standing = standingOf(placedA, placedB);
  if (standing === "one-line") {
    return {
      cannot: `${names} share one line: no pair of gears fits between them; join both to a third shaft beside them.`,
      moves: [],
    };
  }
  const choices =
    standing === "parallel"
      ? joinParallel(solved, a, b, wanted, most)
      : standing === "crossing"
        ? joinCrossing(solved, a, b, wanted, most)
        : [];
  if (choices.length > 0) return { choices };
  const moves = nearestMoves(solved, a, b, standing, wanted);
  return { cannot: whyNot(solved, a, b, standing, wanted), moves };
}

function whyNot(solved: Solved, a: number, b: number, standing: Standing, wanted: Wanted): string {
  const [placedA, placedB] = [solved.placement.shafts[a], solved.placement.shafts[b]] as [PlacedShaft, PlacedShaft];
  const names = `${shaftName(solved.drive, a)} and ${shaftName(solved.drive, b)}`;
  if (standing === "skew") {
    const { apart, degrees } = crossing(placedA, placedB);
    return `The axes of ${names} pass each other by ${quantity(apart, "mm")} at ${quantity(degrees, "°")}: they are neither parallel nor do they cross, and no pair of gears that Turnwise knows fits.`;
  }
  if ((solved.index.frameOfShaft[a] ?? -1) !== (solved.index.frameOfShaft[b] ?? -1)) {
    return `${names} turn in frames that have nothing in common, so no pair between them fits.`;
  }
  if (wanted.isFixed) {
    return `${names} are joined by the drive already, and no pair with exactly that ratio and way round fits between them: another ratio would jam the loop.`;
  }
  const across =
    distance(placedA.origin, placedB.origin) > 0
      ? length(square(sub(placedB.origin, placedA.origin), placedA.axis))
      : 0;
  return standing === "parallel"
    ? `The axes of ${names} are ${quantity(across, "mm", 6)} apart, which no whole number of teeth of a module of ISO 54 fills${wanted.ratio ? " at that ratio" : ""} with room for both gears.`
    : `No bevel pair fits where the axes of ${names} cross: other gears stand in the way.`;
}

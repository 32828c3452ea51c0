/** Pairs between two parallel shafts: whole teeth of a module of ISO 54 that fill the centre distance exactly, without shifts. */
import { MODULES, SERIES_I } from "../design/iso-54";
import { type Gear, hasTeeth } from "../drive/types";
import { rational, toNumber } from "../motion/rational";
import type { PlacedShaft, Solved } from "../solved";
import { FITS_MODULE } from "../tolerances";
import { dot, length, square, sub } from "../vector";
import { shaftName, toothSizeWords, turnsWords } from "../wording";
import { type JoinChoice, type PairFields, tried, type Wanted } from "./join-choice";

/** Fewest teeth of a new gear (17.1 is where a rack begins to undercut at 20 degrees; 17 in common practice), and most of a pair. */
const LEAST = 17;
const MOST_SUM = 400;
/** Ring teeth beyond the pinion's: fewer foul at the tips. */
const RING_MORE = 10;
/** Part by which a ratio that was asked for may be missed. */
const NEAR_ENOUGH = 0.02;
const USUAL_MODULE = 2;
/** mm of face, and of room between faces on one shaft. */
const FACE = 10;
const ROOM = 2;

export interface Counts {
  readonly module: number;
  readonly teeth: readonly [number, number];
  /** Which side is the ring; null for an outside pair. */
  readonly ring: 0 | 1 | null;
}

/** All pairs that fill a distance: for each module every split, the wanted ratio's if there is one. Preferred modules first. */
export function countsAcross(across: number, wanted: number | null, isExact: boolean, own: number | null): Counts[] {
  const found: (Counts & { readonly rank: number })[] = [];
  MODULES.forEach((module, order) => {
    const whole = (2 * across) / module;
    const sum = Math.round(whole);
    if (sum < 1 || Math.abs(whole - sum) / 2 > FITS_MODULE) return;
    // Modules like those of the shafts' other gears, and the first series, come first.
    const prefer =
      module === own
        ? 0
        : 1 + 4 * Math.abs(Math.log2(module / (own ?? USUAL_MODULE))) + (order < SERIES_I.length ? 0 : 2);
    const take = (teeth: readonly [number, number], ring: 0 | 1 | null): void => {
      const pinion = Math.min(...teeth);
      if (!teeth.every(Number.isInteger) || pinion < LEAST || teeth[0] + teeth[1] > MOST_SUM) return;
      const ratio = teeth[0] / teeth[1];
      const miss = wanted === null ? 0 : Math.abs(ratio / wanted - 1);
      if (miss > (isExact ? 1e-12 : NEAR_ENOUGH)) return;
      found.push({
        module,
        teeth,
        ring,
        rank: miss * 1000 + prefer + (ring === null ? 0 : 2) + Math.abs(pinion - 24) / 12,
      });
    };
    for (const ratio of wanted === null ? [1, 2 / 3, 3 / 2, 1 / 2, 2, 1 / 3, 3, 1 / 4, 4] : [wanted]) {
      const first = Math.round((sum * ratio) / (1 + ratio));
      take([first, sum - first], null);
      // z_ring - z_pinion = sum; the ring is on the slower shaft.
      if (ratio < 1) {
        const pinion = Math.round((sum * ratio) / (1 - ratio));
        if (sum >= RING_MORE) take([pinion, pinion + sum], 1);
      } else if (ratio > 1) {
        const pinion = Math.round(sum / (ratio - 1));
        if (sum >= RING_MORE) take([pinion + sum, pinion], 0);
      }
    }
  });
  const isTwin = (a: Counts, b: Counts): boolean =>
    a.module === b.module && a.ring === b.ring && a.teeth[0] === b.teeth[0] && a.teeth[1] === b.teeth[1];
  return found.filter((one, i) => found.findIndex((other) => isTwin(one, other)) === i).sort((a, b) => a.rank - b.rank);
}

/** How many pairs of counts are tried out for the list. */
const MOST_TRIED = 40;

export function joinParallel(solved: Solved, a: number, b: number, wanted: Wanted, most: number): JoinChoice[] {
  const [placedA, placedB] = [solved.placement.shafts[a], solved.placement.shafts[b]] as [PlacedShaft, PlacedShaft];
  const offset = sub(placedB.origin, placedA.origin);
  const across = length(square(offset, placedA.axis));
  const ratio = wanted.ratio ? toNumber(wanted.ratio) : null;
  const choices: JoinChoice[] = [];
  for (const counts of countsAcross(across, ratio, wanted.isFixed, moduleNear(solved, a, b)).slice(0, MOST_TRIED)) {
    if (choices.length >= most) break;
    for (const at of levels(solved, a, b, placedA, placedB)) {
      const choice = tried(solved, a, b, fieldsOf(solved, a, b, counts, at), wanted);
      if (!choice) continue;
      choices.push(choice);
      break;
    }
  }
  return choices;
}

/** The module of a gear that stands on either shaft. */
export const moduleNear = ({ drive, index }: Solved, a: number, b: number): number | null => {
  const gears = [...(index.gearsOfShaft[a] ?? []), ...(index.gearsOfShaft[b] ?? [])].map((gear) => drive.gears[gear]);
  const toothed = gears.find((gear): gear is Gear & { module: number } => gear !== undefined && hasTeeth(gear));
  return toothed?.module ?? null;
};

function fieldsOf(
  solved: Solved,
  a: number,
  b: number,
  { module, teeth, ring }: Counts,
  at: readonly [number, number],
): PairFields {
  const names = [shaftName(solved.drive, a), shaftName(solved.drive, b)];
  const what = ring === null ? "Spur pair" : `Pinion in a ring on ${names[ring]}`;
  return {
    kinds: [ring === 0 ? "internal" : "spur", ring === 1 ? "internal" : "spur"],
    teeth,
    module,
    at,
    face: FACE,
    title: `${what}: ${teeth[0]} and ${teeth[1]} teeth, ${toothSizeWords(module)}; ${turnsWords(names[0] ?? "", names[1] ?? "", rational(BigInt(teeth[0]), BigInt(teeth[1])))}`,
  };
}

/** Places along both shafts in one plane square to them: before, between and beyond the gears that stand there. */
function levels(
  solved: Solved,
  a: number,
  b: number,
  placedA: PlacedShaft,
  placedB: PlacedShaft,
): (readonly [number, number])[] {
  const sense = dot(placedA.axis, placedB.axis) > 0 ? 1 : -1;
  const shift = dot(sub(placedB.origin, placedA.origin), placedA.axis);
  const ownA = (solved.index.gearsOfShaft[a] ?? []).map((gear) => solved.drive.gears[gear] as Gear);
  const ownB = (solved.index.gearsOfShaft[b] ?? []).map((gear) => solved.drive.gears[gear] as Gear);
  const takenAt = [
    ...ownA.map((gear) => [gear.at, gear.face] as const),
    ...ownB.map((gear) => [shift + sense * gear.at, gear.face] as const),
  ];
  const places = takenAt.flatMap(([at, face]) => [at + face + FACE / 2 + ROOM, at - face - FACE / 2 - ROOM]);
  const middle = takenAt.length > 0 ? takenAt.reduce((sum, [at]) => sum + at, 0) / takenAt.length : shift / 2;
  return [...new Set([0, shift, ...places].map(Math.round))]
    .sort((x, y) => Math.abs(x - middle) - Math.abs(y - middle))
    .slice(0, 8)
    .map((at) => [at, Number((sense * (at - shift)).toFixed(9)) + 0] as const);
}

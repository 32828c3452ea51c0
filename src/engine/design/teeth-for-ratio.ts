/**
 * Tooth counts for a wanted ratio, in one stage or two outside stages. Every pair of counts in the range is tried, so the
 * best there is is found; `approximations` tells the simple fractions nearby. Compared exactly, in whole numbers.
 */
import {
  absolute,
  divide,
  gcdNumber,
  minus,
  multiply,
  ONE,
  type Rational,
  rational,
  sign,
  toNumber,
} from "../motion/rational";

export interface StageTeeth {
  /** Teeth of the gear on the shaft that drives. */
  readonly input: number;
  readonly output: number;
}

export interface Candidate {
  readonly stages: readonly StageTeeth[];
  /** Output speed over input speed that these teeth give, exact, above 0. */
  readonly ratio: Rational;
  readonly isExact: boolean;
  /** (given - wanted) / wanted. */
  readonly error: number;
  /** All teeth together. */
  readonly teeth: number;
  /** For each stage whether its counts have no common factor, so that every tooth meets every other (a hunting tooth). */
  readonly isHunting: readonly boolean[];
}

export interface TeethOptions {
  /** 1 or 2; left out: 1 where one stage of the usual ratio does, else 2. */
  readonly stages?: 1 | 2;
  /** Fewest teeth, 18 by default: at 20 degrees no mate interferes with them (Bevan, The Theory of Machines, ch. X, example 4). */
  readonly least?: number;
  /** Most teeth, 120 by default. */
  readonly most?: number;
  /** Largest ratio of one stage, larger over smaller; 6 by default (common practice, no source). */
  readonly stageRatio?: number;
  /** Length of the list; 8 by default. */
  readonly count?: number;
  /** Teeth of the driving gear of the first stage, where it stands already. */
  readonly input?: number;
}

const DEFAULTS = { least: 18, most: 120, stageRatio: 6, count: 8 };
/** Two stages are searched over the product of three ranges: wider ones would be felt. */
const WIDEST_TWO_STAGE = 200;

/** Turns of the input after which the same two teeth of a pair meet again: lcm(z1, z2) / z1. */
export const turnsUntilSameTeeth = (input: number, output: number): number => output / gcdNumber(input, output);

/** Relative misfit of input/output against the wanted n/d as a double, good enough to sort out the many. */
const misfit = (quotient: number, wanted: number): number => Math.abs(quotient / wanted - 1);

function asCandidate(stages: readonly StageTeeth[], wanted: Rational): Candidate {
  const ratio = stages.reduce(
    (value, stage) => multiply(value, rational(BigInt(stage.input), BigInt(stage.output))),
    ONE,
  );
  const difference = minus(divide(ratio, wanted), ONE);
  return {
    stages,
    ratio,
    isExact: difference.n === 0n,
    error: toNumber(difference),
    teeth: stages.reduce((sum, stage) => sum + stage.input + stage.output, 0),
    isHunting: stages.map((stage) => gcdNumber(stage.input, stage.output) === 1),
  };
}

/** How far a stage's ratio is from 1, as a factor. */
const stageSpread = (stage: StageTeeth): number =>
  Math.max(stage.input, stage.output) / Math.min(stage.input, stage.output);
const imbalance = (stages: readonly StageTeeth[]): number => {
  const spreads = stages.map(stageSpread);
  return Math.max(...spreads) / Math.min(...spreads);
};

/** Nearer first, exactly compared; then fewer teeth, then stages more alike. */
function compare(a: Candidate, b: Candidate, wanted: Rational): number {
  const error = (candidate: Candidate): Rational => absolute(minus(candidate.ratio, wanted));
  return sign(minus(error(a), error(b))) || a.teeth - b.teeth || imbalance(a.stages) - imbalance(b.stages);
}

interface Range {
  readonly least: number;
  readonly most: number;
  readonly stageRatio: number;
  readonly input: number | undefined;
}

/** The counts for the second gear of a stage nearest to what it should have. */
const nearby = (exact: number, { least, most }: Range): number[] =>
  [Math.floor(exact), Math.ceil(exact)].filter((z, i, all) => z >= least && z <= most && all.indexOf(z) === i);

const fits = (stage: StageTeeth, { stageRatio }: Range): boolean => stageSpread(stage) <= stageRatio * (1 + 1e-12);

function* oneStage(wanted: number, range: Range): Generator<StageTeeth[]> {
  const [from, to] = range.input === undefined ? [range.least, range.most] : [range.input, range.input];
  for (let input = from; input <= to; input++) {
    for (const output of nearby(input / wanted, range)) {
      const stage = { input, output };
      if (fits(stage, range)) yield [stage];
    }
  }
}

/** Two stages in either order are one solution; the first kept is the one with the smaller driving gear first. */
function* twoStages(wanted: number, range: Range): Generator<StageTeeth[]> {
  const [from, to] = range.input === undefined ? [range.least, range.most] : [range.input, range.input];
  for (let first = from; first <= to; first++) {
    for (let second = range.input === undefined ? first : range.least; second <= range.most; second++) {
      for (let output = range.least; output <= range.most; output++) {
        const one = { input: first, output };
        if (!fits(one, range)) continue;
        for (const last of nearby((first * second) / (output * wanted), range)) {
          const two = { input: second, output: last };
          // With equal driving gears the two orders are one solution.
          if (fits(two, range) && (first !== second || output <= last)) yield [one, two];
        }
      }
    }
  }
}

/**
 * The best tooth counts for `ratio` (output speed over input speed, above 0), nearest first. Empty where the range holds none.
 * Throws a RangeError for a ratio of 0 or less, or a range that isn't one of whole numbers above 0.
 */
export function teethForRatio(ratio: Rational, options: TeethOptions = {}): Candidate[] {
  const range: Range = { ...DEFAULTS, ...options, input: options.input };
  const count = options.count ?? DEFAULTS.count;
  if (sign(ratio) <= 0) throw new RangeError("A wanted ratio must be above 0.");
  if (![range.least, range.most].every((z) => Number.isInteger(z) && z > 0) || range.most < range.least) {
    throw new RangeError(`No tooth counts lie between ${range.least} and ${range.most}.`);
  }
  const wanted = toNumber(ratio);
  const spread = Math.max(wanted, 1 / wanted);
  const stages = options.stages ?? (spread <= range.stageRatio ? 1 : 2);
  const narrowed = stages === 2 ? { ...range, most: Math.min(range.most, range.least + WIDEST_TWO_STAGE) } : range;
  const best: { readonly stages: StageTeeth[]; readonly misfit: number; readonly teeth: number }[] = [];
  // A short sorted list: most of the many tried never enter it.
  const room = 4 * count;
  for (const found of stages === 1 ? oneStage(wanted, narrowed) : twoStages(wanted, narrowed)) {
    const quotient = found.reduce((value, stage) => (value * stage.input) / stage.output, 1);
    const entry = {
      stages: found,
      misfit: misfit(quotient, wanted) < 1e-12 ? 0 : misfit(quotient, wanted),
      teeth: found.reduce((sum, stage) => sum + stage.input + stage.output, 0),
    };
    const before = (a: typeof entry): boolean =>
      a.misfit < entry.misfit || (a.misfit === entry.misfit && a.teeth <= entry.teeth);
    const last = best[best.length - 1];
    if (last && best.length >= room && before(last)) continue;
    let at = best.length;
    while (at > 0 && !before(best[at - 1] as typeof entry)) at--;
    best.splice(at, 0, entry);
    if (best.length > room) best.pop();
  }
  return best
    .map((entry) => asCandidate(entry.stages, ratio))
    .sort((a, b) => compare(a, b, ratio))
    .slice(0, count);
}

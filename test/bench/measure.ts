/** Measuring: a warm-up, several rounds, the median, and a check of every result outside the clock. */
import { performance } from "node:perf_hooks";

export interface MeasureOptions {
  /** How many rounds count; 15 where left out. */
  readonly rounds?: number;
  /** How many rounds go before them; 5 where left out. */
  readonly warmUp?: number;
  /** Runs in one round, for short ones; 1 where left out. */
  readonly runs?: number;
}

const median = (list: readonly number[]): number =>
  [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] as number;

const timeOf = <T>(work: () => T, runs: number): readonly [number, T] => {
  const start = performance.now();
  let result = work();
  for (let run = 1; run < runs; run += 1) result = work();
  return [(performance.now() - start) / runs, result];
};

/** Median time of `work`, ms. `check` looks at each result outside the clock and throws where it is wrong. */
export const measure = <T>(work: () => T, check: (result: T) => void, options: MeasureOptions = {}): number => {
  const { rounds = 15, warmUp = 5, runs = 1 } = options;
  const times: number[] = [];
  for (let round = -warmUp; round < rounds; round += 1) {
    const [time, result] = timeOf(work, runs);
    check(result);
    if (round >= 0) times.push(time);
  }
  return median(times);
};

export interface Compared {
  /** Median times, ms. */
  readonly first: number;
  readonly second: number;
  /** Median over the rounds of first over second: steadier than the quotient of the medians. */
  readonly ratio: number;
}

/** Two pieces of work done in turn, so that a slow spell of the machine meets both alike. `runs`: of each in one round. */
export const measureBoth = <A, B>(
  first: () => A,
  second: () => B,
  check: (a: A, b: B) => void,
  options: Omit<MeasureOptions, "runs"> & { readonly runs?: readonly [number, number] } = {},
): Compared => {
  const { rounds = 25, warmUp = 10, runs = [1, 1] } = options;
  const times: [number[], number[]] = [[], []];
  for (let round = -warmUp; round < rounds; round += 1) {
    const [timeA, a] = timeOf(first, runs[0]);
    const [timeB, b] = timeOf(second, runs[1]);
    check(a, b);
    if (round < 0) continue;
    times[0].push(timeA);
    times[1].push(timeB);
  }
  const ratios = times[0].map((time, round) => time / (times[1][round] as number));
  return { first: median(times[0]), second: median(times[1]), ratio: median(ratios) };
};

export interface Line {
  /** What was measured. */
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** What it is held against, in the same unit; null where it stands for itself. */
  readonly against: number | null;
  /** Of the two, as the name says; null where there is nothing to divide by. */
  readonly ratio: number | null;
  /** The most or the least that will do, of the ratio, or of the value where there is no ratio: "<= 3", ">= 20". Null: for comparison. */
  readonly target: string | null;
}

const round = (x: number | null): number | null => (x === null ? null : Number(x.toPrecision(4)));

/** Prints one line of JSON. */
export const report = (line: Line): void => {
  const { name, unit, target } = line;
  const value = round(line.value);
  console.log(JSON.stringify({ name, value, unit, against: round(line.against), ratio: round(line.ratio), target }));
};

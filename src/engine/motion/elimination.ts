/** Exact elimination of sparse linear equations over fractions. */
import { divide, isZero, multiply, negate, plus, type Rational } from "./rational";

/** A sum of coefficient · unknown, plus the constant under the key CONSTANT. */
export type Sum = Map<number, Rational>;

export const CONSTANT = -1;

/** Adds factor · term to a sum, in place; terms that cancel leave. */
export function addTerm(sum: Sum, unknown: number, value: Rational): void {
  const had = sum.get(unknown);
  const total = had ? plus(had, value) : value;
  if (isZero(total)) sum.delete(unknown);
  else sum.set(unknown, total);
}

export type Outcome = "redundant" | "contradiction" | "independent";

/**
 * Equations taken one at a time. Each independent one fixes one unknown (its pivot) as a sum of others; sums are fully
 * resolved only when asked for, so that chains cost no more than their length.
 */
export class Elimination {
  private constructor(private readonly pivots: Map<number, Sum>) {}

  static empty(): Elimination {
    return new Elimination(new Map());
  }

  /** A copy that can take further equations without touching this one. */
  fork(): Elimination {
    return new Elimination(new Map(this.pivots));
  }

  /** Number of independent equations so far. */
  get rank(): number {
    return this.pivots.size;
  }

  isFixed(unknown: number): boolean {
    return this.pivots.has(unknown);
  }

  /** `sum` with every pivot put in, in terms of free unknowns and the constant. A new map. */
  resolve(sum: Sum): Sum {
    const result: Sum = new Map();
    const waiting: [number, Rational][] = [...sum];
    // A pivot's sum holds only unknowns that were free when it was made, so this ends.
    for (let next = waiting.pop(); next; next = waiting.pop()) {
      const [unknown, value] = next;
      const pivot = unknown === CONSTANT ? undefined : this.settled(unknown);
      if (!pivot) addTerm(result, unknown, value);
      else for (const [other, factor] of pivot) addTerm(result, other, multiply(factor, value));
    }
    return result;
  }

  /** The sum of a pivot, resolved once and kept; undefined for a free unknown. Depth-first without recursion. */
  private settled(unknown: number): Sum | undefined {
    const pivot = this.pivots.get(unknown);
    if (!pivot || this.isSettled(pivot)) return pivot;
    const path = [unknown];
    while (path.length > 0) {
      const at = path[path.length - 1] as number;
      const sum = this.pivots.get(at) as Sum;
      const open = [...sum.keys()].find((key) => {
        const below = this.pivots.get(key);
        return below !== undefined && !this.isSettled(below);
      });
      if (open !== undefined) {
        path.push(open);
        continue;
      }
      const result: Sum = new Map();
      for (const [key, value] of sum) {
        const below = this.pivots.get(key);
        if (!below) addTerm(result, key, value);
        else for (const [other, factor] of below) addTerm(result, other, multiply(factor, value));
      }
      this.pivots.set(at, result);
      path.pop();
    }
    return this.pivots.get(unknown);
  }

  private isSettled(sum: Sum): boolean {
    for (const key of sum.keys()) if (this.pivots.has(key)) return false;
    return true;
  }

  /** Takes the equation `sum = 0`. */
  take(sum: Sum): Outcome {
    const rest = this.resolve(sum);
    let pivot = CONSTANT;
    for (const key of rest.keys()) if (key > pivot) pivot = key;
    if (pivot === CONSTANT) return rest.size === 0 ? "redundant" : "contradiction";
    const by = negate(rest.get(pivot) as Rational);
    rest.delete(pivot);
    for (const [key, value] of rest) rest.set(key, divide(value, by));
    this.pivots.set(pivot, rest);
    return "independent";
  }
}

/**
 * The least value of a convex function of two or three variables, by the ellipsoid method with deep cuts (N. Z. Shor 1977; Bland,
 * Goldfarb & Todd, "The ellipsoid method: a survey", Operations Research 29, 1981): it needs slopes and no smoothness, and says at
 * every step how far the least value may lie below what was found.
 */

/** A function and its slope at `x`; returns the value and writes the slope. */
export type Sloped = (x: Float64Array, slope: Float64Array) => number;

export interface Stop {
  /** The least value is found when it is known this well. */
  readonly tolerance: number;
  /** No need to go on once the least value is known to be at least this. */
  readonly enough?: number;
  /** Nor once it is known to be less than this. */
  readonly below?: number;
}

export interface Least {
  /** The least value lies between these. */
  readonly low: number;
  readonly high: number;
  /** Where `high` was found. */
  readonly at: Float64Array;
}

const MOST_STEPS = 600;

/** Values looked at since the page was loaded: what budgets count. */
export const effort = { steps: 0 };

/**
 * `matrix` (n × n, symmetric, overwritten) and `centre` (overwritten): the ellipsoid (x - c)ᵀ M⁻¹ (x - c) <= 1 in which the least
 * value is sought.
 */
export function minimise(centre: Float64Array, matrix: Float64Array, value: Sloped, stop: Stop): Least {
  const n = centre.length;
  const { enough = Infinity, below = -Infinity } = stop;
  const g = new Float64Array(n);
  const along = new Float64Array(n);
  const at = new Float64Array(n);
  let high = Infinity;
  let low = -Infinity;
  const grown = (n * n) / (n * n - 1);
  for (let step = 0; step < MOST_STEPS; step++) {
    effort.steps++;
    const f = value(centre, g);
    if (f < high) {
      high = f;
      at.set(centre);
    }
    let size = 0;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += (matrix[i * n + j] as number) * (g[j] as number);
      along[i] = sum;
      size += sum * (g[i] as number);
    }
    // No slope: this is the least value. (Or an ellipsoid worn down to nothing.)
    if (!(size > 0)) return { low: Math.max(low, f), high, at };
    const wide = Math.sqrt(size);
    low = Math.max(low, f - wide);
    if (high - low <= stop.tolerance || low >= enough || high < below) break;
    const depth = (f - high) / wide;
    if (depth >= 1) return { low: Math.max(low, high), high, at };
    const cut = (1 + n * depth) / (n + 1);
    const factor = (2 * cut) / (1 + depth) / size;
    const scale = grown * (1 - depth * depth);
    for (let i = 0; i < n; i++) {
      centre[i] = (centre[i] as number) - (cut * (along[i] as number)) / wide;
      for (let j = 0; j <= i; j++) {
        const next = scale * ((matrix[i * n + j] as number) - factor * (along[i] as number) * (along[j] as number));
        matrix[i * n + j] = next;
        matrix[j * n + i] = next;
      }
    }
  }
  return { low, high, at };
}

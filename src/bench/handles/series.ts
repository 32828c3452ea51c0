/**
 * Modules of series I of ISO 54:1996 (1 to 50 mm), the series to be preferred. From memory of the standard; below 1 mm, which that
 * edition leaves out, the same figures a tenth as large, as is common practice.
 */
const DECADE = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8] as const;
const BEYOND = [10, 12, 16, 20, 25, 32, 40, 50] as const;
export const MODULES: readonly number[] = [...DECADE.slice(3).map((m) => m / 10), ...DECADE, ...BEYOND];

/** The nearest of the series, as a ratio. */
export function nearestModule(value: number): number {
  const x = Math.log(Math.max(value, 1e-9));
  return MODULES.reduce((best, one) => (Math.abs(Math.log(one) - x) < Math.abs(Math.log(best) - x) ? one : best));
}

/** So many places further up or down the series, from wherever the value stands. */
export function moduleAfter(value: number, steps: number): number {
  const off = value * 1e-9;
  const ahead = steps > 0 ? MODULES.filter((m) => m > value + off) : MODULES.filter((m) => m < value - off).reverse();
  return ahead[Math.min(Math.abs(steps), ahead.length) - 1] ?? value;
}

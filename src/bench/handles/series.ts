import { SERIES_I } from "../../engine/design/iso-54";

/** The modules to be preferred; below 1 mm, which that standard leaves out, its figures from 2 to 8 a tenth as large, as is common practice. */
const BELOW_ONE = SERIES_I.filter((m) => m >= 2 && m < 10).map((m) => m / 10);
export const MODULES: readonly number[] = [...BELOW_ONE, ...SERIES_I];

/** The nearest of a series, as a ratio. */
export function nearestModule(value: number, series: readonly number[] = MODULES): number {
  const x = Math.log(Math.max(value, 1e-9));
  return series.reduce((best, one) => (Math.abs(Math.log(one) - x) < Math.abs(Math.log(best) - x) ? one : best));
}

/** So many places further up or down a rising series, from wherever the value stands. */
export function moduleAfter(value: number, steps: number, series: readonly number[] = MODULES): number {
  const off = value * 1e-9;
  const ahead = steps > 0 ? series.filter((m) => m > value + off) : series.filter((m) => m < value - off).reverse();
  return ahead[Math.min(Math.abs(steps), ahead.length) - 1] ?? value;
}

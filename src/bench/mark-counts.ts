/** How many marks a rim has. */
import { type Gear, hasTeeth } from "../engine/drive/types";

/**
 * How many rim marks each gear of a drive has: a mark a tooth, so that marks of mates lie equally far apart. Toothless wheels:
 * their diameters in whole parts of the largest common measure, again so that marks are equally far apart.
 */
export function countMarks(gears: readonly Gear[]): number[] {
  const smooth = gears.flatMap((gear) => (hasTeeth(gear) ? [] : [Math.round(gear.diameter * 1000)]));
  const common = smooth.reduce((a, b) => greatestCommon(a, b), 0);
  const least = Math.min(...smooth) / common;
  const most = Math.max(...smooth) / common;
  const times = Math.ceil(LEAST_MARKS / least);
  const agrees = smooth.length > 0 && most * times <= MOST_MARKS;
  return gears.map((gear) => {
    if (hasTeeth(gear)) return Math.min(gear.teeth, MOST_MARKS);
    return agrees ? Math.round((gear.diameter * 1000) / common) * times : LEAST_MARKS * 2;
  });
}

const LEAST_MARKS = 12;
const MOST_MARKS = 720;

const greatestCommon = (a: number, b: number): number => {
  let [x, y] = [a, b];
  while (y) [x, y] = [y, x % y];
  return x;
};

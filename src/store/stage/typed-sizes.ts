/** Sizes of a pair as somebody types them in one field: `50`, `16:32`, or a ratio such as `1/3`. */
import { LIMITS } from "../../engine/drive/types";
import type { UnitChoice } from "../../engine/units/choice";
import type { Candidate } from "./candidate";
import { sizesForRatio, type TypedRatio } from "./typed-ratio";

/** Fewer teeth than these on both sides are a ratio, not two gears; our own limit. */
const LEAST_TEETH = 5;
/** Longer than any two sizes. */
const LONGEST = 40;
const ONE = /^\d+(?:[.,]\d+)?$/;
const TWO = /^(\d+(?:[.,]\d+)?)\s*(?::|\s)\s*(\d+(?:[.,]\d+)?)$/;

const read = (text: string): number => Number(text.replace(",", "."));

/**
 * One number is the new gear's teeth (mm of diameter on smooth wheels); two are the first and the new gear's; `1/3` or `0.5` is output
 * speed over input speed, and so is `2:1` (turns to turns) where no gear has so few teeth. `isFixed`: the first gear keeps its size.
 */
export function sizesTyped(text: string, candidate: Candidate, isFixed: boolean, units: UnitChoice): TypedRatio {
  const typed = text.trim();
  const { hasTeeth, sizes } = candidate;
  if (typed.length > LONGEST) return { ok: false, words: "That is far too long: type the teeth, as in 50 or 16:32." };
  const two = TWO.exec(typed);
  const pair = two ? ([read(two[1] ?? ""), read(two[2] ?? "")] as const) : null;
  if (pair && (!hasTeeth || Math.max(...pair) >= LEAST_TEETH)) {
    const fault = pair.map((size) => sizeFault(size, hasTeeth)).find((words) => words !== null);
    if (fault) return { ok: false, words: fault };
    if (isFixed && pair[0] !== sizes[0]) {
      const own = hasTeeth ? `${sizes[0]} teeth` : `${sizes[0]} mm`;
      return { ok: false, words: `The gear that is there has ${own} and a mate: type the size of the new one alone.` };
    }
    return { ok: true, sizes: pair, words: "" };
  }
  if (ONE.test(typed) && (!hasTeeth || Number.isInteger(read(typed)))) {
    const fault = sizeFault(read(typed), hasTeeth);
    return fault ? { ok: false, words: fault } : { ok: true, sizes: [sizes[0], read(typed)], words: "" };
  }
  return sizesForRatio(typed, candidate, units);
}

function sizeFault(size: number, hasTeeth: boolean): string | null {
  if (!hasTeeth) return size > 0 ? null : "A diameter must be more than 0 mm.";
  if (!Number.isInteger(size)) return "Teeth are whole: type a whole number, or a ratio such as 1/3.";
  return size >= 1 && size <= LIMITS.teeth ? null : `A gear has 1 to ${LIMITS.teeth.toLocaleString("en")} teeth.`;
}

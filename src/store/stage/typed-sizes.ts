/** Sizes of a pair as somebody types them in one field: `50`, `16:32`, or a ratio such as `1/3`. */
import { LIMITS } from "../../engine/drive/types";
import type { UnitChoice } from "../../engine/units/choice";
import { shortest, unitConversion } from "../../engine/units/convert";
import { readQuantity } from "../../engine/units/read";
import { figures, quantityIn } from "../../engine/wording";
import type { Candidate } from "./candidate";
import { sizesForRatio, type TypedRatio } from "./typed-ratio";

/** Fewer teeth than these on both sides are a ratio, not two gears; our own limit. */
const LEAST_TEETH = 5;
/** Longer than any two sizes. */
const LONGEST = 40;
const ONE = /^\d+(?:[.,]\d+)?$/;
const TWO = /^(\d+(?:[.,]\d+)?)\s*(?::|\s)\s*(\d+(?:[.,]\d+)?)$/;

const read = (text: string): number => Number(text.replace(",", "."));

/** Digits of a diameter in the field: as a drawing gives it. */
const DIGITS = 6;

/** A size as the field shows it: teeth, or a diameter in the reader's unit of length. */
export const sizeText = (size: number, hasTeeth: boolean, units: UnitChoice): string =>
  hasTeeth ? String(size) : shortest(size, unitConversion("mm", units), DIGITS).text;

/** Diameters of smooth wheels, mm: bare numbers are of the reader's unit. Null where the text has another form. */
function diametersTyped(text: string, units: UnitChoice): readonly number[] | string | null {
  const parts = text.split(":");
  if (parts.length > 2 || text.includes("/")) return null;
  const values: number[] = [];
  for (const part of parts) {
    const number = readQuantity(part, "mm", units);
    if (!("value" in number)) return number.complaint;
    if (!(number.value > 0)) return "A diameter must be more than 0.";
    values.push(number.value);
  }
  return values;
}

/**
 * One number is the new gear's teeth (its diameter on smooth wheels, in the reader's unit of length unless another is written); two are
 * the first and the new gear's; `1/3` or `0.5` is output speed over input speed, and so is `2:1` (turns to turns) where no gear has so
 * few teeth. `isFixed`: the first gear keeps its size.
 */
export function sizesTyped(text: string, candidate: Candidate, isFixed: boolean, units: UnitChoice): TypedRatio {
  const typed = text.trim();
  const { hasTeeth, sizes } = candidate;
  if (typed.length > LONGEST) return { ok: false, words: "That is far too long: type the teeth, as in 50 or 16:32." };
  if (!hasTeeth) {
    const diameters = diametersTyped(typed, units);
    if (typeof diameters === "string") return { ok: false, words: diameters };
    const [first, second] = diameters ?? [];
    if (first !== undefined) {
      const own = sizes[0];
      if (isFixed && second !== undefined && Math.abs(first - own) > SAME_SIZE * own)
        return { ok: false, words: fixedWords(quantityIn(own, "mm", units)) };
      return { ok: true, sizes: second === undefined ? [own, first] : [isFixed ? own : first, second], words: "" };
    }
    return sizesForRatio(typed, candidate, units);
  }
  const two = TWO.exec(typed);
  const pair = two ? ([read(two[1] ?? ""), read(two[2] ?? "")] as const) : null;
  if (pair && Math.max(...pair) >= LEAST_TEETH) {
    const fault = pair.map(teethFault).find((words) => words !== null);
    if (fault) return { ok: false, words: fault };
    if (isFixed && pair[0] !== sizes[0]) return { ok: false, words: fixedWords(`${sizes[0]} teeth`) };
    return { ok: true, sizes: pair, words: "" };
  }
  if (ONE.test(typed) && Number.isInteger(read(typed))) {
    const fault = teethFault(read(typed));
    return fault ? { ok: false, words: fault } : { ok: true, sizes: [sizes[0], read(typed)], words: "" };
  }
  return sizesForRatio(typed, candidate, units);
}

/** Of a diameter that is typed back as it was shown, rounded. */
const SAME_SIZE = 1e-5;

const fixedWords = (own: string): string =>
  `The gear that is there has ${own} and a mate: type the size of the new one alone.`;

function teethFault(size: number): string | null {
  if (!Number.isInteger(size)) return "Teeth are whole: type a whole number, or a ratio such as 1/3.";
  return size >= 1 && size <= LIMITS.teeth ? null : `A gear has 1 to ${figures(LIMITS.teeth)} teeth.`;
}

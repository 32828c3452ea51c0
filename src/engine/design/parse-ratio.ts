/**
 * A wanted ratio as somebody types it, read exactly. Three conventions are in use, so each form has one meaning, and the answer
 * always says in turns what was understood: `1/2` and `0.5` are output speed over input speed; `2:1` is turns of the
 * input to turns of the output. All three here mean that the output turns half as fast.
 */
import { divide, fromDecimal, isZero, type Rational, rational } from "../motion/rational";
import { turnsWords } from "../wording";

export type ParsedRatio =
  | {
      readonly ok: true;
      /** Output speed over input speed, above 0. */
      readonly ratio: Rational;
      /** "2 turns of the input give 1 of the output" */
      readonly words: string;
      /** How the form was read: "output speed over input speed", "turns of the input to turns of the output". */
      readonly convention: string;
    }
  | { readonly ok: false /** One sentence: what was found and what would do. */; readonly message: string };

/** Longer than any ratio that gears are made for. */
const LONGEST = 40;
const NUMBER = /^\d+(?:[.,]\d+)?$|^[.,]\d+$/;
/** Beyond this no train of two stages comes near: our own limit. */
const LARGEST = 1_000_000n;
const EXAMPLES = "type 1/2, 2:1 or 0.5";

/** A positive decimal, with a point or a comma; null where it is none. */
function readNumber(text: string): Rational | null {
  return NUMBER.test(text) ? fromDecimal(text.replace(",", ".")) : null;
}

const fault = (message: string): ParsedRatio => ({ ok: false, message });

/** Reads "1/2", "2:1", "0.5", "1,5", spaces anywhere between; never throws. */
export function parseRatio(text: string): ParsedRatio {
  const typed = text.trim();
  if (typed === "") return fault(`No ratio is given: ${EXAMPLES}.`);
  if (typed.length > LONGEST) return fault(`A ratio of ${typed.length} characters is too long: ${EXAMPLES}.`);
  if (/^[-\u2212]/.test(typed)) {
    return fault(`A ratio has no sign here, for which way the output turns follows from the gears: ${EXAMPLES}.`);
  }
  const [first = "", second, ...more] = typed.split(/\s*[/:\u2215\u2236]\s*/);
  const isTurns = /[:\u2236]/.test(typed);
  const [above, below] = [readNumber(first), second === undefined ? rational(1n) : readNumber(second)];
  if (above === null || below === null || more.length > 0) return fault(`“${typed}” is not a ratio: ${EXAMPLES}.`);
  if (isZero(above) || isZero(below)) return fault(`A ratio of 0 would let one shaft stand still: ${EXAMPLES}.`);
  const ratio = isTurns ? divide(below, above) : divide(above, below);
  if (ratio.n > LARGEST * ratio.d || ratio.d > LARGEST * ratio.n) {
    return fault(`“${typed}” is more than gears can do: stay between 1/1,000,000 and 1,000,000.`);
  }
  return {
    ok: true,
    ratio,
    words: turnsWords("the input", "the output", ratio),
    convention: isTurns ? "turns of the input to turns of the output" : "output speed over input speed",
  };
}

/** What a motor or a hand can give, as it stands on a label or is measured: volts and amperes, or a force on a crank. */
import { multiply, ONE, type Rational, rational } from "../motion/rational";
import type { DecimalSign } from "./choice";
import { nearestDouble } from "./exact";
import { type Conversion, SAME, times } from "./factors";
import { FORCE, LENGTH } from "./quantities";
import { type NumberText, plainSigns, quote, readExact, splitUnit } from "./text-parts";

const VOLTS = { V: SAME, kV: times("1000"), mV: times("0.001"), volt: SAME, volts: SAME };
const AMPERES = { A: SAME, mA: times("0.001"), kA: times("1000"), amp: SAME, amps: SAME, ampere: SAME, amperes: SAME };

type Names = Readonly<Record<string, Conversion>>;

interface Side {
  readonly value: Rational;
  readonly text: string;
}

function side(text: string, names: Names, sign: DecimalSign): Side | null {
  const { digits, conversion } = splitUnit(text, names);
  if (conversion?.kind !== "times") return null;
  const read = readExact(digits, sign);
  return "complaint" in read || read.n < 0n ? null : { value: multiply(read, conversion.factor), text };
}

/** What may stand between the two: a times sign, "at", a comma with a blank, or nothing. */
const BETWEEN = /^\s*(?:[x×*·;@]|,\s|at\b|and\b|on\b)?\s*/i;

/** Both sides of such a text, in either order; null where it is none. */
function sides(text: string, first: Names, second: Names, sign: DecimalSign): readonly [Side, Side] | null {
  for (let i = 1; i < text.length; i++) {
    const between = BETWEEN.exec(text.slice(i))?.[0] ?? "";
    const [left, right] = [text.slice(0, i).trim(), text.slice(i + between.length).trim()];
    if (!/^[\d.,]/.test(right)) continue;
    const straight = side(left, first, sign);
    const other = straight && side(right, second, sign);
    if (straight && other) return [straight, other];
    const turned = side(right, first, sign);
    const back = turned && side(left, second, sign);
    if (turned && back) return [turned, back];
  }
  return null;
}

function product([a, b]: readonly [Side, Side], scale: Rational): NumberText {
  const exact = multiply(multiply(a.value, b.value), scale);
  const value = nearestDouble(exact);
  return { value, meaning: `${a.text} × ${b.text}` };
}

const METRES = rational(1n, 1000n);

/**
 * "12 V 1.5 A" in watts, "50 N x 150 mm" in N·m; the sentence that says how to go on where only one half stands there; null where
 * the text is neither.
 */
export function readSupply(text: string, unit: "W" | "N·m", sign: DecimalSign): NumberText | null {
  const plain = plainSigns(text);
  const [first, second, example] =
    unit === "W" ? ([VOLTS, AMPERES, "12 V 1.5 A"] as const) : ([FORCE.names, LENGTH.names, "50 N x 150 mm"] as const);
  const both = sides(plain, first, second, sign);
  if (both) return product(both, unit === "W" ? ONE : METRES);
  const lone = new RegExp(`^([\\d.,\\s]*\\d\\s*\\p{L}+)${BETWEEN.source.slice(1)}[\\d.,]*$`, "iu").exec(plain)?.[1];
  if (lone === undefined) return null;
  const what = side(lone, first, sign) ? 0 : side(lone, second, sign) ? 1 : null;
  if (what === null) return null;
  const names = unit === "W" ? (["a voltage", "a current"] as const) : (["a force", "a length"] as const);
  const missing =
    unit === "W" ? (["the current", "the voltage"] as const) : (["the crank's length", "the force"] as const);
  return { complaint: `${quote(lone)} is ${names[what]}: write ${missing[what]} too, as in ${example}.` };
}

/**
 * A reader of the printed workings, written apart from them: it knows the text alone. It works a line out twice. Once from its
 * symbols, with the values of a given table in SI units (degrees for angles, turns a second for speeds). Once from its printed
 * numbers, each of which stands for all numbers that round to it, so that the outcome is an interval and needs no tolerance.
 */

export interface Interval {
  readonly low: number;
  readonly high: number;
}

const DEGREE = Math.PI / 180;
const exactly = (x: number): Interval => ({ low: x, high: x });
const spanOf = (...all: number[]): Interval => ({ low: Math.min(...all), high: Math.max(...all) });

const plus = (a: Interval, b: Interval): Interval => ({ low: a.low + b.low, high: a.high + b.high });
const negative = (a: Interval): Interval => ({ low: -a.high, high: -a.low });
const times = (a: Interval, b: Interval): Interval =>
  spanOf(a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high);
const over = (a: Interval, b: Interval): Interval =>
  b.low <= 0 && b.high >= 0
    ? b.low === b.high
      ? exactly(Number.NaN)
      : { low: -Infinity, high: Infinity }
    : times(a, { low: 1 / b.high, high: 1 / b.low });
/** Sine over an interval of degrees, the tops and bottoms within it counted. */
function sine({ low, high }: Interval): Interval {
  const all = [Math.sin(low * DEGREE), Math.sin(high * DEGREE)];
  for (let top = -270; top <= 450; top += 180) if (low < top && top < high) all.push(Math.sin(top * DEGREE));
  return spanOf(...all);
}
const FUNCTIONS: Readonly<Record<string, (x: Interval) => Interval>> = {
  sin: sine,
  cos: (x) => sine(plus(x, exactly(90))),
  arctan: (x) => spanOf(Math.atan(x.low) / DEGREE, Math.atan(x.high) / DEGREE),
};

const UNIT = String.raw`rev\/min|rad\/s|ft\/min|lbf·ft|N·m|m\/s|\/in\b|in\b|mm|kW|hp|lbf|[WN](?![·\w])|°`;
const TOKEN = new RegExp(
  String.raw`\s*(?:(\d[\d\u202f]*(?:[.,]\d+)?)(?: × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?( ?(?:${UNIT}))?|([A-Za-zπδΣηω]+(?:_\w+)?)|([-+−×/()]))`,
  "uy",
);

interface Reading {
  readonly kind: "number" | "name" | "sign";
  readonly text: string;
  readonly value: Interval;
}

/** Half a unit of the last of `figures` figures; none on a whole number that counts something, for it stands for itself. */
function numberOf(digits: string, power: string | undefined, unit: string | undefined, figures: number): Interval {
  const plain = digits.replaceAll("\u202f", "").replace(",", ".");
  const exponent = [...(power ?? "⁰")].map((one) => (one === "⁻" ? "-" : "⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(one))).join("");
  const value = Number(`${plain}e${exponent}`);
  if (value === 0 || (unit === undefined && power === undefined && /^\d+$/.test(plain))) return exactly(value);
  const half = 0.5 * 10 ** (Math.floor(Math.log10(value)) - figures + 1);
  return { low: value - half, high: value + half };
}

function tokens(text: string, figures: number): Reading[] {
  const found: Reading[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const from = TOKEN.lastIndex;
    const match = TOKEN.exec(text);
    if (!match) throw new Error(`"${text.slice(from)}" is no arithmetic.`);
    const [, digits, power, unit, name, sign] = match;
    if (digits !== undefined) {
      found.push({ kind: "number", text: digits, value: numberOf(digits, power, unit, figures) });
    } else found.push({ kind: name === undefined ? "sign" : "name", text: name ?? sign ?? "", value: exactly(0) });
  }
  return found;
}

/** Works out printed arithmetic; `symbol` gives the value of each name but π and the functions, or null, and then so is the outcome. */
export function workOut(text: string, symbol: (name: string) => number | null, figures = 4): Interval | null {
  const all = tokens(text, figures);
  let at = 0;
  let isKnown = true;
  const take = (sign: string): boolean => {
    const is = all[at]?.kind === "sign" && all[at]?.text === sign;
    if (is) at++;
    return is;
  };
  const bracketed = (): Interval => {
    if (!take("(")) throw new Error(`A bracket is missing in "${text}".`);
    const value = sum();
    if (!take(")")) throw new Error(`A bracket is open in "${text}".`);
    return value;
  };
  const atom = (): Interval => {
    if (take("−")) return negative(atom());
    const token = all[at];
    if (token?.kind === "sign") return bracketed();
    at++;
    if (!token) throw new Error(`"${text}" ends too early.`);
    if (token.kind === "number") return token.value;
    const call = FUNCTIONS[token.text];
    if (call) return call(bracketed());
    if (token.text === "π") return exactly(Math.PI);
    const value = symbol(token.text);
    if (value === null) isKnown = false;
    return exactly(value ?? 1);
  };
  const product = (): Interval => {
    let value = atom();
    for (;;) {
      if (take("×")) value = times(value, atom());
      else if (take("/")) value = over(value, atom());
      else return value;
    }
  };
  const sum = (): Interval => {
    let value = product();
    for (;;) {
      if (take("+")) value = plus(value, product());
      else if (take("−")) value = plus(value, negative(product()));
      else return value;
    }
  };
  const value = sum();
  if (at !== all.length) throw new Error(`"${text}" goes on after its end.`);
  return isKnown ? value : null;
}

/** A printed line without its words, in its parts: what stands between the signs of equality, and the exact fraction at the end. */
export function partsOf(formula: string): { readonly sides: readonly string[]; readonly fraction: string } {
  const [shown = "", exact] = formula.split(", exactly ");
  const sides = shown.split(" = ");
  return { sides, fraction: exact ?? sides.at(-1) ?? "" };
}

export const overlap = (a: Interval, b: Interval): boolean => {
  const room = 1e-9 * Math.max(Math.abs(b.low), Math.abs(b.high), 1e-9);
  return a.low <= b.high + room && b.low <= a.high + room;
};

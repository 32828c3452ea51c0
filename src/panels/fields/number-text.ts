/** What somebody typed, as a number: many ways to write one are read, and what can't be read is answered with a sentence. */

/** Unit names that a field in a given unit reads, and what one of each is in it. */
const UNITS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  mm: { mm: 1, cm: 10, m: 1000 },
  "°": { "°": 1, deg: 1, degree: 1, degrees: 1 },
  "rev/min": { "rev/min": 1, rpm: 1, "r/min": 1, "1/min": 1, "min-1": 1, "rev/s": 60 },
  N·m: { n·m: 1, nm: 1, "n m": 1, "n*m": 1 },
  W: { w: 1, kw: 1000 },
  N: { n: 1, kn: 1000 },
  teeth: { teeth: 1, tooth: 1 },
};

export interface NumberRules {
  readonly unit?: string;
  readonly whole?: boolean;
  /** Smallest allowed; with `above` the value itself is not. */
  readonly least?: number;
  readonly above?: boolean;
  readonly most?: number;
  /** With `below` the most itself is not allowed. */
  readonly below?: boolean;
}

export type NumberText = { readonly value: number } | { readonly complaint: string };

/** Longer than any sensible number; a page of text pasted by mistake is refused by its length. */
export const LONGEST = 64;

const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const HALF_TYPED = /^[+-]?$|^[+-]?\.$|\d[eE][+-]?$|\/[+-]?$/;

const quote = (text: string): string => `“${text.length > 20 ? `${text.slice(0, 20)}…` : text}”`;

/** The shortest text that reads back as the same number; with `digits`, rounded to that many significant ones. */
export function numberText(value: number, digits?: number): string {
  if (digits === undefined || Number.isInteger(value)) return String(value === 0 ? 0 : value);
  return String(Number(value.toPrecision(digits)));
}

function withoutUnit(text: string, unit: string | undefined): { readonly digits: string; readonly factor: number } {
  const names = { ...(unit ? UNITS[unit] : undefined), ...(unit ? undefined : { "%": 0.01 }) };
  const low = text.toLowerCase();
  // The longest name first: "mm" before "m".
  for (const [name, factor] of Object.entries(names).sort((a, b) => b[0].length - a[0].length)) {
    if (low.endsWith(name) && /\d[\s.]*$/.test(text.slice(0, -name.length))) {
      return { digits: text.slice(0, text.length - name.length).trim(), factor };
    }
  }
  return { digits: text, factor: 1 };
}

function decimal(text: string): NumberText {
  if (!DECIMAL.test(text)) return { complaint: `${quote(text)} is not a number: write digits, as in 12 or 1.5.` };
  const value = Number(text);
  return Number.isFinite(value) ? { value } : { complaint: `${quote(text)} is too large a number to reckon with.` };
}

function commas(text: string): NumberText | string {
  if (!text.includes(",")) return text;
  const [whole = "", part = "", ...more] = text.split(",");
  if (more.length > 0 || text.includes(".")) {
    return { complaint: `${quote(text)} has more than one decimal sign: write it without separators, as in 1450.5.` };
  }
  if (/^[+-]?[1-9]\d{0,2}$/.test(whole) && /^\d{3}$/.test(part)) {
    const plain = numberText(Number(`${whole}.${part}`));
    return { complaint: `${quote(text)} can be read two ways: write ${whole}${part} or ${plain}.` };
  }
  return `${whole}.${part}`;
}

/** The number that a text says, by the rules of its field; else one sentence on why it doesn't. Never throws. */
export function readNumber(typed: string, rules: NumberRules = {}): NumberText {
  if (typed.length > LONGEST) return { complaint: "That is far too long for one number: type just the number." };
  const text = typed
    .trim()
    .replace(/[\u2212\u2013]/g, "-")
    // Groups of three set apart by a space, as in 1 450.
    .replace(/(?<=\d)[ \u00a0\u2009\u202f](?=\d{3}(?!\d))/g, "");
  if (text === "") return { complaint: "Type a number." };
  const { digits, factor } = withoutUnit(text, rules.unit);
  const point = commas(digits);
  if (typeof point !== "string") return point;
  if (HALF_TYPED.test(point)) return { complaint: `${quote(text)} is not finished: go on typing the number.` };
  const read = fraction(point);
  return "value" in read ? withinRules(read.value * factor, rules) : read;
}

function fraction(text: string): NumberText {
  const slash = text.indexOf("/");
  if (slash < 0) return decimal(text);
  const over = decimal(text.slice(0, slash).trim());
  const under = decimal(text.slice(slash + 1).trim());
  if (!("value" in over) || !("value" in under)) {
    return { complaint: `${quote(text)} is not a fraction: write one number over another, as in 1/3.` };
  }
  if (under.value === 0) return { complaint: "Nothing can be divided by 0: write another number below the line." };
  return { value: over.value / under.value };
}

const grouped = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 6 });

function withinRules(value: number, rules: NumberRules): NumberText {
  const unit = rules.unit ? ` ${rules.unit}` : "";
  const { least, most } = rules;
  if (!Number.isFinite(value)) return { complaint: "That is too large a number to reckon with." };
  if (rules.whole && !Number.isInteger(value)) {
    return {
      complaint: `Only whole numbers go here: ${grouped(Math.floor(value))} or ${grouped(Math.ceil(value))}, not ${numberText(value, 6)}.`,
    };
  }
  if (least !== undefined && (rules.above ? value <= least : value < least)) {
    return { complaint: `It must be ${rules.above ? "more than" : "at least"} ${grouped(least)}${unit}.` };
  }
  if (most !== undefined && (rules.below ? value >= most : value > most)) {
    return { complaint: `It must be ${rules.below ? "less than" : "at most"} ${grouped(most)}${unit}.` };
  }
  return { value };
}

/** The next value up or down that a step leads to, kept within the rules, on the grid of the step. */
export function stepped(value: number, step: number, times: number, rules: NumberRules): number {
  const grid = Math.round((value / step) * 1e6) / 1e6;
  const from = times > 0 ? Math.floor(grid) : Math.ceil(grid);
  // Rounded to the step's own decimals, so that 0.1 steps don't gather dust.
  const decimals = Math.max(0, Math.ceil(-Math.log10(step)) + 1);
  const next = Number(((from + times) * step).toFixed(decimals));
  return "value" in withinRules(next, rules) ? next : limit(value, next, step, rules);
}

function limit(value: number, next: number, step: number, rules: NumberRules): number {
  if (rules.least !== undefined && next <= rules.least) {
    const floor = rules.above ? Math.min(value, rules.least + step) : rules.least;
    return Math.min(value, floor);
  }
  if (rules.most !== undefined && next >= rules.most) {
    const ceiling = rules.below ? Math.max(value, rules.most - step) : rules.most;
    return Math.max(value, ceiling);
  }
  return value;
}

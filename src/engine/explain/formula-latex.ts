/** Formulas as LaTeX, for a document with no package but amsmath (`\text`). */
import type { Rational } from "../motion/rational";
import type { ShownUnit, Unit, UnitChoice } from "../units/choice";
import { inUnits } from "../units/convert";
import { figuresIn, MINUS, plainPower } from "../wording";
import type { Formula, Operator, Token } from "./formula";

const SYMBOLS: Readonly<Record<string, string>> = {
  π: "\\pi",
  δ: "\\delta",
  Σ: "\\Sigma",
  η: "\\eta",
  ω: "\\omega",
};
const OPERATORS: Readonly<Record<Operator, string>> = { "=": "=", "+": "+", "−": "-", "×": "\\times", ":": ":" };
const SPECIAL: Readonly<Record<string, string>> = {
  "\\": "\\textbackslash{}",
  "~": "\\textasciitilde{}",
  "^": "\\textasciicircum{}",
};

/** Words as they may stand within `\text`; marks of direction are left out. */
export const latexWords = (text: string): string =>
  text
    .replace(/[\u2066-\u2069]/g, "")
    .replace(/[\\~^{}$&#_%]/g, (character) => SPECIAL[character] ?? `\\${character}`)
    .replaceAll(MINUS, "$-$")
    .replaceAll("\u202f", "\\,");

const unitLatex = (unit: ShownUnit): string => {
  if (unit === "") return "";
  if (unit === "°") return "^{\\circ}";
  return `\\,\\mathrm{${unit.replace("·", "{\\cdot}")}}`;
};

function digitsLatex(text: string): string {
  if (text === "out of range") return "\\text{out of range}";
  return text
    .replace(/ × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/, (_, power: string) => ` \\times 10^{${plainPower(power)}}`)
    .replace(MINUS, "-")
    .replace(",", "{,}")
    .replaceAll("\u202f", "\\,");
}

/** A number of the file's `unit` as the reader has chosen it, with its unit. */
export function quantityLatex(value: number, unit: Unit, units: UnitChoice): string {
  const shown = inUnits(value, unit, units);
  return `${digitsLatex(figuresIn(shown.value, units))}${unitLatex(shown.unit)}`;
}

/** A fraction of whole numbers, or the whole number that it is. */
export const exactLatex = ({ n, d }: Rational): string =>
  d === 1n ? String(n) : `${n < 0n ? "-" : ""}\\frac{${n < 0n ? -n : n}}{${d}}`;

function tokenLatex(token: Token, units: UnitChoice): string {
  switch (token.kind) {
    case "symbol": {
      const name = SYMBOLS[token.name] ?? token.name;
      return token.sub === undefined ? name : `${name}_{\\text{${latexWords(token.sub)}}}`;
    }
    case "number": {
      const text = quantityLatex(token.value, token.unit, units);
      return token.value < 0 ? `\\left(${text}\\right)` : text;
    }
    case "operator":
      return OPERATORS[token.sign];
    case "fraction":
      return `\\frac{${formulaLatex(token.over, units)}}{${formulaLatex(token.under, units)}}`;
    case "group":
      return `\\left(${formulaLatex(token.of, units)}\\right)`;
    case "call":
      return `\\${token.name}\\left(${formulaLatex(token.of, units)}\\right)`;
  }
}

export const formulaLatex = (formula: Formula, units: UnitChoice): string =>
  formula.map((token) => tokenLatex(token, units)).join(" ");

/** Formulas as data: a line of tokens, the one source of plain text (here), MathML, LaTeX and what is read out. */
import type { Unit, UnitChoice } from "../units/choice";
import { nameText, quantityIn } from "../wording";

/** ":" stands between the two sides of a proportion. */
export type Operator = "=" | "+" | "−" | "×" | ":";
export type FunctionName = "sin" | "cos" | "arctan";

export type Token =
  | { readonly kind: "symbol"; readonly name: string; readonly sub?: string }
  /** The value as it is, in the file's unit; whoever prints it rounds, and converts to the unit chosen. */
  | { readonly kind: "number"; readonly value: number; readonly unit: Unit }
  | { readonly kind: "operator"; readonly sign: Operator }
  | { readonly kind: "fraction"; readonly over: Formula; readonly under: Formula }
  /** In parentheses. */
  | { readonly kind: "group"; readonly of: Formula }
  | { readonly kind: "call"; readonly name: FunctionName; readonly of: Formula };

export type Formula = readonly Token[];

/** A symbol, its subscript the id of a gear or a shaft: z with a1. */
export const symbol = (name: string, sub?: string): Token =>
  sub === undefined ? { kind: "symbol", name } : { kind: "symbol", name, sub: nameText(sub) };
export const number = (value: number, unit: Unit = ""): Token => ({ kind: "number", value, unit });
export const operator = (sign: Operator): Token => ({ kind: "operator", sign });
export const fraction = (over: Formula, under: Formula): Token => ({ kind: "fraction", over, under });
export const group = (...of: Token[]): Token => ({ kind: "group", of });
export const call = (name: FunctionName, of: Formula): Token => ({ kind: "call", name, of });

export const EQUALS = operator("=");
export const PLUS = operator("+");
export const LESS = operator("−");
export const TIMES = operator("×");

/** The tokens with an operator between each two. */
export const joined = (between: Token, parts: readonly Token[]): Formula =>
  parts.flatMap((part, i) => (i === 0 ? [part] : [between, part]));

/** The product over a number, or times it where that is the larger way to say it; as it is where the number is 1. */
export const scaled = (product: Formula, divisor: number): Formula => {
  if (Math.abs(divisor - 1) < 1e-12) return product;
  return divisor > 1 ? [fraction(product, [number(divisor)])] : [...product, TIMES, number(1 / divisor)];
};

/** A signed number as a term of a sum: an operator and the size. */
export const term = (value: number, unit: Unit = ""): Formula => [
  value < 0 ? LESS : PLUS,
  number(Math.abs(value), unit),
];

const side = (formula: Formula, units: UnitChoice): string => {
  const text = formulaText(formula, units);
  const only = formula[0];
  return formula.length === 1 && only?.kind !== "fraction" ? text : `(${text})`;
};

/** One token as plain text: "z_a1", "20 mm", "(50 / 20)". */
function tokenText(token: Token, units: UnitChoice): string {
  switch (token.kind) {
    case "symbol":
      return token.sub === undefined ? token.name : `${token.name}_${token.sub}`;
    case "number":
      return token.value < 0
        ? `(${quantityIn(token.value, token.unit, units)})`
        : quantityIn(token.value, token.unit, units);
    case "operator":
      return token.sign;
    case "fraction":
      return `${side(token.over, units)} / ${side(token.under, units)}`;
    case "group":
      return `(${formulaText(token.of, units)})`;
    case "call":
      return `${token.name}(${formulaText(token.of, units)})`;
  }
}

/** A formula as plain text, operators set apart by spaces, every fraction a quotient. */
export function formulaText(formula: Formula, units: UnitChoice): string {
  // A fraction beside another operator than = needs its own parentheses: 2 × (a / b) reads one way only.
  const guard = formula.some((token) => token.kind === "operator" && token.sign !== "=");
  return formula
    .map((token) => (token.kind === "fraction" && guard ? `(${tokenText(token, units)})` : tokenText(token, units)))
    .join(" ");
}

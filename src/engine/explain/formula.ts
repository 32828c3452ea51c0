/** Formulas as data: a line of tokens that a text reader and a typesetter can both read. */
import { nameText, quantity, type Unit } from "../wording";

export type Operator = "=" | "+" | "−" | "×";
export type FunctionName = "sin" | "cos" | "arctan";

export type Token =
  | { readonly kind: "symbol"; readonly name: string; readonly sub?: string }
  /** The value as it is; whoever prints it rounds. */
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

/** A signed number as a term of a sum: an operator and the size. */
export const term = (value: number, unit: Unit = ""): Formula => [
  value < 0 ? LESS : PLUS,
  number(Math.abs(value), unit),
];

const side = (formula: Formula): string => {
  const text = formulaText(formula);
  const only = formula[0];
  return formula.length === 1 && only?.kind !== "fraction" ? text : `(${text})`;
};

/** One token as plain text: "z_a1", "20 mm", "(50 / 20)". */
function tokenText(token: Token): string {
  switch (token.kind) {
    case "symbol":
      return token.sub === undefined ? token.name : `${token.name}_${token.sub}`;
    case "number":
      return token.value < 0 ? `(${quantity(token.value, token.unit)})` : quantity(token.value, token.unit);
    case "operator":
      return token.sign;
    case "fraction":
      return `${side(token.over)} / ${side(token.under)}`;
    case "group":
      return `(${formulaText(token.of)})`;
    case "call":
      return `${token.name}(${formulaText(token.of)})`;
  }
}

/** A formula as plain text, operators set apart by spaces, every fraction a quotient. */
export function formulaText(formula: Formula): string {
  // A fraction beside another operator than = needs its own parentheses: 2 × (a / b) reads one way only.
  const guard = formula.some((token) => token.kind === "operator" && token.sign !== "=");
  return formula
    .map((token) => (token.kind === "fraction" && guard ? `(${tokenText(token)})` : tokenText(token)))
    .join(" ");
}

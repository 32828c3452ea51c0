/**
 * Formulas as MathML: a tree of elements, which the page renders as it is and which is written out as text to be copied. Source:
 * MathML Core (W3C), the part of MathML that browsers set by themselves.
 */
import type { Rational } from "../motion/rational";
import type { Unit, UnitChoice } from "../units/choice";
import { inUnits } from "../units/convert";
import { figuresIn, MINUS } from "../wording";
import type { Formula, Token } from "./formula";

export interface MathElement {
  readonly name: string;
  readonly attributes?: Readonly<Record<string, string>>;
  readonly children: readonly MathNode[];
}
export type MathNode = MathElement | string;

const element = (name: string, children: readonly MathNode[], attributes?: Record<string, string>): MathElement =>
  attributes ? { name, attributes, children } : { name, children };
const sign = (text: string): MathElement => element("mo", [text]);

/** Words within a line of mathematics. */
export const wordsMath = (text: string): MathElement => element("mtext", [text]);

/** A number of the file's `unit` as the reader has chosen it, with its unit. */
export function quantityMath(value: number, unit: Unit, units: UnitChoice): MathElement {
  const shown = inUnits(value, unit, units);
  const digits = element("mn", [figuresIn(shown.value, units)]);
  if (shown.unit === "") return digits;
  const space = shown.unit === "°" ? [] : [element("mspace", [], { width: "0.2em" })];
  return element("mrow", [digits, ...space, wordsMath(shown.unit)]);
}

/** A fraction of whole numbers, or the whole number that it is. */
export function exactMath({ n, d }: Rational): MathElement {
  const size = element("mn", [String(n < 0n ? -n : n)]);
  const value = d === 1n ? size : element("mfrac", [size, element("mn", [String(d)])]);
  return n < 0n ? element("mrow", [sign(MINUS), value]) : value;
}

const inParentheses = (inner: MathNode): MathElement => element("mrow", [sign("("), inner, sign(")")]);

function tokenMath(token: Token, units: UnitChoice): MathElement {
  switch (token.kind) {
    case "symbol": {
      const name = element("mi", [token.name]);
      if (token.sub === undefined) return name;
      // Lowered by hand: without a font for mathematics browsers leave a subscript on the line.
      return element("msub", [name, element("mpadded", [wordsMath(token.sub)], { voffset: "-0.25em" })]);
    }
    case "number": {
      const number = quantityMath(token.value, token.unit, units);
      return token.value < 0 ? inParentheses(number) : number;
    }
    case "operator":
      return sign(token.sign);
    case "fraction":
      return element("mfrac", [rowMath(token.over, units), rowMath(token.under, units)], { displaystyle: "true" });
    case "group":
      return inParentheses(rowMath(token.of, units));
    case "call":
      return element("mrow", [
        element("mi", [token.name]),
        element("mo", ["\u2061"], { "data-apply": "" }),
        inParentheses(rowMath(token.of, units)),
      ]);
  }
}

/** The tokens of a formula in one row. */
export const rowMath = (formula: Formula, units: UnitChoice): MathElement =>
  element(
    "mrow",
    formula.map((token) => tokenMath(token, units)),
  );

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
/** Words as they may stand in markup. */
export const escaped = (text: string): string => text.replace(/[&<>"]/g, (character) => ESCAPES[character] ?? "");

/** A node as markup. */
export function mathMarkup(node: MathNode): string {
  if (typeof node === "string") return escaped(node);
  const attributes = Object.entries(node.attributes ?? {}).map(([key, value]) => ` ${key}="${escaped(value)}"`);
  return `<${node.name}${attributes.join("")}>${node.children.map(mathMarkup).join("")}</${node.name}>`;
}

/** Nodes as one piece of MathML to stand by itself. */
export const mathDocument = (nodes: readonly MathNode[]): string =>
  `<math xmlns="http://www.w3.org/1998/Math/MathML" display="block">${nodes.map(mathMarkup).join("")}</math>`;

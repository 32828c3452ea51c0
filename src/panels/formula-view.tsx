/** A formula set as mathematics by the browser itself (MathML), so that a screen reader can walk through it. */
import { createElement, Fragment, type ReactNode } from "react";
import type { Formula, Token } from "../engine/explain/formula";
import type { Unit, UnitChoice } from "../engine/units/choice";
import { inUnits } from "../engine/units/convert";
import { figuresIn } from "../engine/wording";

/** Subscripts are lowered by hand: without a font for mathematics browsers leave them on the line. */
/** An element of MathML: `mi`, `mn`, `mfrac` … */
const m = (name: string, props: Record<string, string> | null, ...children: ReactNode[]): ReactNode =>
  createElement(name, props, ...children);

export function quantityMath(value: number, unit: Unit, units: UnitChoice): ReactNode {
  const shown = inUnits(value, unit, units);
  const digits = m("mn", null, figuresIn(shown.value, units));
  if (shown.unit === "") return digits;
  const space = shown.unit === "°" ? null : m("mspace", { width: "0.2em" });
  return m("mrow", null, digits, space, m("mtext", null, shown.unit));
}

function tokenMath(token: Token, units: UnitChoice): ReactNode {
  switch (token.kind) {
    case "symbol":
      return token.sub === undefined
        ? m("mi", null, token.name)
        : m("msub", null, m("mi", null, token.name), m("mpadded", { voffset: "-0.25em" }, m("mtext", null, token.sub)));
    case "number":
      return token.value < 0
        ? inParentheses(quantityMath(token.value, token.unit, units))
        : quantityMath(token.value, token.unit, units);
    case "operator":
      return m("mo", null, token.sign);
    case "fraction":
      return m("mfrac", { displaystyle: "true" }, rowMath(token.over, units), rowMath(token.under, units));
    case "group":
      return inParentheses(rowMath(token.of, units));
    case "call":
      return m(
        "mrow",
        null,
        m("mi", null, token.name),
        m("mo", { "data-apply": "" }, "\u2061"),
        inParentheses(rowMath(token.of, units)),
      );
  }
}

const inParentheses = (inner: ReactNode): ReactNode => m("mrow", null, m("mo", null, "("), inner, m("mo", null, ")"));

/** The tokens of a formula in one row. */
export const rowMath = (formula: Formula, units: UnitChoice): ReactNode =>
  m("mrow", null, ...formula.map((token, i) => createElement(Fragment, { key: i }, tokenMath(token, units))));

/** One line of mathematics, made of rows. */
export const MathLine = ({ children }: { readonly children: ReactNode }): ReactNode =>
  createElement("math", null, children);

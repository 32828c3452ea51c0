/** A formula set as mathematics by the browser itself (MathML), so that a screen reader can walk through it. */
import { createElement, Fragment, type ReactNode } from "react";
import type { Formula, Token } from "../engine/explain/formula";
import { shownUnit } from "../engine/explain/numbers";
import { figures, type Unit } from "../engine/wording";

/** Subscripts are lowered by hand: without a font for mathematics browsers leave them on the line. */
/** An element of MathML: `mi`, `mn`, `mfrac` … */
const m = (name: string, props: Record<string, string> | null, ...children: ReactNode[]): ReactNode =>
  createElement(name, props, ...children);

export function quantityMath(value: number, unit: Unit): ReactNode {
  const shown = shownUnit(value, unit);
  const digits = m("mn", null, figures(shown.value));
  if (shown.unit === "") return digits;
  const space = shown.unit === "°" ? null : m("mspace", { width: "0.2em" });
  return m("mrow", null, digits, space, m("mtext", null, shown.unit));
}

function tokenMath(token: Token): ReactNode {
  switch (token.kind) {
    case "symbol":
      return token.sub === undefined
        ? m("mi", null, token.name)
        : m("msub", null, m("mi", null, token.name), m("mpadded", { voffset: "-0.25em" }, m("mtext", null, token.sub)));
    case "number":
      return token.value < 0
        ? inParentheses(quantityMath(token.value, token.unit))
        : quantityMath(token.value, token.unit);
    case "operator":
      return m("mo", null, token.sign);
    case "fraction":
      return m("mfrac", { displaystyle: "true" }, rowMath(token.over), rowMath(token.under));
    case "group":
      return inParentheses(rowMath(token.of));
    case "call":
      return m(
        "mrow",
        null,
        m("mi", null, token.name),
        m("mo", { "data-apply": "" }, "\u2061"),
        inParentheses(rowMath(token.of)),
      );
  }
}

const inParentheses = (inner: ReactNode): ReactNode => m("mrow", null, m("mo", null, "("), inner, m("mo", null, ")"));

/** The tokens of a formula in one row. */
export const rowMath = (formula: Formula): ReactNode =>
  m("mrow", null, ...formula.map((token, i) => createElement(Fragment, { key: i }, tokenMath(token))));

/** One line of mathematics, made of rows. */
export const MathLine = ({ children }: { readonly children: ReactNode }): ReactNode =>
  createElement("math", null, children);

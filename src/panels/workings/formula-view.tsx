/** Mathematics set by the browser itself (MathML), so that a screen reader can walk through it; its name is the same in words. */
import { createElement, Fragment, type ReactNode } from "react";
import type { MathNode } from "../../engine/explain/formula-math";

const nodeView = (node: MathNode): ReactNode =>
  typeof node === "string"
    ? node
    : createElement(
        node.name,
        node.attributes ?? null,
        ...node.children.map((child, i) => createElement(Fragment, { key: i }, nodeView(child))),
      );

interface MathLineProps {
  readonly math: MathNode;
  /** How it is read out where nothing reads MathML. */
  readonly spoken: string;
}

/** One piece of mathematics. */
export const MathLine = ({ math, spoken }: MathLineProps): ReactNode =>
  createElement("math", { "aria-label": spoken }, nodeView(math));

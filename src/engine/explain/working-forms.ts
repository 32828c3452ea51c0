/** Lines and tables of the workings in the forms that they are shown, heard and copied in: plain text, MathML, LaTeX and words. */
import { toText } from "../motion/rational";
import type { UnitChoice } from "../units/choice";
import { EQUALS, type Formula, formulaText } from "./formula";
import { exactLatex, formulaLatex, latexWords, quantityLatex } from "./formula-latex";
import { escaped, exactMath, type MathElement, mathDocument, quantityMath, rowMath, wordsMath } from "./formula-math";
import { formulaSpoken } from "./formula-spoken";
import { spoken } from "./numbers";
import { exactText, type WorkingLine, type WorkingStep, type WorkingTable, workingText } from "./working-lines";

export type CopyForm = "text" | "latex" | "mathml";

/** A piece of a line's mathematics that may stand on a line of its own, and how it is read out. */
export interface LinePiece {
  readonly math: MathElement;
  readonly spoken: string;
}

/** Symbols, numbers and result of a line, each but the first begun by a sign of equality; none where it is words alone. */
export function linePieces(line: WorkingLine, units: UnitChoice): LinePiece[] {
  const { symbols, numbers, result, unit } = line;
  const pieces: LinePiece[] = [];
  const add = (formula: Formula): void => {
    const whole = pieces.length === 0 ? formula : [EQUALS, ...formula];
    pieces.push({ math: rowMath(whole, units), spoken: formulaSpoken(whole, units) });
  };
  for (const formula of [symbols, numbers]) if (formula.length > 0) add(formula);
  if (result === null) return pieces;
  const isFirst = pieces.length === 0;
  const exact = exactText(line, units) !== null && line.exact ? line.exact : null;
  const children = [
    ...(isFirst ? [] : [rowMath([EQUALS], units)]),
    quantityMath(result, unit, units),
    ...(exact ? [wordsMath(", exactly "), exactMath(exact)] : []),
  ];
  const told = exact ? `, exactly ${toText(exact).replace("/", " over ").replace("-", "minus ")}` : "";
  pieces.push({
    math: { name: "mrow", children },
    spoken: `${isFirst ? "" : "equals "}${spoken(result, unit, units)}${told}`,
  });
  return pieces;
}

/** A line's mathematics in words; empty where it is words alone. */
export const lineSpoken = (line: WorkingLine, units: UnitChoice): string =>
  linePieces(line, units)
    .map((piece) => piece.spoken)
    .join(" ");

/** A line's mathematics as LaTeX; empty where it is words alone. */
export function lineLatex(line: WorkingLine, units: UnitChoice): string {
  const { symbols, numbers, result, unit } = line;
  const parts = [symbols, numbers]
    .filter((formula) => formula.length > 0)
    .map((formula) => formulaLatex(formula, units));
  if (result !== null) {
    const exact = exactText(line, units) !== null && line.exact ? `\\text{, exactly }${exactLatex(line.exact)}` : "";
    parts.push(`${quantityLatex(result, unit, units)}${exact}`);
  }
  return parts.join(" = ");
}

const ended = (words: string, missing: string | null): string => `${words}${missing === null ? "" : `: ${missing}`}`;

/** One line to be copied. */
export function copiedLine(line: WorkingLine, form: CopyForm, units: UnitChoice): string {
  if (form === "text") return workingText(line, units);
  const words = ended(line.words, line.missing);
  if (form === "latex") {
    const mathematics = lineLatex(line, units);
    return mathematics === "" ? latexWords(words) : `${latexWords(words)}:\n\\[ ${mathematics} \\]`;
  }
  const pieces = linePieces(line, units).map((piece) => piece.math);
  return `<p>${escaped(words)}</p>${pieces.length === 0 ? "" : `\n${mathDocument(pieces)}`}`;
}

function copiedTable({ caption, head, rows }: WorkingTable, form: CopyForm, units: UnitChoice): string {
  const cells = <T>(write: (formula: Formula) => T): T[][] => rows.map((row) => row.cells.map(write));
  if (form === "text") {
    const body = cells((formula) => formulaText(formula, units)).map((row, i) => [rows[i]?.words ?? "", ...row]);
    return [caption, head.join("\t"), ...body.map((row) => row.join("\t"))].join("\n");
  }
  if (form === "latex") {
    const body = cells((formula) => `$${formulaLatex(formula, units)}$`).map((row, i) =>
      [latexWords(rows[i]?.words ?? ""), ...row].join(" & "),
    );
    const lines = [head.map(latexWords).join(" & "), ...body].map((line) => `${line} \\\\`);
    return `${latexWords(caption)}\n\n\\begin{tabular}{l${"r".repeat(head.length - 1)}}\n${lines.join("\n")}\n\\end{tabular}`;
  }
  const cell = (child: MathElement): MathElement => ({ name: "mtd", children: [child] });
  const row = (children: MathElement[]): MathElement => ({ name: "mtr", children: children.map(cell) });
  const body = rows.map(({ words, cells }) =>
    row([wordsMath(words), ...cells.map((formula) => rowMath(formula, units))]),
  );
  const table = { name: "mtable", children: [row(head.map(wordsMath)), ...body] };
  return `<p>${escaped(caption)}</p>\n${mathDocument([table])}`;
}

const headed = (title: string, form: CopyForm): string => {
  if (form === "latex") return `\\paragraph{${latexWords(title)}}`;
  return form === "mathml" ? `<h3>${escaped(title)}</h3>` : title;
};

/** Whole steps to be copied, titles, lines and tables. */
export const copiedSteps = (steps: readonly WorkingStep[], form: CopyForm, units: UnitChoice): string =>
  steps
    .map(({ title, lines, tables }) =>
      [
        headed(title, form),
        ...lines.map((line) => copiedLine(line, form, units)),
        ...(tables ?? []).map((table) => copiedTable(table, form, units)),
      ].join("\n"),
    )
    .join("\n\n");

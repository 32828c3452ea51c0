/** Lines and tables of the workings in the forms that they are shown, heard and copied in: plain text, MathML, LaTeX and words. */
import { toText } from "../motion/rational";
import type { UnitChoice } from "../units/choice";
import { EQUALS, type Formula, formulaText } from "./formula";
import { exactLatex, formulaLatex, latexWords, quantityLatex } from "./formula-latex";
import { exactMath, type MathElement, mathDocument, quantityMath, rowMath, wordsMath } from "./formula-math";
import { formulaSpoken } from "./formula-spoken";
import { spoken } from "./numbers";
import { exactText, type WorkingLine, type WorkingStep, type WorkingTable, workingText } from "./working-lines";

export type CopyForm = "text" | "latex" | "mathml";

export const COPY_FORMS: readonly CopyForm[] = ["text", "latex", "mathml"];

/** A line's mathematics as pieces that may stand on lines of their own: symbols, numbers, result; none where it is words alone. */
export function lineMath(line: WorkingLine, units: UnitChoice): MathElement[] {
  const { symbols, numbers, result, unit } = line;
  const pieces: MathElement[] = [];
  if (symbols.length > 0) pieces.push(rowMath(symbols, units));
  if (numbers.length > 0) pieces.push(rowMath([EQUALS, ...numbers], units));
  if (result === null) return pieces;
  const exact = exactText(line, units) !== null && line.exact ? [wordsMath(", exactly "), exactMath(line.exact)] : [];
  const equals = pieces.length > 0 ? [rowMath([EQUALS], units)] : [];
  pieces.push({ name: "mrow", children: [...equals, quantityMath(result, unit, units), ...exact] });
  return pieces;
}

/** A line's mathematics in words; empty where it is words alone. */
export function lineSpoken(line: WorkingLine, units: UnitChoice): string {
  const { symbols, numbers, result, unit } = line;
  const parts = [symbols, numbers]
    .filter((formula) => formula.length > 0)
    .map((formula) => formulaSpoken(formula, units));
  if (result !== null) {
    const exact = exactText(line, units) !== null && line.exact ? `, exactly ${toText(line.exact)}` : "";
    parts.push(`${spoken(result, unit, units)}${exact.replace("/", " over ").replace("-", "minus ")}`);
  }
  return parts.join(" equals ");
}

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
const markupWords = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");

/** One line to be copied. */
export function copiedLine(line: WorkingLine, form: CopyForm, units: UnitChoice): string {
  if (form === "text") return workingText(line, units);
  const words = ended(line.words, line.missing);
  if (form === "latex") {
    const mathematics = lineLatex(line, units);
    return mathematics === "" ? latexWords(words) : `${latexWords(words)}:\n\\[ ${mathematics} \\]`;
  }
  const pieces = lineMath(line, units);
  return `<p>${markupWords(words)}</p>${pieces.length === 0 ? "" : `\n${mathDocument(pieces)}`}`;
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
  return `<p>${markupWords(caption)}</p>\n${mathDocument([table])}`;
}

const headed = (title: string, form: CopyForm): string => {
  if (form === "latex") return `\\paragraph{${latexWords(title)}}`;
  return form === "mathml" ? `<h3>${markupWords(title)}</h3>` : title;
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

/** Text on a sheet: lines that are broken where they grow too long, and tables. mm of paper. */
import { textWidth as labelWidth } from "./label-room";
import { type Drawing, type DrawnView, emptyLayers, type Item, type Point } from "./types";

export interface TextLine {
  readonly text: string;
  /** Levels by which it stands in. */
  readonly level: number;
  /** More room before it. */
  readonly isHead?: boolean;
}

export interface TextTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export type Block = TextLine | TextTable;

const MARGIN = 12;
const LINE = 5.6;
const INDENT = 6;
/** The widest that a line may be, and a cell. */
const WIDEST = 240;
const WIDEST_CELL = 95;
const COLUMN_GAP = 5;

/** Room for wider typefaces than labels reckon with, since a line here is long. */
const textWidth = (text: string): number => 1.12 * labelWidth(text);

/** A number and what is counted by it stay together: a space that no line breaks at, U+00A0. */
const joined = (text: string): string => text.replace(/(\d) (?=\p{L})/gu, "$1\u00a0");

/** A text in pieces no wider than `most` where it has spaces to break at. */
export function brokenText(text: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of joined(text).split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`) <= most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

interface Pen {
  readonly items: Item[];
  y: number;
  right: number;
}

function write(pen: Pen, [x, y]: Point, text: string): void {
  if (text === "") return;
  pen.items.push({ shape: "text", at: [x, y], text, anchor: "start", part: null });
  pen.right = Math.max(pen.right, x + textWidth(text));
}

function writeLine(pen: Pen, { text, level, isHead }: TextLine): void {
  if (isHead) pen.y += LINE / 2;
  brokenText(text, WIDEST - level * INDENT).forEach((piece, i) => {
    pen.y += LINE;
    // What goes on stands further in than what begins.
    write(pen, [MARGIN + (level + (i > 0 ? 0.5 : 0)) * INDENT, pen.y], piece);
  });
}

function writeTable(pen: Pen, { head, rows }: TextTable): void {
  const all = [head, ...rows].map((cells) => cells.map((text) => brokenText(text, WIDEST_CELL)));
  const widths = head.map((_, column) =>
    all.reduce((most, cells) => (cells[column] ?? []).reduce((m, piece) => Math.max(m, textWidth(piece)), most), 0),
  );
  pen.y += LINE / 2;
  const right = widths.reduce((x, width) => x + width + COLUMN_GAP, MARGIN);
  all.forEach((cells, row) => {
    const deep = Math.max(1, ...cells.map((pieces) => pieces.length));
    let x = MARGIN;
    cells.forEach((pieces, column) => {
      pieces.forEach((piece, i) => {
        write(pen, [x, pen.y + (i + 1) * LINE], piece);
      });
      x += (widths[column] ?? 0) + COLUMN_GAP;
    });
    pen.y += deep * LINE;
    const under = pen.y + LINE * 0.35;
    const points: Point[] = [
      [MARGIN, under],
      [right - COLUMN_GAP, under],
    ];
    if (row === 0) pen.items.push({ shape: "line", points, part: null });
    if (row === 0) pen.y += LINE * 0.35;
  });
}

/** The same blocks give the same sheet. */
export function textSheet(
  title: string,
  { name, label }: { readonly name: "workings" | "readouts"; readonly label: string },
  blocks: readonly Block[],
): Drawing {
  const pen: Pen = { items: [], y: MARGIN - 3, right: 0 };
  write(pen, [MARGIN, pen.y], title === "" ? label : `${title}: ${label}`);
  for (const block of blocks) {
    if ("rows" in block) writeTable(pen, block);
    else writeLine(pen, block);
  }
  const layers = emptyLayers();
  layers.labels.push(...pen.items.filter(({ shape }) => shape === "text"));
  layers.visible.push(...pen.items.filter(({ shape }) => shape !== "text"));
  const view: DrawnView = { name, label, layers };
  return { title, width: pen.right + MARGIN, height: pen.y + MARGIN, scale: 1, views: [view] };
}

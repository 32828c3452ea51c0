/**
 * The question that a drive asks: the drive's own `x-question`, `{ "hide": [{ "shaft": id, "figures": ["direction", "ratio"] }] }`. What it
 * names is hidden until it is revealed. Entries of any other form are somebody else's: they are kept and not read.
 */
import { isRecord, own } from "./schema-parts";
import type { Drive } from "./types";

export const FIGURES = ["direction", "speed", "ratio", "torque"] as const;
export type Figure = (typeof FIGURES)[number];

/** For each shaft, by its id, what is hidden of it: never empty. */
export type Question = ReadonlyMap<string, ReadonlySet<Figure>>;

export const QUESTION_KEY = "x-question";

const isFigure = (value: unknown): value is Figure => FIGURES.some((figure) => figure === value);

const known = new WeakMap<object, Question>();
const NONE: Question = new Map();

/** What the drive's question hides; empty where it asks none. Shafts that are not there any more are left in. */
export function questionOf(drive: Drive): Question {
  const kept = drive[QUESTION_KEY];
  if (!isRecord(kept)) return NONE;
  const found = known.get(kept) ?? readQuestion(own(kept, "hide"));
  known.set(kept, found);
  return found;
}

/** The question in a list of what it hides; entries of any other form are not read. */
export function readQuestion(list: unknown): Question {
  if (!Array.isArray(list)) return NONE;
  const hidden = new Map<string, ReadonlySet<Figure>>();
  for (const entry of list as unknown[]) {
    if (!isRecord(entry)) continue;
    const [shaft, figures] = [own(entry, "shaft"), own(entry, "figures")];
    if (typeof shaft !== "string" || !Array.isArray(figures)) continue;
    const all = new Set([...(hidden.get(shaft) ?? []), ...figures.filter(isFigure)]);
    if (all.size > 0) hidden.set(shaft, all);
  }
  return hidden;
}

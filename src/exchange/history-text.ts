/**
 * The history of undo and redo as a compact text: every shaft, gear, mesh and port that occurs once, and each step as what it has
 * other than the step before. 200 edits of a drive of 40 gears are some 40 kB; each drive by itself would be over a megabyte.
 */
import { makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../engine/drive/defaults";
import { lostDigits, partFault } from "../engine/drive/parse";
import { ruleFaults } from "../engine/drive/rules";
import { type Drive, LIMITS } from "../engine/drive/types";
import { fileGear, fileMesh, filePort, fileShaft, inline } from "../engine/drive/write";
import { type History, type Step, UNDO_STEPS } from "../store/document";

const FORMAT = "turnwise.history";
const VERSION = 1;
const LISTS = ["shafts", "gears", "meshes", "ports"] as const;
type List = (typeof LISTS)[number];
type Part = Drive[List][number];
/** Where a list differs from that of the step before: from this place so many go, and these parts (by number) come. */
type Splice = readonly [at: number, gone: number, ...come: number[]];

/** Entries of lists in all steps together: a drive of thousands of shafts keeps fewer steps, and is read again as fast. */
const MOST_ENTRIES = 200_000;
/** Characters of all parts together. */
const MOST_TEXT = 4_000_000;

const FILED: Readonly<Record<List, (part: never) => object>> = {
  shafts: fileShaft,
  gears: fileGear,
  meshes: fileMesh,
  ports: filePort,
};
/** Digits that a double does not hold stand beside their number, as in the drive itself. */
const DIGITS: Readonly<Partial<Record<List, { readonly of: string; readonly digits: string }>>> = {
  gears: { of: "diameter", digits: "diameterDigits" },
  ports: { of: "speed", digits: "speedDigits" },
};

/** Texts of parts: an edit leaves all others as they are, so each is written once. */
const texts = new WeakMap<object, string>();

function partText(list: List, part: Part): string {
  const known = texts.get(part);
  if (known !== undefined) return known;
  const key = DIGITS[list]?.digits;
  const digits = key === undefined ? undefined : (part as unknown as Record<string, unknown>)[key];
  const filed = FILED[list](part as never);
  const text = inline(key !== undefined && digits !== undefined ? { ...filed, [key]: digits } : filed);
  texts.set(part, text);
  return text;
}

const extrasOf = (drive: Drive): object =>
  Object.fromEntries(Object.entries(drive).filter(([key]) => key.startsWith("x-")));

const sameExtras = (a: Drive, b: Drive): boolean => {
  const [one, other] = [Object.entries(extrasOf(a)), Object.entries(extrasOf(b))];
  return (
    one.length === other.length &&
    one.every(([key, value], i) => other[i]?.[0] === key && Object.is(other[i]?.[1], value))
  );
};

const EMPTY: Step = { drive: makeDrive({ shafts: [], gears: [] }), label: "" };
const entriesOf = (drive: Drive): number => LISTS.reduce((sum, list) => sum + drive[list].length, 0);

/** The steps about the present that are within the limits, nearest first to be kept, and which of them is the present. */
function within({ past, present, future }: History): { readonly steps: readonly Step[]; readonly now: number } {
  const seen = new Set<Part>();
  let [entries, characters] = [0, 0];
  const fits = ({ drive }: Step): boolean => {
    entries += entriesOf(drive);
    for (const list of LISTS) {
      for (const part of drive[list]) {
        if (seen.has(part)) continue;
        seen.add(part);
        characters += partText(list, part).length;
      }
    }
    return entries <= MOST_ENTRIES && characters <= MOST_TEXT;
  };
  fits(present);
  let [from, to] = [past.length, 0];
  for (let away = 0; away < UNDO_STEPS; away++) {
    const [before, after] = [past[from - 1], future[to]];
    if (before) {
      if (!fits(before)) break;
      from -= 1;
    }
    if (after) {
      if (!fits(after)) break;
      to += 1;
    }
  }
  return { steps: [...past.slice(from), present, ...future.slice(0, to)], now: past.length - from };
}

/** Never throws for drives that the parser could give. Only the present: the empty text, for there is nothing to undo. */
export function writeHistory(history: History): string {
  const { steps, now } = within(history);
  if (steps.length === 1) return "";
  const numbers = new Map<string, number>();
  const parts: Record<List, string[]> = { shafts: [], gears: [], meshes: [], ports: [] };
  const numberOf = (list: List, part: Part): number => {
    const text = partText(list, part);
    const key = `${list} ${text}`;
    let number = numbers.get(key);
    if (number === undefined) {
      number = parts[list].push(text) - 1;
      numbers.set(key, number);
    }
    return number;
  };
  const lines = steps.map((step, i) => stepText(steps[i - 1] ?? EMPTY, step, numberOf));
  const tables = LISTS.map((list) => `"${list}":[\n${parts[list].join(",\n")}]`);
  return `{"format":"${FORMAT}","version":${VERSION},"now":${now},\n${tables.join(",\n")},\n"steps":[\n${lines.join(",\n")}]}\n`;
}

function stepText(before: Step, step: Step, numberOf: (list: List, part: Part) => number): string {
  const [was, is] = [before.drive, step.drive];
  const members = [`"label":${JSON.stringify(step.label)}`];
  for (const key of ["title", "notes"] as const) {
    if (is[key] !== was[key]) members.push(`"${key}":${JSON.stringify(is[key])}`);
  }
  if (!sameExtras(was, is)) members.push(`"extras":${inline(extrasOf(is))}`);
  for (const list of LISTS) {
    const splice = spliceOf<Part>(was[list], is[list], (part) => numberOf(list, part));
    if (splice) members.push(`"${list}":${JSON.stringify(splice)}`);
  }
  return `{${members.join(",")}}`;
}

function spliceOf<T>(was: readonly T[], is: readonly T[], numberOf: (part: T) => number): Splice | null {
  if (was === is) return null;
  let at = 0;
  while (at < was.length && at < is.length && was[at] === is[at]) at += 1;
  let tail = 0;
  const most = Math.min(was.length, is.length) - at;
  while (tail < most && was[was.length - 1 - tail] === is[is.length - 1 - tail]) tail += 1;
  if (was.length === is.length && at === is.length) return null;
  return [at, was.length - at - tail, ...is.slice(at, is.length - tail).map(numberOf)];
}

/** The history of a text, every drive of it checked as the parser would; null for any other text. Never throws. */
export function readHistory(text: string): History | null {
  try {
    return read(JSON.parse(text) as Record<string, unknown>);
  } catch {
    return null;
  }
}

class Damaged extends Error {}
function demand(isSo: unknown): asserts isSo {
  if (!isSo) throw new Damaged();
}

function read(file: Record<string, unknown>): History {
  demand(file.format === FORMAT && file.version === VERSION && Array.isArray(file.steps));
  const tables = Object.fromEntries(LISTS.map((list) => [list, readParts(list, file[list])])) as Record<List, Part[]>;
  const steps: Step[] = [];
  demand(file.steps.length <= 2 * UNDO_STEPS + 1);
  for (const step of file.steps as Record<string, unknown>[]) steps.push(readStep(steps.at(-1) ?? EMPTY, step, tables));
  const now = file.now as number;
  const present = steps[now];
  demand(Number.isInteger(now) && present);
  return { past: steps.slice(0, now), present, future: steps.slice(now + 1) };
}

function readParts(list: List, values: unknown): Part[] {
  demand(Array.isArray(values));
  return values.map((value: Record<string, unknown>) => {
    const fields: Record<string, unknown> = { ...value };
    const exact = DIGITS[list];
    const digits = exact && fields[exact.digits];
    if (exact) delete fields[exact.digits];
    demand(partFault(list, fields) === null);
    if (exact && digits !== undefined) {
      demand(typeof digits === "string" && lostDigits(digits, fields[exact.of] as number) === digits);
      fields[exact.digits] = digits;
    }
    if (list === "shafts") return makeShaft(fields as never);
    if (list === "gears") return makeGear(fields as never);
    return list === "meshes" ? makeMesh(fields as never) : makePort(fields as never);
  });
}

function readStep(before: Step, step: Record<string, unknown>, tables: Record<List, Part[]>): Step {
  const { label, title = before.drive.title, notes = before.drive.notes, extras = extrasOf(before.drive) } = step;
  demand(typeof label === "string" && typeof title === "string" && typeof notes === "string");
  demand(typeof extras === "object" && extras !== null);
  const lists = Object.fromEntries(
    LISTS.map((list) => [list, spliced(before.drive[list] as Part[], step[list], tables[list])]),
  );
  const drive = makeDrive({ ...extras, title, notes, ...lists } as unknown as Drive);
  demand(drive.shafts.length <= LIMITS.shafts && drive.gears.length <= LIMITS.gears);
  demand(drive.meshes.length <= LIMITS.meshes && ruleFaults(drive).length === 0);
  return { drive, label };
}

function spliced(was: Part[], splice: unknown, table: readonly Part[]): Part[] {
  if (splice === undefined) return was;
  demand(Array.isArray(splice) && splice.length >= 2 && splice.every((n) => Number.isInteger(n) && n >= 0));
  const [at, gone, ...come] = splice as number[];
  demand(at !== undefined && gone !== undefined && at + gone <= was.length);
  const parts = come.map((number) => {
    const part = table[number];
    demand(part);
    return part;
  });
  return [...was.slice(0, at), ...parts, ...was.slice(at + gone)];
}

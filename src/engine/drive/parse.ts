/** From text or value to a drive, or to all that keeps it from being one. Nothing here throws, whatever it is given. */
import * as v from "valibot";
import { equals, fromDecimal, fromNumber } from "../motion/rational";
import { isExtra, makeDrive, makeGear, makeMesh, makePort, makeShaft, VERSION } from "./defaults";
import { bareId, describe, escapeText, pointerTo } from "./describe";
import { readJson } from "./json-file";
import { DEEPEST, visitNumbers } from "./json-text";
import { checkRules } from "./rules";
import { DRIVE_FILE, type DriveFile, GEAR, MESH, PORT, SHAFT } from "./schema";
import { isRecord, own, WHOLE_SENTENCE } from "./schema-parts";
import { type Drive, type Fault, LIMITS } from "./types";

export type Parsed =
  | { readonly drive: Drive; readonly faults?: undefined }
  | { readonly drive?: undefined; readonly faults: readonly Fault[] };

type Path = readonly (string | number)[];

/** A longer key is pointed at by its object. */
const LONGEST_KEY = 100;
/** More digits than this in a speed or a diameter are refused. Our own limit: the solver keeps them all. */
const MOST_DIGITS = 1000;
/** An exact decimal's power of ten stays within this. Our own limit, a little beyond what doubles reach. */
const MOST_EXPONENT = 400;

/** Reads a drive from the text of a file: the drive with every default filled in, or all faults of the text. */
export function parseDrive(text: string): Parsed {
  return readJson(text, "a drive", (value, body) => read(value, MAY_HAVE_DIGITS.test(body) ? body : undefined), whole);
}

const whole = (message: string): Parsed => ({ faults: [{ pointer: "", message }] });

/** Reads a drive from a value, as `JSON.parse` gives it. */
export function readDrive(value: unknown): Parsed {
  try {
    return read(value, undefined);
  } catch {
    return { faults: [{ pointer: "", message: "The value cannot be read; expected a drive as plain data." }] };
  }
}

function read(value: unknown, text: string | undefined): Parsed {
  if (isRecord(value)) {
    const version = own(value, "version");
    if (typeof version === "number" && Number.isInteger(version) && version > VERSION) {
      const message = `The drive is of version ${version}, made by a newer Turnwise; this one reads version ${VERSION}, so open it with a newer one.`;
      return { faults: [{ pointer: "/version", message }] };
    }
  }
  const faults: Fault[] = [];
  const { issues } = v.safeParse(DRIVE_FILE, value, { abortPipeEarly: true });
  for (const issue of issues ?? []) faults.push(faultOf(issue, value));
  if (isRecord(value)) {
    const report = (path: Path, message: string): void => {
      faults.push({ pointer: pointerTo(path), message: `${message}.` });
    };
    checkRules(value, report);
    checkExtras(value, [], report);
  }
  const digits: Digits = new Map();
  if (faults.length === 0 && text !== undefined) collectDigits(text, digits, faults);
  return faults.length > 0 ? { faults: inOrder(faults) } : { drive: fill(value as DriveFile, digits) };
}

// Faults

/** "Gear a1: teeth is 12.5; expected a whole number from 1 to 100,000." */
export function faultOf(issue: v.BaseIssue<unknown>, root: unknown, prefix: Path = []): Fault {
  const path = [...prefix, ...(issue.path ?? []).map((step) => step.key as string | number)];
  const last = path.at(-1);
  const key = typeof last === "number" ? `item ${last + 1}` : String(last ?? "");
  const subject = subjectOf(path, root);
  const isLong = typeof last === "string" && last.length > LONGEST_KEY;
  const pointer = pointerTo(isLong ? path.slice(0, -1) : path);
  if (issue.type === WHOLE_SENTENCE) return { pointer, message: `${subject}${issue.message}.` };
  if (path.length === 0)
    return { pointer, message: `The file holds ${describe(issue.input)}; expected ${issue.message}.` };
  const isItem = subject !== "" && path.length === 2;
  return {
    pointer,
    message: `${subject}${isItem ? "it" : key} is ${describe(issue.input)}; expected ${issue.message}.`,
  };
}

const PARTS = { shafts: SHAFT, gears: GEAR, meshes: MESH, ports: PORT } as const;

/** Why a part, as a file would hold it, is none: one sentence; null where it is one. Ids that it names aren't looked up. */
export function partFault(list: keyof typeof PARTS, part: object): string | null {
  const { issues } = v.safeParse(PARTS[list], part, { abortPipeEarly: true });
  return issues ? faultOf(issues[0], { [list]: [part] }, [list, 0]).message : null;
}

const SINGULAR: Readonly<Record<string, string>> = {
  shafts: "Shaft",
  gears: "Gear",
  meshes: "Mesh",
  ports: "Port",
  // Of a lesson.
  steps: "Step",
  drives: "Drive",
};

function subjectOf(path: Path, root: unknown): string {
  const [list, index] = path;
  if (typeof list !== "string" || typeof index !== "number" || !Object.hasOwn(SINGULAR, list) || !isRecord(root))
    return "";
  const items = own(root, list);
  const item: unknown = Array.isArray(items) ? items[index] : undefined;
  const id = isRecord(item) ? own(item, "id") : undefined;
  return `${SINGULAR[list]} ${typeof id === "string" && id !== "" ? bareId(id) : `number ${index + 1}`}: `;
}

const LISTS = ["shafts", "gears", "meshes", "ports"];

/** In the order of the file: its own keys, then list by list, item by item. */
function inOrder(faults: readonly Fault[]): Fault[] {
  const rank = ({ pointer }: Fault): number => {
    const [, list = "", index] = pointer.split("/", 3);
    return (LISTS.indexOf(list) + 1) * 1e6 + (index === undefined ? 0 : Number(index) + 1 || 0);
  };
  return faults
    .map((fault) => ({ fault, rank: rank(fault) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ fault }) => fault);
}

// Extra keys

type Report = (path: Path, message: string) => void;

/** What `x-` keys hold must be JSON, of finite numbers, and no deeper than the limit. */
function checkExtras(file: Record<string, unknown>, path: Path, report: Report): void {
  const check = (object: unknown, place: Path): void => {
    if (!isRecord(object)) return;
    for (const key in object) {
      if (!isExtra(key) || !Object.hasOwn(object, key)) continue;
      const trouble = troubleIn(object[key], place.length + 1, new Map());
      if (trouble)
        report(key.length > LONGEST_KEY ? place : [...place, key], `${escapeText(key.slice(0, 40))} ${trouble}`);
    }
  };
  check(file, path);
  for (const list of LISTS) {
    const items = own(file, list);
    if (!Array.isArray(items) || items.length > LIMITS.gears) continue;
    items.forEach((item, i) => {
      check(item, [list, i]);
      if (isRecord(item)) check(own(item, "pose"), [list, i, "pose"]);
    });
  }
}

/** `seen` holds the depth at which an object was met, so that one reached by many roads is walked a few times at most. */
function troubleIn(value: unknown, depth: number, seen: Map<object, number>): string | null {
  if (value === null || typeof value === "boolean" || typeof value === "string") return null;
  if (typeof value === "number")
    return Number.isFinite(value) ? null : `holds ${describe(value)}; expected numbers that can be kept`;
  if (typeof value !== "object") return `holds ${describe(value)}; expected what JSON can hold`;
  if (depth >= DEEPEST) return `nests more than ${DEEPEST} deep; expected ${DEEPEST} levels at most`;
  if ((seen.get(value) ?? -1) >= depth) return null;
  seen.set(value, depth);
  for (const item of Array.isArray(value) ? value : Object.values(value)) {
    const trouble = troubleIn(item, depth + 1, seen);
    if (trouble) return trouble;
  }
  return null;
}

// Exact decimals

/** `ports/3/speed` or `gears/7/diameter` and the digits of it that a double would lose. */
type Digits = Map<string, string>;

/** Whether some speed or diameter is written with so many digits, or so small, that a double may not hold it. */
const MAY_HAVE_DIGITS =
  /(?:speed|diameter|\\u[0-9a-fA-F]{4}[^"\n]{0,60})"\s*:\s*(?:-?[\d.eE+-]{16,}|-?[\d.]+[eE][+-]?\d{3,})/;

function isTooExact(token: string): boolean {
  const [mantissa = "", exponent = "0"] = token.toLowerCase().split("e");
  return mantissa.replace(/\D/g, "").length > MOST_DIGITS || Math.abs(Number(exponent)) > MOST_EXPONENT;
}

const NUMBER = /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?$/;

/** Digits of a number that a double does not hold; undefined where it holds them all, or they are of another number or too many. */
export function lostDigits(digits: string, value: number): string | undefined {
  if (!NUMBER.test(digits) || Number(digits) !== value || isTooExact(digits)) return undefined;
  return equals(fromDecimal(digits), fromNumber(value)) ? undefined : digits;
}

function collectDigits(text: string, digits: Digits, faults: Fault[]): void {
  visitNumbers(text, (path, token) => {
    if (path.length !== 3 || typeof path[1] !== "number") return;
    const isExact = (path[0] === "ports" && path[2] === "speed") || (path[0] === "gears" && path[2] === "diameter");
    if (!isExact) return;
    const key = path.join("/");
    digits.delete(key);
    if (token.length <= 15 && !/[eE]/.test(token)) return;
    if (/^-?[0.]+(?:[eE]|$)/.test(token)) return;
    if (isTooExact(token)) {
      const limit = `${MOST_DIGITS.toLocaleString("en")} digits and a power of ten within ±${MOST_EXPONENT}`;
      const found = `${token.slice(0, 40)}${token.length > 40 ? "…" : ""}`;
      faults.push({ pointer: pointerTo(path), message: `${path[2]} is ${found}; expected at most ${limit}.` });
    } else if (!equals(fromDecimal(token), fromNumber(Number(token)))) digits.set(key, token);
  });
}

// The drive

/** Makes the drive from a value that has passed; every default is filled in here. */
function fill(file: DriveFile, digits: Digits): Drive {
  type Fields<F extends (fields: never) => unknown> = Parameters<F>[0];
  return makeDrive({
    ...(file as object),
    title: file.title,
    notes: file.notes,
    shafts: file.shafts.map((shaft) => makeShaft(shaft as Fields<typeof makeShaft>)),
    gears: file.gears.map((gear, i) => {
      const fields = gear as Fields<typeof makeGear>;
      const written = digits.size > 0 ? digits.get(`gears/${i}/diameter`) : undefined;
      return makeGear(written === undefined || "teeth" in fields ? fields : { ...fields, diameterDigits: written });
    }),
    meshes: (file.meshes ?? []).map((mesh) => makeMesh(mesh as unknown as Fields<typeof makeMesh>)),
    ports: (file.ports ?? []).map((port, i) => {
      const fields = port as Fields<typeof makePort>;
      const written = digits.size > 0 ? digits.get(`ports/${i}/speed`) : undefined;
      return makePort(written === undefined ? fields : { ...fields, speedDigits: written });
    }),
  });
}

/** Words for faults: what was found, cut short and made safe to print, and where. */

const LONGEST_TEXT = 40;

/** Characters that a terminal or a line of text must not obey: controls, bidirectional marks, line separators, lone surrogates. */
const UNSAFE = /[\p{Control}\p{Format}\p{Line_Separator}\p{Paragraph_Separator}\p{Surrogate}]/gu;

/** The text with every unsafe character written as its `\u` escape. */
export const escapeText = (text: string): string =>
  text.replace(UNSAFE, (c) => `\\u${(c.codePointAt(0) ?? 0).toString(16).padStart(4, "0")}`);

/** A text in quotes, at most 40 characters of it, safe to print. */
export function quote(text: string): string {
  if (text.length <= LONGEST_TEXT) return `"${escapeText(text)}"`;
  return `"${escapeText(text.slice(0, LONGEST_TEXT))}…" (${text.length.toLocaleString("en")} characters)`;
}

/** Ids in a sentence: `A, B and C`; more than six are counted. */
export function listIds(ids: readonly string[]): string {
  if (ids.length > 6) return `${ids.slice(0, 5).map(bareId).join(", ")} and ${ids.length - 5} more`;
  if (ids.length < 2) return ids.map(bareId).join("");
  return `${ids.slice(0, -1).map(bareId).join(", ")} and ${bareId(ids.at(-1) ?? "")}`;
}

/** A short plain id as it is, any other in quotes. */
export const bareId = (id: string): string => (/^[\p{L}\p{N}_.-]{1,24}$/u.test(id) ? id : quote(id));

/** What stands in a place: `12.5`, `"12"`, `a list`, `nothing`. */
export function describe(value: unknown): string {
  if (value === undefined) return "missing";
  if (typeof value === "string") return quote(value);
  if (typeof value === "number") return describeNumber(value);
  if (Array.isArray(value))
    return value.length === 0 ? "an empty list" : `a list of ${value.length.toLocaleString("en")}`;
  if (value === null || typeof value === "boolean") return String(value);
  return typeof value === "object" ? "an object" : `a ${typeof value}`;
}

function describeNumber(value: number): string {
  if (Number.isNaN(value)) return "not a number";
  if (!Number.isFinite(value))
    return `a number beyond ${value < 0 ? "-" : ""}1.8e308, which is more than can be reckoned with`;
  return String(value);
}

/** JSON pointer, RFC 6901. */
export const pointerTo = (path: readonly (string | number)[]): string =>
  path.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");

/** From the text of a file to the value that it holds in JSON, or the one sentence on why it holds none. */
import { escapeText } from "./describe";
import { DEEPEST, findMisprint, lineAndColumn, tooDeepAt } from "./json-text";
import { LIMITS } from "./types";

/**
 * Hands the value of a text to `read`, with the text that it stood in. What is no JSON, too long or too deep goes to `refuse` as a sentence;
 * so does whatever `read` throws. `what` the file should be, as in "a drive".
 */
export function readJson<T>(
  text: string,
  what: string,
  read: (value: unknown, body: string) => T,
  refuse: (message: string) => T,
): T {
  const notText = `The file is not text (it may be a picture or another program's own format); expected ${what} in JSON.`;
  try {
    if (isTooLong(text)) return refuse(`The file is longer than 32 MiB, which is the limit for ${what}.`);
    const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
    if (body.trim() === "") return refuse(`The file is empty; expected ${what} in JSON.`);
    const deep = tooDeepAt(body);
    if (deep >= 0) {
      if (!isReadable(body)) return refuse(notText);
      return refuse(`${placeOf(body, deep)}: lists and objects nest more than ${DEEPEST} deep, which is the limit.`);
    }
    let value: unknown;
    try {
      value = JSON.parse(body);
    } catch {
      if (!isReadable(body)) return refuse(notText);
      const misprint = findMisprint(body);
      if (!misprint) return refuse("The file cannot be read as JSON here.");
      const found = escapeText(misprint.found.length > 40 ? `${misprint.found.slice(0, 40)}…` : misprint.found);
      return refuse(
        `${placeOf(body, misprint.offset)}: this is not JSON; found ${found}, expected ${misprint.expected}.`,
      );
    }
    return read(value, body);
  } catch {
    return refuse("The file cannot be read here: it may be too large for the memory at hand.");
  }
}

function isTooLong(text: string): boolean {
  if (text.length > LIMITS.bytes) return true;
  if (text.length * 3 <= LIMITS.bytes) return false;
  let bytes = text.length;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    // A surrogate pair is 4 bytes in UTF-8: 2 for each half, a lone half is written as 3.
    if (c > 0x7f) bytes += c < 0x800 || (c >= 0xd800 && c < 0xe000) ? 1 : 2;
  }
  return bytes > LIMITS.bytes;
}

/** Whether the beginning looks like text: no NUL, and no character that stands for bytes which were none. */
const isReadable = (text: string): boolean => !/[\0\ufffd]/.test(text.slice(0, 64));

const placeOf = (text: string, offset: number): string => {
  const { line, column } = lineAndColumn(text, offset);
  return `Line ${line}, column ${column}`;
};

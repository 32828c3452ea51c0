/**
 * JSON text, RFC 8259, read for what `JSON.parse` doesn't tell: where a text stops being JSON, how deep it nests, and
 * the digits of a number as they were written. Used only where one of these is asked for.
 */

/** A drive itself nests 5 deep; what `x-` keys hold may go to 64. Our own limit, against exhausting the stack. */
export const DEEPEST = 64;

export interface Misprint {
  /** Index in the text. */
  readonly offset: number;
  readonly found: string;
  readonly expected: string;
}

type Step = string | number;
type OnNumber = (path: readonly Step[], token: string) => void;
type OnValue = (path: readonly Step[], start: number, end: number) => void;

/** Offset of the bracket that opens level 65, or -1. Linear, without recursion. */
export function tooDeepAt(text: string): number {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 34) {
      do {
        i = text.indexOf('"', i + 1);
        if (i < 0) return -1;
      } while (isEscaped(text, i));
    } else if (c === 91 || c === 123) {
      depth += 1;
      if (depth > DEEPEST) return i;
    } else if (c === 93 || c === 125) depth -= 1;
  }
  return -1;
}

/** Whether an odd number of backslashes stands before the place. */
function isEscaped(text: string, place: number): boolean {
  let first = place;
  while (text.charCodeAt(first - 1) === 92) first -= 1;
  return (place - first) % 2 === 1;
}

/** Line and column of a place, both from 1. */
export function lineAndColumn(text: string, offset: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let start = 0;
  for (let i = text.indexOf("\n"); i >= 0 && i < offset; i = text.indexOf("\n", i + 1)) {
    line += 1;
    start = i + 1;
  }
  return { line, column: offset - start + 1 };
}

/** The first place at which the text is no JSON; null where it is. Nesting beyond 64 counts as such a place. */
export const findMisprint = (text: string): Misprint | null => walk(text, undefined);

/** Calls `onNumber` with every number of a text that is JSON, its path and its digits as written. */
export const visitNumbers = (text: string, onNumber: OnNumber): void => {
  walk(text, onNumber);
};

/** Calls `onValue` with every list, object and plain value of a text that is JSON, its path and where it stands in the text. */
export const visitValues = (text: string, onValue: OnValue): void => {
  walk(text, undefined, onValue);
};

class Stop extends Error {
  constructor(readonly misprint: Misprint) {
    super();
  }
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[\p{L}\p{N}_$+.-]+/uy;
const BLANK = /[ \t\n\r]*/y;

function walk(text: string, onNumber: OnNumber | undefined, onValue?: OnValue): Misprint | null {
  const path: Step[] = [];
  let at = 0;

  const wordHere = (): string => {
    WORD.lastIndex = at;
    return WORD.exec(text)?.[0] ?? String.fromCodePoint(text.codePointAt(at) ?? 0);
  };
  const stop = (expected: string): never => {
    throw new Stop({ offset: at, found: at >= text.length ? "the end of the text" : wordHere(), expected });
  };
  const skipBlank = (): void => {
    BLANK.lastIndex = at;
    BLANK.exec(text);
    at = BLANK.lastIndex;
  };
  const readString = (): string => {
    const start = at;
    at += 1;
    for (; at < text.length; at++) {
      const c = text.charCodeAt(at);
      if (c === 34) {
        at += 1;
        return text.slice(start, at);
      }
      if (c < 32) stop(c === 10 || c === 13 ? 'a closing " on the same line' : "a \\u escape for a control character");
      if (c === 92) {
        at += 1;
        if (text[at] === "u") {
          if (!/^[0-9a-fA-F]{4}$/.test(text.slice(at + 1, at + 5))) stop("u and four hexadecimal digits");
          at += 4;
        } else if (!'"\\/bfnrt'.includes(text[at] || "none")) stop('one of " \\ / b f n r t u after a backslash');
      }
    }
    at = start;
    throw new Stop({ offset: start, found: "a text without an end", expected: 'a closing "' });
  };
  const readNumber = (): void => {
    NUMBER.lastIndex = at;
    const token = NUMBER.exec(text)?.[0];
    const word = wordHere();
    if (token === undefined || (word !== token && word.startsWith(token))) stop("a number, such as -12.5 or 6e3");
    else {
      at += token.length;
      onNumber?.(path, token);
    }
  };
  const readValue = (depth: number): void => {
    skipBlank();
    const start = at;
    const c = text[at] ?? "";
    if (c === "{" || c === "[") {
      if (depth >= DEEPEST) stop(`at most ${DEEPEST} lists and objects in one another`);
      at += 1;
      readItems(depth + 1, c === "{");
    } else if (c === '"') readString();
    else if (c === "-" || (c >= "0" && c <= "9")) readNumber();
    else {
      const word = ["true", "false", "null"].find((w) => text.startsWith(w, at) && wordHere() === w);
      if (word === undefined)
        stop("a value: a text in double quotes, a number, a list, an object, true, false or null");
      else at += word.length;
    }
    onValue?.(path, start, at);
  };
  const readItems = (depth: number, isObject: boolean): void => {
    const close = isObject ? "}" : "]";
    skipBlank();
    if (text[at] === close) {
      at += 1;
      return;
    }
    for (let index = 0; ; index++) {
      skipBlank();
      if (isObject) {
        if (text[at] !== '"') stop("a key in double quotes");
        const key = readString();
        skipBlank();
        if (text[at] !== ":") stop("a colon");
        at += 1;
        path.push(JSON.parse(key) as string);
      } else path.push(index);
      readValue(depth);
      path.pop();
      skipBlank();
      if (text[at] === close) break;
      if (text[at] !== ",") stop(`a comma or ${close}`);
      at += 1;
    }
    at += 1;
  };

  try {
    readValue(0);
    skipBlank();
    if (at < text.length) stop("nothing more after the drive");
    return null;
  } catch (error) {
    if (error instanceof Stop) return error.misprint;
    throw error;
  }
}

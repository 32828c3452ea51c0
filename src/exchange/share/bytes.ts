/**
 * Bytes, written and read: whole numbers in as few bytes as they need, any double exactly, texts. What is read may be
 * anything: where it does not fit, `Damaged` is thrown, and `code.ts` turns it into a sentence.
 */

/** What is read is not what was written. */
export class Damaged extends Error {}

/** What is read holds more than it may. */
export class TooLarge extends Error {}

/** Integers below this are their own byte. */
const PLAIN = 200;
/** The bytes from here on say: a decimal of so many places, its sign in the last bit. */
const DECIMAL = PLAIN;
const MOST_PLACES = 20;
/** The number as JavaScript writes it, where no decimal of these places holds it. */
const WRITTEN = DECIMAL + 2 * (MOST_PLACES + 1);
const LONGEST_NUMBER = 32;

/** The whole digits and the count of places of a number as JavaScript writes it; null where it has a power of ten. */
const decimalOf = (value: number): { readonly digits: number; readonly places: number } | null => {
  const [whole = "", part = ""] = String(Math.abs(value)).split(".");
  const digits = Number(whole + part);
  const fits = Number.isSafeInteger(digits) && part.length <= MOST_PLACES && !Object.is(value, -0);
  return fits ? { digits, places: part.length } : null;
};

export class ByteWriter {
  #bytes = new Uint8Array(256);
  #length = 0;

  #room(more: number): void {
    if (this.#length + more <= this.#bytes.length) return;
    const grown = new Uint8Array(Math.max(2 * this.#bytes.length, this.#length + more));
    grown.set(this.#bytes.subarray(0, this.#length));
    this.#bytes = grown;
  }

  byte(value: number): void {
    this.#room(1);
    this.#bytes[this.#length++] = value;
  }

  /** A whole number from 0 to 2^53 - 1, seven bits to a byte, the least first. */
  whole(value: number): void {
    let rest = value;
    for (; rest >= 0x80; rest = Math.floor(rest / 0x80)) this.byte((rest % 0x80) | 0x80);
    this.byte(rest);
  }

  /** A whole number of either sign and at most 2^52 in size. */
  step(value: number): void {
    this.whole(value < 0 ? -2 * value - 1 : 2 * value);
  }

  /** Any finite double, exactly. */
  number(value: number): void {
    const decimal = decimalOf(value);
    if (!decimal) {
      this.byte(WRITTEN);
      this.text(Object.is(value, -0) ? "-0" : String(value));
    } else if (decimal.places === 0 && value >= 0 && value < PLAIN) this.byte(value);
    else {
      this.byte(DECIMAL + 2 * decimal.places + (value < 0 ? 1 : 0));
      this.whole(decimal.digits);
    }
  }

  /** A text; half a surrogate pair, which UTF-8 can't hold, is kept too. */
  text(value: string): void {
    const isWhole = !/\p{Surrogate}/u.test(value);
    const bytes = new TextEncoder().encode(isWhole ? value : JSON.stringify(value));
    this.whole(2 * bytes.length + (isWhole ? 0 : 1));
    this.#room(bytes.length);
    this.#bytes.set(bytes, this.#length);
    this.#length += bytes.length;
  }

  done(): Uint8Array {
    return this.#bytes.slice(0, this.#length);
  }
}

export class ByteReader {
  readonly #bytes: Uint8Array;
  #at = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  get isAtEnd(): boolean {
    return this.#at === this.#bytes.length;
  }

  byte(): number {
    const value = this.#bytes[this.#at++];
    if (value === undefined) throw new Damaged("bytes are missing");
    return value;
  }

  whole(): number {
    let value = 0;
    for (let place = 1; ; place *= 0x80) {
      const next = this.byte();
      value += (next & 0x7f) * place;
      if (!Number.isSafeInteger(value)) throw new Damaged("a whole number is too large");
      if (next < 0x80) return value;
    }
  }

  step(): number {
    const value = this.whole();
    return value % 2 === 1 ? -(value + 1) / 2 : value / 2;
  }

  number(): number {
    const first = this.byte();
    if (first < PLAIN) return first;
    if (first > WRITTEN) throw new Damaged("this begins no number");
    if (first < WRITTEN) {
      const places = (first - DECIMAL) >> 1;
      // Read as a decimal text and not divided: only so every double comes back as it was.
      const size = Number(`${this.whole()}e-${places}`);
      return first % 2 === 1 ? -size : size;
    }
    const text = this.text();
    const value = Number(text);
    if (text.length > LONGEST_NUMBER || text.trim() === "" || !Number.isFinite(value)) throw new Damaged("no number");
    return value;
  }

  text(): string {
    const head = this.whole();
    const end = this.#at + Math.floor(head / 2);
    if (end > this.#bytes.length) throw new Damaged("a text is cut short");
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(this.#bytes.subarray(this.#at, end));
    this.#at = end;
    if (head % 2 === 0) return text;
    const value: unknown = JSON.parse(text);
    if (typeof value !== "string") throw new Damaged("no text");
    return value;
  }
}

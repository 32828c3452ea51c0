/**
 * A drive as a code of letters and digits that holds all of it, and back. The code begins `d1.`: form 1, deflated with
 * dictionary 1 (RFC 1951), the CRC-32 of the form after it, all in base64url. Codes made once open for ever.
 */
import { deflateSync, Inflate } from "fflate";
import type { Drive } from "../../engine/drive/types";
import { writeDrive } from "../../engine/drive/write";
import { fromBase64url, toBase64url } from "./base64url";
import { TooLarge } from "./bytes";
import { crc32 } from "./crc32";
import { dictionary1 } from "./dictionary-1";
import { readForm1, writeForm1 } from "./form-1/form";

/** Characters of the longest code that is made or read; a drive of some thousand shafts. Longer ones are better kept as files. */
export const LONGEST_CODE = 100_000;
/** Bytes that a code may unfold to. What deflate can make of the longest code, 77 MB, would keep the page waiting. */
const MOST_BYTES = 300_000;
/** Bytes unfolded at a time, so that the limit is seen soon: each can become 1,032 at the most. */
const STEP = 64;
const SUM_BYTES = 4;

export type Decoded =
  | { readonly drive: Drive; readonly trouble?: undefined }
  /** What is wrong and what to do: the end of a sentence, "it" being the code or what it stood in. */
  | { readonly drive?: undefined; readonly trouble: string };

let dictionary: Uint8Array | undefined;
const dictionaryBytes = (): Uint8Array => {
  dictionary ??= dictionary1();
  return dictionary;
};

/** The code of a drive. The same drive always gives the same. Throws where parts name others that are not there. */
export function encodeDrive(drive: Drive): string {
  const form = writeForm1(drive);
  const folded = deflateSync(form, { level: 9, mem: 4, dictionary: dictionaryBytes() });
  const bytes = new Uint8Array(folded.length + SUM_BYTES);
  bytes.set(folded);
  new DataView(bytes.buffer).setUint32(folded.length, crc32(form));
  return `d1.${toBase64url(bytes)}`;
}

/** The bytes that a deflated text unfolds to; null where it is longer than it may be. Throws where it is no such text. */
function unfold(folded: Uint8Array): Uint8Array | null {
  const pieces: Uint8Array[] = [];
  let length = 0;
  const inflate = new Inflate({ dictionary: dictionaryBytes() }, (piece) => {
    pieces.push(piece);
    length += piece.length;
  });
  for (let at = 0; at < folded.length; at += STEP) {
    inflate.push(folded.subarray(at, at + STEP), at + STEP >= folded.length);
    if (length > MOST_BYTES) return null;
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

const DAMAGED = "it is damaged or cut short, so copy the whole of it again.";
const TOO_LARGE = "it holds more than a link may, so ask for the drive as a file.";
const NEWER = "it was made by a newer Turnwise, so open it with a newer one.";
const CODE = /^d([1-9]\d{0,3})\.(.*)$/s;

/** The drive of a code. Never throws, whatever it is given, and does no more work than the limits allow. */
export function decodeCode(code: string): Decoded {
  if (code.length > LONGEST_CODE) return { trouble: TOO_LARGE };
  const [, version, body = ""] = CODE.exec(code) ?? [];
  if (version === undefined) return { trouble: DAMAGED };
  if (version !== "1") return { trouble: NEWER };
  try {
    const bytes = fromBase64url(body);
    if (!bytes || bytes.length <= SUM_BYTES) return { trouble: DAMAGED };
    const end = bytes.length - SUM_BYTES;
    const form = unfold(bytes.subarray(0, end));
    if (!form) return { trouble: TOO_LARGE };
    const sum = new DataView(bytes.buffer, bytes.byteOffset).getUint32(end);
    if (sum !== crc32(form)) return { trouble: DAMAGED };
    const { drive, faults } = readForm1(form);
    if (drive) return { drive };
    return { trouble: `the drive in it has a fault, so ask for it again. ${faults[0]?.message ?? ""}`.trim() };
  } catch (error) {
    return { trouble: error instanceof TooLarge ? TOO_LARGE : DAMAGED };
  }
}

/** The code of a drive that is known to open again as the same drive; null where there is more in the drive than a link may hold. */
export function checkedCode(drive: Drive): string | null {
  try {
    const code = encodeDrive(drive);
    const back = decodeCode(code).drive;
    return back && writeDrive(back) === writeDrive(drive) ? code : null;
  } catch {
    return null;
  }
}

/** What a part holds besides the keys that form 1 knows: `x-` keys, and keys of later editions of the format; as JSON. */
import { isRecord } from "../../../engine/drive/schema-parts";
import { inline } from "../../../engine/drive/write";
import { type ByteReader, type ByteWriter, Damaged } from "../bytes";

export type Part = Record<string, unknown>;

/** The keys of a part that are not among the known; null where there are none. */
export function restOf(part: object, known: ReadonlySet<string>): Part | null {
  let rest: Part | null = null;
  for (const key of Object.keys(part)) {
    const value = (part as Part)[key];
    if (known.has(key) || value === undefined) continue;
    rest ??= Object.create(null) as Part;
    rest[key] = value;
  }
  return rest;
}

export const writeJson = (to: ByteWriter, value: object): void => to.text(inline(value));

export function readJson(from: ByteReader): Part {
  const value: unknown = JSON.parse(from.text());
  if (!isRecord(value)) throw new Damaged("no object");
  // No key of a drive, and the one that would change what it is copied into.
  if (Object.hasOwn(value, "__proto__")) throw new Damaged("a key that no part has");
  return value;
}

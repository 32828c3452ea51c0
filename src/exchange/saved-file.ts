/** All saved drives in one file, and back. Each drive stands in it letter by letter as in a file of its own. */
import { visitValues } from "../engine/drive/json-text";
import { parseDrive } from "../engine/drive/parse";
import type { Drive } from "../engine/drive/types";

const FORMAT = "turnwise.drives";
const VERSION = 1;
/** Bytes; hundreds of usual drives have a few million. */
const MOST_BYTES = 256 * 1024 * 1024;
/** Drives read in one go, before the page may move on. */
const AT_ONCE = 20;

/** Ending of the file's name. */
export const DRIVES_ENDING = ".drives.json";

export const drivesFileName = (day: Date): string => `turnwise-${day.toISOString().slice(0, 10)}${DRIVES_ENDING}`;

/** The text of the file. */
export const writeDrives = (drives: readonly { readonly name: string; readonly text: string }[]): string => {
  const items = drives.map(({ name, text }) => `{ "name": ${JSON.stringify(name)}, "drive": ${text.trimEnd()} }`);
  return `{\n"format": "${FORMAT}",\n"version": ${VERSION},\n"drives": [\n${items.join(",\n")}\n]\n}\n`;
};

export interface ReadDrives {
  readonly drives: readonly { readonly name: string; readonly drive: Drive }[];
  /** Drives that were none: the name, and the first thing wrong with it. */
  readonly left: readonly { readonly name: string; readonly why: string }[];
}

/** Whether a text says of itself that it holds several drives. */
export const holdsDrives = (text: string): boolean => /^\s*\{\s*"format"\s*:\s*"turnwise\.drives"/.test(text);

/** The drives of such a file, or of a file of one drive; a sentence where it is neither. Never throws. */
export const readDrives = async (text: string, name: string): Promise<ReadDrives | string> => {
  if (text.length > MOST_BYTES) return "it has more than 256 MiB, which is the limit for a file of drives.";
  if (!holdsDrives(text)) {
    const { drive, faults } = parseDrive(text);
    return drive
      ? { drives: [{ name: drive.title || name, drive }], left: [] }
      : (faults[0]?.message ?? "it is empty.");
  }
  let file: { readonly version?: unknown; readonly drives?: unknown };
  try {
    file = JSON.parse(text) as typeof file;
  } catch {
    return "it breaks off or was changed on its way: copy it anew from where it was exported.";
  }
  if (file.version !== VERSION) return "it was made by a newer Turnwise: read it with that one.";
  if (!Array.isArray(file.drives)) return "it holds no list of drives: export it anew.";
  return readItems(text, file.drives as readonly unknown[]);
};

/** The text of each drive, as it stands in the file: digits beyond those of a double are read too. */
const textsOf = (text: string): Map<number, string> => {
  const texts = new Map<number, string>();
  visitValues(text, (path, start, end) => {
    if (path.length === 3 && path[0] === "drives" && path[2] === "drive") {
      texts.set(path[1] as number, text.slice(start, end));
    }
  });
  return texts;
};

const readItems = async (text: string, items: readonly unknown[]): Promise<ReadDrives> => {
  const texts = textsOf(text);
  const drives: { name: string; drive: Drive }[] = [];
  const left: { name: string; why: string }[] = [];
  for (const [i, item] of items.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) await new Promise((moved) => setTimeout(moved));
    const own = typeof item === "object" && item !== null && "name" in item ? item.name : undefined;
    const name = typeof own === "string" && own.trim() !== "" ? own : undefined;
    const { drive, faults } = parseDrive(texts.get(i) ?? "");
    if (drive) drives.push({ name: name ?? drive.title, drive });
    else left.push({ name: name ?? `Drive number ${i + 1}`, why: faults[0]?.message ?? "It is no drive." });
  }
  return { drives, left };
};

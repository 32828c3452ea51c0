/** Reading a drive named on the command line: its bytes, its text, its faults. */
import { readFileSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { escapeText } from "../engine/drive/describe";
import { type Parsed, parseDrive } from "../engine/drive/parse";
import { type Drive, type Fault, LIMITS } from "../engine/drive/types";

const TOO_LONG = "The file is longer than 32 MiB, which is the limit for a drive.";
const NOT_TEXT =
  "The file is not text in UTF-8 (it may be a picture or another program's own format); expected a drive in JSON.";

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "is not there",
  ENOTDIR: "is not there",
  EACCES: "may not be read",
  EPERM: "may not be read",
  EISDIR: "is a folder",
  ENAMETOOLONG: "has too long a name",
};

/** Where npm was called: it runs scripts in the project's folder, whatever folder the names were meant in. */
export const folderOf = (command: string): string =>
  (process.env.npm_lifecycle_event === command ? process.env.INIT_CWD : undefined) ?? process.cwd();

/** The reason in words of an error of the file system. */
export const reasonOf = (error: unknown): string => {
  const { code = "" } = error as NodeJS.ErrnoException;
  return REASONS[code] ?? `cannot be read or written (${code || "no reason is given"})`;
};

let standardInput: Promise<Uint8Array | null> | undefined;

/** All of standard input; null past the limit. */
async function readStandardInput(): Promise<Uint8Array | null> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of process.stdin) {
    length += (chunk as Uint8Array).length;
    if (length > LIMITS.bytes) return null;
    chunks.push(chunk as Uint8Array);
  }
  return Buffer.concat(chunks);
}

const trouble = (message: string): Parsed => ({ faults: [{ pointer: "", message }] });

/** Reads the drive of this name; `-` is standard input. */
export async function readDriveFile(name: string, folder: string): Promise<Parsed> {
  let bytes: Uint8Array | null;
  try {
    if (name === "-") {
      // Read once, however often it is named.
      standardInput ??= readStandardInput();
      bytes = await standardInput;
    } else {
      const path = resolve(folder, name);
      bytes = statSync(path).size > LIMITS.bytes ? null : readFileSync(path);
    }
  } catch (error) {
    const shown = name.length > 200 ? `${name.slice(0, 200)}…` : name;
    return trouble(`The file ${escapeText(shown)} ${reasonOf(error)}; name a drive file.`);
  }
  if (!bytes) return trouble(TOO_LONG);
  try {
    return parseDrive(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return trouble(NOT_TEXT);
  }
}

/** The drive of this name, or null once its faults have been told. */
export async function openDriveFile(name: string, folder: string): Promise<Drive | null> {
  const { drive, faults } = await readDriveFile(name, folder);
  if (!drive) process.stderr.write(faults.map(faultLine).join(""));
  return drive ?? null;
}

/** Ends the process at once, quietly, where nobody reads its output any more, with the status that holds by then. */
export function endUnread(status: () => number): void {
  for (const stream of [process.stdout, process.stderr]) stream.on("error", () => process.exit(status()));
}

/** Exit status of a command that got no drive, or could not do what was asked with it. */
export const NO_DRIVE = 2;

/** Says in one sentence why nothing is done; gives the exit status. */
export function stop(message: string): number {
  process.stderr.write(`${message}\n`);
  return NO_DRIVE;
}

export const faultLine = ({ pointer, message }: Fault): string =>
  `${pointer === "" ? "" : `${escapeText(pointer)}: `}${escapeText(message)}\n`;

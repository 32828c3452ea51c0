/** `npm run -s solve -- FILE...`: reads drives and prints what the solver knows of them as JSON. format.md */
import { readFileSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { escapeText } from "../engine/drive/describe";
import { parseDrive } from "../engine/drive/parse";
import { type Drive, type Fault, LIMITS } from "../engine/drive/types";
import { inline } from "../engine/drive/write";
import { type Report, report } from "../engine/report";
import { solve } from "../engine/solve";

const USAGE = 'Name at least one drive file: npm run -s solve -- FILE... (a single "-" reads standard input).';

/** Exit statuses, the worst last. */
const SOLVED = 0;
const HAS_ERRORS = 1;
const NO_DRIVE = 2;

type Answer = { readonly report: Report } | { readonly faults: readonly Fault[] };

const TOO_LONG = "The file is longer than 32 MiB, which is the limit for a drive.";
const NOT_TEXT =
  "The file is not text in UTF-8 (it may be a picture or another program's own format); expected a drive in JSON.";

const trouble = (message: string): Answer => ({ faults: [{ pointer: "", message }] });

/** Where npm was called: it runs scripts in the project's folder, whatever folder the names were meant in. */
const base = (): string =>
  (process.env.npm_lifecycle_event === "solve" ? process.env.INIT_CWD : undefined) ?? process.cwd();

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

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "is not there",
  ENOTDIR: "is not there",
  EACCES: "may not be read",
  EPERM: "may not be read",
  EISDIR: "is a folder",
  ENAMETOOLONG: "has too long a name",
};

/** The bytes of a file, or why there are none: one sentence. */
async function readBytes(name: string): Promise<Uint8Array | string> {
  if (name === "-") {
    standardInput ??= readStandardInput();
    return (await standardInput) ?? TOO_LONG;
  }
  try {
    const path = resolve(base(), name);
    const entry = statSync(path);
    if (entry.size > LIMITS.bytes) return TOO_LONG;
    return readFileSync(path);
  } catch (error) {
    const { code = "" } = error as NodeJS.ErrnoException;
    const reason = REASONS[code] ?? `cannot be read (${code || "no reason is given"})`;
    const shown = name.length > 200 ? `${name.slice(0, 200)}…` : name;
    return `The file ${escapeText(shown)} ${reason}; name a drive file.`;
  }
}

async function answer(name: string): Promise<Answer> {
  const bytes = await readBytes(name);
  if (typeof bytes === "string") return trouble(bytes);
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return trouble(NOT_TEXT);
  }
  const { drive, faults } = parseDrive(text);
  return drive ? solved(drive) : { faults };
}

function solved(drive: Drive): Answer {
  try {
    return { report: report(solve(drive)) };
  } catch {
    return trouble("The drive could not be solved: this is a fault of Turnwise, not of the file; please report it.");
  }
}

const statusOf = (result: Answer): number => {
  if ("faults" in result) return NO_DRIVE;
  return result.report.findings.some(({ severity }) => severity === "error") ? HAS_ERRORS : SOLVED;
};

/** One part a line, so that eyes and line tools can read it. */
function pretty({ status, mobility, ...lists }: Report): string {
  const blocks = Object.entries(lists).map(([key, items]: [string, readonly object[]]) => {
    const lines = items.map((item) => `    ${inline(item)}`);
    return `  ${JSON.stringify(key)}: ${lines.length === 0 ? "[]" : `[\n${lines.join(",\n")}\n  ]`}`;
  });
  return `{\n  "status": ${JSON.stringify(status)},\n  "mobility": ${mobility},\n${blocks.join(",\n")}\n}\n`;
}

const faultLine = ({ pointer, message }: Fault): string =>
  `${pointer === "" ? "" : `${escapeText(pointer)}: `}${escapeText(message)}\n`;

/** Runs the command; gives the exit status. Ends the process at once, quietly, where nobody reads its output any more. */
export async function main(args: readonly string[]): Promise<number> {
  let worst = SOLVED;
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", () => process.exit(worst));
  }
  if (args.length === 0) {
    process.stderr.write(`${USAGE}\n`);
    return NO_DRIVE;
  }
  for (const name of args) {
    const result = await answer(name);
    worst = Math.max(worst, statusOf(result));
    if (args.length > 1) {
      const line = "faults" in result ? { file: name, faults: result.faults } : { file: name, ...result.report };
      process.stdout.write(`${JSON.stringify(line)}\n`);
    } else if ("faults" in result) process.stderr.write(result.faults.map(faultLine).join(""));
    else process.stdout.write(pretty(result.report));
  }
  return worst;
}

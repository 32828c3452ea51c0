/** `npm run -s solve -- FILE...`: reads drives and prints what the solver knows of them as JSON. format.md */
import type { Drive, Fault } from "../engine/drive/types";
import { inline } from "../engine/drive/write";
import { type Report, report } from "../engine/report";
import { solve } from "../engine/solve";
import { endUnread, faultLine, folderOf, NO_DRIVE, readDriveFile } from "./read-drive";

const USAGE = 'Name at least one drive file: npm run -s solve -- FILE... (a single "-" reads standard input).';

/** Exit statuses, the worst last. */
const SOLVED = 0;
const HAS_ERRORS = 1;

type Answer = { readonly report: Report } | { readonly faults: readonly Fault[] };

const trouble = (message: string): Answer => ({ faults: [{ pointer: "", message }] });

async function answer(name: string): Promise<Answer> {
  const { drive, faults } = await readDriveFile(name, folderOf("solve"));
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

/** Runs the command; gives the exit status. Ends the process at once, quietly, where nobody reads its output any more. */
export async function main(args: readonly string[]): Promise<number> {
  let worst = SOLVED;
  endUnread(() => worst);
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

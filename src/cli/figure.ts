/**
 * `npm run -s figure -- FILE --view front|top|side|section|schematic|three --out F.svg [--angle first|third]
 * [--gears simplified|teeth] [--mesh ID]`: a vector drawing of the drive at time zero. One line of JSON on standard output says what
 * was written. Exit statuses and faults as `solve` has them.
 */
import { writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { type DrawingWishes, drawingOf, SHOWN_VIEWS } from "../engine/drawing/sheet";
import { svgOf } from "../engine/drawing/svg";
import { quote } from "../engine/drive/describe";
import { veiled } from "../engine/question/veil";
import { solve } from "../engine/solve";
import { endUnread, folderOf, NO_DRIVE, openDriveFile, reasonOf, stop } from "./read-drive";

const USAGE = `npm run -s figure -- FILE --view ${SHOWN_VIEWS.join("|")} --out F.svg [--angle first|third] [--gears simplified|teeth] [--mesh ID]`;

const WRITTEN = 0;
const HAS_ERRORS = 1;

const CHOICES: Readonly<Record<string, readonly string[] | null>> = {
  "--view": SHOWN_VIEWS,
  "--angle": ["first", "third"],
  "--gears": ["simplified", "teeth"],
  "--mesh": null,
  "--out": null,
};

interface Wanted {
  readonly file: string;
  readonly out: string;
  readonly wishes: DrawingWishes;
}

/** The arguments, or one sentence about what is wrong with them. */
function readArguments(args: readonly string[]): Wanted | string {
  const names: string[] = [];
  const given = new Map<string, string>();
  for (let i = 0; i < args.length; i++) {
    const word = args[i] as string;
    if (!word.startsWith("--")) {
      names.push(word);
      continue;
    }
    const choices = Object.hasOwn(CHOICES, word) ? CHOICES[word] : undefined;
    if (choices === undefined) return `There is no option ${quote(word)}: ${USAGE}`;
    const value = args[++i];
    if (value === undefined) return `The option ${word} needs a value: ${USAGE}`;
    if (choices && !choices.includes(value)) return `${word} is ${choices.join(" or ")}, not ${quote(value)}.`;
    given.set(word, value);
  }
  const [file] = names;
  const [view, out] = [given.get("--view"), given.get("--out")];
  if (file === undefined || names.length > 1) return `Name one drive file: ${USAGE}`;
  if (view === undefined || out === undefined) return `--view and --out are needed: ${USAGE}`;
  const mesh = given.get("--mesh");
  const wishes: DrawingWishes = {
    view: view as DrawingWishes["view"],
    angle: given.get("--angle") === "third" ? "third" : "first",
    gears: given.get("--gears") === "teeth" ? "teeth" : "simplified",
    ...(mesh === undefined ? {} : { mesh }),
  };
  return { file, out, wishes };
}

/** Runs the command; gives the exit status. */
export async function main(args: readonly string[]): Promise<number> {
  endUnread(() => WRITTEN);
  const wanted = readArguments(args);
  if (typeof wanted === "string") return stop(wanted);
  const base = folderOf("figure");
  const drive = await openDriveFile(wanted.file, base);
  if (!drive) return NO_DRIVE;
  const solved = veiled(solve(drive));
  const drawing = drawingOf(solved, wanted.wishes);
  if ("trouble" in drawing) return stop(drawing.trouble);
  const svg = svgOf(drawing);
  const file = resolve(base, wanted.out);
  try {
    writeFileSync(file, svg);
  } catch (error) {
    return stop(`The file ${quote(wanted.out)} ${reasonOf(error)}; name a file that can be written.`);
  }
  const { width, height, scale } = drawing;
  process.stdout.write(
    `${JSON.stringify({ ...wanted.wishes, file, width, height, scale, findings: solved.findings })}\n`,
  );
  return solved.findings.some(({ severity }) => severity === "error") ? HAS_ERRORS : WRITTEN;
}

/**
 * `npm run -s solids -- FILE OUTDIR [--turn DEGREES] [--quality draft|fine] [--gear ID]`: one binary STL a gear, `ID.stl`, in
 * world coordinates in mm, posed as when the first input has turned by DEGREES from time zero. One line of JSON on
 * standard output says what was written. Exit statuses and faults as `solve` has them.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { quote } from "../engine/drive/describe";
import type { Drive } from "../engine/drive/types";
import { solve } from "../engine/solve";
import { anglesAfter, standingSolids } from "../engine/standing-solid";
import { buildSolid } from "../engine/teeth/gear-mesh";
import { QUALITIES, toothSpec } from "../engine/teeth/spec";
import { binaryStl, isWatertight, roundSolid, volumeOf } from "../engine/teeth/stl";
import { endUnread, folderOf, NO_DRIVE, openDriveFile, reasonOf, stop } from "./read-drive";

const USAGE = "npm run -s solids -- FILE OUTDIR [--turn DEGREES] [--quality draft|fine] [--gear ID]";

const WRITTEN = 0;
const HAS_ERRORS = 1;

interface Wanted {
  readonly file: string;
  readonly folder: string;
  readonly turn: number;
  readonly quality: "draft" | "fine";
  readonly gear: string | null;
}

/** The arguments, or one sentence about what is wrong with them. */
function readArguments(args: readonly string[]): Wanted | string {
  const names: string[] = [];
  let turn = 0;
  let quality: Wanted["quality"] = "fine";
  let gear: string | null = null;
  for (let i = 0; i < args.length; i++) {
    const word = args[i] as string;
    if (!word.startsWith("--")) {
      names.push(word);
      continue;
    }
    const value = args[++i];
    if (word !== "--turn" && word !== "--quality" && word !== "--gear")
      return `There is no option ${quote(word)}: ${USAGE}`;
    if (value === undefined) return `The option ${word} needs a value: ${USAGE}`;
    if (word === "--gear") gear = value;
    else if (word === "--quality") {
      if (value !== "draft" && value !== "fine") return `--quality is draft or fine, not ${quote(value)}.`;
      quality = value;
    } else {
      turn = value.trim() === "" ? Number.NaN : Number(value);
      if (!Number.isFinite(turn)) return `--turn is an angle in degrees, such as 90 or -12.5, not ${quote(value)}.`;
    }
  }
  const [file, folder] = names;
  if (file === undefined || folder === undefined || names.length > 2)
    return `Name one drive file and one folder: ${USAGE}`;
  return { file, folder, turn, quality, gear };
}

/** Names for files that every system takes: the gear's id where it is plain, else its number in the drive. */
function fileNames(drive: Drive): string[] {
  const plain = (id: string) => /^[A-Za-z0-9_][A-Za-z0-9_.-]{0,80}$/.test(id);
  const taken = new Set(drive.gears.map(({ id }) => id).filter(plain));
  return drive.gears.map(({ id }, i) => {
    let name = plain(id) ? id : `gear-${i + 1}`;
    while (!plain(id) && taken.has(name)) name += "_";
    return `${name}.stl`;
  });
}

/** Runs the command; gives the exit status. */
export async function main(args: readonly string[]): Promise<number> {
  endUnread(() => WRITTEN);
  const wanted = readArguments(args);
  if (typeof wanted === "string") return stop(wanted);
  const base = folderOf("solids");
  const drive = await openDriveFile(wanted.file, base);
  if (!drive) return NO_DRIVE;
  const only = wanted.gear === null ? null : drive.gears.findIndex(({ id }) => id === wanted.gear);
  if (only === -1) return stop(`The drive has no gear ${quote(wanted.gear ?? "")}.`);
  const folder = resolve(base, wanted.folder);
  const solved = solve(drive);
  const angles = anglesAfter(solved, wanted.turn);
  if (!angles)
    return stop("--turn asks the first input to turn, but the drive has none that can: give a shaft an input port.");
  try {
    mkdirSync(folder, { recursive: true });
    const { findings } = solved;
    const stand = standingSolids(solved, angles);
    const names = fileNames(drive);
    const gears = drive.gears.flatMap((gear, i) => {
      if ((only !== null && only !== i) || !solved.placement.gears[i]) return [];
      const spec = toothSpec(drive, solved.index, solved.placement, i, QUALITIES[wanted.quality]);
      const rounded = roundSolid(stand(i, buildSolid(spec)));
      const file = join(folder, names[i] as string);
      writeFileSync(file, binaryStl(rounded, `Turnwise gear ${gear.id}, mm`));
      const triangles = rounded.triangles.length / 3;
      return [{ id: gear.id, file, triangles, volume: volumeOf(rounded), watertight: isWatertight(rounded) }];
    });
    process.stdout.write(`${JSON.stringify({ turn: wanted.turn, quality: wanted.quality, gears, findings })}\n`);
    return findings.some(({ severity }) => severity === "error") ? HAS_ERRORS : WRITTEN;
  } catch (error) {
    if (!(error instanceof Error) || !("code" in error)) throw error;
    return stop(`The folder ${quote(wanted.folder)} ${reasonOf(error)}; name a folder that can be written to.`);
  }
}

/** What every edit command is made of: pure, from a drive to another or to the reason why not. */
import { bareId } from "../describe";
import { lostDigits, partFault } from "../parse";
import { ruleFaults } from "../rules";
import { type Drive, type Gear, LIMITS, type Mesh, type Port, type Shaft } from "../types";
import { fileMesh, filePort, fileShaft } from "../write";

/** Why an edit can't be made: one sentence. */
export interface EditFault {
  readonly refused: string;
}

/** An edit: pure; a drive that it gives is one that the parser would pass. */
export type Edit = (drive: Drive) => Drive | EditFault;

export const refuse = (refused: string): EditFault => ({ refused });
export const isRefused = (result: object): result is EditFault => "refused" in result;

/** One edit after another; refused where one of them is. */
export const inTurn =
  (...edits: readonly Edit[]): Edit =>
  (drive) => {
    let next = drive;
    for (const edit of edits) {
      const result = edit(next);
      if (isRefused(result)) return result;
      next = result;
    }
    return next;
  };

export const missing = (what: string, id: string): EditFault =>
  refuse(`There is no ${what} ${bareId(id)} in this drive any more; choose another.`);

export const shaftOf = (drive: Drive, id: string): Shaft | undefined => drive.shafts.find((shaft) => shaft.id === id);
export const gearOf = (drive: Drive, id: string): Gear | undefined => drive.gears.find((gear) => gear.id === id);
export const meshOf = (drive: Drive, id: string): Mesh | undefined => drive.meshes.find((mesh) => mesh.id === id);
export const portOf = (drive: Drive, shaft: string): Port | undefined =>
  drive.ports.find((port) => port.shaft === shaft);

/** The list with one item put in the place of another. */
export const replaced = <T>(list: readonly T[], old: T, next: T): T[] =>
  list.map((item) => (item === old ? next : item));

/** Without the keys that are undefined, so that a patch can leave a key out or take one away. */
export const without = <T extends object>(fields: T, ...keys: readonly string[]): T =>
  Object.fromEntries(Object.entries(fields).filter(([key, value]) => value !== undefined && !keys.includes(key))) as T;

export const shaftFault = (shaft: Shaft): EditFault | null => faultOf(partFault("shafts", fileShaft(shaft)));
export const meshFault = (mesh: Mesh): EditFault | null => faultOf(partFault("meshes", fileMesh(mesh)));
export const portFault = (port: Port): EditFault | null =>
  faultOf(partFault("ports", { ...filePort(port), ...without(port, "speedDigits") }));
export const faultOf = (sentence: string | null): EditFault | null => (sentence === null ? null : refuse(sentence));

/** The drive if it keeps the rules between its parts (ids, circles, pairs), else the first that it breaks. */
export function ruled(drive: Drive): Drive | EditFault {
  const [fault] = ruleFaults(drive);
  return fault ? refuse(fault.message) : drive;
}

/** The drive if its lists are within the limits of the format. */
export function limited(drive: Drive): Drive | EditFault {
  for (const list of ["shafts", "gears", "meshes"] as const) {
    const limit = LIMITS[list];
    if (drive[list].length > limit) {
      return refuse(
        `A drive has ${limit.toLocaleString("en")} ${list} at most, and this one has them; remove some first.`,
      );
    }
  }
  return drive;
}

/** Digits as they were written, while they still say the number beside them and more of it than a double holds. */
export const digitsOf = (digits: string | undefined, value: number | undefined): string | undefined =>
  digits !== undefined && value !== undefined ? lostDigits(digits, value) : undefined;

/** The sentences of motion. */
import type { Drive, Port, Shaft } from "../drive/types";
import type { Finding } from "../findings";
import type { DriveIndex, MeshRow } from "../solved";
import { listNames, quantity, shaftName } from "../wording";
import type { Rational } from "./rational";
import { relations, relationText } from "./relation";
import type { System } from "./system";

const idAt = (drive: Drive, shaft: number): string => (drive.shafts[shaft] as Shaft).id;

/** One finding for each joined part that holds locked shafts. */
export function lockedPart(drive: Drive, index: DriveIndex, part: Int32Array, locked: readonly boolean[]): Finding[] {
  const members = new Map<number, number[]>();
  locked.forEach((isLocked, shaft) => {
    if (!isLocked) return;
    const list = members.get(part[shaft] as number);
    if (list) list.push(shaft);
    else members.set(part[shaft] as number, [shaft]);
  });
  return [...members.values()].map((shafts) => {
    const inside = new Set(shafts);
    const meshes = drive.meshes.filter((_, i) => {
      const [a, b] = index.shaftsOfMesh[i] as readonly [number, number];
      return inside.has(a) && inside.has(b);
    });
    return {
      severity: "error" as const,
      code: "locked" as const,
      at: [...shafts.map((shaft) => idAt(drive, shaft)), ...meshes.map((mesh) => mesh.id)],
      message: `${listNames(shafts.map((shaft) => shaftName(drive, shaft)))} can't turn: their meshes ask each other for ways or speeds that can't both be, so take one mesh out, or put an idler in.`,
    };
  });
}

export function contradiction(drive: Drive, index: DriveIndex, part: Int32Array, port: Port): Finding {
  const at = index.shafts.get(port.shaft) as number;
  const others = drive.ports.filter(
    (other) => other.role !== "output" && other !== port && part[index.shafts.get(other.shaft) as number] === part[at],
  );
  const names = others.map((other) => shaftName(drive, index.shafts.get(other.shaft) as number));
  const own = port.role === "held" ? "held" : `turned at ${quantity(port.speed ?? 0, "rev/min", 9)}`;
  return {
    severity: "error",
    code: "contradiction",
    at: [port.shaft, ...others.map((other) => other.shaft)],
    message: `${shaftName(drive, at)} can't be ${own} while ${names.length > 0 ? `${listNames(names)} ${names.length === 1 ? "is" : "are"} driven or held as given` : "its meshes hold it"}: the teeth allow only one of the two, so make one of these shafts an output or let it go free.`,
  };
}

export function free(
  drive: Drive,
  index: DriveIndex,
  system: System,
  rows: readonly (MeshRow | null)[],
  speeds: readonly (Rational | null)[],
  missing: number,
): Finding {
  const open = drive.shafts.flatMap((_, i) => (speeds[i] === null && system.root[i] !== -1 ? [i] : []));
  const isOpen = (shaft: number): boolean => speeds[shaft] === null;
  const laws = relations(drive, index, system, rows)
    .filter((law) => isOpen(law.carrier) || isOpen(law.first) || isOpen(law.second))
    .map((law) => relationText(law, (shaft) => idAt(drive, shaft)));
  const law = laws.length > 0 ? ` Whatever turns, ${laws.join("; ")}.` : "";
  return {
    severity: "note",
    code: "free",
    at: open.map((shaft) => idAt(drive, shaft)),
    message: `The speed of ${listNames(open.map((shaft) => shaftName(drive, shaft)))} is not fixed yet: ${missing} more ${missing === 1 ? "input is" : "inputs are"} needed (turn or hold ${missing === 1 ? "one more shaft" : `${missing} more shafts`}).${law}`,
  };
}

export const ratioLong = (drive: Drive, shafts: readonly number[], digits: number): Finding => ({
  severity: "note",
  code: "ratio-long",
  at: shafts.map((shaft) => idAt(drive, shaft)),
  message: `The exact ratio of ${listNames(shafts.map((shaft) => shaftName(drive, shaft)))} has more than ${digits} digits a side and is not written out; its speed is still exact.`,
});

export const outOfRange = (drive: Drive, shafts: readonly number[]): Finding => ({
  severity: "note",
  code: "out-of-range",
  at: shafts.map((shaft) => idAt(drive, shaft)),
  message: `The speed of ${listNames(shafts.map((shaft) => shaftName(drive, shaft)))} is too large or too small for a decimal number of this machine, so only its exact ratio is known; use fewer stages.`,
});

/** Fresh ids: shafts A, B, C … Z, AA, AB …; gears of shaft B b1, b2 …; meshes m1, m2 … */
import type { Drive } from "../types";

/** 0 A, 25 Z, 26 AA, 27 AB … */
function letters(index: number): string {
  let text = "";
  for (let i = index + 1; i > 0; i = Math.floor((i - 1) / 26)) text = String.fromCharCode(65 + ((i - 1) % 26)) + text;
  return text;
}

function firstFree(ids: Iterable<{ readonly id: string }>, candidate: (index: number) => string): string {
  const taken = new Set<string>();
  for (const { id } of ids) taken.add(id);
  for (let i = 0; ; i++) if (!taken.has(candidate(i))) return candidate(i);
}

export const freshShaftId = (drive: Drive): string => firstFree(drive.shafts, letters);

export function freshGearId(drive: Drive, shaft: string): string {
  // A long or unusual shaft id would make an unwieldy one.
  const stem = /^[\p{L}\p{N}]{1,6}$/u.test(shaft) ? shaft.toLowerCase() : "g";
  const parted = /\d$/.test(stem) ? `${stem}-` : stem;
  return firstFree(drive.gears, (i) => `${parted}${i + 1}`);
}

export const freshMeshId = (drive: Drive): string => firstFree(drive.meshes, (i) => `m${i + 1}`);

/**
 * Whether this is the very first visit. The first minute is never shown twice: before it begins it is noted in the browser's
 * storage, and where that can't be done it is not shown at all. `?first=no` in the address leaves it out and notes nothing.
 */
import type { Drive } from "../../engine/drive/types";
import { writeDrive } from "../../engine/drive/write";
import { openingDrive } from "../opening-drive";

export const FIRST_KEY = "turnwise.first-minute";
const SEEN = "seen";

/** Whether it is worth asking `claimFirstVisit` at all: the first minute comes only then. */
export function mayBeFirstVisit(search: string): boolean {
  if (new URLSearchParams(search).get("first") === "no") return false;
  try {
    return localStorage.getItem(FIRST_KEY) === null;
  } catch {
    return false;
  }
}

/** Says yes once, and never again in this browser. */
export function claimFirstVisit(drive: Drive, search: string): boolean {
  if (!mayBeFirstVisit(search)) return false;
  try {
    localStorage.setItem(FIRST_KEY, SEEN);
    if (localStorage.getItem(FIRST_KEY) !== SEEN) return false;
  } catch {
    return false;
  }
  // A drive from before, or one that a link opened, is no first visit.
  return writeDrive(drive) === writeDrive(openingDrive());
}

/** Opening the drive of a link or a code. What is none changes nothing and says why; what was open can be brought back. */
import type { Drive } from "../../engine/drive/types";
import { writeDrive } from "../../engine/drive/write";
import { documentStore, openDrive } from "../../store/document";
import { announce } from "../../store/view";
import { shownName } from "../file-name";
import { notify } from "../notices";
import { keepPlace } from "../place";
import { decodeCode } from "./code";
import { codeOfHash, type Found, findCode } from "./link";

const complain = (what: string, trouble: string): false => {
  notify({ tone: "alert", text: `The ${what} was not opened, and nothing was changed: ${trouble}` });
  return false;
};

/** Puts `drive` on the bench. `former` is what the notice offers to bring back; null where nobody made it. */
const putOnBench = (drive: Drive, what: string, former: Drive | null): true => {
  const title = drive.title === "" ? "A drive" : shownName(drive.title);
  if (writeDrive(drive) === writeDrive(documentStore.getState().drive)) {
    notify({ tone: "polite", text: `The drive of this ${what} is on the bench already.` });
    return true;
  }
  openDrive(drive, former ? { keepHistory: true, label: `opening a ${what}` } : {});
  keepPlace(null);
  if (former) {
    const bring = (): void => openDrive(former, { keepHistory: true, label: "bringing back the drive from before" });
    const text = `${title} was opened from a ${what}. Your drive from before is not lost.`;
    notify({ tone: "polite", text, action: { words: "Bring it back", run: bring } });
  } else {
    notify(null);
    announce(`${title} was opened from a ${what}.`);
  }
  return true;
};

const open = (found: Found, what: string, none: string, former: Drive | null): boolean => {
  if (found === "none") return complain(what, none);
  if (found === "too long") return complain(what, "it is longer than any link to a drive, so copy it again, alone.");
  const { drive, trouble } = decodeCode(found.code);
  return drive ? putOnBench(drive, what, former) : complain(what, trouble);
};

/**
 * Opens what follows `#` in the address. Returns whether a drive was opened. `isFirst`: nobody has made or opened a drive
 * in this page yet, so none need be brought back.
 */
export const openHash = (hash: string, isFirst: boolean): boolean => {
  const found = codeOfHash(hash);
  if (found === null) return false;
  const former = isFirst ? null : documentStore.getState().drive;
  return open(found, "link", "what follows # in it is no drive, so check that the whole link was copied.", former);
};

/** Opens a link or code that somebody pasted; returns whether it was one. */
export const openPasted = (text: string): boolean => {
  const none = "no code was found in it; a code begins with d1. and a link has it after #.";
  return open(findCode(text), "link or code", none, documentStore.getState().drive);
};

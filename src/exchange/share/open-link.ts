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

/** Puts `drive` on the bench. `former` is what the notice offers to bring back; null where nobody made it. */
const putOnBench = (drive: Drive, former: Drive | null): void => {
  const title = drive.title === "" ? "A drive" : shownName(drive.title);
  if (writeDrive(drive) === writeDrive(documentStore.getState().drive)) {
    notify({ tone: "polite", text: `The drive of this link is on the bench already.` });
    return;
  }
  openDrive(drive, former ? { keepHistory: true, label: `opening a link` } : {});
  keepPlace(null);
  if (former) {
    const bring = (): void => openDrive(former, { keepHistory: true, label: "bringing back the drive from before" });
    const text = `${title} was opened from a link. Your drive from before is not lost.`;
    notify({ tone: "polite", text, action: { words: "Bring it back", run: bring } });
  } else {
    notify(null);
    announce(`${title} was opened from a link.`);
  }
};

/** Opens what was found; null where it was a drive, else why it was none. */
const open = (found: Found, none: string, former: Drive | null): string | null => {
  if (found === "none") return none;
  if (found === "too long") return "it is longer than any link to a drive, so copy it again, alone.";
  const { drive, trouble } = decodeCode(found.code);
  if (!drive) return trouble;
  try {
    putOnBench(drive, former);
    return null;
  } catch {
    return "the drive in it is too large for the memory at hand, so open a smaller one.";
  }
};

/**
 * Opens what follows `#` in the address. Returns whether a drive was opened. `isFirst`: nobody has made or opened a drive
 * in this page yet, so none need be brought back.
 */
export const openHash = (hash: string, isFirst: boolean): boolean => {
  const found = codeOfHash(hash);
  if (found === null) return false;
  const none = "what follows # in it is no drive, so check that the whole link was copied.";
  const trouble = open(found, none, isFirst ? null : documentStore.getState().drive);
  if (trouble === null) return true;
  notify({ tone: "alert", text: `The link was not opened, and nothing was changed: ${trouble}` });
  return false;
};

/** Opens a link or code that somebody pasted. Returns null, or a sentence on why it was not opened. */
export const openPasted = (text: string): string | null => {
  const none = "there is no code in it. A code begins with d1. and in a link it stands after #.";
  const trouble = open(findCode(text), none, documentStore.getState().drive);
  return trouble && `This was not opened, and nothing was changed: ${trouble}`;
};

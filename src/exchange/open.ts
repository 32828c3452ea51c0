/** Opening a drive file: from a picker, a drop or a sample. What is no drive changes nothing and says why. */
import { LESSON_HEAD } from "../engine/drive/lesson-key";
import { LIMITS } from "../engine/drive/types";
import { openDrive } from "../store/document";
import { announce } from "../store/view";
import { shownName } from "./file-name";
import { notify, refuse } from "./notices";
import { keepPlace, type Place } from "./place";
import { read } from "./read";
import { holdsDrives } from "./saved-file";

/** Signs of a picture, a sound, a film or a packed file in its first bytes: a text has no zero bytes. */
const looksBinary = async (file: Blob): Promise<boolean> => {
  const head = new Uint8Array(await file.slice(0, 1024).arrayBuffer());
  return head.includes(0);
};

const whatElse = (file: File): string => {
  if (file.type.startsWith("image/")) return "a picture";
  if (file.type.startsWith("video/")) return "a film";
  if (file.type.startsWith("audio/")) return "a sound";
  return "something else";
};

const complain = (sentence: string): false => {
  notify({ tone: "alert", text: sentence });
  return false;
};

/**
 * Opens the text of a drive file. One undo step: the drive before it comes back with Undo.
 * Returns whether it was a drive; where not, all stays as it was and the reader is told.
 */
export const openText = async (text: string, name: string, place: Place | null = null): Promise<boolean> => {
  const result = await read(text);
  if (result.faults) {
    const [first, ...more] = result.faults;
    // One fault of the whole text needs no list.
    if (first && more.length === 0 && first.pointer === "") {
      return complain(`${shownName(name)} was not opened, and nothing was changed: ${first.message}`);
    }
    refuse({ name: shownName(name), faults: result.faults });
    return false;
  }
  notify(null);
  openDrive(result.drive, { keepHistory: true, label: `opening ${shownName(name)}` });
  keepPlace(place);
  announce(`Opened ${result.drive.title || shownName(name)}.`);
  return true;
};

let takeDrives: ((file: File) => void) | null = null;

/** Says who takes a file of several drives, which is none to put on the bench. */
export const onDrivesFile = (take: (file: File) => void): void => {
  takeDrives = take;
};

let takeLesson: ((text: string, name: string) => void) | null = null;

/** Says who takes a lesson, which brings drives of its own. */
export const onLessonFile = (take: (text: string, name: string) => void): void => {
  takeLesson = take;
};

/** Opens a file that was picked or dropped; one of several drives, or a lesson, goes to who takes these. */
export const openFile = async (file: File, place: Place | null = null): Promise<boolean> => {
  const name = shownName(file.name);
  try {
    if (file.type.startsWith("image/") || (await looksBinary(file))) {
      return complain(
        `${name} is ${whatElse(file)}, not a drive: nothing was changed. Open a file that ends in .drive.json.`,
      );
    }
    if (file.size > LIMITS.bytes) {
      const size = Math.ceil(file.size / 1024 / 1024);
      return complain(`${name} has ${size} MiB, and a drive file has 32 MiB at the most: nothing was changed.`);
    }
    const text = await file.text();
    if (takeDrives && holdsDrives(text)) {
      takeDrives(file);
      return false;
    }
    if (takeLesson && LESSON_HEAD.test(text)) {
      takeLesson(text, file.name);
      return false;
    }
    return await openText(text, file.name, place);
  } catch {
    return complain(`${name} could not be read, and nothing was changed: is it still where it was?`);
  }
};

interface Pickers {
  showOpenFilePicker?: (options: object) => Promise<readonly (Place & { getFile: () => Promise<File> })[]>;
}

const isCancelled = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";

const pickByInput = (): void => {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".json,application/json";
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file) void openFile(file);
  });
  input.click();
};

/** Asks for a file and opens it. Where the browser lets a page write to the file picked, saving goes back there. */
export const pickAndOpen = async (): Promise<void> => {
  const { showOpenFilePicker } = window as Pickers;
  if (!showOpenFilePicker) return pickByInput();
  try {
    const [place] = await showOpenFilePicker.call(window, {
      types: [{ description: "Drives", accept: { "application/json": [".json"] } }],
    });
    if (place) await openFile(await place.getFile(), place);
  } catch (error) {
    if (!isCancelled(error)) pickByInput();
  }
};

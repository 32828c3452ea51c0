/** Saving a drive as a `.drive.json` file: into a place the person picks, or as a download. */
import { writeDrive } from "../engine/drive/write";
import { documentStore } from "../store/document";
import { announce } from "../store/view";
import { ENDING, fileName } from "./file-name";
import { notify } from "./notices";
import { currentPlace, keepPlace, type Place } from "./place";

interface Pickers {
  showSaveFilePicker?: (options: object) => Promise<Place>;
}

/** Hands the text of a drive, or any file, to the browser as a file to keep. */
export const download = (content: string | Blob, name: string): void => {
  const file = typeof content === "string" ? new Blob([content], { type: "application/json" }) : content;
  const address = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // Some browsers fetch the address only after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
};

const writeTo = async (place: Place, text: string): Promise<void> => {
  const stream = await place.createWritable();
  await stream.write(text);
  await stream.close();
};

/** Asks where to put the file; null where the person thinks better of it, `undefined` where the browser can't ask. */
const askPlace = async (name: string): Promise<Place | null | undefined> => {
  const { showSaveFilePicker } = window as Pickers;
  if (!showSaveFilePicker) return undefined;
  try {
    return await showSaveFilePicker.call(window, {
      suggestedName: name,
      types: [{ description: "Drives", accept: { "application/json": [ENDING] } }],
    });
  } catch (error) {
    return error instanceof DOMException && error.name === "AbortError" ? null : undefined;
  }
};

/** Saves the drive to the file it came from, or asks for one, or downloads it. */
export const saveDrive = async (): Promise<void> => {
  const { drive } = documentStore.getState();
  const name = fileName(drive.title);
  const text = writeDrive(drive);
  const place = currentPlace() ?? (await askPlace(name));
  if (place === null) return;
  try {
    if (!place) download(text, name);
    else {
      await writeTo(place, text);
      keepPlace(place);
    }
    announce(`Saved as ${place?.name ?? name}.`);
  } catch {
    keepPlace(null);
    download(text, name);
    notify({
      tone: "alert",
      text: `The file could not be written where it was, so ${name} went to your downloads instead.`,
    });
  }
};

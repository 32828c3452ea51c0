/** What the dialog of saved drives shows and does. It outlives the dialog, so that a deletion can still be taken back. */
import { createStore } from "zustand/vanilla";
import { smallPicture } from "../../bench/small-picture";
import { parseDrive } from "../../engine/drive/parse";
import { writeDrive } from "../../engine/drive/write";
import { openText } from "../../exchange/open";
import { download } from "../../exchange/save";
import { type Head, StorageTrouble } from "../../exchange/saved-database";
import {
  addSaved,
  askToPersist,
  cleanName,
  deleteSaved,
  duplicateSaved,
  keepPictures,
  listSaved,
  type Room,
  readAllSaved,
  readSaved,
  renameSaved,
  restoreSaved,
  type Saved,
  saveNew,
  saveOver,
  storageRoom,
} from "../../exchange/saved-drives";
import { drivesFileName, readDrives, writeDrives } from "../../exchange/saved-file";
import { currentLink, keepLink } from "../../exchange/saved-link";
import { documentStore } from "../../store/document";
import { announce, setView } from "../../store/view";
import { showDialog } from "../dialogs/dialog-store";
import { listNames, quoted } from "./words";

export interface SavedState {
  /** Null until the list has been read. */
  readonly heads: readonly Head[] | null;
  /** What the last action did, or why it did not. */
  readonly told: { readonly tone: "polite" | "alert"; readonly text: string } | null;
  /** Deletions that can be taken back, the last one last. */
  readonly deleted: readonly Saved[];
  readonly room: Room | null;
}

export const savedStore = createStore<SavedState>()(() => ({ heads: null, told: null, deleted: [], room: null }));

/** How many deletions can be taken back. */
const MOST_DELETED = 20;

const tell = (text: string, tone: "polite" | "alert" = "polite"): void => savedStore.setState({ told: { tone, text } });

/** Other tabs are told that the list has changed. */
const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("turnwise.saved");

const isSame = (a: Head, b: Head): boolean =>
  a.revision === b.revision && a.name === b.name && a.at === b.at && a.picture === b.picture;

/** What has not changed stays the same object, so that its card is not made anew. */
const reread = async (): Promise<void> => {
  const known = new Map(savedStore.getState().heads?.map((head) => [head.id, head]));
  const heads = (await listSaved()).map((head) => {
    const before = known.get(head.id);
    return before && isSame(before, head) ? before : head;
  });
  savedStore.setState({ heads });
};

const readRoom = async (): Promise<void> => savedStore.setState({ room: await storageRoom() });

/** Does something and tells; where the browser did not do it, says so: `failed` begins that sentence. */
const attempt = async (failed: string, work: () => Promise<string | null>): Promise<boolean> => {
  try {
    const text = await work();
    if (text !== null) tell(text);
    return true;
  } catch (error) {
    if (!(error instanceof StorageTrouble)) throw error;
    tell(`${failed}: ${error.why}.`, "alert");
    return false;
  }
};

/** The same for what changes the saved drives: the list is read anew, here and in other tabs. */
const change = (failed: string, work: () => Promise<string | null>): Promise<boolean> =>
  attempt(failed, async () => {
    const text = await work();
    channel?.postMessage("changed");
    // It is done: a list that can't be read now stands as it was.
    await reread().catch(() => undefined);
    void readRoom();
    return text;
  });

const GONE = "was deleted in another tab meanwhile, so there was nothing to do.";

/** Reads the list; call whenever the dialog opens. Returns what to do when it closes. */
export const openList = (): (() => void) => {
  const follow = (): void => {
    reread().catch(() => undefined);
  };
  channel?.addEventListener("message", follow);
  // What was told the last time is old; what can be taken back is not.
  savedStore.setState({ told: null });
  void (async () => {
    try {
      await reread();
      await readRoom();
    } catch (error) {
      if (!(error instanceof StorageTrouble)) throw error;
      savedStore.setState({ heads: [] });
      tell(`The saved drives can't be shown: ${error.why}.`, "alert");
    }
  })();
  return () => channel?.removeEventListener("message", follow);
};

/** Saves the drive on the bench under a name. */
export const saveAs = (name: string): Promise<boolean> =>
  change(`${quoted(name)} was not saved, and nothing was changed`, async () => {
    const head = await saveNew(name, documentStore.getState().drive, smallPicture);
    keepLink(head);
    void askToPersist().then(readRoom);
    const why = head.name === name.trim() || name.trim() === "" ? "" : `, for ${quoted(name.trim())} was there already`;
    return `Saved as ${quoted(head.name)}${why}.`;
  });

/** Saves the drive on the bench in the place of the saved drive that it came from. */
export const saveAgain = async (): Promise<void> => {
  const link = currentLink();
  if (!link) return;
  await change(`${quoted(link.name)} was not saved, and is as it was`, async () => {
    const { head, isCopy } = await saveOver(link, documentStore.getState().drive, smallPicture);
    keepLink(head);
    return isCopy
      ? `${quoted(link.name)} was changed or deleted in another tab meanwhile, so yours was saved beside it as ${quoted(head.name)}.`
      : `Saved ${quoted(head.name)}.`;
  });
};

/** Opens a saved drive on the bench: one undo step. */
export const openSaved = async (head: Head): Promise<void> => {
  let saved: Saved | null = null;
  const isRead = await attempt(`${quoted(head.name)} was not opened`, async () => {
    saved = await readSaved(head.id);
    return saved ? null : `${quoted(head.name)} ${GONE}`;
  });
  const { head: now, text } = (saved ?? {}) as Partial<Saved>;
  if (!isRead || !now || text === undefined) return;
  showDialog(null);
  if (!(await openText(text, now.name))) return;
  keepLink(now);
  setView({ selection: null, adding: null, ghost: null });
  announce(`Opened ${now.name}. Undo brings back the drive before.`);
};

export const rename = (head: Head, name: string): Promise<boolean> =>
  change(`${quoted(head.name)} was not renamed`, async () => {
    const renamed = await renameSaved(head.id, name);
    const link = currentLink();
    if (renamed && link?.id === head.id) keepLink({ ...link, name: renamed.name });
    return renamed ? `${quoted(head.name)} is now called ${quoted(renamed.name)}.` : `${quoted(head.name)} ${GONE}`;
  });

export const duplicate = (head: Head): Promise<boolean> =>
  change(`${quoted(head.name)} was not duplicated`, async () => {
    const copy = await duplicateSaved(head.id);
    return copy ? `Duplicated as ${quoted(copy.name)}.` : `${quoted(head.name)} ${GONE}`;
  });

export const remove = (head: Head): Promise<boolean> =>
  change(`${quoted(head.name)} was not deleted`, async () => {
    const gone = await deleteSaved(head.id);
    if (!gone) return `${quoted(head.name)} ${GONE}`;
    savedStore.setState(({ deleted }) => ({ deleted: [...deleted, gone].slice(-MOST_DELETED) }));
    return `Deleted ${quoted(gone.head.name)}.`;
  });

/** Takes the last deletion back. */
export const undelete = async (): Promise<void> => {
  const last = savedStore.getState().deleted.at(-1);
  if (!last) return;
  await change(`${quoted(last.head.name)} was not brought back, and can still be`, async () => {
    const head = await restoreSaved(last);
    savedStore.setState(({ deleted }) => ({ deleted: deleted.filter((one) => one !== last) }));
    return `${quoted(head.name)} is back.`;
  });
};

export const exportAll = (): Promise<boolean> =>
  attempt("The drives were not exported", async () => {
    const all = await readAllSaved();
    const name = drivesFileName(new Date());
    download(writeDrives(all.map(({ head, text }) => ({ name: head.name, text }))), name);
    return `Exported ${all.length === 1 ? "one drive" : `${all.length} drives`} as ${name}.`;
  });

/** Adds the drives of files to the saved ones; none takes the place of another. */
export const importFiles = async (files: readonly File[]): Promise<void> => {
  for (const file of files) {
    const text = await file.text().catch(() => null);
    const result = text === null ? "is it still where it was?" : await readDrives(text, file.name);
    if (typeof result === "string") {
      tell(`Nothing was imported from ${file.name}: ${result}`, "alert");
      return;
    }
    const { drives, left } = result;
    await change(`Nothing was imported from ${file.name}`, async () => {
      const there = new Set((await readAllSaved()).map(({ head, text }) => `${head.name}\n${text}`));
      const fresh = drives.filter(({ name, drive }) => !there.has(`${cleanName(name)}\n${writeDrive(drive)}`));
      const heads = await addSaved(fresh);
      if (heads.length > 0) void askToPersist().then(readRoom);
      return importWords(file.name, fresh, heads, left, drives.length - fresh.length);
    });
  }
};

const importWords = (
  file: string,
  drives: readonly { readonly name: string }[],
  heads: readonly Head[],
  left: readonly { readonly name: string; readonly why: string }[],
  /** How many are there already, under the same name and the same in all. */
  same: number,
): string => {
  const copies = heads.filter(({ name }, i) => name !== drives[i]?.name.trim()).map(({ name }) => name);
  const sentences = [
    heads.length === 0 && same > 0
      ? `Nothing new in ${file}.`
      : `Imported ${heads.length === 1 ? "one drive" : `${heads.length} drives`} from ${file}.`,
  ];
  if (same > 0) sentences.push(`${same === 1 ? "One was" : `${same} were`} there already, the same in all.`);
  if (copies.length > 0) sentences.push(`Names that were taken became ${listNames(copies)}.`);
  for (const { name, why } of left.slice(0, 3)) sentences.push(`${quoted(name)} was left out: ${why}`);
  if (left.length > 3) sentences.push(`${left.length - 3} more were left out.`);
  return sentences.join(" ");
};

/** Drives painted in one go. */
const PAINTED_AT_ONCE = 8;

/** Makes and keeps the pictures of some drives that have none; returns whether there may be more. `tried` holds those that have been seen to. */
export const paintSome = async (tried: Set<string>): Promise<boolean> => {
  const bare = (savedStore.getState().heads ?? []).filter(({ id, picture }) => picture === null && !tried.has(id));
  const pictures: { head: Head; picture: string }[] = [];
  try {
    for (const head of bare.slice(0, PAINTED_AT_ONCE)) {
      tried.add(head.id);
      const { drive } = parseDrive((await readSaved(head.id))?.text ?? "");
      const picture = drive ? smallPicture(drive) : null;
      if (picture !== null) pictures.push({ head, picture });
    }
    if (pictures.length > 0) await keepPictures(pictures);
  } catch {
    // A list without pictures is one all the same.
    return false;
  }
  const made = new Map(pictures.map(({ head, picture }) => [head, picture]));
  if (made.size > 0) {
    savedStore.setState(({ heads }) => ({
      heads: heads?.map((head) => (made.has(head) ? { ...head, picture: made.get(head) ?? null } : head)) ?? null,
    }));
  }
  return bare.length > PAINTED_AT_ONCE;
};

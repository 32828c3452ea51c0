/**
 * Keeps the drive in the browser's own storage shortly after each edit, and brings it back after a reload or a crash.
 * Each tab of the page keeps its own; a new tab begins with the one kept last.
 */
import { createStore, del, entries, get, set, type UseStore } from "idb-keyval";
import { parseDrive } from "../engine/drive/parse";
import type { Drive } from "../engine/drive/types";
import { writeDrive } from "../engine/drive/write";
import { documentStore, isDragging, openDrive } from "../store/document";
import { fileName } from "./file-name";
import { notify } from "./notices";
import { download } from "./save";

/** ms from an edit to its keeping. */
const DELAY = 400;
/** ms that the storage may take where somebody waits for it. */
const PATIENCE = 3000;
/** How many tabs' drives are kept; older ones give way. */
const KEPT = 8;
const TAB = "turnwise.tab";
/** What a page that is left had not yet kept: the storage of a tab is written at once, the database takes its time. */
const LEAVING = "turnwise.leaving";
const OPENING = "turnwise.opening";
/** How often in a row a kept drive may fail to come up before it is left closed. */
const TRIES = 2;

interface Kept {
  readonly text: string;
  /** ms since 1970. */
  readonly at: number;
}

let database: UseStore | null = null;
const keep = (): UseStore => {
  database ??= createStore("turnwise", "drives");
  return database;
};

/** Storage that may be forbidden: then nothing is remembered, and no harm done. */
const mark = (storage: "localStorage" | "sessionStorage", key: string, value?: string | null): string | null => {
  try {
    if (value === null) window[storage].removeItem(key);
    else if (value !== undefined) window[storage].setItem(key, value);
    return window[storage].getItem(key);
  } catch {
    return null;
  }
};

/** This tab's name in the storage; it outlives a reload. */
const tabName = (): string => {
  const known = mark("sessionStorage", TAB);
  if (known) return known;
  const name = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 8)}`;
  mark("sessionStorage", TAB, name);
  return name;
};

const byAge = ([, a]: [IDBValidKey, Kept], [, b]: [IDBValidKey, Kept]): number => b.at - a.at;

/** What this tab wrote as it was left, if that can be read. */
const leftBehind = (): Kept | undefined => {
  const text = mark("sessionStorage", LEAVING);
  const at = Number(text?.slice(0, text.indexOf("\n")));
  return text && at > 0 ? { at, text: text.slice(text.indexOf("\n") + 1) } : undefined;
};

const lastKept = async (): Promise<Kept | undefined> => {
  const left = leftBehind();
  try {
    const own = await get<Kept>(tabName(), keep());
    if (own || left) return left && left.at > (own?.at ?? 0) ? left : own;
    const all = await entries<IDBValidKey, Kept>(keep());
    return all.sort(byAge)[0]?.[1];
  } catch {
    // A storage that is forbidden has nothing to bring back.
    return left;
  }
};

const dropOld = async (): Promise<void> => {
  const all = await entries<IDBValidKey, Kept>(keep());
  for (const [name] of all.sort(byAge).slice(KEPT)) await del(name, keep());
};

/** Opens the drive that was kept. Returns whether there was one; the notice offers to begin anew by `startNew`. */
export const recover = async (startNew: () => void): Promise<boolean> => {
  const atStart = documentStore.getState().drive;
  const kept = await lastKept();
  const drive = kept && parseDrive(kept.text).drive;
  if (!drive) return false;
  // Where opening it ended the page again and again, it is not tried unasked.
  const tries = Number(mark("localStorage", OPENING) ?? 0);
  if (tries >= TRIES) {
    mark("localStorage", OPENING, null);
    notify({
      tone: "alert",
      text: "Your drive from before could not be shown the last times, so it was left closed.",
      action: { words: "Save it as a file", run: () => download(writeDrive(drive), fileName(drive.title)) },
    });
    return false;
  }
  // A storage that answers late must not take away what was begun meanwhile.
  if (documentStore.getState().drive !== atStart) {
    const bring = (): void => openDrive(drive, { keepHistory: true, label: "bringing back the drive from before" });
    notify({ tone: "polite", text: "There is a drive from before.", action: { words: "Bring it back", run: bring } });
    return false;
  }
  mark("localStorage", OPENING, String(tries + 1));
  openDrive(drive);
  notify({ tone: "polite", text: "Your drive from before is back.", action: { words: "New", run: startNew } });
  return true;
};

/** Says that the page has come up with the drive in it. */
export const cameUp = (): void => {
  mark("localStorage", OPENING, null);
};

const explain = (error: unknown): string => {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  const why = full ? "The browser's storage is full" : "The browser does not let this page keep anything";
  return `${why}, so your drive will be gone when you leave: save it as a file.`;
};

let keepAtOnce = (): Promise<boolean> => Promise.resolve(false);

/** Keeps the open drive now, edited or not, before the page is loaded anew. Returns whether the storage has confirmed it. */
export const keepOpenDrive = (): Promise<boolean> => keepAtOnce();

/** Keeps the drive after each edit from now on; returns the stop function. `store` may stand in for the browser's storage. */
export const autosave = (
  store: (kept: Kept) => Promise<void> = (kept) => set(tabName(), kept, keep()),
): (() => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let unkept: Drive | null = null;
  let fails = false;

  const keepNow = async (): Promise<void> => {
    clearTimeout(timer);
    const drive = unkept;
    if (!drive) return;
    // A drag keeps the drive when it ends.
    if (isDragging()) {
      timer = setTimeout(keepNow, DELAY);
      return;
    }
    try {
      await store({ text: writeDrive(drive), at: Date.now() });
      fails = false;
      // Only what the storage has confirmed is kept: one that never answers must not lose it.
      if (unkept === drive) unkept = null;
    } catch (error) {
      if (!fails) notify({ tone: "alert", text: explain(error) });
      fails = true;
    }
  };

  const stop = documentStore.subscribe((state, before) => {
    if (state.drive === before.drive) return;
    unkept = state.drive;
    clearTimeout(timer);
    timer = setTimeout(keepNow, DELAY);
  });
  const leave = (): void => {
    if (document.visibilityState === "hidden") void keepNow();
  };
  const warn = (event: BeforeUnloadEvent): void => {
    if (!unkept) return;
    if (fails) event.preventDefault();
    mark("sessionStorage", LEAVING, `${Date.now()}\n${writeDrive(unkept)}`);
    void keepNow();
  };
  document.addEventListener("visibilitychange", leave);
  window.addEventListener("beforeunload", warn);
  void dropOld().catch(() => undefined);
  keepAtOnce = async () => {
    unkept ??= documentStore.getState().drive;
    await Promise.race([keepNow(), new Promise((late) => setTimeout(late, PATIENCE))]);
    return unkept === null;
  };

  return () => {
    stop();
    keepAtOnce = () => Promise.resolve(false);
    clearTimeout(timer);
    document.removeEventListener("visibilitychange", leave);
    window.removeEventListener("beforeunload", warn);
  };
};

/**
 * Keeps the drive and what undo brings back in the browser's own storage shortly after each edit, and restores both after a reload
 * or a crash. Each tab of the page keeps its own (`slots.ts`).
 */
import { parseDrive } from "../engine/drive/parse";
import type { Drive } from "../engine/drive/types";
import { writeDrive } from "../engine/drive/write";
import { currentHistory, documentStore, type History, isDragging, openDrive, openHistory } from "../store/document";
import { fileName } from "./file-name";
import { readHistory, writeHistory } from "./history-text";
import { notify } from "./notices";
import { download } from "./save";
import { keepLink, linkStore, readLinked } from "./saved-link";
import { type Claim, claim, dropOld, type Kept, keepInSlot, leaveBehind, mark, takeFresh } from "./slots";

/** ms from an edit to its keeping. */
const DELAY = 400;
/** ms after which keeping that failed is tried again. */
const AGAIN = 10_000;
/** ms that the storage may take where somebody waits for it. */
const PATIENCE = 3000;
const OPENING = "turnwise.opening";
/** How often in a row a kept drive may fail to come up before it is left closed. */
const TRIES = 2;

/** What this tab goes on with is known: nothing is written before. */
let claimed: Promise<unknown> = Promise.resolve();
/** A copy is kept at once, so that this tab finds it again. */
let isCopyUnkept = false;

/** The drive as it is to be kept, with its history. */
const keptNow = (): Kept => {
  const { link, depth } = linkStore.getState();
  const history = writeHistory(currentHistory());
  const text = writeDrive(documentStore.getState().drive);
  return { text, at: Date.now(), ...(history ? { history } : {}), ...(link ? { saved: { link, depth } } : {}) };
};

/** The drive with its history, where that is whole and leads to this very drive; else the drive alone. */
const historyOf = (kept: Kept, drive: Drive): History => {
  const history = kept.history === undefined ? null : readHistory(kept.history);
  const fits = history && writeDrive(history.present.drive) === writeDrive(drive);
  return fits ? history : { past: [], present: { drive, label: "" }, future: [] };
};

/** Opens the drive that was kept. Returns whether there was one; the notice offers to begin anew by `startNew`. */
export const recover = (startNew: () => void): Promise<boolean> => {
  const recovered = restore(startNew);
  claimed = recovered.catch(() => undefined);
  return recovered;
};

const restore = async (startNew: () => void): Promise<boolean> => {
  const atStart = documentStore.getState().drive;
  const { kept, isCopy }: Claim = await claim();
  const drive = kept && parseDrive(kept.text).drive;
  if (!drive) {
    // What can't be read is left where it is.
    if (kept) await takeFresh();
    return false;
  }
  // Where opening it ended the page again and again, it is not tried unasked.
  const tries = Number(mark("localStorage", OPENING) ?? 0);
  if (tries >= TRIES) {
    mark("localStorage", OPENING, null);
    await takeFresh();
    notify({
      tone: "alert",
      text: "Your drive from before could not be shown the last times, so it was left closed.",
      action: { words: "Save it as a file", run: () => download(writeDrive(drive), fileName(drive.title)) },
    });
    return false;
  }
  // A storage that answers late must not take away what was begun meanwhile, nor be written over by it.
  if (documentStore.getState().drive !== atStart) {
    await takeFresh();
    const bring = (): void => openDrive(drive, { keepHistory: true, label: "bringing back the drive from before" });
    notify({ tone: "polite", text: "There is a drive from before.", action: { words: "Bring it back", run: bring } });
    return false;
  }
  mark("localStorage", OPENING, String(tries + 1));
  openHistory(historyOf(kept, drive));
  const { link, depth } = readLinked(kept.saved);
  keepLink(link, depth);
  isCopyUnkept = isCopy;
  const text = isCopy
    ? "This drive is open in another tab too, so this tab goes on with a copy: neither changes the other."
    : "Your drive from before is back.";
  notify({ tone: "polite", text, action: { words: "New", run: startNew } });
  return true;
};

/** Says that the page has come up with the drive in it. */
export const cameUp = (): void => {
  mark("localStorage", OPENING, null);
};

const explain = (error: unknown): string => {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  const isLate = error instanceof DOMException && error.name === "TimeoutError";
  const why = full
    ? "The browser's storage is full"
    : isLate
      ? "The browser's storage does not answer"
      : "The browser does not let this page keep anything";
  return `${why}, so your drive will be gone when you leave: save it as a file.`;
};

const keepForTab = async (kept: Kept): Promise<void> => {
  if (await keepInSlot(kept)) return;
  notify({
    tone: "polite",
    text: "This drive was changed in another tab meanwhile, so this tab goes on with a copy: neither changes the other.",
  });
};

let keepAtOnce = (): Promise<boolean> => Promise.resolve(false);

/** Keeps the open drive now, edited or not, before the page is loaded anew. Returns whether the storage has confirmed it. */
export const keepOpenDrive = (): Promise<boolean> => keepAtOnce();

/** Keeps the drive after each edit from now on; returns the stop function. `store` may stand in for the browser's storage. */
export const autosave = (store: (kept: Kept) => Promise<void> = keepForTab): (() => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts changes, and those that the storage has confirmed. */
  let changes = 0;
  let confirmed = 0;
  let fails = false;

  /** Once, until keeping goes well again. */
  const complain = (error: unknown): void => {
    if (!fails) notify({ tone: "alert", text: explain(error) });
    fails = true;
  };

  const keepNow = async (): Promise<void> => {
    clearTimeout(timer);
    if (changes === confirmed) return;
    // A drag keeps the drive when it ends.
    if (isDragging()) {
      timer = setTimeout(keepNow, DELAY);
      return;
    }
    await claimed;
    const reached = changes;
    const late = setTimeout(() => complain(new DOMException("", "TimeoutError")), PATIENCE);
    try {
      await store(keptNow());
      fails = false;
      // Only what the storage has confirmed is kept: one that never answers must not lose it.
      confirmed = Math.max(confirmed, reached);
    } catch (error) {
      complain(error);
      clearTimeout(timer);
      timer = setTimeout(keepNow, AGAIN);
    } finally {
      clearTimeout(late);
    }
  };
  const changed = (): void => {
    changes += 1;
    clearTimeout(timer);
    timer = setTimeout(keepNow, DELAY);
  };

  const stops = [
    documentStore.subscribe((state, before) => {
      if (state.drive !== before.drive) changed();
    }),
    linkStore.subscribe(changed),
  ];
  const leave = (): void => {
    if (changes === confirmed) return;
    leaveBehind(keptNow());
    void keepNow();
  };
  const hide = (): void => {
    if (document.visibilityState === "hidden") leave();
  };
  const warn = (event: BeforeUnloadEvent): void => {
    if (fails && changes !== confirmed) event.preventDefault();
    leave();
  };
  document.addEventListener("visibilitychange", hide);
  window.addEventListener("beforeunload", warn);
  window.addEventListener("pagehide", leave);
  void claimed.then(() => {
    if (isCopyUnkept) changed();
    isCopyUnkept = false;
  });
  void dropOld().catch(() => undefined);
  keepAtOnce = async () => {
    if (changes === confirmed) changes += 1;
    await Promise.race([keepNow(), new Promise((late) => setTimeout(late, PATIENCE))]);
    return changes === confirmed;
  };

  return () => {
    for (const stop of stops) stop();
    keepAtOnce = () => Promise.resolve(false);
    clearTimeout(timer);
    document.removeEventListener("visibilitychange", hide);
    window.removeEventListener("beforeunload", warn);
    window.removeEventListener("pagehide", leave);
  };
};

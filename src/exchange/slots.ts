/**
 * Where the drive on the bench is kept: a slot of the browser's database for each tab, held by that tab alone. A new tab goes on in the
 * slot written last, or with a copy of it where another tab holds that one. No tab ever writes over what another wrote: each
 * writing looks first, in the same transaction, who wrote last.
 */
import { createStore, entries, get, type UseStore } from "idb-keyval";
import { type Held, heldNames, hold, holdFresh } from "./tab-locks";

export interface Kept {
  /** The drive, as a file has it. */
  readonly text: string;
  /** ms since 1970. */
  readonly at: number;
  /** What undo and redo bring back (`history-text.ts`); left out where there is nothing. */
  readonly history?: string;
  /** The saved drive that this one came from (`saved-link.ts`). */
  readonly saved?: unknown;
}

/** Says which visit of which tab wrote it. */
type Written = Kept & { readonly stamp?: string };

/** What this visit found. */
export interface Claim {
  readonly kept: Kept | undefined;
  /** Another tab has this drive open, and goes on keeping it; this one goes on with a copy. */
  readonly isCopy: boolean;
}

/** How many drives are kept; of those that no tab has open, older ones give way. */
const KEPT = 8;
const TAB = "turnwise.tab";
/** What a page that is left had not yet kept: the storage of a tab is written at once, the database takes its time. */
const LEAVING = "turnwise.leaving";

let database: UseStore | null = null;
const keep = (): UseStore => {
  database ??= createStore("turnwise", "drives");
  return database;
};

/** Storage that may be forbidden: then nothing is remembered, and no harm done. Returns what is there afterwards. */
export const mark = (storage: "localStorage" | "sessionStorage", key: string, value?: string | null): string | null => {
  try {
    if (value === null) window[storage].removeItem(key);
    else if (value !== undefined) window[storage].setItem(key, value);
    return window[storage].getItem(key);
  } catch {
    return null;
  }
};

const freshName = (): string => `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 8)}`;
const lockName = (slot: string): string => `turnwise.slot.${slot}`;

/** A browser may close the database by itself; then it is opened anew, once. */
const inStore = async <T>(
  mode: IDBTransactionMode,
  work: (store: IDBObjectStore) => T | PromiseLike<T>,
): Promise<T> => {
  try {
    return await keep()(mode, work);
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== "InvalidStateError") throw error;
    database = null;
    return keep()(mode, work);
  }
};

/** This visit; each of its writings carries it. */
const visit = freshName();
let slot: string | null = null;
let held: Held | null = null;
/** The stamp of what this visit found in its slot. */
let found: string | null = null;

const stampOf = (written: Written): string => written.stamp ?? String(written.at);

const take = (name: string, hold: Held, there: Written | undefined): void => {
  held?.release();
  [slot, held, found] = [name, hold, there ? stampOf(there) : null];
  // It outlives a reload.
  mark("sessionStorage", TAB, name);
};

/** Goes on in a slot of its own, whatever was found. */
export const takeFresh = async (): Promise<void> => {
  const name = freshName();
  take(name, await holdFresh(lockName(name)), undefined);
};

/** What this tab wrote as it was left, if that can be read. */
const leftBehind = (): Kept | undefined => {
  try {
    const left = JSON.parse(mark("sessionStorage", LEAVING) ?? "null") as Kept | null;
    return left && typeof left.text === "string" && left.at > 0 ? left : undefined;
  } catch {
    return undefined;
  }
};

const newer = (a: Kept | undefined, b: Kept | undefined): Kept | undefined =>
  a && b ? (a.at > b.at ? a : b) : (a ?? b);

/** ms that reading may take: a database that never answers has nothing to bring back. */
const PATIENCE = 3000;

const inTime = <T>(reading: Promise<T>): Promise<T> =>
  new Promise((settle, fail) => {
    const timer = setTimeout(() => fail(new DOMException("The database does not answer.", "TimeoutError")), PATIENCE);
    reading.then(settle, fail).finally(() => clearTimeout(timer));
  });

const byAge = ([, a]: [IDBValidKey, Written], [, b]: [IDBValidKey, Written]): number => b.at - a.at;

/** Finds what this tab is to go on with, and takes hold of a slot. Never throws. */
export const claim = async (): Promise<Claim> => {
  const left = leftBehind();
  try {
    const own = mark("sessionStorage", TAB) ?? (left && freshName());
    if (own) {
      const lock = await hold(lockName(own));
      const there = await inTime(get<Written>(own, keep()));
      const kept = newer(left, there);
      if (kept) {
        if (lock.isMine) take(own, lock, there);
        else await takeFresh();
        return { kept, isCopy: !lock.isMine };
      }
      lock.release();
    }
    const [last] = (await inTime(entries<string, Written>(keep()))).sort(byAge);
    if (last) {
      const [name, there] = last;
      const lock = await hold(lockName(name));
      if (lock.isMine) take(name, lock, there);
      else await takeFresh();
      return { kept: there, isCopy: !lock.isMine };
    }
  } catch {
    // A storage that is forbidden has nothing to bring back.
  }
  await takeFresh();
  return { kept: left, isCopy: false };
};

/**
 * Keeps a drive in this tab's slot, in one transaction. Returns false where another tab has written there meanwhile: then the drive
 * was kept in a slot of its own, and that is what the tab goes on with. Rejects where the browser can't keep it.
 */
export const keepInSlot = async (kept: Kept): Promise<boolean> => {
  if (slot === null) await takeFresh();
  const written: Written = { ...kept, stamp: `${visit} ${kept.at}` };
  if (await put(slot as string, written)) return true;
  await takeFresh();
  await put(slot as string, written);
  return false;
};

const put = (name: string, written: Written): Promise<boolean> =>
  inStore(
    "readwrite",
    (store) =>
      new Promise((settle, fail) => {
        let isOurs = true;
        store.transaction.oncomplete = () => settle(isOurs);
        store.transaction.onabort = () => fail(store.transaction.error);
        const look = store.get(name);
        look.onsuccess = () => {
          const there = look.result as Written | undefined;
          isOurs = !there || stampOf(there) === found || stampOf(there).startsWith(`${visit} `);
          try {
            if (isOurs) store.put(written, name);
          } catch (error) {
            // A browser without room may refuse at once; nothing is written then.
            fail(error);
            store.transaction.abort();
          }
        };
      }),
  );

/** Keeps what could not wait, at once: without its history where there is no room for that. */
export const leaveBehind = (kept: Kept): void => {
  const text = JSON.stringify(kept);
  if (mark("sessionStorage", LEAVING, text) === text) return;
  const { history: _, ...less } = kept;
  mark("sessionStorage", LEAVING, JSON.stringify(less));
};

/** Lets drives go that no tab has open, but for the last few. */
export const dropOld = async (): Promise<void> => {
  const all = (await entries<string, Written>(keep())).sort(byAge);
  if (all.length <= KEPT) return;
  const open = (await heldNames()) ?? new Set<string>();
  const old = all.slice(KEPT).filter(([name]) => name !== slot && !open.has(lockName(name)));
  await inStore("readwrite", (store) => {
    for (const [name] of old) store.delete(name);
  });
};

/** Drives of tabs that are closed, the last first: a tab that begins goes on with one, and the others would be out of reach. */
export const leftInClosedTabs = async (): Promise<readonly Kept[]> => {
  const all = (await entries<string, Written>(keep())).sort(byAge);
  const open = (await heldNames()) ?? new Set<string>();
  return all.flatMap(([name, kept]) => (name === slot || open.has(lockName(name)) ? [] : [kept]));
};

/**
 * The database of saved drives. Two stores: what the list shows of each drive (`heads`), and its text (`drives`), so that the list
 * opens without reading every drive. Each change is one transaction over both: it happens whole or not at all, whatever ends the tab.
 */
import { promisifyRequest } from "idb-keyval";

/** What the list shows of a saved drive. */
export interface Head {
  readonly id: string;
  readonly name: string;
  /** When it was saved last, ms since 1970. */
  readonly at: number;
  /** Counts savings: who saves over it must know the last. */
  readonly revision: number;
  readonly shafts: number;
  readonly gears: number;
  /** A data address; null where none was made yet. */
  readonly picture: string | null;
}

export interface Body {
  readonly id: string;
  /** The drive, as a file has it. */
  readonly text: string;
}

export interface Stores {
  readonly heads: IDBObjectStore;
  readonly drives: IDBObjectStore;
}

const NAME = "turnwise.saved";
const VERSION = 1;
/** ms that opening waits for other tabs that still hold an older version open. */
const PATIENCE = 3000;

/** Why the browser did not do it, as one sentence that begins with `what`, such as "Mill was not saved". */
export class StorageTrouble extends Error {
  constructor(
    readonly why: string,
    cause: unknown,
  ) {
    super(why, { cause });
  }
}

const ADVICE: Readonly<Record<string, string>> = {
  QuotaExceededError: "the browser's storage is full; export and delete some drives, or save this one as a file",
  BlockedError: "another tab holds an older version of the saved drives open; close or reload it, and try again",
  VersionError: "the saved drives were last kept by a newer Turnwise; load this page again",
  SecurityError: "the browser does not let this page keep anything; save drives as files",
};
const ELSE =
  "the browser's storage stopped half-way, so nothing of it was done; try again, or save the drive as a file";

/** Null where the browser has none, or forbids so much as to look for it. */
const factory = (): IDBFactory | null => {
  try {
    return globalThis.indexedDB ?? null;
  } catch {
    return null;
  }
};

const nameOf = (error: unknown): string => (error instanceof Error || error instanceof DOMException ? error.name : "");

export const troubleOf = (error: unknown): StorageTrouble => {
  if (error instanceof StorageTrouble) return error;
  // Where a browser has no database at all, the name of it is unknown.
  const name = factory() === null ? "SecurityError" : nameOf(error);
  return new StorageTrouble(ADVICE[name] ?? ELSE, error);
};

let opened: Promise<IDBDatabase> | null = null;

const open = (): Promise<IDBDatabase> =>
  new Promise((settle, fail) => {
    const request = factory()?.open(NAME, VERSION);
    if (!request) {
      fail(new DOMException("There is no database.", "SecurityError"));
      return;
    }
    let isLate = false;
    const timer = setTimeout(() => {
      isLate = true;
      fail(new DOMException("The database is held by another tab.", "BlockedError"));
    }, PATIENCE);
    request.onupgradeneeded = () => {
      const database = request.result;
      database.createObjectStore("heads", { keyPath: "id" }).createIndex("name", "name");
      database.createObjectStore("drives", { keyPath: "id" });
    };
    request.onsuccess = () => {
      clearTimeout(timer);
      const database = request.result;
      if (isLate) {
        database.close();
        return;
      }
      // Never in the way of a newer version in another tab, nor kept when the browser closes it.
      database.onversionchange = () => {
        database.close();
        opened = null;
      };
      database.onclose = () => {
        opened = null;
      };
      settle(database);
    };
    request.onerror = () => {
      clearTimeout(timer);
      fail(request.error);
    };
  });

const database = (): Promise<IDBDatabase> => {
  if (!opened) {
    const opening = open();
    opened = opening;
    opening.catch(() => {
      if (opened === opening) opened = null;
    });
  }
  return opened;
};

/** Closes the database; the next transaction opens it again. */
export const closeSaved = async (): Promise<void> => {
  const closing = opened;
  opened = null;
  (await closing?.catch(() => null))?.close();
};

const begin = async (mode: IDBTransactionMode): Promise<IDBTransaction> => {
  const start = (db: IDBDatabase): IDBTransaction =>
    // A saved drive is on the disk when it is said to be.
    db.transaction(["heads", "drives"], mode, mode === "readwrite" ? { durability: "strict" } : {});
  const db = await database();
  try {
    return start(db);
  } catch (error) {
    // Closed behind our back: opened anew, once.
    if (nameOf(error) !== "InvalidStateError") throw error;
    opened = null;
    return start(await database());
  }
};

/**
 * Runs `work` in one transaction and settles when it is complete. Whatever goes wrong within, nothing of it was done.
 * @throws {StorageTrouble}
 */
export const transact = async <T>(mode: IDBTransactionMode, work: (stores: Stores) => Promise<T>): Promise<T> => {
  let transaction: IDBTransaction | null = null;
  try {
    transaction = await begin(mode);
    const done = promisifyRequest(transaction);
    // Heard below, after the work.
    done.catch(() => undefined);
    const result = await work({ heads: transaction.objectStore("heads"), drives: transaction.objectStore("drives") });
    await done;
    return result;
  } catch (error) {
    try {
      transaction?.abort();
    } catch {
      // It has ended by itself already.
    }
    // The request that failed says less than the transaction that it brought down.
    throw troubleOf(nameOf(error) === "AbortError" ? (transaction?.error ?? error) : error);
  }
};

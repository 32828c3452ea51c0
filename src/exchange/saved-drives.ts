/**
 * Saved drives: named, in the browser's own database. Nothing here writes over a drive that somebody else saved meanwhile, and no name
 * is given twice. Every function rejects with a `StorageTrouble` where the browser did not do it; then nothing was changed.
 */
import { promisifyRequest } from "idb-keyval";
import type { Drive } from "../engine/drive/types";
import { writeDrive } from "../engine/drive/write";
import { type Body, type Head, type Stores, transact } from "./saved-database";

/** Letters of a name. */
export const LONGEST_NAME = 200;

export interface Saved {
  readonly head: Head;
  readonly text: string;
}

/** Makes the small picture of a drive, as a data address; null where it can't. */
export type Painter = (drive: Drive) => string | null;

const freshId = (): string => `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;

export const cleanName = (name: string): string =>
  name.replace(/\p{C}/gu, " ").replace(/\s+/g, " ").trim().slice(0, LONGEST_NAME) || "Untitled drive";

/** The name, or where it is taken `name (copy)`, `name (copy 2)` ... */
export const freeName = (name: string, isTaken: (name: string) => boolean): string => {
  if (!isTaken(name)) return name;
  const stem = name.replace(/ \(copy(?: \d+)?\)$/, "");
  for (let count = 1; ; count++) {
    const ending = count === 1 ? " (copy)" : ` (copy ${count})`;
    const next = `${stem.slice(0, LONGEST_NAME - ending.length)}${ending}`;
    if (!isTaken(next)) return next;
  }
};

const allNames = async ({ heads }: Stores): Promise<Set<string>> => {
  // Keys of the index only: pictures stay where they are.
  const names = new Set<string>();
  const request = heads.index("name").openKeyCursor();
  await new Promise<void>((settle, fail) => {
    request.onsuccess = () => {
      const cursor = request.result;
      if (!cursor) return settle();
      names.add(cursor.key as string);
      cursor.continue();
    };
    request.onerror = () => fail(request.error);
  });
  return names;
};

const get = async ({ heads, drives }: Stores, id: string): Promise<Saved | null> => {
  const head = await promisifyRequest<Head | undefined>(heads.get(id));
  const body = await promisifyRequest<Body | undefined>(drives.get(id));
  return head && body ? { head, text: body.text } : null;
};

const put = async ({ heads, drives }: Stores, { head, text }: Saved): Promise<Head> => {
  // One after the other: where the second can't even be asked, nobody would hear the first fail.
  await promisifyRequest(drives.put({ id: head.id, text } satisfies Body));
  await promisifyRequest(heads.put(head));
  return head;
};

const made = (name: string, drive: Drive, picture: string | null): Saved => ({
  head: {
    id: freshId(),
    name: cleanName(name),
    at: Date.now(),
    revision: 1,
    shafts: drive.shafts.length,
    gears: drive.gears.length,
    picture,
  },
  text: writeDrive(drive),
});

/** What the list shows of all saved drives, the last saved first. */
export const listSaved = async (): Promise<readonly Head[]> => {
  const heads = await transact("readonly", ({ heads }) => promisifyRequest<Head[]>(heads.getAll()));
  return heads.sort((a, b) => b.at - a.at || (a.name < b.name ? -1 : 1));
};

/** A saved drive; null where it is no longer there. */
export const readSaved = (id: string): Promise<Saved | null> => transact("readonly", (stores) => get(stores, id));

/** All of them, in the order of the list: for the file that holds them all. */
export const readAllSaved = async (): Promise<readonly Saved[]> => {
  const [heads, bodies] = await transact("readonly", ({ heads, drives }) =>
    Promise.all([promisifyRequest<Head[]>(heads.getAll()), promisifyRequest<Body[]>(drives.getAll())]),
  );
  const texts = new Map(bodies.map(({ id, text }) => [id, text]));
  return heads
    .sort((a, b) => b.at - a.at)
    .flatMap((head) => {
      const text = texts.get(head.id);
      return text === undefined ? [] : [{ head, text }];
    });
};

/** Saves a drive under a name of its own: where the name is taken it becomes a copy. */
export const saveNew = (name: string, drive: Drive, paint: Painter): Promise<Head> => {
  const saved = made(name, drive, paint(drive));
  return transact("readwrite", async (stores) => {
    const names = await allNames(stores);
    return put(stores, { ...saved, head: { ...saved.head, name: freeName(saved.head.name, (one) => names.has(one)) } });
  });
};

/**
 * Saves a drive in the place of one that is there, if that is still the revision that the caller knows. Where somebody else saved it
 * meanwhile, or deleted it, a copy is saved beside it instead: `isCopy`.
 */
export const saveOver = (
  known: { readonly id: string; readonly name: string; readonly revision: number },
  drive: Drive,
  paint: Painter,
): Promise<{ readonly head: Head; readonly isCopy: boolean }> => {
  const saved = made(known.name, drive, paint(drive));
  return transact("readwrite", async (stores) => {
    const there = await promisifyRequest<Head | undefined>(stores.heads.get(known.id));
    if (there?.revision === known.revision) {
      const { id, name, revision } = there;
      const head = await put(stores, { ...saved, head: { ...saved.head, id, name, revision: revision + 1 } });
      return { head, isCopy: false };
    }
    const names = await allNames(stores);
    const name = freeName(saved.head.name, (one) => names.has(one));
    return { head: await put(stores, { ...saved, head: { ...saved.head, name } }), isCopy: true };
  });
};

/** Gives a saved drive another name; null where it is no longer there. A name that is taken becomes one of a copy. */
export const renameSaved = (id: string, name: string): Promise<Head | null> =>
  transact("readwrite", async (stores) => {
    const there = await promisifyRequest<Head | undefined>(stores.heads.get(id));
    if (!there) return null;
    const names = await allNames(stores);
    names.delete(there.name);
    const head = { ...there, name: freeName(cleanName(name), (one) => names.has(one)) };
    await promisifyRequest(stores.heads.put(head));
    return head;
  });

/** A second drive like the first; null where that is no longer there. */
export const duplicateSaved = (id: string): Promise<Head | null> =>
  transact("readwrite", async (stores) => {
    const there = await get(stores, id);
    if (!there) return null;
    const names = await allNames(stores);
    const name = freeName(there.head.name, (one) => names.has(one));
    return put(stores, { ...there, head: { ...there.head, id: freshId(), name, at: Date.now(), revision: 1 } });
  });

/** Deletes a saved drive and gives it back, for `restoreSaved`; null where it was no longer there. */
export const deleteSaved = (id: string): Promise<Saved | null> =>
  transact("readwrite", async (stores) => {
    const there = await get(stores, id);
    if (!there) return null;
    await promisifyRequest(stores.heads.delete(id));
    await promisifyRequest(stores.drives.delete(id));
    return there;
  });

/** Takes a deletion back. Where its name was given to another drive meanwhile it becomes a copy. */
export const restoreSaved = (saved: Saved): Promise<Head> =>
  transact("readwrite", async (stores) => {
    const { head, text } = saved;
    const names = await allNames(stores);
    const isTaken = (await promisifyRequest(stores.heads.getKey(head.id))) !== undefined;
    const name = freeName(head.name, (one) => names.has(one));
    return put(stores, { head: { ...head, id: isTaken ? freshId() : head.id, name }, text });
  });

/** Adds drives, all or none. None takes the place of another: a name that is taken becomes one of a copy. */
export const addSaved = (
  drives: readonly { readonly name: string; readonly drive: Drive }[],
  paint: Painter = () => null,
): Promise<readonly Head[]> => {
  const all = drives.map(({ name, drive }) => made(name, drive, paint(drive)));
  return transact("readwrite", async (stores) => {
    const names = await allNames(stores);
    return Promise.all(
      all.map((saved) => {
        const name = freeName(saved.head.name, (one) => names.has(one));
        names.add(name);
        return put(stores, { ...saved, head: { ...saved.head, name } });
      }),
    );
  });
};

/** Keeps the pictures of drives that had none. Leaves alone what was saved anew meanwhile. */
export const keepPictures = (pictures: readonly { readonly head: Head; readonly picture: string }[]): Promise<void> =>
  transact("readwrite", async ({ heads }) => {
    for (const { head, picture } of pictures) {
      const there = await promisifyRequest<Head | undefined>(heads.get(head.id));
      if (there && there.revision === head.revision) await promisifyRequest(heads.put({ ...there, picture }));
    }
  });

export interface Room {
  /** Bytes in use by this page, and the most that the browser lets it use; null where it does not say. */
  readonly used: number | null;
  readonly most: number | null;
  /** Whether the browser has promised to keep it all; null where it does not say. */
  readonly isPersistent: boolean | null;
}

/** How full the browser's storage is. */
export const storageRoom = async (): Promise<Room> => {
  try {
    const [{ usage, quota }, isPersistent] = await Promise.all([
      navigator.storage.estimate(),
      navigator.storage.persisted(),
    ]);
    return { used: usage ?? null, most: quota ?? null, isPersistent };
  } catch {
    return { used: null, most: null, isPersistent: null };
  }
};

/** Asks the browser not to clear what is saved when the disk runs short. Some browsers ask the person. */
export const askToPersist = async (): Promise<void> => {
  try {
    if (!(await navigator.storage.persisted())) await navigator.storage.persist();
  } catch {
    // A browser that can't promise keeps it as well as it can.
  }
};

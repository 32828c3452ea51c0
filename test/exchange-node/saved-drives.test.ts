/**
 * Saved drives in the browser's database, played by fake-indexeddb (an independent implementation of the standard, run against its
 * web platform tests): names, copies, deletion and its undo; and an error at every single write, after which all is as before.
 */
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { newDrive } from "../../src/engine/drive/defaults";
import { parseDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { writeDrive } from "../../src/engine/drive/write";
import { closeSaved, type Head, StorageTrouble, transact } from "../../src/exchange/saved-database";
import {
  addSaved,
  cleanName,
  deleteSaved,
  duplicateSaved,
  freeName,
  keepPictures,
  listSaved,
  readAllSaved,
  readSaved,
  renameSaved,
  restoreSaved,
  saveNew,
  saveOver,
} from "../../src/exchange/saved-drives";
import { randomTree } from "../support/random-drives";

const paint = (): string => "data:image/png;base64,AAAA";
const mill: Drive = { ...newDrive(), title: "Mill" };
const winch: Drive = { ...randomTree(4, 6, 3), title: "Kite winch" };

beforeEach(async () => {
  await closeSaved();
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => vi.restoreAllMocks());

const names = async (): Promise<string[]> => (await listSaved()).map(({ name }) => name);

describe("saved drives", () => {
  it("are listed with what is in them, and read back letter by letter", async () => {
    const head = await saveNew(" Kite\nwinch ", winch, paint);
    expect(head).toMatchObject({ name: "Kite winch", revision: 1, shafts: 6, gears: 10, picture: paint() });
    expect(await listSaved()).toEqual([head]);
    expect((await readSaved(head.id))?.text).toBe(writeDrive(winch));
    expect(await readSaved("nobody")).toBeNull();
  });

  it("never share a name", async () => {
    for (let i = 0; i < 3; i++) await saveNew("Mill", mill, paint);
    const [first] = await listSaved();
    await duplicateSaved(first?.id ?? "");
    expect((await names()).sort()).toEqual(["Mill", "Mill (copy 2)", "Mill (copy 3)", "Mill (copy)"]);
    const other = await saveNew("Mixer", winch, paint);
    expect((await renameSaved(other.id, "Mill"))?.name).toBe("Mill (copy 4)");
    expect((await renameSaved(other.id, "Mill (copy 4)"))?.name).toBe("Mill (copy 4)");
    expect((await renameSaved(other.id, "Mixer again"))?.name).toBe("Mixer again");
    expect(await renameSaved("nobody", "x")).toBeNull();
  });

  it.each([
    ["Mill", "Mill (copy)"],
    ["Mill (copy)", "Mill (copy 2)"],
    ["x".repeat(200), `${"x".repeat(193)} (copy)`],
  ])("a copy of %.20s is called %.20s", (name, copy) => {
    const taken = new Set([name, "Mill (copy)"].filter((one) => one !== copy));
    expect(freeName(name, (one) => taken.has(one))).toBe(copy);
    expect(copy.length).toBeLessThanOrEqual(200);
  });

  it("a name is one line, and never none", () => {
    expect(cleanName(" \u202e\n")).toBe("Untitled drive");
    expect(cleanName("a\tb")).toBe("a b");
  });

  it("saving over one that somebody else saved meanwhile, or deleted, makes a copy", async () => {
    const known = await saveNew("Mill", mill, paint);
    const theirs = await saveOver(known, winch, paint);
    expect(theirs).toMatchObject({ isCopy: false, head: { id: known.id, revision: 2 } });
    const ours = await saveOver(known, { ...mill, notes: "ours" }, paint);
    expect(ours).toMatchObject({ isCopy: true, head: { name: "Mill (copy)", revision: 1 } });
    expect((await readSaved(known.id))?.text).toBe(writeDrive(winch));
    await deleteSaved(known.id);
    expect((await saveOver(theirs.head, mill, paint)).isCopy).toBe(true);
    expect((await names()).sort()).toEqual(["Mill", "Mill (copy)"]);
  });

  it("two tabs that save over the same one at the same time: one of them is a copy, and both are there", async () => {
    const known = await saveNew("Mill", mill, paint);
    const [a, b] = await Promise.all([
      saveOver(known, { ...mill, notes: "a" }, paint),
      saveOver(known, { ...mill, notes: "b" }, paint),
    ]);
    expect([a.isCopy, b.isCopy].sort()).toEqual([false, true]);
    const texts = (await readAllSaved()).map(({ text }) => parseDrive(text).drive?.notes).sort();
    expect(texts).toEqual(["a", "b"]);
  });

  it("come back after deletion just as they were, under another name where theirs was given away", async () => {
    const head = await saveNew("Mill", mill, paint);
    const gone = await deleteSaved(head.id);
    expect(await names()).toEqual([]);
    if (!gone) throw new Error("Nothing was deleted.");
    expect(await restoreSaved(gone)).toEqual(head);
    expect(await readSaved(head.id)).toEqual(gone);
    expect((await restoreSaved(gone)).name).toBe("Mill (copy)");
    expect(await deleteSaved("nobody")).toBeNull();
  });

  it("added ones never take the place of those there", async () => {
    await saveNew("Mill", mill, paint);
    const added = await addSaved([
      { name: "Mill", drive: winch },
      { name: "Mill", drive: winch },
      { name: "Mixer", drive: mill },
    ]);
    expect(added.map(({ name }) => name)).toEqual(["Mill (copy)", "Mill (copy 2)", "Mixer"]);
    expect(added.every(({ picture }) => picture === null)).toBe(true);
    expect(await names()).toHaveLength(4);
  });

  it("a picture that comes late leaves alone what was saved anew", async () => {
    const [head] = await addSaved([{ name: "Mill", drive: mill }]);
    const [second] = await addSaved([{ name: "Mixer", drive: mill }]);
    if (!head || !second) throw new Error("Nothing was added.");
    await saveOver(second, winch, () => "data:new");
    await deleteSaved("nobody");
    await keepPictures([head, second, { ...head, id: "gone" }].map((one) => ({ head: one, picture: "data:late" })));
    expect((await listSaved()).map(({ name, picture }) => [name, picture]).sort()).toEqual([
      ["Mill", "data:late"],
      ["Mixer", "data:new"],
    ]);
  });
});

/** All that is in the database, and that it hangs together: every head has its drive and every drive its head. */
const contents = async (): Promise<unknown> => {
  const [heads, bodies] = await transact("readonly", ({ heads, drives }) =>
    Promise.all(
      [heads, drives].map(
        (store) =>
          new Promise<{ id: string; text?: string }[]>((settle) => {
            const request = store.getAll();
            request.onsuccess = () => settle(request.result);
          }),
      ),
    ),
  );
  expect(heads?.map(({ id }) => id)).toEqual(bodies?.map(({ id }) => id));
  for (const { text } of bodies ?? []) expect(parseDrive(text ?? "").faults).toBeUndefined();
  return { heads, bodies };
};

/** Each way of changing what is saved. */
const changes: Readonly<Record<string, (there: readonly Head[]) => Promise<unknown>>> = {
  "saving a new one": () => saveNew("Mill", mill, paint),
  "saving over one": ([first]) => saveOver(first as Head, winch, paint),
  "saving over one that was changed": ([first]) => saveOver({ ...(first as Head), revision: 9 }, winch, paint),
  renaming: ([first]) => renameSaved(first?.id ?? "", "Other"),
  duplicating: ([first]) => duplicateSaved(first?.id ?? ""),
  deleting: ([first]) => deleteSaved(first?.id ?? ""),
  "taking a deletion back": ([first]) =>
    restoreSaved({ head: { ...(first as Head), id: "back" }, text: writeDrive(mill) }),
  "adding three": () => addSaved([mill, winch, mill].map((drive) => ({ name: "Mill", drive }))),
  "keeping pictures": (there) => keepPictures(there.map((head) => ({ head, picture: "data:new" }))),
};

/** Ways in which one write can go wrong. */
const faults: Readonly<Record<string, { fail: (store: IDBObjectStore) => never | IDBRequest; sentence: RegExp }>> = {
  "the storage is full": {
    fail: () => {
      throw new DOMException("full", "QuotaExceededError");
    },
    sentence: /^the browser's storage is full; export and delete some drives, or save this one as a file$/,
  },
  "the transaction is cut off": {
    fail: (store) => {
      store.transaction.abort();
      throw new DOMException("cut", "AbortError");
    },
    sentence: /^the browser's storage stopped half-way, so nothing of it was done; try again/,
  },
  "the request fails": {
    // A key that is there already: the request fails later, by an event, and brings the transaction down.
    fail: (store) => {
      store.add({ id: "twice" });
      return store.add({ id: "twice" });
    },
    sentence: /^the browser's storage stopped half-way/,
  },
  "the connection is closed": {
    fail: (store) => {
      store.transaction.db.close();
      store.transaction.abort();
      throw new DOMException("closed", "InvalidStateError");
    },
    sentence: /^the browser's storage stopped half-way/,
  },
};

describe("an error at every write", () => {
  for (const [what, change] of Object.entries(changes)) {
    for (const [how, { fail, sentence }] of Object.entries(faults)) {
      it(`${what}, ${how}: all is as it was, one sentence, and it works the next time`, async () => {
        await saveNew("Mill", mill, paint);
        await saveNew("Kite winch", winch, paint);
        const there = await listSaved();
        const before = await contents();
        let writes = 0;
        let failAt = Number.POSITIVE_INFINITY;
        for (const method of ["put", "delete"] as const) {
          const store = (globalThis as unknown as { IDBObjectStore: { prototype: IDBObjectStore } }).IDBObjectStore;
          const real = store.prototype[method] as (...args: unknown[]) => IDBRequest;
          vi.spyOn(store.prototype, method).mockImplementation(function (this: IDBObjectStore, ...args: unknown[]) {
            writes += 1;
            return writes === failAt ? (fail(this) as never) : (real.apply(this, args) as never);
          });
        }
        // Once without fault, to count; then taken back by a fresh database with the same contents.
        const snapshot = await readAllSaved();
        await change(there);
        const count = writes;
        expect(count).toBeGreaterThan(0);
        await closeSaved();
        globalThis.indexedDB = new IDBFactory();
        for (const saved of snapshot) await restoreSaved(saved);
        expect(await contents()).toEqual(before);
        for (let nth = 1; nth <= count; nth++) {
          writes = 0;
          failAt = nth;
          const error = await change(there).then(
            () => null,
            (error: unknown) => error,
          );
          expect(error).toBeInstanceOf(StorageTrouble);
          expect((error as StorageTrouble).why).toMatch(sentence);
          failAt = Number.POSITIVE_INFINITY;
          expect(await contents()).toEqual(before);
        }
        await change(there);
        await contents();
      });
    }
  }
});

describe("a database that does not open", () => {
  it("held by a tab of an older version: says so, and opens once that has gone", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    // A tab has version 1 open and does not give way; the page asks for the next one.
    const real = indexedDB.open.bind(indexedDB);
    const held = await new Promise<IDBDatabase>((settle) => {
      const request = real("turnwise.saved", 1);
      request.onsuccess = () => settle(request.result);
    });
    vi.spyOn(indexedDB, "open").mockImplementation((name) => real(name, 2));
    const listing = listSaved().then(
      () => null,
      (error: StorageTrouble) => error.why,
    );
    await vi.advanceTimersByTimeAsync(4000);
    vi.useRealTimers();
    expect(await listing).toMatch(/^another tab holds an older version of the saved drives open; close or reload it/);
    held.close();
  });

  it("kept by a newer version: says so", async () => {
    const newer = await new Promise<IDBDatabase>((settle) => {
      const request = indexedDB.open("turnwise.saved", 9);
      request.onsuccess = () => settle(request.result);
    });
    newer.close();
    await expect(listSaved()).rejects.toThrow(/kept by a newer Turnwise; load this page again/);
  });

  it("forbidden: says so", async () => {
    vi.spyOn(indexedDB, "open").mockImplementation(() => {
      throw new DOMException("no", "SecurityError");
    });
    await expect(saveNew("Mill", mill, paint)).rejects.toThrow(/does not let this page keep anything/);
    vi.restoreAllMocks();
    await saveNew("Mill", mill, paint);
    expect(await names()).toEqual(["Mill"]);
  });

  it("so forbidden that it can't even be looked for: says so", async () => {
    vi.spyOn(globalThis, "indexedDB", "get").mockImplementation(() => {
      throw new DOMException("no", "SecurityError");
    });
    await expect(saveNew("Mill", mill, paint)).rejects.toThrow(/does not let this page keep anything/);
    vi.restoreAllMocks();
    await saveNew("Mill", mill, paint);
    expect(await names()).toEqual(["Mill"]);
  });

  it("gives way to a newer version in another tab, and is opened anew when it is closed behind our back", async () => {
    await saveNew("Mill", mill, paint);
    await transact("readonly", async ({ heads }) => heads.transaction.db.close());
    expect(await names()).toEqual(["Mill"]);
    const newer = await new Promise<IDBDatabase>((settle, fail) => {
      const request = indexedDB.open("turnwise.saved", 2);
      request.onsuccess = () => settle(request.result);
      request.onblocked = () => fail(new Error("The page stands in the way of the newer version."));
    });
    newer.close();
  });
});

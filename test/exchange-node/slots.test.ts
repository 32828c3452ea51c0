/**
 * Tabs that share one database (played by fake-indexeddb): each is the same module loaded anew, with a storage of its own. Web Locks
 * are played by a map, as the standard has them for exclusive locks; other tabs are asked by Node's own BroadcastChannel.
 */
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Kept } from "../../src/exchange/slots";

type Slots = typeof import("../../src/exchange/slots");

/** A storage of strings, as `sessionStorage`; `room` characters at most. */
class Strings extends Map<string, string> {
  room = Number.POSITIVE_INFINITY;
  getItem(key: string): string | null {
    return this.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    if (value.length > this.room) throw new DOMException("full", "QuotaExceededError");
    this.set(key, value);
  }
  removeItem(key: string): void {
    this.delete(key);
  }
}

/** Exclusive locks, by the tab that holds them. */
class Locks {
  readonly holders = new Map<string, object>();
  readonly waiting = new Map<string, (() => void)[]>();

  of(tab: object): object {
    return {
      query: async () => ({ held: [...this.holders.keys()].map((name) => ({ name })) }),
      request: (
        name: string,
        { ifAvailable, signal }: { ifAvailable?: boolean; signal?: AbortSignal },
        granted: (lock: object | null) => Promise<void> | undefined,
      ) =>
        new Promise<void>((settle, fail) => {
          const grant = (): void => {
            this.holders.set(name, tab);
            void Promise.resolve(granted({ name })).then(() => {
              this.free(name);
              settle();
            });
          };
          if (!this.holders.has(name)) return grant();
          if (ifAvailable) return void Promise.resolve(granted(null)).then(settle);
          this.waiting.set(name, [...(this.waiting.get(name) ?? []), grant]);
          signal?.addEventListener("abort", () => {
            this.waiting.set(
              name,
              (this.waiting.get(name) ?? []).filter((one) => one !== grant),
            );
            fail(new DOMException("too long", "AbortError"));
          });
        }),
    };
  }
  free(name: string): void {
    this.holders.delete(name);
    this.waiting.get(name)?.shift()?.();
  }
  /** The tab is gone: all that it held is free. */
  end(tab: object): void {
    for (const [name, holder] of [...this.holders]) if (holder === tab) this.free(name);
  }
}

let locks: Locks | null = null;
let channels: { close(): void }[] = [];
const RealChannel = globalThis.BroadcastChannel;

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  locks = new Locks();
  channels = [];
});
afterEach(() => {
  for (const channel of channels) channel.close();
  vi.unstubAllGlobals();
});

interface Tab {
  readonly slots: Slots;
  readonly session: Strings;
  /** Runs something as this tab. */
  as<T>(work: (slots: Slots) => Promise<T>): Promise<T>;
  /** It answers no more: it is going, or asleep. */
  fallSilent(): void;
  close(): void;
}

/** Opens a tab: a new one, or with the storage of one that was reloaded or duplicated. */
const tab = async (session = new Strings()): Promise<Tab> => {
  vi.resetModules();
  const self = {};
  const globals = (): void => {
    vi.stubGlobal("window", { sessionStorage: session, localStorage: new Strings() });
    vi.stubGlobal("navigator", { locks: locks?.of(self) });
  };
  const own: { close(): void }[] = [];
  vi.stubGlobal(
    "BroadcastChannel",
    RealChannel &&
      class extends RealChannel {
        constructor(name: string) {
          super(name);
          own.push(this);
          channels.push(this);
        }
      },
  );
  globals();
  const slots = await import("../../src/exchange/slots");
  return {
    slots,
    session,
    as: (work) => {
      globals();
      return work(slots);
    },
    fallSilent: () => {
      for (const channel of own) channel.close();
    },
    close: () => {
      locks?.end(self);
      for (const channel of own) channel.close();
    },
  };
};

let at = 1000;
const drive = (text: string): Kept => {
  at += 1;
  return { text, at, history: `history of ${text}` };
};
const found = (one: Tab): Promise<{ text: string | undefined; isCopy: boolean }> =>
  one.as(async (slots) => {
    const { kept, isCopy } = await slots.claim();
    return { text: kept?.text, isCopy };
  });
const keep = (one: Tab, text: string): Promise<boolean> => one.as((slots) => slots.keepInSlot(drive(text)));

it("a database that never answers brings back what the tab itself had left, within a few seconds", async () => {
  const first = await tab();
  await found(first);
  first.as(async (slots) => slots.leaveBehind(drive("mill")));
  first.close();
  vi.spyOn(indexedDB, "open").mockImplementation(() => new EventTarget() as IDBOpenDBRequest);
  const again = await tab(first.session);
  const begun = performance.now();
  expect(await found(again)).toEqual({ text: "mill", isCopy: false });
  expect(performance.now() - begun).toBeLessThan(8000);
  vi.restoreAllMocks();
});

const ways: Readonly<Record<string, () => void>> = {
  "with Web Locks": () => undefined,
  "without Web Locks, by asking the other tabs": () => {
    locks = null;
  },
};

for (const [how, prepare] of Object.entries(ways)) {
  describe(`two tabs on one drive, ${how}`, () => {
    beforeEach(prepare);

    it("a first visit finds nothing; a reload finds what it kept, history and all", async () => {
      const first = await tab();
      expect(await found(first)).toEqual({ text: undefined, isCopy: false });
      expect(await keep(first, "mill")).toBe(true);
      first.close();
      const again = await tab(first.session);
      const { kept } = await again.as((slots) => slots.claim());
      expect(kept).toMatchObject({ text: "mill", history: "history of mill" });
      expect(await keep(again, "mill 2")).toBe(true);
    });

    it("the second goes on as a copy, and neither writes over the other", async () => {
      const first = await tab();
      await found(first);
      await keep(first, "mill");
      const second = await tab();
      expect(await found(second)).toEqual({ text: "mill", isCopy: true });
      expect(await keep(second, "mill of the second")).toBe(true);
      expect(await keep(first, "mill of the first")).toBe(true);
      for (const one of [first, second]) one.close();
      expect(await found(await tab(first.session))).toEqual({ text: "mill of the first", isCopy: false });
      expect(await found(await tab(second.session))).toEqual({ text: "mill of the second", isCopy: false });
    });

    it("closing the first frees it: a new tab goes on with the drive itself", async () => {
      const first = await tab();
      await found(first);
      await keep(first, "mill");
      first.close();
      const second = await tab();
      expect(await found(second)).toEqual({ text: "mill", isCopy: false });
      await keep(second, "mill 2");
      // In the same place: there is no second drive left behind.
      expect(await second.as((slots) => slots.leftInClosedTabs())).toEqual([]);
    });

    it("a duplicated tab, which has the storage of the first, goes on as a copy", async () => {
      const first = await tab();
      await found(first);
      await keep(first, "mill");
      const twin = await tab(new Strings(first.session));
      expect(await found(twin)).toEqual({ text: "mill", isCopy: true });
      await keep(twin, "mill of the twin");
      await keep(first, "mill of the first");
      twin.close();
      expect(await found(await tab(twin.session))).toEqual({ text: "mill of the twin", isCopy: false });
    });

    it("drives of closed tabs stay within reach, those of open tabs are theirs", async () => {
      const [a, b, c] = [await tab(), await tab(), await tab()];
      for (const one of [a, b, c]) {
        await found(one);
        await keep(one, `drive ${[a, b, c].indexOf(one)}`);
      }
      b.close();
      const left = await c.as((slots) => slots.leftInClosedTabs());
      // Without locks nobody can say which tabs are open.
      expect(left.map(({ text }) => text)).toEqual(locks ? ["drive 1"] : ["drive 1", "drive 0"]);
    });
  });
}

describe("without locks and without a way to ask", () => {
  beforeEach(() => {
    locks = null;
  });
  it("who writes second goes on in a slot of its own, and is told so", async () => {
    const first = await tab();
    vi.stubGlobal("BroadcastChannel", undefined);
    await found(first);
    await keep(first, "mill");
    const second = await tab();
    vi.stubGlobal("BroadcastChannel", undefined);
    expect(await found(second)).toEqual({ text: "mill", isCopy: false });
    expect(await keep(second, "mill of the second")).toBe(true);
    expect(await keep(first, "mill of the first")).toBe(false);
    expect(await keep(first, "mill of the first, on")).toBe(true);
    expect(await keep(second, "mill of the second, on")).toBe(true);
    expect((await found(await tab(second.session))).text).toBe("mill of the second, on");
    expect((await found(await tab(first.session))).text).toBe("mill of the first, on");
  });
});

describe("leaving", () => {
  it("what the database did not get any more is found in the tab's own storage", async () => {
    const first = await tab();
    await found(first);
    await keep(first, "mill");
    await first.as(async (slots) => slots.leaveBehind(drive("mill, the last edit")));
    first.close();
    const again = await tab(first.session);
    const { kept } = await again.as((slots) => slots.claim());
    expect(kept).toMatchObject({ text: "mill, the last edit", history: "history of mill, the last edit" });
  });

  it("without room for the history the drive itself is kept", async () => {
    const first = await tab();
    await found(first);
    first.session.room = 100;
    await first.as(async (slots) => slots.leaveBehind({ ...drive("mill"), history: "x".repeat(200) }));
    first.close();
    const { kept } = await (await tab(first.session)).as((slots) => slots.claim());
    expect(kept).toEqual({ text: "mill", at });
  });

  it("a reload that comes before the old page has gone waits for it", async () => {
    const first = await tab();
    await found(first);
    await keep(first, "mill");
    const again = await tab(first.session);
    first.fallSilent();
    setTimeout(() => first.close(), 600);
    expect(await found(again)).toEqual({ text: "mill", isCopy: false });
  });

  it("a tab that is asleep keeps its drive: who comes waits a while for an answer, and goes on with a copy", async () => {
    const first = await tab();
    await found(first);
    await keep(first, "mill");
    const second = await tab();
    first.fallSilent();
    expect(await found(second)).toEqual({ text: "mill", isCopy: true });
  });
});

describe("an error at every write", () => {
  const prototype = (): IDBObjectStore =>
    (globalThis as unknown as { IDBObjectStore: { prototype: IDBObjectStore } }).IDBObjectStore.prototype;

  it.each([
    [
      "full",
      (): never => {
        throw new DOMException("full", "QuotaExceededError");
      },
    ],
    [
      "cut off",
      (store: IDBObjectStore): never => {
        store.transaction.abort();
        throw new DOMException("cut", "AbortError");
      },
    ],
  ] as [string, (store: IDBObjectStore) => never][])(
    "%s: rejects, and what was kept before is whole",
    async (_how, fail) => {
      const first = await tab();
      await found(first);
      await keep(first, "mill");
      const spy = vi.spyOn(prototype(), "put").mockImplementation(function (this: IDBObjectStore) {
        return fail(this);
      });
      await expect(keep(first, "mill 2")).rejects.toBeDefined();
      spy.mockRestore();
      first.close();
      const again = await tab(first.session);
      expect(await found(again)).toEqual({ text: "mill", isCopy: false });
      expect(await keep(again, "mill 3")).toBe(true);
    },
  );

  it("a connection that was closed behind our back is opened anew", async () => {
    const first = await tab();
    await found(first);
    await keep(first, "mill");
    const real = prototype().get;
    const connections: IDBDatabase[] = [];
    const spy = vi.spyOn(prototype(), "get").mockImplementation(function (this: IDBObjectStore, key) {
      connections.push(this.transaction.db);
      return real.call(this, key);
    });
    await keep(first, "mill 2");
    spy.mockRestore();
    connections[0]?.close();
    expect(await keep(first, "mill 3")).toBe(true);
  });

  it("old drives of closed tabs give way, those of open tabs never", async () => {
    const open = await tab();
    await found(open);
    await keep(open, "open");
    for (let i = 0; i < 12; i++) {
      const one = await tab();
      await one.as((slots) => slots.takeFresh());
      await keep(one, `closed ${i}`);
      one.close();
    }
    const last = await tab();
    await last.as((slots) => slots.takeFresh());
    await last.as((slots) => slots.dropOld());
    const left = await last.as((slots) => slots.leftInClosedTabs());
    expect(left.map(({ text }) => text)).toEqual([11, 10, 9, 8, 7, 6, 5, 4].map((i) => `closed ${i}`));
    expect(await found(await tab(new Strings(open.session)))).toEqual({ text: "open", isCopy: true });
  });
});

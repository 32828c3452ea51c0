/** Nothing is lost: undo over a reload, two tabs on one drive, drives saved by name, and a tab that is killed while it writes. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { type App, openApp } from "./harness";
import { downloadOf, drop, enter, headline, overflowing, violations, withoutPickers } from "./steps";

const FIRST = "2 turns of Crank give 1 of Upright shaft";
const teeth = (count: number): string => `${count / 20} turns of Crank give 1 of Upright shaft`;
const PATH = "?first=no&drawing=flat";
/** ms: more than the page waits after an edit before it keeps the drive. */
const KEPT = 1000;

const COPY = /This drive is open in another tab too, so this tab goes on with a copy/;

const saved = (page: Page) => page.getByRole("dialog", { name: "Saved drives" });
const openSaved = async (page: Page): Promise<ReturnType<typeof saved>> => {
  // In a field the key is a letter.
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press("s");
  await saved(page).getByRole("textbox", { name: "Name for the drive on the bench" }).waitFor();
  return saved(page);
};
const names = async (page: Page): Promise<string[]> =>
  (await saved(page).getByRole("region", { name: "List of saved drives" }).locator("strong").allTextContents()).sort();

describe("undo", () => {
  it("survives a reload, step by step and forth again, even right after an edit", async () => {
    const app = await openApp({ path: PATH });
    const { page } = app;
    await headline(page, FIRST);
    await enter(page, "Teeth of b1", "60");
    await enter(page, "Teeth of b1", "80");
    await page.waitForTimeout(KEPT);
    await enter(page, "Teeth of b1", "100");
    await page.reload();
    await headline(page, teeth(100));
    await page.keyboard.press("Control+z");
    await headline(page, teeth(80));
    await page.keyboard.press("Control+z");
    await headline(page, teeth(60));
    await page.reload();
    await headline(page, teeth(60));
    await page.keyboard.press("Control+z");
    await headline(page, FIRST);
    expect(await page.getByRole("button", { name: "Undo" }).getAttribute("aria-disabled")).toBe("true");
    for (const count of [60, 80, 100]) {
      await page.keyboard.press("Control+y");
      await headline(page, teeth(count));
    }
    await app.close();
  });
});

describe("two tabs on one drive", () => {
  const start = async (): Promise<App> => {
    const app = await openApp({ path: PATH });
    await headline(app.page, FIRST);
    await enter(app.page, "Teeth of b1", "60");
    await app.page.waitForTimeout(KEPT);
    return app;
  };

  it("the second goes on as a copy and says so; neither changes the other; undo works in both", async () => {
    const app = await start();
    const second = await app.another(PATH);
    await second.getByText(COPY).waitFor();
    await headline(second, teeth(60));
    await enter(second, "Teeth of b1", "80");
    await enter(app.page, "Teeth of b1", "100");
    await app.page.waitForTimeout(KEPT);
    for (const [page, count] of [
      [app.page, 100],
      [second, 80],
    ] as const) {
      await page.reload();
      await headline(page, teeth(count));
      await page.getByText("Your drive from before is back.").waitFor();
      await page.keyboard.press("Control+z");
      await headline(page, teeth(60));
    }
    await app.close();
  });

  it("closing the first frees the drive: the next tab goes on with the drive itself", async () => {
    const app = await start();
    await app.page.close();
    const next = await app.another(PATH);
    await next.getByText("Your drive from before is back.").waitFor();
    await next.keyboard.press("Control+z");
    await headline(next, FIRST);
    await app.close();
  });

  it("a tab duplicated with all that it remembers goes on as a copy", async () => {
    const app = await start();
    // A window that the page itself opens begins with a copy of the storage of its tab, as a duplicated one does.
    const [twin] = await Promise.all([
      app.context.waitForEvent("page"),
      app.page.evaluate(() => void window.open(location.href)),
    ]);
    await twin.getByText(COPY).waitFor();
    await enter(twin, "Teeth of b1", "80");
    await enter(app.page, "Teeth of b1", "100");
    await twin.waitForTimeout(KEPT);
    await twin.reload();
    await headline(twin, teeth(80));
    await app.page.reload();
    await headline(app.page, teeth(100));
    await app.close();
  });

  it("without Web Locks the other tabs are asked", async () => {
    const app = await openApp({
      path: PATH,
      before: async (_, context) => {
        await context.addInitScript(() => Object.defineProperty(navigator, "locks", { value: undefined }));
      },
    });
    await headline(app.page, FIRST);
    await enter(app.page, "Teeth of b1", "60");
    await app.page.waitForTimeout(KEPT);
    const second = await app.another(PATH);
    await second.getByText(COPY).waitFor();
    await app.close();
  });
});

describe("saved drives", () => {
  it("are saved, opened, renamed, deleted, brought back, exported and imported", async () => {
    const app = await openApp({ path: PATH, before: withoutPickers });
    const { page } = app;
    await headline(page, FIRST);
    const dialog = await openSaved(page);
    await dialog.getByRole("button", { name: "Save", exact: true }).click();
    await dialog.getByText("Saved as “Crank and wheel”.").waitFor();
    expect(await dialog.locator("img").evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(100);
    await page.keyboard.press("Escape");
    await enter(page, "Teeth of b1", "60");
    await openSaved(page);
    await dialog.getByRole("button", { name: "Save as another" }).click();
    await dialog.getByText("Saved as “Crank and wheel (copy)”").waitFor();
    await dialog.getByRole("button", { name: "Rename Crank and wheel (copy)" }).click();
    await page.keyboard.type("Three to one");
    await page.keyboard.press("Enter");
    await dialog.getByText("is now called “Three to one”").waitFor();
    const { name, text } = await downloadOf(page, () => dialog.getByRole("button", { name: "Export all" }).click());
    expect(name).toMatch(/^turnwise-.*\.drives\.json$/);
    await dialog.getByRole("button", { name: "Delete Three to one" }).click();
    await dialog.getByText("Deleted “Three to one”.").waitFor();
    expect(await names(page)).toEqual(["Crank and wheel"]);
    await dialog.getByRole("button", { name: "Undo deleting “Three to one”" }).click();
    await dialog.getByText("“Three to one” is back.").waitFor();
    const importAll = async (): Promise<void> => {
      const choosing = page.waitForEvent("filechooser");
      await dialog.getByRole("button", { name: "Import…" }).click();
      await (await choosing).setFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
    };
    await importAll();
    await dialog.getByText(/^Nothing new in .*2 were there already, the same in all\./).waitFor();
    expect(await names(page)).toEqual(["Crank and wheel", "Three to one"]);
    await dialog.getByRole("button", { name: "Rename Three to one" }).click();
    await page.keyboard.type("Another");
    await page.keyboard.press("Enter");
    await dialog.getByText("is now called “Another”").waitFor();
    await importAll();
    await dialog.getByText(/^Imported one drive from .*One was there already/).waitFor();
    expect(await names(page)).toEqual(["Another", "Crank and wheel", "Three to one"]);
    // Imported drives get their pictures while the list is open.
    await expect.poll(() => dialog.locator("img").count()).toBe(3);
    await dialog.getByRole("button", { name: /^Crank and wheel \d/ }).click();
    await dialog.waitFor({ state: "detached" });
    await headline(page, FIRST);
    await page.keyboard.press("Control+z");
    await headline(page, teeth(60));
    // The same file dropped on the bench goes the same way.
    await drop(page, name, "application/json", Buffer.from(text));
    await dialog.getByText(/^Nothing new in/).waitFor();
    await app.close();
  });

  it("which one is on the bench survives a reload; saved over in another tab it becomes a copy", async () => {
    const app = await openApp({ path: PATH });
    const { page } = app;
    await headline(page, FIRST);
    const dialog = await openSaved(page);
    await dialog.getByRole("button", { name: "Save", exact: true }).click();
    await dialog.getByText("Saved as “Crank and wheel”.").waitFor();
    await page.waitForTimeout(KEPT);
    await page.reload();
    const second = await app.another(PATH);
    for (const one of [second, page]) {
      await headline(one, FIRST);
      await enter(one, "Teeth of b1", one === page ? "60" : "80");
      await openSaved(one);
      await saved(one).getByRole("button", { name: "Save over “Crank and wheel”" }).click();
    }
    await saved(second).getByText("Saved “Crank and wheel”.").waitFor();
    await saved(page)
      .getByText(/yours was saved beside it as “Crank and wheel \(copy\)”/)
      .waitFor();
    // The other tab's list follows.
    await expect.poll(() => names(second)).toEqual(["Crank and wheel", "Crank and wheel (copy)"]);
    await app.close();
  });

  it("where the browser keeps nothing the dialog says so", async () => {
    const app = await openApp({
      path: PATH,
      before: async (page) => {
        await page.addInitScript(() => {
          indexedDB.open = () => {
            throw new DOMException("No storage here.", "SecurityError");
          };
        });
      },
    });
    await headline(app.page, FIRST);
    const dialog = await openSaved(app.page);
    await dialog.getByText(/the browser does not let this page keep anything; save drives as files\.$/).waitFor();
    await dialog.getByRole("button", { name: "Save", exact: true }).click();
    await dialog.getByText(/was not saved, and nothing was changed/).waitFor();
    await app.close();
  });

  it.each([
    [1440, 900, "light", false],
    [390, 844, "dark", true],
    ...(process.env.SOAK
      ? ([
          [1024, 768, "dark", false],
          [390, 844, "light", true],
        ] as const)
      : []),
  ] as const)("the dialog fits %i by %i in %s and is in order", async (width, height, theme, touch) => {
    const app = await openApp({ path: PATH, width, height, theme, touch });
    const { page } = app;
    await headline(page, FIRST);
    const dialog = await openSaved(page);
    await dialog
      .getByRole("textbox", { name: "Name for the drive on the bench" })
      .fill("A very long name of a drive that goes on and on, as names of drives in a class will");
    await dialog.getByRole("button", { name: "Save", exact: true }).click();
    await dialog.getByText(/^Saved as/).waitFor();
    await dialog.getByRole("button", { name: "Save as another" }).click();
    await dialog.getByText(/^Saved as .*there already/).waitFor();
    await dialog.getByRole("button", { name: /^Delete .*copy/ }).click();
    await dialog.getByText(/^Deleted/).waitFor();
    await app.screenshot(`saved-${width}-${theme}`);
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);
    const least = touch ? 44 : 32;
    for (const button of await dialog.getByRole("button").all()) {
      const box = await button.boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0), (await button.textContent()) ?? "").toBeGreaterThanOrEqual(
        least,
      );
    }
    await app.close();
  });
});

/** What the two databases hold, read past the page. */
const stored = (page: Page): Promise<Record<string, { id?: string; text?: string }[]>> =>
  page.evaluate(async () => {
    const all: Record<string, { id?: string; text?: string }[]> = {};
    for (const name of ["turnwise", "turnwise.saved"]) {
      const database = await new Promise<IDBDatabase>((settle) => {
        const request = indexedDB.open(name);
        request.onsuccess = () => settle(request.result);
      });
      for (const store of database.objectStoreNames) {
        all[store === "drives" && name === "turnwise" ? "bench" : store] = await new Promise((settle) => {
          const request = database.transaction(store).objectStore(store).getAll();
          request.onsuccess = () => settle(request.result);
        });
      }
      database.close();
    }
    return all;
  });

/** From now on the page stands still for good within its nth write, the transaction still open. */
const freezeAtWrite = (page: Page, nth: number): Promise<void> =>
  page.evaluate((nth) => {
    let left = nth;
    for (const method of ["put", "delete"] as const) {
      const real = IDBObjectStore.prototype[method] as (...args: unknown[]) => IDBRequest;
      IDBObjectStore.prototype[method] = function (this: IDBObjectStore, ...args: unknown[]) {
        const request = real.apply(this, args);
        left -= 1;
        if (left === 0) for (;;);
        return request;
      } as never;
    }
  }, nth);

/** Kills the process of the page that stands still, as the system does when memory runs out: it has no time to do anything. */
const kill = async (app: App, page: Page): Promise<void> => {
  const session = await app.context.browser()?.newBrowserCDPSession();
  if (!session) throw new Error("The browser does not answer.");
  const spent = async (): Promise<Map<number, number>> => {
    const { processInfo } = await session.send("SystemInfo.getProcessInfo");
    const pages = processInfo.filter(({ type }) => type === "renderer");
    return new Map(pages.map(({ id, cpuTime }) => [id, cpuTime]));
  };
  // A page that stands still runs in circles: of all the browser's pages it is the one that spends time.
  const before = await spent();
  await new Promise((waited) => setTimeout(waited, 1000));
  const busy = [...(await spent())].map(([id, time]) => ({ id, time: time - (before.get(id) ?? 0) }));
  const [most] = busy.sort((a, b) => b.time - a.time);
  if (!most || most.time === 0) throw new Error("No page stands still.");
  const crashed = page.waitForEvent("crash");
  process.kill(most.id, "SIGKILL");
  await crashed;
  await session.detach();
};

describe("a tab killed in the middle of a write", () => {
  const press = (name: string | RegExp) => async (page: Page) => {
    await openSaved(page);
    // A press that stops the page never comes back from it.
    await saved(page)
      .getByRole("button", { name })
      .evaluate((button: HTMLElement) => void setTimeout(() => button.click(), 50));
  };
  const CHANGES: Readonly<Record<string, { writes: number; act: (page: Page) => Promise<unknown> }>> = {
    "saving a new drive": { writes: 2, act: press("Save as another") },
    "saving over one": { writes: 2, act: press(/^Save over/) },
    duplicating: { writes: 2, act: press("Duplicate Crank and wheel") },
    deleting: { writes: 2, act: press("Delete Crank and wheel") },
    "keeping the drive on the bench": { writes: 1, act: (page) => enter(page, "Teeth of b1", "100") },
  };
  /** Three of the writes in every run; all of them under SOAK=1. */
  const OFTEN = ["saving over one 2", "deleting 1", "keeping the drive on the bench 1"];
  for (const [what, { writes, act }] of Object.entries(CHANGES)) {
    for (let nth = 1; nth <= writes; nth++) {
      if (!process.env.SOAK && !OFTEN.includes(`${what} ${nth}`)) continue;
      it(`${what}, at write ${nth} of ${writes}: no drive is lost or half there`, async () => {
        const app = await openApp({
          path: PATH,
          expected: [
            { pattern: /The page crashed/, reason: "the test kills it" },
            { pattern: /favicon\.ico/, reason: "what looks on is a bare picture without an icon of its own" },
          ],
        });
        const { page } = app;
        await headline(page, FIRST);
        await openSaved(page);
        await saved(page).getByRole("button", { name: "Save", exact: true }).click();
        await saved(page).getByText("Saved as “Crank and wheel”.").waitFor();
        await page.keyboard.press("Escape");
        await enter(page, "Teeth of b1", "60");
        await page.waitForTimeout(KEPT);
        const watcher = await app.context.newPage();
        await watcher.goto(`${app.url}icon.svg`);
        const before = await stored(watcher);
        await freezeAtWrite(page, nth);
        await act(page);
        await watcher.waitForTimeout(KEPT);
        await kill(app, page);
        await expect.poll(() => stored(watcher)).toEqual(before);
        const next = await app.another(PATH);
        await headline(next, teeth(60));
        await next.getByText("Your drive from before is back.").waitFor();
        await openSaved(next);
        await expect.poll(() => names(next)).toEqual(["Crank and wheel"]);
        await saved(next)
          .getByRole("button", { name: /^Crank and wheel \d/ })
          .click();
        await headline(next, FIRST);
        await app.close();
      });
    }
  }
});

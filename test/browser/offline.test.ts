/** The page without the net, and the page when its host has a newer version: nothing is lost, and nothing happens unasked. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DIST, ROOT } from "../../src/cli/launch.mjs";
import { SAMPLES } from "../../src/exchange/sample-list";
import { openApp } from "./harness";
import { enter, headline } from "./steps";

const FIRST = "2 turns of Crank give 1 of Upright shaft";
const THIRD = "3 turns of Crank give 1 of Upright shaft";
const FOURTH = "4 turns of Crank give 1 of Upright shaft";
const NEWER = "What the keys do, told anew";

/** Waits until the page's files are kept and the page is served from them. */
const isKept = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated", null, { timeout: 60_000 });

const cachesOf = (page: Page): Promise<string[]> => page.evaluate(() => caches.keys());

describe("without the net, after a first visit", () => {
  it("everything is there: bench, samples, dialogs, panels, fonts, also under a sub-path", async () => {
    const app = await openApp({
      offline: true,
      under: "/school/tools/",
      path: "?first=no&drawing=full",
      width: 1440,
      height: 900,
    });
    const { page, context } = app;
    await headline(page, FIRST);
    await isKept(page);
    expect(await cachesOf(page)).toHaveLength(1);
    app.cut();
    await context.setOffline(true);
    await page.reload();
    await headline(page, FIRST);
    await page.locator('#bench [data-drawn="3d"] canvas').waitFor({ state: "attached" });
    await page.getByRole("button", { name: "Workings", exact: true }).click();
    await page.getByRole("heading", { name: /^How .* turns$/ }).waitFor();
    await page.getByRole("button", { name: "Commands for gear a1" }).click();
    await page.getByRole("menuitem", { name: "Remove this gear" }).waitFor();
    await page.keyboard.press("Escape");
    for (const { title } of SAMPLES.slice(0, 2)) {
      await page.getByRole("button", { name: "Samples…" }).click();
      await page.getByRole("dialog", { name: "Samples" }).getByRole("button", { name: title }).click();
      await expect.poll(() => page.title()).toBe(`${title} · Turnwise`);
    }
    // A letter of the second font file.
    const fonts = await page.evaluate(() =>
      document.fonts.load('16px "Source Sans 3"', "é").then((come) => come.length),
    );
    expect(fonts).toBeGreaterThan(0);
    const second = await app.another("index.html?first=no#parts");
    await second.locator("#bench canvas").first().waitFor({ state: "attached" });
    await app.close();
  });

  it("what is kept is what the host has, byte for byte, and no more", async () => {
    const app = await openApp({ offline: true, path: "?first=no&drawing=flat" });
    const { page } = app;
    await isKept(page);
    const kept = await page.evaluate(async () => {
      const [name = ""] = await caches.keys();
      const cache = await caches.open(name);
      const sizes: Record<string, number> = {};
      for (const { url } of await cache.keys()) {
        sizes[new URL(url).pathname] = (await (await cache.match(url))?.arrayBuffer())?.byteLength ?? -1;
      }
      return sizes;
    });
    const left = [
      "service-worker.js",
      "drive.schema.json",
      "lesson.schema.json",
      "close-look.png",
      "teeth.png",
      "turnwise.png",
      "turnwise.html",
    ];
    const wanted = readdirSync(DIST, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !left.includes(entry.name))
      .map((entry) => join(entry.parentPath, entry.name));
    const sizes = wanted.map((file) => {
      const path = file.slice(DIST.length).replaceAll("\\", "/");
      return [path === "/index.html" ? "/" : path, readFileSync(file).length];
    });
    expect(kept).toEqual(Object.fromEntries(sizes));
    // The one file to carry is the host's, not the kept page.
    const other = await page.evaluate(async () => (await (await fetch("turnwise.html")).text()).length);
    expect(other).toBeGreaterThan(500_000);
    await app.close();
  });

  it("can be installed: a manifest that the browser finds no fault with", async () => {
    const app = await openApp({ offline: true, path: "?first=no&drawing=flat" });
    await isKept(app.page);
    const session = await app.context.newCDPSession(app.page);
    const { errors, data, url } = await session.send("Page.getAppManifest");
    expect(errors).toEqual([]);
    expect(url).toBe(`${app.url}manifest.webmanifest`);
    const { icons } = JSON.parse(data ?? "{}") as { icons: { src: string; sizes: string; purpose?: string }[] };
    expect(icons.some(({ purpose }) => purpose === "maskable")).toBe(true);
    for (const { src, sizes } of icons.filter((icon) => icon.sizes !== "any")) {
      const width = await app.page.evaluate(
        async (src) => (await createImageBitmap(await (await fetch(src)).blob())).width,
        src,
      );
      expect(`${width}x${width}`).toBe(sizes);
    }
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    expect(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito")).toEqual([]);
    await app.close();
  });
});

describe("a newer version on the host", () => {
  let folder = "";
  let newer = "";

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "turnwise-host-"));
    newer = mkdtempSync(join(tmpdir(), "turnwise-newer-"));
    const { NODE_ENV } = process.env;
    process.env.NODE_ENV = "production";
    const { build } = await import("vite");
    await build({
      root: ROOT,
      logLevel: "silent",
      build: { outDir: newer, emptyOutDir: true },
      plugins: [
        {
          name: "newer",
          enforce: "pre",
          transform: {
            filter: { id: /keys-dialog\.tsx$/ },
            handler: (code) => code.replace('title="Keys"', `title="${NEWER}"`),
          },
        },
      ],
    });
    process.env.NODE_ENV = NODE_ENV;
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
    rmSync(newer, { recursive: true, force: true });
  });
  const put = (version: string): void => {
    for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true });
    cpSync(version, folder, { recursive: true });
  };
  const lookForNewer = (page: Page): Promise<unknown> =>
    page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  const offer = (page: Page) => page.getByRole("status").getByRole("button", { name: "Use the new version" });
  const mark = (page: Page): Promise<void> => page.evaluate(() => void Object.assign(window, { stillTheSame: true }));
  const isSame = (page: Page): Promise<boolean> => page.evaluate(() => "stillTheSame" in window);

  it("waits until it is asked for, keeps the open drive, and leaves other tabs whole", async () => {
    put(DIST);
    const app = await openApp({ offline: true, folder, under: "/gears/", path: "?first=no&drawing=flat" });
    const { page } = app;
    await headline(page, FIRST);
    await isKept(page);
    const second = await app.another("?first=no&drawing=flat");
    await headline(second, FIRST);
    await enter(second, "Teeth of b1", "80");
    await headline(second, FOURTH);
    await enter(page, "Teeth of b1", "60");
    await headline(page, THIRD);
    await mark(page);
    await mark(second);
    const [old] = await cachesOf(page);

    put(newer);
    await lookForNewer(page);
    await page.getByText("There is a new version. Your drive stays open.").waitFor();
    await offer(page).waitFor();
    await offer(second).waitFor();
    await app.screenshot("new-version");
    // Nothing is done unasked, not even by loading the page anew.
    await page.waitForTimeout(1500);
    expect([await isSame(page), await isSame(second)]).toEqual([true, true]);
    expect(await cachesOf(page)).toHaveLength(2);

    // An edit right before the press: kept nowhere yet.
    await enter(page, "Teeth of b1", "100");
    await offer(page).click();
    await page.waitForFunction(() => !("stillTheSame" in window));
    await headline(page, "5 turns of Crank give 1 of Upright shaft");
    await page.getByRole("button", { name: "Keys" }).click();
    await page.getByRole("dialog", { name: NEWER }).waitFor();
    await page.keyboard.press("Escape");

    // The other tab goes on as it was, with its own files, which the host no longer has.
    expect(await isSame(second)).toBe(true);
    await headline(second, FOURTH);
    await second.getByRole("button", { name: "Keys" }).click();
    await second.getByRole("dialog", { name: "Keys", exact: true }).waitFor();
    await second.keyboard.press("Escape");
    expect(await cachesOf(second)).toContain(old);
    // Its own offer still holds, though the new version has taken over already.
    await offer(second).click();
    await second.waitForFunction(() => !("stillTheSame" in window));
    await headline(second, FOURTH);

    // No page of the older version is open: the next one to come up has its files dropped.
    await expect.poll(() => cachesOf(second), { timeout: 30_000 }).not.toContain(old);
    expect(await cachesOf(second)).toHaveLength(1);
    await app.context.setOffline(true);
    await page.reload();
    await headline(page, "5 turns of Crank give 1 of Upright shaft");
    await app.close();
  });

  it("a drive that can't be kept stays open in the old version, and its reader is told", async () => {
    put(DIST);
    const app = await openApp({
      offline: true,
      folder,
      path: "?first=no",
      before: async (page) => {
        await page.addInitScript(() => {
          const refuse = (): never => {
            throw new DOMException("Full.", "QuotaExceededError");
          };
          IDBObjectStore.prototype.put = refuse;
        });
      },
    });
    const { page } = app;
    await headline(page, FIRST);
    await isKept(page);
    await mark(page);
    put(newer);
    await lookForNewer(page);
    await offer(page).click();
    await page
      .getByRole("alert")
      .filter({ hasText: "The new version waits, because your drive could not be kept" })
      .waitFor();
    expect(await isSame(page)).toBe(true);
    page.on("dialog", (dialog) => void dialog.accept());
    await app.close();
  });

  it("a half-copied version on the host is not taken up", async () => {
    put(DIST);
    const app = await openApp({
      offline: true,
      folder,
      path: "?first=no",
      expected: [
        { pattern: /status 404|Failed to load resource|integrity/, reason: "the host is in the middle of an upload" },
      ],
    });
    const { page } = app;
    await isKept(page);
    const before = await cachesOf(page);
    // The list of the newer version, with the older version's page and files.
    cpSync(join(newer, "service-worker.js"), join(folder, "service-worker.js"));
    await lookForNewer(page).catch(() => undefined);
    await page.waitForFunction(async () => !(await navigator.serviceWorker.getRegistration())?.installing);
    expect(
      await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting ?? null),
    ).toBeNull();
    app.cut();
    await page.reload();
    await headline(page, FIRST);
    expect(await cachesOf(page)).toContain(before[0]);
    await app.close();
  });

  it("another program's page at an address on this machine is not hidden", async () => {
    put(DIST);
    const app = await openApp({ offline: true, folder, path: "?first=no&drawing=flat" });
    await isKept(app.page);
    writeFileSync(
      join(folder, "index.html"),
      '<!doctype html><html lang="en"><link rel="icon" href="icon.svg"><title>Weather</title><p>Rain</p></html>',
    );
    await app.page.reload();
    expect(await app.page.title()).toBe("Weather");
    await app.close();
  });
});

/** Links to drives in a real browser: good ones, damaged ones, the dialog that makes them, and their QR pictures. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import jsQR from "jsqr";
import { chromium, type Page } from "playwright-core";
import { PNG } from "pngjs";
import { describe, expect, it } from "vitest";
import { DIST } from "../../src/cli/launch.mjs";
import { parseDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { encodeDrive } from "../../src/exchange/share/code";
import { findBrowser, WITHOUT_WEBGL } from "../support/browser.mjs";
import { picker, randomTree } from "../support/random-drives";
import { openApp } from "./harness";
import { headline, overflowing, violations } from "./steps";

const FIRST = "2 turns of Crank give 1 of Upright shaft";
const mixer = parseDrive(readFileSync("test/support/mixer.drive.json", "utf8")).drive as Drive;
const MIXER = "5 turns of Motor give 1 of Mixer";
const code = encodeDrive(mixer);

const title = (page: Page): Promise<string> => page.getByRole("textbox", { name: "Title of the drive" }).inputValue();
const fragment = (page: Page): Promise<string> => page.evaluate(() => window.location.hash);

/** What clicking a link to this page does. */
const goTo = (page: Page, hash: string): Promise<void> => page.evaluate((to) => window.location.assign(to), hash);

describe("a link in the address", () => {
  it("opens at the start, is taken out of the address, and stays over a reload", async () => {
    const app = await openApp({ path: `?first=no&drawing=flat#${code}` });
    const { page } = app;
    await headline(page, MIXER);
    expect(page.url()).toBe(`${app.url}?first=no&drawing=flat`);
    await expect.poll(() => page.evaluate(() => indexedDB.databases().then((all) => all.length))).toBeGreaterThan(0);
    await page.waitForTimeout(800);
    await page.reload();
    await headline(page, MIXER);
    await app.close();
  });

  it("wins over the drive from before, which is one undo step away and offered back", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await headline(page, FIRST);
    const name = page.getByRole("textbox", { name: "Title of the drive" });
    await name.fill("Kite winch");
    await name.press("Enter");
    await page.waitForTimeout(1000);
    const second = await app.another(`?first=no&drawing=flat#${code}`);
    await headline(second, MIXER);
    const notice = second.getByRole("status").filter({ hasText: "Right-angle mixer was opened from a link." });
    await notice.waitFor();
    await second.keyboard.press("Control+z");
    await headline(second, FIRST);
    expect(await title(second)).toBe("Kite winch");
    await second.keyboard.press("Control+Shift+z");
    await headline(second, MIXER);
    await notice.getByRole("button", { name: "Bring it back" }).click();
    await headline(second, FIRST);
    expect(await title(second)).toBe("Kite winch");
    await app.close();
  });

  it("opens in the page that is open, and a damaged one changes nothing", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await headline(page, FIRST);
    await goTo(page, `#${code}`);
    await headline(page, MIXER);
    expect(await fragment(page)).toBe("");
    for (const [hash, sentence] of [
      [`#${code.slice(0, -3)}`, "it is damaged or cut short, so copy the whole of it again."],
      [`#${code.replace("d1.", "d7.")}`, "it was made by a newer Turnwise"],
      ["#%3Cscript%3Ealert(1)%3C/script%3E", "what follows # in it is no drive"],
    ] as const) {
      await goTo(page, hash);
      const notice = page.getByRole("alert").filter({ hasText: sentence });
      await notice.waitFor();
      expect(await fragment(page)).toBe("");
      expect(await title(page)).toBe("Right-angle mixer");
      await notice.getByRole("button", { name: "Close this notice" }).click();
    }
    await app.close();
  });

  it("that is damaged leaves the page to start as ever", async () => {
    const app = await openApp({ path: `?first=no&drawing=flat#${code.slice(0, 40)}` });
    await headline(app.page, FIRST);
    await app.page.getByRole("alert").filter({ hasText: "The link was not opened, and nothing was changed" }).waitFor();
    expect(await violations(app.page)).toEqual([]);
    await app.close();
  });

  it("is told from the places of the page itself", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await headline(page, FIRST);
    for (const place of await page.locator('a[href^="#"]').all()) {
      await place.focus();
      await page.keyboard.press("Enter");
      expect(await fragment(page)).toBe(await place.getAttribute("href"));
    }
    expect(await page.getByText("The link was not opened").count()).toBe(0);
    await app.close();
  });

  it("whose opener can't be fetched stays in the address", async () => {
    let failing = true;
    const app = await openApp({
      path: `?first=no&drawing=flat#${code}`,
      before: async (page) => {
        await page.route(/assets\/open-link-.*\.js$/, (route) => (failing ? route.abort() : route.continue()));
      },
      expected: [
        { pattern: /Failed to load resource: net::ERR_FAILED/, reason: "the test cuts the line" },
        { pattern: /preload/, reason: "the browser names the file that the test withheld" },
      ],
    });
    const { page } = app;
    await page.getByRole("alert").filter({ hasText: "load the page again" }).waitFor();
    await headline(page, FIRST);
    failing = false;
    await page.reload();
    await headline(page, MIXER);
    expect(await fragment(page)).toBe("");
    await app.close();
  });
});

/** What a reader of QR pictures makes of a screenshot. */
const readPicture = (png: Buffer): string | undefined => {
  const { data, width, height } = PNG.sync.read(png);
  return jsQR(new Uint8ClampedArray(data), width, height)?.data;
};

describe("the dialog", () => {
  for (const [width, height, theme] of [
    [1440, 900, "light"],
    [390, 844, "dark"],
    ...(process.env.SOAK ? ([[1024, 768, "dark"]] as const) : []),
  ] as const) {
    it(`shows the link and a picture of at most 300 px that reads as it, at ${width} by ${height}, ${theme}`, async () => {
      const app = await openApp({ width, height, theme, touch: width < 500, path: `?first=no&drawing=flat#${code}` });
      const { page } = app;
      await headline(page, MIXER);
      await page.keyboard.press("l");
      const dialog = page.getByRole("dialog", { name: "Share this drive" });
      const link = await dialog.getByRole("textbox", { name: "Link", exact: true }).inputValue();
      expect(link).toBe(`${app.url}#${code}`);
      await dialog.getByText(`${link.length} characters`).waitFor();
      const picture = dialog.getByRole("img", { name: "QR picture of the link" });
      await picture.scrollIntoViewIfNeeded();
      const box = await picture.boundingBox();
      expect(box?.width).toBeGreaterThan(240);
      expect(box?.width).toBeLessThanOrEqual(300);
      expect(readPicture(await picture.screenshot())).toBe(link);
      expect(await overflowing(page)).toEqual([]);
      expect(await violations(page)).toEqual([]);
      await app.screenshot(`share-${width}-${theme}`);
      await app.close();
    });
  }

  it("makes pictures of longer links that read as they are, and says where one would be too long", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await headline(page, FIRST);
    const pick = picker(1);
    const letters = Array.from({ length: 3000 }, () =>
      pick.of([..."abcdefghijklmnopqrstuvwxyz ABCDEFGHIJKLMNOPQRSTUVWXYZ-0123456789"]),
    );
    for (const count of [200, 600, 1000, 1500, 3000]) {
      const drive = { ...mixer, title: `Mixer with ${count} letters`, notes: letters.slice(0, count).join("") };
      await goTo(page, `#${encodeDrive(drive)}`);
      await expect.poll(() => title(page)).toBe(drive.title);
      await page.getByRole("button", { name: "Share…" }).click();
      const dialog = page.getByRole("dialog", { name: "Share this drive" });
      const link = await dialog.getByRole("textbox", { name: "Link", exact: true }).inputValue();
      const picture = dialog.getByRole("img", { name: "QR picture of the link" });
      if (count < 3000) expect(readPicture(await picture.screenshot()), `${link.length} characters`).toBe(link);
      else await dialog.getByText("too long for a QR picture").waitFor();
      expect(await dialog.getByText("Some mail and chat programs cut links this long").count()).toBe(
        link.length > 2000 ? 1 : 0,
      );
      await page.keyboard.press("Escape");
    }
    await app.close();
  });

  it("copies the link, and opens one that is pasted", async () => {
    const app = await openApp({
      path: `?first=no&drawing=flat#${code}`,
      before: (_page, context) => context.grantPermissions(["clipboard-read", "clipboard-write"]),
    });
    const { page } = app;
    await headline(page, MIXER);
    await page.getByRole("button", { name: "Share…" }).click();
    const dialog = page.getByRole("dialog", { name: "Share this drive" });
    await dialog.getByRole("button", { name: "Copy the link" }).click();
    await dialog.getByText("Copied.").waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(`${app.url}#${code}`);
    const field = dialog.getByRole("textbox", { name: "Open a link or code that you were given" });
    await field.fill("what the teacher said");
    await field.press("Enter");
    await dialog.getByRole("alert").filter({ hasText: "there is no code in it" }).waitFor();
    expect(await violations(page)).toEqual([]);
    const tree = randomTree(8, 4, 3);
    await field.fill(`https://school.example/gears/#${encodeDrive(tree)}`);
    await dialog.getByRole("button", { name: "Open it" }).click();
    await expect.poll(() => title(page)).toBe(tree.title);
    expect(await page.getByRole("dialog").count()).toBe(0);
    await app.close();
  });
});

describe("a page from a file", () => {
  it("offers a code, opens one, and makes links from the class's address", async () => {
    // The build of many files needs leave to read its own beside it.
    const args = [...WITHOUT_WEBGL, "--allow-file-access-from-files"];
    const browser = await chromium.launch({ executablePath: findBrowser() ?? "", args });
    const page = await browser.newPage();
    try {
      const complaints: string[] = [];
      page.on("console", (message) => complaints.push(message.text()));
      page.on("pageerror", (error) => complaints.push(error.message));
      await page.goto(`${pathToFileURL(join(DIST, "index.html")).href}?first=no&drawing=flat#${code}`);
      await headline(page, MIXER);
      expect(await fragment(page)).toBe("");
      await page.keyboard.press("l");
      const dialog = page.getByRole("dialog", { name: "Share this drive" });
      expect(await dialog.getByRole("textbox", { name: "Code", exact: true }).inputValue()).toBe(code);
      const address = dialog.getByRole("textbox", { name: /^Address at which your class/ });
      await address.fill("https://school.example/gears/");
      await address.press("Enter");
      const link = `https://school.example/gears/#${code}`;
      expect(await dialog.getByRole("textbox", { name: "Link", exact: true }).inputValue()).toBe(link);
      expect(readPicture(await dialog.getByRole("img", { name: "QR picture of the link" }).screenshot())).toBe(link);
      await page.keyboard.press("Escape");
      await page.reload();
      await page.getByRole("button", { name: "Share…" }).click();
      // Asked once.
      await dialog.getByText("so the link leads to the address of your class").waitFor();
      const tree = randomTree(8, 4, 3);
      await dialog.getByLabel("Open a link or code that you were given").fill(encodeDrive(tree));
      await page.keyboard.press("Enter");
      await expect.poll(() => title(page)).toBe(tree.title);
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});

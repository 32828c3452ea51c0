/** The page as people use it: first visit, editing, undo, keeping, files, keys, small and weak machines. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import { SAMPLES } from "../../src/exchange/sample-list";
import { openApp } from "./harness";
import { downloadOf, drop, enter, headline, overflowing, violations, withoutPickers } from "./steps";

const BENCH = /assets\/bench-.*\.js$/;
const FIRST = "2 turns of Crank give 1 of Upright shaft";

describe("a first visit", () => {
  it("opens on a crank that turns an upright wheel, in words and on the bench", async () => {
    const app = await openApp();
    await headline(app.page, FIRST);
    await app.page.locator("#bench canvas").first().waitFor();
    expect(await app.page.title()).toBe("Crank and wheel · Turnwise");
    await app.close();
  });

  it("has its panels before the bench has come", async () => {
    let letGo = (): void => undefined;
    const held = new Promise<void>((settle) => {
      letGo = settle;
    });
    const app = await openApp({
      before: async (page) => {
        await page.route(BENCH, async (route) => {
          await held;
          await route.continue();
        });
      },
    });
    await app.page.getByText("The bench is on its way").waitFor();
    await enter(app.page, "Teeth of a1", "10");
    await headline(app.page, "4 turns of Crank give 1 of Upright shaft");
    letGo();
    await app.page.locator("#bench canvas").first().waitFor();
    await app.close();
  });

  it("goes on without the bench where that can't be fetched, and fetches it again when asked", async () => {
    let failing = true;
    const app = await openApp({
      before: async (page) => {
        await page.route(BENCH, (route) => (failing ? route.abort() : route.continue()));
      },
      expected: [
        { pattern: /Failed to load resource: net::ERR_FAILED/, reason: "the test cuts the line" },
        { pattern: /preload/, reason: "the browser names the file that the test withheld" },
      ],
    });
    await app.page.getByText("The bench could not be loaded.").waitFor();
    await enter(app.page, "Teeth of a1", "10");
    await headline(app.page, "4 turns of Crank give 1 of Upright shaft");
    failing = false;
    await app.page.waitForTimeout(800);
    const again = app.page.getByRole("button", { name: "Load the bench again" });
    // Where the browser remembers the failure the second press loads the page anew, with the drive that was kept.
    await again.click();
    await Promise.race([app.page.locator("#bench canvas").first().waitFor(), again.click()]);
    await app.page.locator("#bench canvas").first().waitFor();
    await headline(app.page, "4 turns of Crank give 1 of Upright shaft");
    await app.close();
  });
});

describe("editing", () => {
  it("an edit shows at once, undo takes it back, redo makes it again", async () => {
    const app = await openApp();
    await headline(app.page, FIRST);
    await enter(app.page, "Teeth of b1", "60");
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    await app.page.keyboard.press("Control+z");
    await headline(app.page, FIRST);
    await app.page.getByRole("button", { name: "Redo" }).click();
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    await app.close();
  });

  it("a reload brings the drive back and offers to begin anew, which undo takes back", async () => {
    const app = await openApp();
    await enter(app.page, "Teeth of b1", "60");
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    // At once: what the delay has not yet kept is kept on leaving.
    await app.page.reload();
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    const notice = app.page.getByRole("status").filter({ hasText: "Your drive from before is back." });
    await notice.getByRole("button", { name: "New" }).click();
    await expect.poll(() => app.page.title()).toBe("New drive · Turnwise");
    await app.page.keyboard.press("Control+z");
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    await app.close();
  });

  it("goes on where the browser keeps nothing, and says so once", async () => {
    const app = await openApp({
      before: async (page) => {
        await page.addInitScript(() => {
          const forbid = (): never => {
            throw new DOMException("No storage here.", "SecurityError");
          };
          indexedDB.open = forbid;
          Object.defineProperty(window, "localStorage", { get: forbid });
          Object.defineProperty(window, "sessionStorage", { get: forbid });
        });
      },
    });
    await headline(app.page, FIRST);
    await enter(app.page, "Teeth of b1", "60");
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    await app.page.getByText("does not let this page keep anything").waitFor();
    app.page.on("dialog", (dialog) => void dialog.accept());
    await app.close();
  });
});

describe("files", () => {
  it("what is saved opens again as the same drive", async () => {
    const app = await openApp({ before: withoutPickers });
    await enter(app.page, "Teeth of b1", "60");
    const { name, text } = await downloadOf(app.page, () => app.page.keyboard.press("Control+s"));
    expect(name).toBe("crank-and-wheel.drive.json");
    expect(parseDrive(text).drive?.gears[1]).toMatchObject({ id: "b1", teeth: 60 });
    await app.page.getByRole("button", { name: "New", exact: true }).click();
    await expect.poll(() => app.page.title()).toBe("New drive · Turnwise");
    const choosing = app.page.waitForEvent("filechooser");
    await app.page.getByRole("button", { name: "Open…" }).click();
    await (await choosing).setFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    const again = await downloadOf(app.page, () => app.page.getByRole("button", { name: "Save", exact: true }).click());
    expect(again).toEqual({ name, text });
    await app.close();
  });

  it("a drive that is dropped opens, a photo changes nothing and says why", async () => {
    const app = await openApp();
    await headline(app.page, FIRST);
    await drop(app.page, "holiday.jpg", "image/jpeg", Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16]));
    await app.page.getByRole("alert").filter({ hasText: "holiday.jpg is a picture, not a drive" }).waitFor();
    await headline(app.page, FIRST);
    await drop(app.page, "hoist.drive.json", "", readFileSync("public/samples/well-hoist.drive.json"));
    await headline(app.page, "12 turns of Motor give 1 of Drum");
    await app.close();
  });

  it("the faults of a file are listed with their places", async () => {
    const app = await openApp();
    await headline(app.page, FIRST);
    const text = readFileSync("public/samples/well-hoist.drive.json", "utf8").replaceAll('"teeth": 18', '"teeth": 0');
    await drop(app.page, "hoist.drive.json", "", Buffer.from(text));
    const dialog = app.page.getByRole("dialog", { name: "Not a drive" });
    await dialog.getByText("/gears/0/teeth").waitFor();
    await dialog.getByText("/gears/2/teeth").waitFor();
    await app.page.keyboard.press("Escape");
    await dialog.waitFor({ state: "detached" });
    await headline(app.page, FIRST);
    await app.close();
  });

  it("a file of many shafts is read apart, and the page lives on", async () => {
    const count = 12_000;
    const shafts = Array.from({ length: count }, (_, i) => ({
      id: `S${i}`,
      name: `Shaft number ${i} of a long row that makes the file a long one`,
      pose: { origin: [0, 0, 100 * i], axis: [1, 0, 0], ref: [0, 0, 1] },
    }));
    const text = JSON.stringify({ format: "turnwise.drive", version: 1, title: "Long row", shafts, gears: [], x: 1 });
    const app = await openApp();
    await headline(app.page, FIRST);
    const worker = app.page.waitForEvent("worker");
    await drop(app.page, "row.drive.json", "", Buffer.from(text));
    await worker;
    // The unknown key "x" makes it no drive: what was on the bench stays.
    await app.page.getByText("row.drive.json was not opened").waitFor();
    expect(await app.page.title()).toBe("Crank and wheel · Turnwise");
    await app.close();
  });

  it("every sample opens, each shown in silence", async () => {
    const app = await openApp();
    await app.page.locator("#bench canvas").first().waitFor();
    for (const { title } of SAMPLES) {
      await app.page.getByRole("button", { name: "Samples…" }).click();
      await app.page.getByRole("dialog", { name: "Samples" }).getByRole("button", { name: title }).click();
      await expect.poll(() => app.page.title()).toBe(`${title} · Turnwise`);
      await app.page.waitForTimeout(200);
    }
    await app.close();
  });
});

describe("with the keyboard alone", () => {
  it("leads past the header, edits, plays, opens a sample and gives the focus back", async () => {
    const app = await openApp();
    const { page } = app;
    await headline(page, FIRST);
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("To the parts list");
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("parts");
    const teeth = page.getByRole("spinbutton", { name: "Teeth of a1", exact: true });
    for (let i = 0; i < 40 && !(await teeth.evaluate((field) => field === document.activeElement)); i++) {
      await page.keyboard.press("Tab");
    }
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowDown");
    await headline(page, "5 turns of Crank give 2 of Upright shaft");
    await page.keyboard.press("Escape");
    const samples = page.getByRole("button", { name: "Samples…" });
    await samples.focus();
    await page.keyboard.press("Enter");
    await page.getByRole("dialog", { name: "Samples" }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    expect(await samples.evaluate((button) => button === document.activeElement)).toBe(true);
    await page.keyboard.press("Shift+?");
    await page.getByRole("dialog", { name: "Keys" }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await app.close();
  });
});

describe("small and weak machines", () => {
  it("without WebGL the bench says how it draws, and all else works", async () => {
    const app = await openApp({ webgl: false });
    await headline(app.page, FIRST);
    await app.page
      .locator("#bench")
      .getByText(/WebGL|3D/)
      .first()
      .waitFor();
    await enter(app.page, "Teeth of b1", "60");
    await headline(app.page, "3 turns of Crank give 1 of Upright shaft");
    await app.screenshot("no-webgl");
    await app.close();
  });

  it("on a phone there is one sheet with four tabs, and nothing sticks out", async () => {
    const app = await openApp({ width: 390, height: 844, touch: true });
    const { page } = app;
    await headline(page, FIRST);
    for (const tab of ["Parts", "Workings", "Findings", "Readouts"]) {
      await page.getByRole("tab", { name: tab }).tap();
      await page.getByRole("tabpanel", { name: tab }).waitFor();
      expect(await overflowing(page), tab).toEqual([]);
      await app.screenshot(`phone-${tab.toLowerCase()}`);
    }
    await page.getByRole("tab", { name: "Parts" }).tap();
    // Steppers before keyboards: a tap is one tooth.
    await page.getByRole("button", { name: "Teeth of b1: more" }).tap();
    await page.getByRole("tab", { name: "Readouts" }).tap();
    await headline(page, "41 turns of Crank give 20 of Upright shaft");
    await page.getByRole("button", { name: "Menu" }).tap();
    await page.getByRole("dialog", { name: "Menu" }).getByRole("button", { name: "Samples…" }).tap();
    await page.getByRole("dialog", { name: "Samples" }).getByRole("button", { name: "Well hoist" }).tap();
    await headline(page, "12 turns of Motor give 1 of Drum");
    expect(await overflowing(page)).toEqual([]);
    await app.close();
  });

  it.each([
    [1440, 900],
    [1024, 768],
    [844, 390],
  ])("at %i by %i nothing sticks out", async (width, height) => {
    const app = await openApp({ width, height });
    await headline(app.page, FIRST);
    await app.page.locator("#bench canvas").first().waitFor();
    expect(await overflowing(app.page)).toEqual([]);
    await app.screenshot(`size-${width}`);
    await app.close();
  });
});

describe("for everybody", () => {
  it.each(["light", "dark"] as const)("axe finds nothing wrong, %s", async (theme) => {
    const app = await openApp({ theme });
    const { page } = app;
    await headline(page, FIRST);
    await page.locator("#bench canvas").first().waitFor();
    expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe(theme);
    expect(await violations(page), "the first screen").toEqual([]);
    await page.getByRole("button", { name: "Workings", exact: true }).click();
    await page.getByRole("heading", { name: /^How .* turns$/ }).waitFor();
    expect(await violations(page), "workings").toEqual([]);
    await page.getByRole("tab", { name: "Findings" }).click();
    await page.getByText("Nothing to report").waitFor();
    expect(await violations(page), "findings").toEqual([]);
    await page.keyboard.press("?");
    await page.getByRole("dialog", { name: "Keys" }).waitFor();
    expect(await violations(page), "keys").toEqual([]);
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Samples…" }).click();
    await page.getByRole("dialog", { name: "Samples" }).waitFor();
    expect(await violations(page), "samples").toEqual([]);
    await page.getByRole("button", { name: "Three in a ring jam" }).click();
    await expect.poll(() => page.title()).toContain("Three in a ring");
    expect(await violations(page), "a locked drive").toEqual([]);
    await app.close();
  });

  it("axe finds nothing wrong on a phone", async () => {
    const app = await openApp({ width: 390, height: 844, touch: true });
    await headline(app.page, FIRST);
    for (const tab of ["Parts", "Workings", "Findings", "Readouts"]) {
      await app.page.getByRole("tab", { name: tab }).tap();
      expect(await violations(app.page), tab).toEqual([]);
    }
    await app.close();
  });

  it("the first press on a part's menu opens it, and its keys work", async () => {
    const app = await openApp({ path: "?first=no" });
    const { page } = app;
    await headline(page, FIRST);
    await page.locator('button[aria-haspopup="menu"]').first().click();
    const items = page.getByRole("menuitem");
    await items.first().waitFor();
    await page.keyboard.press("ArrowDown");
    expect(
      (await items.filter({ has: page.locator(":focus") }).count()) +
        (await page.locator('[role="menuitem"]:focus').count()),
    ).toBeGreaterThan(0);
    await page.keyboard.press("Escape");
    await expect.poll(() => items.count()).toBe(0);
    await app.close();
  });

  it("the cautions open over the page and close again", async () => {
    const app = await openApp({ path: "?first=no" });
    const { page } = app;
    await headline(page, FIRST);
    await page
      .getByRole("spinbutton", { name: /torque/i })
      .last()
      .fill("5");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Cautions" }).click();
    await expect.poll(() => page.getByText(/Guard meshing gears/).isVisible()).toBe(true);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.getByText(/Guard meshing gears/).isVisible()).toBe(false);
    await app.close();
  });

  it("the theme is chosen by a button and remembered", async () => {
    const app = await openApp({ theme: "light" });
    const theme = () => app.page.evaluate(() => document.documentElement.dataset.theme);
    await app.page.getByRole("button", { name: "Light or dark" }).click();
    await expect.poll(theme).toBe("dark");
    await app.page.reload();
    await expect.poll(theme).toBe("dark");
    await app.close();
  });
});

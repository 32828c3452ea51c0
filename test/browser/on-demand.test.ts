/** What comes when it is asked for: it says so where it can't come, is offered again, and is remembered where that was chosen. */
import { describe, expect, it } from "vitest";
import { type App, openApp } from "./harness";
import { headline, overflowing, violations } from "./steps";

const FIRST = "2 turns of Crank give 1 of Upright shaft";

/** A page on which files of a name fail to come until `mend` is called. */
const openWithout = async (name: RegExp): Promise<App & { readonly mend: () => void }> => {
  let failing = true;
  const app = await openApp({
    path: "?first=no",
    before: async (page) => {
      await page.route(name, (route) => (failing ? route.abort() : route.continue()));
    },
    expected: [
      { pattern: /Failed to load resource: net::ERR_FAILED/, reason: "the test cuts the line" },
      { pattern: /preload/, reason: "the browser names the file that the test withheld" },
    ],
  });
  await headline(app.page, FIRST);
  return {
    ...app,
    mend: () => {
      failing = false;
    },
  };
};

describe("what can't be fetched says so, and comes when asked again", () => {
  it("a dialog", async () => {
    const app = await openWithout(/assets\/boxes-.*\.js$/);
    const { page } = app;
    await page.getByRole("button", { name: "Samples…" }).click();
    const notice = page.getByRole("alert").filter({ hasText: "The dialog could not be loaded." });
    await notice.waitFor();
    app.mend();
    await notice.getByRole("button", { name: "Try again" }).click();
    await page.getByRole("dialog", { name: "Samples" }).waitFor();
    await app.close();
  });

  it("the menu of a part", async () => {
    const app = await openWithout(/assets\/openable-part-menu-.*\.js$/);
    const { page } = app;
    const button = page.getByRole("button", { name: "Commands for gear a1" });
    await button.click();
    await page.getByRole("alert").filter({ hasText: "The menu could not be loaded" }).waitFor();
    app.mend();
    await button.click();
    await page.getByRole("menuitem", { name: "Remove this gear" }).waitFor();
    expect(await page.getByText("The menu could not be loaded").count()).toBe(0);
    await app.close();
  });

  it("the presentation, which leaves the page as it is", async () => {
    const app = await openWithout(/assets\/present-.*\.js$/);
    const { page } = app;
    await page.keyboard.press("p");
    const notice = page.getByRole("alert").filter({ hasText: "What presents could not be loaded." });
    await notice.waitFor();
    await page.getByRole("button", { name: "Samples…" }).waitFor();
    app.mend();
    await page.waitForTimeout(800);
    await notice.getByRole("button", { name: "Try again" }).click();
    await page.getByRole("region", { name: "Presentation" }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Samples…" }).waitFor();
    await app.close();
  });

  it("the workings and findings", async () => {
    const app = await openWithout(/assets\/side-panel-.*\.js$/);
    const { page } = app;
    await page.getByRole("button", { name: "Workings", exact: true }).click();
    await page.getByText("The panel could not be loaded.").waitFor();
    // The panel can still be folded away, and brought back.
    await page.getByRole("button", { name: "Fold the workings and findings" }).click();
    app.mend();
    await page.getByRole("button", { name: "Workings", exact: true }).click();
    await page.getByRole("heading", { name: /^How .* turns$/ }).waitFor();
    await app.close();
  });
});

describe("the workings and findings", () => {
  it("are a rail with two names at first; unfolded they stay so, and fold again", async () => {
    const app = await openApp({ width: 1440, height: 900, path: "?first=no" });
    const { page } = app;
    await headline(page, FIRST);
    const side = page.getByRole("complementary", { name: "Workings and findings" });
    expect((await side.boundingBox())?.width).toBeLessThan(60);
    await side.getByRole("button", { name: "Workings", exact: true }).waitFor();
    await side.getByRole("button", { name: /^Findings/ }).press("Enter");
    await side.getByRole("tabpanel", { name: /^Findings/ }).waitFor();
    // What was pressed has gone; the focus stays in the region, right before the tabs.
    expect(await side.locator("button:focus").textContent()).toBe("Fold the workings and findings");
    await page.keyboard.press("Tab");
    await page.keyboard.press("ArrowLeft");
    await side.getByRole("tabpanel", { name: "Workings" }).waitFor();
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await page.reload();
    await side.getByRole("tab", { name: "Workings" }).waitFor();
    await side.getByRole("button", { name: "Fold the workings and findings" }).press("Enter");
    expect(await side.locator("button:focus").textContent()).toBe("Unfold the workings and findings");
    await page.reload();
    await side.getByRole("button", { name: "Workings", exact: true }).waitFor();
    await app.close();
  });
});

describe("the menu of a part", () => {
  it("opens from the keyboard at the first press, and gives the focus back", async () => {
    const app = await openApp({ path: "?first=no" });
    const { page } = app;
    await headline(page, FIRST);
    const button = page.getByRole("button", { name: "Commands for gear a1" });
    await button.focus();
    await page.keyboard.press("Enter");
    await page.locator('[role="menuitem"]:focus').waitFor();
    await page.keyboard.press("Escape");
    await expect.poll(() => button.evaluate((element) => element === document.activeElement)).toBe(true);
    await app.close();
  });
});

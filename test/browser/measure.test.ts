/** Structure, measures and notes in the built page: by keys and by clicks, on a desk and on a phone. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

const SIZES = [
  [1440, 900, false, "light"],
  [1024, 768, false, "dark"],
  [390, 844, true, "light"],
] as const;

/** From the keyboard on a desk, from the menu on a phone. */
const command = async (page: Page, key: string, words: string, touch: boolean): Promise<void> => {
  if (!touch) return page.keyboard.press(key);
  await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("dialog").getByRole("button", { name: words, exact: true }).click();
};

describe.each(SIZES)("at %d × %d", (width, height, touch, theme) => {
  it("a drive is walked, measured and marked", async () => {
    const app = await openApp({ width, height, touch, theme, path: "?first=no&drawing=full" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await page.keyboard.press("Space");

    await command(page, "t", "Structure", touch);
    const tree = page.getByRole("tree", { name: "Structure" });
    await tree.waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("treeitem");
    await page.keyboard.press("End");
    await page.keyboard.press("ArrowLeft");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-level"))).toBe("2");
    await app.screenshot(`structure-${width}`);
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect.poll(() => tree.count()).toBe(0);

    await command(page, "m", "Measure", touch);
    const from = page.getByRole("combobox", { name: "From" });
    await from.waitFor();
    await from.selectOption({ index: 1 });
    await page.getByRole("combobox", { name: "To", exact: true }).selectOption({ index: 3 });
    const figures = page.getByRole("definition");
    await expect.poll(() => figures.count()).toBeGreaterThan(2);
    await page.getByRole("textbox", { name: "New note" }).fill("Oil here once a day");
    await page.getByRole("button", { name: "Pin the note" }).click();
    const pin = page.getByRole("button", { name: /^Note 1 on / });
    await pin.waitFor();
    await page.getByRole("button", { name: "Show note 1" }).click();
    await expect.poll(() => pin.getAttribute("aria-pressed")).toBe("true");
    expect(await page.locator("svg path[data-line]").count()).toBeGreaterThanOrEqual(2);
    await app.screenshot(`measure-${width}`);
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await app.close();
  });
});

/** The close look at one mesh in the built page: opened, looked at from both sides, cut, grown, and left by key and by button. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

const panel = (page: Page) => page.getByRole("group", { name: /^Close look at/ });

/** How many objects of the scene have a name that begins so and are seen. */
const seen = (page: Page, start: string): Promise<number> =>
  page.evaluate((start) => {
    interface Seen {
      readonly name: string;
      readonly visible: boolean;
      readonly children: readonly Seen[];
    }
    let count = 0;
    const visit = (object: Seen): void => {
      if (!object.visible) return;
      if (object.name.startsWith(start)) count++;
      for (const child of object.children) visit(child);
    };
    const ask = ({ scene }: { scene: Seen }): void => visit(scene);
    document
      .querySelector('[data-drawn="3d"] canvas')
      ?.dispatchEvent(new CustomEvent("bench:inspect", { detail: ask }));
    return count;
  }, start);

describe("a close look", () => {
  it.each([
    ["on a desk", 1440, 900, false, "light"],
    ["on a phone", 390, 844, true, "dark"],
  ] as const)("shows one mesh %s", async (where, width, height, touch, theme) => {
    const app = await openApp({ width, height, touch, theme, path: "?first=no&drawing=full" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await page.getByRole("button", { name: "Close look" }).click();
    await panel(page).waitFor();
    await expect.poll(() => seen(page, "touch ")).toBe(1);
    await page.waitForTimeout(1200);
    await app.screenshot(`close-look-${width}`);
    expect(
      await panel(page)
        .getByText(/contact ratio \d/)
        .count(),
    ).toBe(1);

    await page.getByRole("button", { name: "Section" }).click();
    await expect.poll(() => seen(page, "section ")).toBe(2);
    const place = page.getByRole("slider", { name: "Place of the section" });
    await place.focus();
    await page.keyboard.press("End");
    expect(await place.getAttribute("aria-valuetext")).toMatch(/^at the (toe|other end)$/);
    const growth = page.getByRole("slider", { name: "Height of the teeth" });
    await growth.focus();
    await page.keyboard.press("Home");
    expect(await growth.getAttribute("aria-valuetext")).toBe("smooth, as friction wheels");
    await expect.poll(() => seen(page, "touch ")).toBe(0);
    await page.keyboard.press("End");
    await page.getByRole("button", { name: "From the side" }).click();
    await page.waitForTimeout(1200);
    await app.screenshot(`close-look-side-${width}`);
    expect(await overflowing(page)).toEqual([]);
    if (where === "on a desk") expect(await violations(page)).toEqual([]);

    // Escape leaves it wherever the focus is; a second press has the selection to leave.
    await page.keyboard.press("Escape");
    await expect.poll(() => panel(page).count()).toBe(0);
    await expect.poll(() => seen(page, "section ")).toBe(0);
    await page.getByRole("button", { name: "Close look" }).click();
    // A phone leaves by the button that it came in by.
    await page.getByRole("button", { name: where === "on a desk" ? "Back" : "Close look", exact: true }).click();
    await expect.poll(() => panel(page).count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.textContent?.trim())).toBe("Close look");
    await app.close();
  });
});

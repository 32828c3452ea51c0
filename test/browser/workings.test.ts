/** The workings in the built page: a mesh worked by itself, every way to its ratio, line by line, copied, and lit with the bench. */
import { describe, expect, it } from "vitest";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

describe("the workings", () => {
  it.each([
    ["on a desk", 1440, 900, false, "light"],
    ["on a projector", 1024, 768, false, "dark"],
    ["on a phone", 390, 844, true, "dark"],
  ] as const)("of a mesh %s", async (where, width, height, touch, theme) => {
    const app = await openApp({ width, height, touch, theme, path: "?first=no&drawing=flat" });
    const { page, context } = app;
    await context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.getByRole(touch ? "tab" : "button", { name: "Workings", exact: true }).click();
    const more = page.getByRole("button", { name: /^More of mesh/ }).first();
    await more.waitFor();
    await app.screenshot(`workings-${width}`);
    await more.click();
    await page.getByRole("heading", { name: /^Why height does not matter/ }).waitFor();
    await page.getByRole("combobox", { name: "Ratio by" }).selectOption("every way");
    await page.getByText(/^The same ratio by the pitch angles/).scrollIntoViewIfNeeded();
    await app.screenshot(`workings-ratio-${width}`);
    await page.getByRole("table", { name: /^20 teeth drive 30/ }).scrollIntoViewIfNeeded();
    await app.screenshot(`workings-height-${width}`);
    // What is set as mathematics has its words as its name.
    const names = await page
      .locator("math")
      .evaluateAll((all) => all.map((math) => math.getAttribute("aria-label") ?? ""));
    expect(names.length).toBeGreaterThan(30);
    expect(names.filter((name) => name === "" || /[=×_]/.test(name))).toEqual([]);

    await page.getByRole("button", { name: "Line by line" }).click();
    await page.keyboard.press("PageDown");
    await page.keyboard.press("PageDown");
    expect(await page.getByText(/^Line 3 of \d+$/).count()).toBe(1);
    await app.screenshot(`workings-line-${width}`);
    await page.keyboard.press("Escape");

    await page.getByRole("combobox", { name: "Copy as" }).selectOption("LaTeX");
    await page.getByRole("button", { name: "Copy all lines" }).click();
    await page.getByText("Copied.", { exact: true }).waitFor();
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toContain("\\frac{");
    expect(copied).toContain("\\begin{tabular}");
    expect(await overflowing(page)).toEqual([]);
    if (where !== "on a phone") expect(await violations(page)).toEqual([]);
    await app.close();
  });

  it("tell the line of action from the contact line in a close look", async () => {
    const app = await openApp({ width: 1440, height: 900, path: "?first=no&drawing=full" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await page.getByRole("button", { name: "Close look" }).click();
    await page.getByRole("button", { name: "Line of action" }).click();
    await page.getByText(/along it one tooth pushes the other/).waitFor();
    await page.waitForTimeout(1500);
    await app.screenshot("line-of-action");
    expect(await overflowing(page)).toEqual([]);
    await app.close();
  });
});

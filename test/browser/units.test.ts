/** Units from the menu to every number on screen, in a real browser: chosen, typed, kept over a reload, never in the drive. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { openApp } from "./harness";
import { downloadOf, enter, headline, overflowing, violations, withoutPickers } from "./steps";

/** What stands in a number field. */
const shownIn = (page: Page, field: string): Promise<string> =>
  page.getByRole("spinbutton", { name: field, exact: true }).first().inputValue();

/** Number fields whose text is wider than the room it has. */
const clipped = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLInputElement>("input[role=spinbutton]")].flatMap((input) => {
      const style = getComputedStyle(input);
      const pen = document.createElement("canvas").getContext("2d");
      if (!pen) return ["no canvas to measure with"];
      pen.font = `${style.fontSize} ${style.fontFamily}`;
      const room = input.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
      const { width } = pen.measureText(input.value);
      return width > room ? [`${input.value}: ${width} px in ${room} px`] : [];
    }),
  );

it("chosen once they are on every number, typed ones are understood, and the file keeps its own", async () => {
  const app = await openApp({ width: 1440, height: 900, path: "?first=no&drawing=flat", before: withoutPickers });
  const { page } = app;
  await page.getByRole("spinbutton", { name: "Module of a1", exact: true }).waitFor();
  await page.locator("body").press("u");
  const dialog = page.getByRole("dialog", { name: "Units" });
  await dialog.getByRole("button", { name: "All inch" }).click();
  await dialog.getByRole("radio", { name: "rad/s" }).check();
  expect(await violations(page)).toEqual([]);
  await app.screenshot("units-dialog");
  await page.keyboard.press("Escape");

  await enter(page, "Diametral pitch of a1", "12");
  expect(await shownIn(page, "Diametral pitch of a1")).toBe("12");
  // The same in the list that one can open; it is filled when it is reached.
  const list = page.getByRole("combobox", { name: "Usual diametral pitches for a1" });
  await list.focus();
  await list.selectOption("16");
  expect(await shownIn(page, "Diametral pitch of a1")).toBe("16");
  await enter(page, "Diametral pitch of a1", "12");
  const readouts = page.getByRole("region", { name: "Readouts" });
  await readouts
    .getByText(/ rad\/s/)
    .first()
    .waitFor();
  expect(await readouts.textContent()).not.toMatch(/rev\/min|N·m/);

  // A motor's label, in the field of the input.
  const power = page.getByRole("spinbutton", { name: /^Available power at / }).first();
  await power.fill("12 V 1.5 A");
  await expect.poll(() => page.getByText("12 V × 1.5 A = 0.02414 hp").first().isVisible()).toBe(true);
  await power.press("Enter");
  await page.getByText(/^At most 0\.02414 hp, .* lbf·ft at .* rad\/s\.$/).waitFor();
  expect(await clipped(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  await app.screenshot("units-inch");

  const { text } = await downloadOf(page, () => page.keyboard.press("Control+S"));
  const file = JSON.parse(text);
  expect(file.gears[0].module).toBe(25.4 / 12);
  expect(file.ports[0].power).toBe(18);
  expect(text).not.toMatch(/lbf|pitch|hp|units/);

  await page.reload();
  await headline(page, "rad/s");
  expect(await shownIn(page, "Diametral pitch of a1")).toBe("12");
  await app.close();
});

it("a language with a decimal comma shows and reads one", async () => {
  const app = await openApp({
    path: "?first=no&drawing=flat",
    before: async (page) => {
      await page.addInitScript(() => Object.defineProperty(navigator, "languages", { value: ["de-DE"] }));
    },
  });
  const { page } = app;
  await enter(page, "Module of a1", "1,25");
  expect(await shownIn(page, "Module of a1")).toBe("1,25");
  await page.getByRole("region", { name: "Readouts" }).getByText(/\d,\d/).first().waitFor();
  await app.close();
});

it.each([
  [390, 844, "dark"],
  [1024, 768, "light"],
] as const)("the dialog and the fields fit a screen of %d by %d, %s", async (width, height, theme) => {
  const phone = width < 500;
  const app = await openApp({ width, height, theme, touch: phone, path: "?first=no&drawing=flat" });
  const { page } = app;
  if (phone) await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("button", { name: "Units…" }).click();
  const dialog = page.getByRole("dialog", { name: "Units" });
  await dialog.getByRole("button", { name: "All inch" }).click();
  await app.screenshot(`units-dialog-${width}`);
  expect(await overflowing(page)).toEqual([]);
  expect(await violations(page)).toEqual([]);
  await dialog.getByRole("button", { name: "Close" }).click();
  if (phone) await page.getByRole("tab", { name: "Parts" }).click();
  await page.getByRole("spinbutton", { name: "Diametral pitch of a1", exact: true }).waitFor();
  expect(await clipped(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  await app.screenshot(`units-fields-${width}`);
  await app.close();
});

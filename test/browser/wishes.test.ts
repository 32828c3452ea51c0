/** Wishes in the built page: asked by key, seen as a ghost that turns on the bench, made in one step, undone; at three sizes. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { type App, openApp } from "./harness";
import { drop, headline, overflowing, violations } from "./steps";

const MIXER = "test/support/mixer.drive.json";

/** Once the bench is there everything listens. */
const openMixer = async (page: Page): Promise<void> => {
  await page.locator("canvas").first().waitFor();
  await drop(page, "mixer.drive.json", "application/json", readFileSync(MIXER));
  await headline(page, "5 turns of Motor give 1 of Mixer");
};

const wish = async (app: App, words: string): Promise<void> => {
  const { page } = app;
  await page.keyboard.press("w");
  await page.getByRole("radio", { name: words, exact: true }).check();
};

/** Names of the ghost's groups that the bench draws now. */
const ghosts = (page: Page): Promise<string[]> =>
  page.evaluate(
    () =>
      new Promise<string[]>((resolve) => {
        const canvas = document.querySelector("canvas");
        const answer = ({ scene }: { scene: { getObjectByName: (name: string) => unknown } }): void => {
          const ghost = scene.getObjectByName("ghost") as
            | { traverse: (f: (o: { name: string }) => void) => void }
            | undefined;
          const names: string[] = [];
          ghost?.traverse(({ name }) => {
            if (name.startsWith("shaft ")) names.push(name);
          });
          resolve(names);
        };
        canvas?.dispatchEvent(new CustomEvent("bench:inspect", { detail: answer }));
      }),
  );

describe("wishes", () => {
  it("an idler by keys alone: ghost, done, undone", async () => {
    const app = await openApp({ path: "?first=no&drawing=full" });
    const { page } = app;
    await openMixer(page);
    await wish(app, "turn the other way");
    const idler = page.getByRole("listitem").filter({ hasText: "Put an idler between a1 and b1" });
    await idler.getByRole("button", { name: "Do this" }).focus();
    await expect.poll(() => ghosts(page), { timeout: 20_000 }).toEqual(["shaft B", "shaft C", "shaft D"]);
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press("Enter");
    await page.getByRole("textbox", { name: "Name of shaft D" }).waitFor();
    await expect.poll(() => ghosts(page), { timeout: 20_000 }).toEqual([]);
    await page.getByText("counterclockwise seen from the mixer end").first().waitFor();
    await page.keyboard.press("Control+z");
    await headline(page, "5 turns of Motor give 1 of Mixer");
    expect(await page.getByRole("textbox", { name: "Name of shaft D" }).count()).toBe(0);
    await app.close();
  });

  it("joins two shafts from the menu of one, and refuses nothing silently", async () => {
    const app = await openApp({ path: "?first=no&drawing=full" });
    const { page } = app;
    await openMixer(page);
    await page.getByRole("button", { name: "Commands for shaft Motor" }).click();
    await page.getByRole("menuitem", { name: "Join with…" }).click();
    await page.getByRole("combobox", { name: "Join Motor with" }).selectOption({ label: "Mixer" });
    // Motor and Mixer are joined by the drive: their axes cross above the motor, and 5 to 1 must be kept.
    await page
      .getByRole("list", { name: "Pairs that fit" })
      .or(page.getByText(/the drive already|stand in the way/))
      .first()
      .waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("heading", { name: "Join two shafts" }).waitFor({ state: "detached" });
    await app.close();
  });

  it.each([
    [1024, 768, false, "dark"],
    [390, 844, true, "light"],
    ...(process.env.SOAK ? ([[1440, 900, false, "light"]] as const) : []),
  ] as const)("fits %i by %i", async (width, height, touch, theme) => {
    const app = await openApp({ path: "?first=no&drawing=full", width, height, touch, theme });
    const { page } = app;
    await openMixer(page);
    await wish(app, "turn this fast");
    await page.getByRole("spinbutton", { name: "Wanted speed of Mixer" }).fill("300");
    await page.getByRole("button", { name: "Do this" }).first().waitFor();
    await page.getByRole("button", { name: "Show" }).first().click();
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);
    const least = touch ? 44 : 32;
    for (const button of await page.getByRole("button", { name: /^(Do this|Show)$/ }).all()) {
      expect((await button.boundingBox())?.height ?? least).toBeGreaterThanOrEqual(least);
    }
    await app.screenshot(`wishes-${width}-${theme}`);
    await app.close();
  });
});

/** Collisions and the space in the built page: found, marked on the bench by shape and word, shown, and mended. */
import { describe, expect, it } from "vitest";
import { writeDrive } from "../../src/engine/drive/write";
import { planetary } from "../support/random-drives";
import { type App, openApp } from "./harness";
import { drop, enter, overflowing, violations } from "./steps";

const crowded = Buffer.from(writeDrive(planetary(20, 20, 60, 8)));

/** Names of objects in the picture that begin so. */
const objects = ({ page }: App, start: string): Promise<string[]> =>
  page.evaluate((start) => {
    const found: string[] = [];
    interface Seen {
      readonly name: string;
      traverse(visit: (object: Seen) => void): void;
    }
    const detail = ({ scene }: { scene: Seen }): void =>
      scene.traverse(({ name }) => {
        if (name.startsWith(start)) found.push(name);
      });
    document.querySelector('[data-drawn="3d"] canvas')?.dispatchEvent(new CustomEvent("bench:inspect", { detail }));
    return found.sort();
  }, start);

describe("collisions and the space to fit", () => {
  it("are found, marked, shown and mended", { timeout: 180_000 }, async () => {
    const app = await openApp({ width: 1440, height: 900, path: "?first=no&drawing=full" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await drop(page, "crowded.drive.json", "application/json", crowded);
    await expect.poll(() => objects(app, "trouble gear p"), { timeout: 30_000 }).toHaveLength(8);
    await page.getByText("collides").first().waitFor();

    await page.keyboard.press("b");
    const dialog = page.getByRole("dialog", { name: "Space and clearance" });
    await dialog.waitFor();
    await enter(page, "Width, left to right", "900");
    await dialog.getByText("Fits.").waitFor();
    await enter(page, "Depth, near to far", "100");
    await dialog.getByText(/sticks out of its space by .* mm on the near side/).waitFor();
    await dialog.getByRole("combobox", { name: "From" }).selectOption("gear p1");
    await dialog.getByRole("combobox", { name: "To" }).selectOption("gear p3");
    await dialog.getByText(/[\d.]+ mm clear/).waitFor();
    expect(await violations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect.poll(() => objects(app, "trouble gear r"), { timeout: 30_000 }).toEqual(["trouble gear r"]);
    expect(await objects(app, "space")).toEqual(["space"]);
    await app.screenshot("space");

    // One undo a side: the box goes as it came.
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await expect.poll(() => objects(app, "space"), { timeout: 30_000 }).toEqual([]);
    await app.close();
  });
});

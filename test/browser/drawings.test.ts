/** Drawings and figures in the built page: drawn by its worker, selected in, lit everywhere, saved, copied and read back. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { PNG } from "pngjs";
import { describe, expect, it } from "vitest";
import { CARRIED } from "../../src/cli/launch.mjs";
import { layer, readPaths, readSvg } from "../engine/drawing/read-figure";
import { figure, SAMPLES } from "../engine/drawing/samples";
import { openApp } from "./harness";
import { downloadOf, drop, overflowing, violations } from "./steps";

const NAME = "well-hoist";
const [, hoist] = SAMPLES.find(([name]) => name === NAME) ?? ["", null];
if (!hoist) throw new Error("no well hoist");
const bytes = readFileSync(join(import.meta.dirname, `../../public/samples/${NAME}.drive.json`));

const drawn = (page: Page, name: string) => page.getByRole("region", { name: `${name}, drawn` });

/** From the drive to the eye, world, rounded to a hundredth. */
const towardsEye = (page: Page): Promise<readonly number[]> =>
  page.evaluate(() => {
    let towards: number[] = [];
    interface Seen {
      readonly camera: { readonly matrixWorld: { readonly elements: readonly number[] } };
    }
    // The third column of the camera's place: it looks against it.
    const detail = ({ camera }: Seen): void => {
      towards = camera.matrixWorld.elements.slice(8, 11).map((x) => Math.round(x * 100) / 100 + 0);
    };
    document.querySelector('[data-drawn="3d"] canvas')?.dispatchEvent(new CustomEvent("bench:inspect", { detail }));
    return towards;
  });

describe("drawings and figures", () => {
  it("are drawn, selected in, lit, seen from, saved and copied", { timeout: 180_000 }, async () => {
    const app = await openApp({
      width: 1440,
      height: 900,
      path: "?first=no&drawing=full",
      reducedMotion: true,
      before: (_page, context) => context.grantPermissions(["clipboard-read", "clipboard-write"]),
    });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await drop(page, `${NAME}.drive.json`, "application/json", bytes);
    await page.getByText("12 turns of Motor give 1 of Drum").first().waitFor();

    await page.keyboard.press("v");
    await drawn(page, "Schematic").waitFor();
    // A press beside a line, as a finger would: the nearest line is meant.
    const tip = drawn(page, "Three views")
      .locator('[data-view="front"] [data-layer="visible"] [data-gear="c1"]')
      .first();
    // At half past seven, 3 pixels outside the tip circle: on the other side the line to the shaft's name goes by.
    const beside = () =>
      tip.evaluate((mark) => {
        const box = mark.getBoundingClientRect();
        const out = box.width / 2 + 3;
        const x = box.x + box.width / 2 - out * Math.SQRT1_2;
        const y = box.y + box.height / 2 + out * Math.SQRT1_2;
        return { x, y, isThere: mark.closest("svg")?.contains(document.elementFromPoint(x, y)) ?? false };
      });
    // The drawings come before the column that they stand in has its width.
    await expect.poll(async () => (await beside()).isThere).toBe(true);
    const { x, y } = await beside();
    await page.mouse.click(x, y);
    for (const name of ["Three views", "Schematic"]) {
      const own = await drawn(page, name).locator('[data-gear="c1"]').count();
      expect(own).toBeGreaterThan(0);
      await expect.poll(() => drawn(page, name).locator("[data-lit]").count()).toBe(own);
    }
    await page.getByRole("button", { name: "Side view, from the left" }).click();
    await expect.poll(() => towardsEye(page)).toEqual([-1, 0, 0]);
    await page.getByRole("button", { name: "Top view, from above" }).click();
    await expect.poll(() => towardsEye(page)).toEqual([0, 0, 1]);
    await app.screenshot("drawings");
    await page.getByRole("combobox", { name: "Selected" }).selectOption("nothing");
    expect(await page.locator("[data-layer] > [data-lit]").count()).toBe(0);
    expect(await violations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
    // In a list of words, letters choose a word.
    await page.getByRole("button", { name: "Top view, from above" }).focus();

    await page.keyboard.press("f");
    const dialog = page.getByRole("dialog", { name: "Figures" });
    await dialog.getByRole("img", { name: "Three views as it will be saved" }).waitFor();
    const { name, text } = await downloadOf(page, () => dialog.getByRole("button", { name: "Download SVG" }).click());
    expect(name).toBe("well-hoist-three-views.svg");
    // The command line draws the same drive to the same bytes.
    expect(text).toBe(figure(hoist, { view: "three" }).svg);
    const svg = readSvg(text);
    const arrows = readPaths(layer(svg, "front-arrows"));
    expect(new Set(arrows.map(({ part }) => part).filter((part) => part !== "")).size).toBe(hoist.drive.shafts.length);
    expect(text).toContain(">Scale 1:2, lengths in mm</text>");
    await dialog.getByRole("button", { name: "Copy SVG" }).click();
    await dialog.getByText("The SVG is copied, as text.").waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(text);

    await dialog.getByRole("combobox", { name: "Figure of" }).selectOption("Section");
    await dialog.getByRole("img", { name: "Section as it will be saved" }).waitFor();
    await dialog.getByRole("textbox", { name: "PNG width" }).fill("0");
    await dialog.getByText("The width is a whole number of pixels from 100 to 10000, not 0.").waitFor();
    await dialog.getByRole("textbox", { name: "PNG width" }).fill("1234");
    const [file] = await Promise.all([
      page.waitForEvent("download"),
      dialog.getByRole("button", { name: "Download PNG" }).click(),
    ]);
    expect(file.suggestedFilename()).toBe("well-hoist-section.png");
    const png = PNG.sync.read(readFileSync(await file.path()));
    expect(png.width).toBe(1234);
    const alphas = png.data.filter((_, i) => i % 4 === 3);
    expect(alphas[0]).toBe(0);
    expect(alphas.filter((alpha) => alpha > 200).length).toBeGreaterThan(1000);
    await dialog.getByRole("button", { name: "Copy PNG" }).click();
    await dialog.getByText("The picture is copied.").waitFor();
    expect(await violations(page)).toEqual([]);
    await app.screenshot("figures");

    await dialog.getByRole("combobox", { name: "Figure of" }).selectOption("Workings");
    await dialog.getByRole("img", { name: "Workings as it will be saved" }).waitFor();
    const workings = await downloadOf(page, () => dialog.getByRole("button", { name: "Download SVG" }).click());
    expect(workings.name).toBe("well-hoist-workings.svg");
    expect(readSvg(workings.text).name).toBe("svg");
    expect(workings.text).toMatch(/<text [^>]*>[^<]*i[^<]* = [^<]*<\/text>/);
    await app.close();
  });

  it("are drawn in the one file to carry too", async () => {
    const app = await openApp({ file: CARRIED, path: "?first=no&drawing=flat" });
    const { page } = app;
    await page.getByRole("region", { name: "Readouts" }).waitFor();
    await page.keyboard.press("v");
    await drawn(page, "Schematic").waitFor();
    await page.getByRole("button", { name: "Figures…" }).click();
    await page.getByRole("img", { name: "Three views as it will be saved" }).waitFor();
    await app.close();
  });
});

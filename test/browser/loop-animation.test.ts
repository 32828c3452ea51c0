/** The looped animation in the built page: taken from the bench, written by its worker, and read back by another library. */
import { readFileSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { CARRIED } from "../../src/cli/launch.mjs";
import { difference, readGif } from "../support/read-gif";
import { openApp } from "./harness";
import { headline, overflowing, violations } from "./steps";

const WIDTH = 160;

/** Stops the bench somewhere, and tells how it stands. */
const stop = async (page: Page): Promise<string> => {
  await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
  const atFirst = await standing(page);
  await expect.poll(() => standing(page)).not.toBe(atFirst);
  await page.getByRole("button", { name: "Pause" }).click();
  return standing(page);
};

/** Opens the dialog at the animation. */
const openLoop = async (page: Page): Promise<Locator> => {
  await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
  await headline(page, "2 turns of Crank give 1 of Upright shaft");
  await page.keyboard.press("f");
  const dialog = page.getByRole("dialog", { name: "Figures" });
  await dialog.getByRole("combobox", { name: "Figure of" }).selectOption("3D, looped animation (GIF)");
  await dialog.getByRole("textbox", { name: "GIF width" }).fill(String(WIDTH));
  return dialog;
};

const make = (dialog: Locator): Promise<void> => dialog.getByRole("button", { name: "Make the animation" }).click();

const gifOf = async (page: Page, dialog: Locator) => {
  await make(dialog);
  const button = dialog.getByRole("button", { name: "Download GIF" });
  await button.waitFor();
  const [file] = await Promise.all([page.waitForEvent("download"), button.click()]);
  return { name: file.suggestedFilename(), gif: readGif(readFileSync(await file.path())) };
};

/** How each gear stands on the bench, and the size of its canvas. */
const standing = (page: Page): Promise<string> =>
  page.evaluate(() => {
    interface Thing {
      readonly name: string;
      readonly matrixWorld: { readonly elements: readonly number[] };
      traverse(take: (thing: Thing) => void): void;
    }
    const all: string[] = [];
    const detail = ({ scene, camera }: { readonly scene: Thing; readonly camera: Thing }): void => {
      scene.traverse(({ name, matrixWorld }) => name.startsWith("gear ") && all.push(matrixWorld.elements.join()));
      all.push(camera.matrixWorld.elements.join());
    };
    const canvas = document.querySelector<HTMLCanvasElement>('[data-drawn="3d"] canvas');
    canvas?.dispatchEvent(new CustomEvent("bench:inspect", { detail }));
    return [...all, canvas?.width, canvas?.height].join(" ");
  });

const mean = (steps: readonly number[]): number => steps.reduce((a, b) => a + b, 0) / steps.length;

describe("a looped animation of the 3D", () => {
  it("has the pictures that are told, closes without a jump, and leaves the bench as it was", async () => {
    const app = await openApp({ path: "?first=no&drawing=full" });
    const { page } = app;
    const before = await stop(page);
    const dialog = await openLoop(page);
    // 20 teeth; the clock shows an eighth of a pitch in a sixtieth of a second, so a pitch takes 2/15 s: 6.7 pictures of 1/50 s.
    await dialog.getByText("The animation lasts 0.14 s, in 7 pictures.").waitFor();
    expect(await violations(page)).toEqual([]);
    expect(await overflowing(page)).toEqual([]);
    const { name, gif } = await gifOf(page, dialog);
    expect(name).toBe("crank-and-wheel-3d-loop.gif");
    expect([gif.width, gif.loops]).toEqual([WIDTH, 0]);
    expect(gif.delays).toEqual(new Array(7).fill(2));
    const [first, ...others] = gif.pictures as [Uint8Array, ...Uint8Array[]];
    const steps = others.map((picture, k) => difference(picture, gif.pictures[k] as Uint8Array));
    const jump = (k: number): number => Math.abs(difference(gif.pictures[k] as Uint8Array, first) / mean(steps) - 1);
    expect(Math.min(...steps)).toBeGreaterThan(0.1);
    expect(jump(6)).toBeLessThan(0.25);
    // The same measure sees that pictures are missing.
    expect(jump(4)).toBeGreaterThan(0.25);
    await dialog.getByText(/^The animation is made: .* kB\. Saved as crank-and-wheel-3d-loop\.gif\.$/).waitFor();
    expect(await violations(page)).toEqual([]);

    await dialog.getByRole("combobox", { name: "Ground" }).selectOption("transparent");
    expect(await dialog.getByRole("button", { name: "Download GIF" }).count()).toBe(0);
    const clear = (await gifOf(page, dialog)).gif.pictures;
    expect([first[3], ...clear.map((picture) => picture[3])]).toEqual([255, ...new Array(7).fill(0)]);
    await page.keyboard.press("Escape");
    expect(await standing(page)).toBe(before);
    await page.getByRole("button", { name: "Play" }).waitFor();
    await app.close();
  });

  it("that is cancelled, or whose picture is lost, saves nothing, says so, and leaves the clock as it was", async () => {
    const app = await openApp({ path: "?first=no&drawing=full" });
    const { page } = app;
    const before = await stop(page);
    const dialog = await openLoop(page);
    await dialog.getByRole("combobox", { name: "Marks" }).selectOption("shown");
    await dialog.getByText("whole turns, since marks show").waitFor();
    await make(dialog);
    await dialog.getByText(/^Frame [2-9] of 133$/).waitFor();
    await dialog.getByRole("button", { name: "Cancel" }).click();
    await dialog.getByText("The animation was cancelled; nothing was saved.").waitFor();
    expect(await standing(page)).toBe(before);
    await make(dialog);
    await dialog.getByText(/^Frame [2-9] of 133$/).waitFor();
    await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('[data-drawn="3d"] canvas');
      canvas?.getContext("webgl2")?.getExtension("WEBGL_lose_context")?.loseContext();
    });
    await dialog
      .getByText(/^The picture was lost while the animation was made: .* Nothing was saved; try again\.$/)
      .waitFor();
    expect(await dialog.getByRole("button", { name: "Download GIF" }).count()).toBe(0);
    // The bench has another picture by now, at the same place and time.
    await expect.poll(() => standing(page)).toBe(before);
    await dialog.getByRole("combobox", { name: "Marks" }).selectOption("hidden");
    expect((await gifOf(page, dialog)).gif.pictures).toHaveLength(7);
    await app.close();
  });

  it("is made in the one file to carry too, and goes on turning afterwards", async () => {
    const app = await openApp({ file: CARRIED, path: "?first=no&drawing=full" });
    const { page } = app;
    const dialog = await openLoop(page);
    await gifOf(page, dialog);
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Pause" }).waitFor();
    await app.close();
  });

  it("is not to be had without WebGL, which is said", async () => {
    const app = await openApp({ path: "?first=no", webgl: false });
    const { page } = app;
    await page.waitForSelector('[data-drawn="flat"] canvas', { state: "attached" });
    await page.keyboard.press("f");
    const dialog = page.getByRole("dialog", { name: "Figures" });
    await dialog.getByRole("combobox", { name: "Figure of" }).selectOption("3D, looped animation (GIF)");
    await dialog.getByRole("alert").filter({ hasText: "This browser offers no 3D graphics (WebGL)" }).waitFor();
    expect(await dialog.getByRole("button", { name: "Make the animation" }).count()).toBe(0);
    await app.close();
  });
});

/** Presenting in the built page: legible from the back row, by clicker alone, inked over, and left as if it had not been. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { encodeDrive } from "../../src/exchange/share/code";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

const mixer = parseDrive(readFileSync("test/support/mixer.drive.json", "utf8")).drive as Drive;
const LINK = encodeDrive(mixer);
/** px: the least height of a capital on a projector of 1024 by 768. */
const CAPITAL = 26;

/**
 * The height of a capital in every text that is seen, outside of the bar: the browser's own measure of an H in that face at
 * 100 px, times the size that the text truly has, read from the height of its line box on the screen.
 */
const capitals = (page: Page): Promise<{ readonly text: string; readonly px: number }[]> =>
  page.evaluate(() => {
    const brush = document.createElement("canvas").getContext("2d") as CanvasRenderingContext2D;
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const seen: { text: string; px: number }[] = [];
    while (walker.nextNode()) {
      const text = walker.currentNode;
      const element = text.parentElement;
      const words = text.textContent?.trim() ?? "";
      if (!element || words === "" || element.closest(".only-heard, script, style, [popover], annotation")) continue;
      if (element.closest("section[aria-label=Presentation]")) continue;
      if (!element.checkVisibility({ visibilityProperty: true, opacityProperty: true })) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      const [rect] = range.getClientRects();
      if (!rect || rect.height === 0) continue;
      const { fontStyle, fontWeight, fontFamily } = getComputedStyle(element);
      brush.font = `${fontStyle} ${fontWeight} 100px ${fontFamily}`;
      const { actualBoundingBoxAscent, fontBoundingBoxAscent, fontBoundingBoxDescent } = brush.measureText("H");
      seen.push({
        text: words,
        px: (rect.height / (fontBoundingBoxAscent + fontBoundingBoxDescent)) * actualBoundingBoxAscent,
      });
    }
    return seen;
  });

/** Labels of the bench that are seen and stick out of it. */
const cutLabels = (page: Page): Promise<(string | null)[]> =>
  page.evaluate(() => {
    const bench = document.querySelector("#bench")?.getBoundingClientRect() ?? new DOMRect();
    return [...document.querySelectorAll<HTMLElement>("#bench section [aria-hidden] > span")]
      .filter((label) => label.style.visibility !== "hidden")
      .filter((label) => {
        const { left, right, top, bottom } = label.getBoundingClientRect();
        return left < bench.left || right > bench.right || top < bench.top || bottom > bench.bottom;
      })
      .map(({ textContent }) => textContent);
  });

/** What a person would notice to have changed: places and scrolling of the regions, labels of the bench, focus, theme. */
const state = (page: Page): Promise<unknown> =>
  page.evaluate(() => {
    const box = (element: Element): number[] => {
      const { x, y, width, height } = element.getBoundingClientRect();
      return [x, y, width, height].map(Math.round);
    };
    return {
      regions: [...document.querySelectorAll("header, main, aside, #root > div > div, canvas")].map(box),
      scrolled: [...document.querySelectorAll("#parts *")].map(({ scrollTop }) => scrollTop).filter((top) => top > 0),
      labels: [...document.querySelectorAll("#bench span[data-selected], #bench section [aria-hidden] > span")].map(
        box,
      ),
      selected: [...document.querySelectorAll("[data-selected]")].length,
      theme: document.documentElement.dataset.theme,
      root: document.documentElement.getAttributeNames().filter((name) => name !== "style"),
      style: document.documentElement.style.cssText,
      focus: document.activeElement?.textContent,
      text: document.querySelector("#parts")?.textContent,
    };
  });

const SIZES = [
  [1024, 768, false, "light"],
  ...(process.env.SOAK
    ? ([
        [1440, 900, false, "dark"],
        [390, 844, true, "light"],
      ] as const)
    : []),
] as const;

describe.each(SIZES)("at %d × %d", (width, height, touch, theme) => {
  it("the bench fills the screen, panels come one by one, ink fades, and all is as it was", async () => {
    const app = await openApp({
      width,
      height,
      touch,
      theme,
      reducedMotion: true,
      path: `?first=no&drawing=full#${LINK}`,
      // A browser that does not let the page have the whole screen.
      before: async (page) => {
        if (!touch) return;
        await page.addInitScript(() => {
          Element.prototype.requestFullscreen = () => Promise.reject(new TypeError("Permissions check failed"));
        });
      },
    });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    const bar = page.getByRole("region", { name: "Presentation" });
    if (!touch) {
      await page.getByRole("spinbutton", { name: "Teeth of a1" }).waitFor();
      await page
        .locator("#parts > div")
        .last()
        .evaluate((element) => element.scrollTo(0, 120));
      await page.getByRole("button", { name: "Present", exact: true }).focus();
    }
    if (touch) await page.locator("#bench").focus();
    await page.waitForTimeout(800);
    const before = await state(page);
    await page.keyboard.press(touch ? "p" : "Enter");
    await bar.waitFor();
    expect(await page.evaluate(() => document.fullscreenElement?.tagName ?? null)).toBe(touch ? null : "HTML");
    await expect
      .poll(() => page.locator("#bench").evaluate((bench) => [bench.clientWidth, bench.clientHeight]))
      .toEqual([width, height]);
    await page.locator("#root header").first().waitFor({ state: "hidden" });

    const panels = ["bench", "readouts", "workings", "findings"];
    for (const name of panels) {
      if (name !== "bench") await page.keyboard.press(String(panels.indexOf(name) + 1));
      if (name === "workings") {
        await bar.getByText(/^line 1 of/).waitFor({ state: "attached" });
        for (let line = 0; line < 4; line++) await page.keyboard.press("PageDown");
      }
      if (name === "findings")
        await page.getByRole("region", { name: "Findings, presented" }).locator("p").first().waitFor();
      await page.waitForTimeout(500);
      await app.screenshot(`present-${name}-${width}-${theme}`);
      const written = await capitals(page);
      expect(written.map(({ text }) => text)).toContain("Mixer");
      expect(await cutLabels(page)).toEqual([]);
      if (width === 1024) expect(written.filter(({ px }) => px < CAPITAL)).toEqual([]);
      expect(await overflowing(page)).toEqual([]);
      expect(await violations(page)).toEqual([]);
    }

    // Ink goes over the bench and picks nothing; without it the same press picks.
    const gear = page.locator("#bench section span", { hasText: /^50/ }).first();
    const at = await gear.boundingBox();
    const [x, y] = [(at?.x ?? 0) - 4, (at?.y ?? 0) - 4];
    await page.keyboard.press("i");
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y + 30, { steps: 5 });
    await page.mouse.up();
    const ink = () =>
      page.evaluate(
        () =>
          [...document.querySelectorAll("#root svg path")].filter(
            (one) => getComputedStyle(one).strokeWidth === "6px" && one.getAttribute("d"),
          ).length,
      );
    expect(await ink()).toBe(1);
    await app.screenshot(`present-ink-${width}-${theme}`);
    await page.keyboard.press("i");
    expect(await ink()).toBe(1);
    await page.keyboard.press("PageUp");
    await expect.poll(ink).toBe(0);
    await page.keyboard.press("b");
    await app.screenshot(`present-black-${width}-${theme}`);
    await page.keyboard.press(".");
    await page.keyboard.press("d");
    expect(await page.evaluate(() => document.documentElement.dataset.theme)).not.toBe(theme);

    // The bar is away when nothing moves.
    await page.mouse.move(width / 2, height / 3);
    await expect.poll(() => bar.evaluate((one) => getComputedStyle(one).opacity), { timeout: 8000 }).toBe("0");
    await page.keyboard.press("Tab");
    await expect.poll(() => bar.evaluate((one) => getComputedStyle(one).opacity)).toBe("1");

    await page.keyboard.press("Escape");
    await bar.waitFor({ state: "detached" });
    await expect.poll(() => page.evaluate(() => document.fullscreenElement)).toBeNull();
    await expect.poll(() => state(page)).toEqual(before);
    await app.screenshot(`present-left-${width}-${theme}`);
    await app.close();
  });
});

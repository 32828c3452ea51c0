/** The demonstrations in the built page: each opened, worked and left, by keys and by clicks, on a desk and on a phone. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

const SIZES = [
  [390, 844, true, "light"],
  ...(process.env.SOAK
    ? ([
        [1440, 900, false, "light"],
        [1024, 768, false, "dark"],
      ] as const)
    : []),
] as const;

const open = async (page: Page, touch: boolean): Promise<void> => {
  if (!touch) return page.keyboard.press("k");
  await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Demonstrations", exact: true }).click();
};

const figure = (page: Page, name: string) =>
  page.locator("dl > div", { hasText: name }).getByRole("definition").textContent();

describe.each(SIZES)("at %d × %d", (width, height, touch, theme) => {
  it("each is opened, says true numbers of the drive's own pair, and leaves the drive", async () => {
    const app = await openApp({ width, height, touch, theme, path: "?first=no&drawing=full" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await page.keyboard.press("Space");
    await open(page, touch);
    const panel = page.getByRole("region", { name: "Demonstrations on one pair" });
    await panel.waitFor();
    const unchanged = page.getByText(/^Demonstration: .*Your drive is unchanged\.$/);
    const show = async (title: string): Promise<void> => {
      await panel.getByRole("button", { name: title, exact: true }).click();
      await page.waitForTimeout(300);
      await app.screenshot(`demos-${width}-${title.toLowerCase().replaceAll(" ", "-")}`);
      expect(await overflowing(page)).toEqual([]);
      expect(await violations(page)).toEqual([]);
    };

    // The drive that opens: 20 and 40 teeth of module 4, 30 rev/min.
    await show("Any shaft angle");
    expect(await figure(page, "Pitch angle, Crank")).toBe("26.57°");
    await panel.getByRole("button", { name: "120° crown" }).click();
    expect(await figure(page, "Pitch angle, Upright shaft")).toBe("90°");
    await page.getByText(/this pair by itself at 120°/).waitFor();
    for (const end of ["180° ring", "0° parallel"]) await panel.getByRole("button", { name: end }).click();
    await panel.getByRole("slider", { name: "Shaft angle" }).press("ArrowRight");
    expect(await panel.getByRole("slider", { name: "Shaft angle" }).inputValue()).toBe("0.5");

    await show("Either drives");
    await unchanged.waitFor();
    await panel.getByRole("button", { name: "Upright shaft", exact: true }).click();
    await page.getByText(/Upright shaft drives\. Your drive/).waitFor();
    await panel.getByRole("row", { name: /^Speed 60 rev\/min 30 rev\/min/ }).waitFor();

    await show("Rolling cup");
    await expect.poll(() => unchanged.count()).toBe(0);
    expect(await figure(page, "Radius of the circle of the wider end")).toBe("89.44 mm");

    await show("Taper");
    expect(await figure(page, "Thickness of the tooth")).toBe("6.283 mm");
    await panel.getByRole("button", { name: "See the section on the bench" }).click();
    await page.getByRole("group", { name: /^Close look at/ }).waitFor();
    await panel.getByRole("slider", { name: "Section, heel to toe" }).press("End");
    expect(await page.getByRole("slider", { name: "Place of the section" }).getAttribute("aria-valuetext")).toBe(
      "at the toe",
    );

    await show("Surface speed");
    await expect.poll(() => page.getByRole("group", { name: /^Close look at/ }).count()).toBe(0);
    await panel.getByRole("row", { name: /^Heel 0\.1257 m\/s 0\.1257 m\/s none/ }).waitFor();

    await show("Friction to teeth");
    await page.getByText(/it slips, and Upright shaft stands still/).waitFor();
    await panel.getByRole("slider", { name: "Teeth" }).press("End");
    await page.getByText(/teeth carry\. Your drive/).waitFor();

    expect(await page.getByRole("button", { name: /^Undo/ }).first().isDisabled()).toBe(true);
    await panel.getByRole("button", { name: "Any shaft angle", exact: true }).click();
    await panel.getByRole("button", { name: "90° right angle" }).click();
    await panel.getByRole("slider", { name: "Shaft angle" }).press("ArrowLeft");
    await panel.getByRole("button", { name: "Set my drive to 89.5°" }).click();
    await expect.poll(() => page.getByRole("button", { name: /^Undo/ }).first().isDisabled()).toBe(false);
    await page.keyboard.press("Escape");
    await expect.poll(() => panel.count()).toBe(0);
    expect(await unchanged.count()).toBe(0);
    await app.close();
  });
});

it("on a small phone the picture keeps a quarter of the screen, and the rest of the transport is a push away", async () => {
  const app = await openApp({ width: 360, height: 640, touch: true, path: "?first=no&drawing=simple" });
  const { page } = app;
  await page.getByText("2 turns of Crank give 1 of Upright shaft").first().waitFor();
  await open(page, true);
  await page.getByRole("region", { name: "Demonstrations on one pair" }).waitFor();
  const picture = page.locator("[data-drawn] canvas").first();
  await expect.poll(async () => (await picture.boundingBox())?.height ?? 0).toBeGreaterThan(640 / 4);
  const speed = page.getByRole("slider", { name: "Speed shown" });
  await speed.focus();
  const box = await speed.boundingBox();
  expect(box && box.x >= 0 && box.x + box.width <= 360).toBe(true);
  expect(await overflowing(page)).toEqual([]);
  expect(await violations(page)).toEqual([]);
  await app.close();
});

/** A question in the built page: a class opens the link hidden, guesses by keyboard, wrong and right, and the drive turns at the reveal. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { encodeDrive } from "../../src/exchange/share/code";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

const mixer = parseDrive(readFileSync("test/support/mixer.drive.json", "utf8")).drive as Drive;
/** 5 turns of the motor give 1 of the mixer, 290 rev/min. */
const LINK = encodeDrive({ ...mixer, "x-question": { hide: [{ shaft: "C", figures: ["direction", "ratio"] }] } });

interface Seen {
  readonly arrows: readonly string[];
  /** Of each gear, its place and attitude. */
  readonly gears: Readonly<Record<string, readonly number[]>>;
}

/** The arrows on the bench, and how its gears stand. */
const look = (page: Page): Promise<Seen> =>
  page.evaluate(() => {
    const seen: { arrows: string[]; gears: Record<string, number[]> } = { arrows: [], gears: {} };
    interface Thing {
      readonly name: string;
      readonly matrixWorld: { readonly elements: readonly number[] };
      traverse(visit: (thing: Thing) => void): void;
    }
    const detail = ({ scene }: { scene: Thing }): void =>
      scene.traverse(({ name, matrixWorld }) => {
        if (name.startsWith("arrow ")) seen.arrows.push(name);
        if (name.startsWith("gear ")) seen.gears[name] = [...matrixWorld.elements];
      });
    document.querySelector('[data-drawn="3d"] canvas')?.dispatchEvent(new CustomEvent("bench:inspect", { detail }));
    return seen;
  });

/** What can be seen or heard; what is folded away is left out. */
const text = async (page: Page): Promise<string> => (await page.locator("body").allInnerTexts()).join();

const SIZES = [
  [1024, 768, false, "dark"],
  ...(process.env.SOAK
    ? ([
        [1440, 900, false, "light"],
        [390, 844, true, "light"],
      ] as const)
    : []),
] as const;

describe.each(SIZES)("at %d × %d", (width, height, touch, theme) => {
  it("a link opens hidden, is guessed wrong, pointed at, and guessed right", async () => {
    const app = await openApp({ width, height, touch, theme, path: `?first=no&drawing=full#${LINK}` });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    const form = page.getByRole("form", { name: "Your guess" });
    await form.waitFor();
    await expect.poll(async () => (await look(page)).arrows.length).toBe(2);
    const hidden = await look(page);
    expect([...hidden.arrows].sort()).toEqual(["arrow A", "arrow B"]);
    await page.waitForTimeout(600);
    expect((await look(page)).gears).toEqual(hidden.gears);
    expect(await text(page)).not.toMatch(/\b290\b|of Motor give \d+ of Mixer/);
    await app.screenshot(`question-hidden-${width}-${theme}`);
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);

    // By keyboard alone: the first of the two ways, then on to the turns; inverted at the first mesh.
    const ways = form.getByRole("button", { name: /^Mixer (counter)?clockwise seen from the mixer end$/ });
    await ways.first().focus();
    await page.keyboard.press("Space");
    expect(await ways.first().getAttribute("aria-pressed")).toBe("true");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Tab");
    await page.keyboard.type("4");
    await page.keyboard.press("Tab");
    await page.keyboard.type("abc");
    await page.keyboard.press("Enter");
    const out = page.getByRole("textbox", { name: "Turns of Mixer" });
    await expect.poll(() => out.getAttribute("aria-invalid")).toBe("true");
    await page.getByText("“abc” is not a number").waitFor();
    await out.fill("5");
    await out.press("Enter");
    await page
      .getByText(/Not so; in truth 5 turns of Motor give 1 of Mixer/)
      .first()
      .waitFor();
    const shown = page.getByRole("button", { name: "Show mesh m1" });
    await shown.waitFor();
    await page
      .getByText(/The guess went another way at mesh m1, 20 drives 50/)
      .first()
      .waitFor();
    expect(await page.getByRole("status").allInnerTexts()).toContainEqual(expect.stringContaining("Not so"));
    await expect.poll(async () => (await look(page)).arrows.length).toBe(3);
    await expect.poll(async () => JSON.stringify((await look(page)).gears) !== JSON.stringify(hidden.gears)).toBe(true);
    await app.screenshot(`question-wrong-${width}-${theme}`);
    expect(await overflowing(page)).toEqual([]);
    expect(await violations(page)).toEqual([]);

    const right = /counterclockwise/.test((await page.getByText(/Not so; in truth/).allInnerTexts()).join()) ? 1 : 0;
    await page.getByRole("button", { name: "Hide again" }).click();
    await expect.poll(async () => (await look(page)).arrows.length).toBe(2);
    const way = ways.nth(right);
    // A second press would take the guess back.
    if ((await way.getAttribute("aria-pressed")) !== "true") await way.click();
    await page.getByRole("textbox", { name: "Turns of Mixer" }).fill("1");
    await page.getByRole("textbox", { name: "Turns of Motor" }).fill("5");
    await page.getByText("Choices for a show of hands").click();
    await page.getByRole("button", { name: "One hand more for A" }).click();
    await app.screenshot(`question-hands-${width}-${theme}`);
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "Reveal" }).click();
    await page
      .getByText(/(Right|Not so): /)
      .first()
      .waitFor();
    await app.screenshot(`question-right-${width}-${theme}`);
    await app.close();
  });
});

it("a teacher hides by a key and ticks, and undo shows it again", async () => {
  const app = await openApp({ width: 1440, height: 900, theme: "dark", path: "?first=no&drawing=flat" });
  const { page } = app;
  await page.getByText("2 turns of Crank give 1 of Upright shaft").first().waitFor();
  await page.keyboard.press("q");
  const tick = page.getByRole("checkbox", { name: "Hide the ratio of Upright shaft" });
  await tick.check();
  await page.getByText("ratio hidden by the question").waitFor();
  await app.screenshot("question-teacher-dark");
  expect(await text(page)).not.toMatch(/turns of Crank give/);
  expect(
    await page
      .getByRole("button", { name: /Add a stage/ })
      .first()
      .isDisabled(),
  ).toBe(true);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  await page.getByText("2 turns of Crank give 1 of Upright shaft").first().waitFor();
  await app.close();
});

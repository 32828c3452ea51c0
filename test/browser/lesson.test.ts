/** Lessons in the built page: the built-in walk from end to end, a step kept and sent as a link, and files that are no lesson. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { parseLesson } from "../../src/engine/drive/lesson-read";
import { openApp } from "./harness";
import { overflowing, violations } from "./steps";

const FILE = "public/lessons/two-wheels-to-bevels.lesson.json";
const { lesson } = parseLesson(readFileSync(FILE, "utf8"));
const steps = lesson?.steps ?? [];

const card = (page: Page) => page.getByRole("region", { name: /^Lesson: / });
const begin = async (page: Page): Promise<void> => {
  await page.keyboard.press("h");
  await page.getByRole("button", { name: /^From two wheels to bevel gears/ }).click();
  await card(page).waitFor();
};
const title = (page: Page): Promise<string> => page.getByLabel("Title of the drive").inputValue();

describe("the built-in walk", () => {
  it.each([
    [1440, 900, false, "light"],
    [390, 844, true, "dark"],
  ] as const)(
    "goes from end to end at %d × %d, and leaves the drive",
    async (width, height, touch, theme) => {
      const app = await openApp({ width, height, touch, theme, path: "?first=no&drawing=flat" });
      const { page } = app;
      await page.getByRole("application").waitFor();
      await begin(page);
      const names = { demonstrations: "Demonstrations", question: "Question", workings: "Workings" } as const;
      for (const [i, step] of steps.entries()) {
        const here = card(page);
        await here.getByRole("heading", { name: step.title ?? "" }).waitFor();
        expect(await here.textContent()).not.toMatch(/[{}]/);
        for (const panel of step.panels ?? []) {
          if (panel in names)
            await page
              .getByRole("heading", { name: names[panel as keyof typeof names] })
              .first()
              .waitFor();
        }
        const right = step.ask?.choices.find((choice) => choice.right);
        const wrong = step.ask?.choices.find((choice) => !choice.right);
        if (wrong && right) {
          await here.getByRole("button", { name: wrong.text, exact: true }).click();
          await here.getByText("Not so.").waitFor();
          await here.getByRole("button", { name: right.text, exact: true }).click();
          await here.getByText("Right.").waitFor();
        }
        if (i === 0 || step.demonstration?.kind === "taper") {
          expect(await overflowing(page)).toEqual([]);
          expect(await violations(page)).toEqual([]);
        }
        if (i < steps.length - 1) await here.getByRole("button", { name: "Next" }).click();
      }
      // The last step hides which way and how often, and is revealed.
      const form = page.getByRole("form", { name: "Your guess" });
      await form.getByRole("button", { name: "Reveal" }).click();
      await form
        .getByText(/6 turns of Crank give 1 of Grindstone/)
        .first()
        .waitFor();
      await card(page).getByRole("button", { name: "Done" }).click();
      await card(page).waitFor({ state: "detached" });
      expect(await title(page)).toBe("Grindstone round a corner");
      await app.close();
    },
    120_000,
  );

  it("frees one handle, whose pull the words follow", async () => {
    const app = await openApp({ path: "?first=no&drawing=simple" });
    const { page } = app;
    await page.waitForSelector('[data-drawn="3d"] canvas', { state: "attached" });
    await begin(page);
    const here = card(page);
    await here.getByRole("combobox").selectOption(String(steps.findIndex(({ free }) => free === "lean")));
    const knob = page.getByRole("slider", { name: /shaft angle|lean/i }).first();
    await knob.waitFor();
    expect(await page.getByRole("button", { name: /^Grow/ }).count()).toBe(0);
    await here.getByText("It now stands at 90°").waitFor();
    await knob.focus();
    await page.keyboard.press("ArrowRight");
    await here.getByText("It now stands at 91°").waitFor();
    await here.getByText("2 turns of Crank give 1 of Grindstone").waitFor();
    await app.close();
  });
});

describe("a page that is loaded anew in the middle of it", () => {
  it("offers to go on at that step", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await page.getByRole("application").waitFor();
    await begin(page);
    await card(page).getByRole("combobox").selectOption("5");
    await page.getByRole("heading", { name: "Demonstrations" }).waitFor();
    // The drive of the step is kept a moment after it was opened.
    await page.waitForTimeout(1000);
    await page.reload();
    await page.getByText("You were at step 6 of a lesson.").waitFor();
    expect(await title(page)).toBe("Two bevel gears");
    await page.getByRole("button", { name: "Go on with it" }).click();
    await card(page)
      .getByRole("heading", { name: steps[5]?.title ?? "" })
      .waitFor();
    await card(page).getByRole("button", { name: "Leave the lesson; the drive stays" }).click();
    await card(page).waitFor({ state: "detached" });
    await page.reload();
    await page.getByRole("application").waitFor();
    expect(await page.getByText("You were at step").count()).toBe(0);
    await app.close();
  });
});

describe("a lesson of one's own", () => {
  it("is kept by walking through the bench, goes with the link, and is offered to who opens it", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await page.getByRole("application").waitFor();
    await page.keyboard.press("k");
    await page.getByRole("heading", { name: "Demonstrations" }).waitFor();
    await page.getByRole("button", { name: "Taper" }).click();
    await page.getByRole("button", { name: "Lessons…" }).click();
    await page.getByLabel("What the step says").fill("See how it tapers: {pitch angle of a1}.");
    await page.getByText(/shown: taper, on mesh m1/).waitFor();
    await page.getByRole("button", { name: "Keep as step 1" }).click();
    await page.getByRole("button", { name: "Keep as step 2" }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    await page.keyboard.press("l");
    const link = await page.getByLabel(/link/i).first().inputValue();
    await app.close();

    const other = await openApp({ path: `?first=no&drawing=flat#${link.split("#")[1] ?? ""}` });
    await other.page.getByRole("button", { name: "Walk through it" }).click();
    const here = card(other.page);
    await here.getByText("See how it tapers: 26.57°.").waitFor();
    await other.page.getByRole("region", { name: "Demonstrations on one pair" }).waitFor();
    await expect.poll(() => other.page.getByRole("button", { name: "Taper", pressed: true }).count()).toBe(1);
    await other.close();
  });
});

describe("files", () => {
  const drop = async (page: Page, name: string, text: string): Promise<void> => {
    const data = await page.evaluateHandle(
      ([file, body]) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([body ?? ""], file ?? "", { type: "application/json" }));
        return transfer;
      },
      [name, text],
    );
    await page.dispatchEvent("body", "dragover", { dataTransfer: data });
    await page.dispatchEvent("body", "drop", { dataTransfer: data });
  };

  it("one with a step for a gear that is not there is refused by step and gear; a right one begins", async () => {
    const app = await openApp({ path: "?first=no&drawing=flat" });
    const { page } = app;
    await page.getByRole("application").waitFor();
    const before = await title(page);
    const text = readFileSync(FILE, "utf8");
    await drop(page, "mine.lesson.json", text.replace('"mesh": "m1"', '"mesh": "m77"'));
    await page.getByText(/^Step \d+: there is no mesh m77 in the drive; name one that is there\.$/).waitFor();
    expect(await title(page)).toBe(before);
    await page.keyboard.press("Escape");
    await drop(page, "mine.lesson.json", text);
    await card(page).waitFor();
    await app.close();
  });
});

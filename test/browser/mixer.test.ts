/**
 * The mixer of the format's own example from an empty bench, in the built page, by mouse and by keys, and every action counted. A click,
 * a drag or a typed number (with the Tab or Enter that ends it) is one action; by keys each press is one, Shift for a colon as well.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { afterEach, describe, expect, it } from "vitest";
import { ROOT } from "../../src/cli/launch.mjs";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { writeDrive } from "../../src/engine/drive/write";
import { type App, openApp } from "./harness";
import { downloadOf, overflowing, violations, withoutPickers } from "./steps";

const MIXER = readFileSync(join(ROOT, "test/support/mixer.drive.json"), "utf8");
/** At most, from the empty bench that New gives. */
const MOST_ACTIONS = 14;
const MOST_PRESSES = 60;

/** The text of a drive without what the count leaves out: its title, names, and ids, which only have to be joined alike. */
function bare(text: string): unknown {
  const { drive, faults } = readDrive(JSON.parse(text));
  if (!drive) throw new Error(JSON.stringify(faults));
  const place = (list: readonly { readonly id: string }[], id: string): string =>
    `${list.findIndex((one) => one.id === id)}`;
  const renamed: Drive = {
    ...drive,
    title: "",
    notes: "",
    shafts: drive.shafts.map((shaft, i) => ({ ...shaft, id: `s${i}`, name: "" })),
    gears: drive.gears.map((gear, i) => ({ ...gear, id: `g${i}`, shaft: `s${place(drive.shafts, gear.shaft)}` })),
    meshes: drive.meshes.map((mesh, i) => ({
      ...mesh,
      id: `m${i}`,
      gears: [`g${place(drive.gears, mesh.gears[0])}`, `g${place(drive.gears, mesh.gears[1])}`] as const,
    })),
    ports: drive.ports.map((port) => ({ ...port, shaft: `s${place(drive.shafts, port.shaft)}` })),
  };
  return JSON.parse(writeDrive(renamed));
}

/** What the page saves, by the command that a person would use. */
const saved = async (page: Page): Promise<string> =>
  (await downloadOf(page, () => page.keyboard.press("Control+s"))).text;

let app: App | null = null;
afterEach(async () => {
  await app?.close();
  app = null;
});
const open = async (options: Parameters<typeof openApp>[0] = {}): Promise<Page> => {
  app = await openApp({ path: "?first=no&drawing=full", before: withoutPickers, reducedMotion: true, ...options });
  const { page } = app;
  await page.locator("[data-drawn='3d']").waitFor();
  return page;
};
const choices = async (page: Page): Promise<void> => {
  await page.getByRole("radio", { name: "Beside it" }).waitFor();
  await page.waitForFunction(() => document.activeElement?.matches("form input[type=radio]") ?? false);
};
const gone = async (page: Page): Promise<void> =>
  page.getByRole("button", { name: "Put it there" }).waitFor({ state: "detached" });

describe("the mixer from an empty bench", () => {
  it(`takes at most ${MOST_ACTIONS} actions of the mouse`, async () => {
    const page = await open({ width: 1440, height: 900 });
    let actions = 0;
    const click = async (what: Locator): Promise<void> => {
      actions++;
      await what.click();
    };
    /** A number goes to where the focus is; the key that ends it belongs to it. */
    const number = async (text: string, end: "Tab" | "Enter" | ":"): Promise<void> => {
      actions++;
      await page.keyboard.type(text);
      if (end === ":") await page.keyboard.type(end);
      else await page.keyboard.press(end);
    };
    await page.keyboard.press("Space");
    await page.getByRole("button", { name: "New" }).click();
    await click(page.getByRole("button", { name: "Grow from gear a1" }));
    await choices(page);
    await number("50", "Tab");
    await number("20", "Enter");
    await gone(page);
    await click(page.getByRole("button", { name: "Grow at the right end of B" }));
    await choices(page);
    await click(page.locator("label").filter({ has: page.getByRole("radio", { name: "At an angle" }) }));
    await number("16", ":");
    await number("32", "Tab");
    await number("14", "Tab");
    await number("3", "Tab");
    await number("60", "Tab");
    await number("0.97", "Tab");
    await number("40", "Enter");
    await gone(page);
    await click(page.getByRole("spinbutton", { name: "Speed of Motor" }));
    await number("1450", "Enter");
    expect(bare(await saved(page))).toEqual(bare(MIXER));
    expect(actions).toBeLessThanOrEqual(MOST_ACTIONS);
  });

  it(`takes at most ${MOST_PRESSES} presses of keys`, async () => {
    const page = await open();
    let presses = 0;
    const press = async (...keys: readonly string[]): Promise<void> => {
      for (const key of keys) {
        // A colon stands above another sign.
        presses += key === ":" ? 2 : 1;
        await page.keyboard.press(key);
      }
    };
    await page.keyboard.press("Space");
    await page.keyboard.press("n");
    await press("g");
    await choices(page);
    await press("g");
    await page.getByRole("radio", { name: "Motor or load" }).waitFor();
    await choices(page);
    await press("p", ..."1450", "Enter");
    await gone(page);
    await press("g");
    await choices(page);
    await press(..."50", "Tab", ..."20", "Enter");
    await gone(page);
    await press("g");
    await choices(page);
    await press("b", ..."16:32", "Tab", ..."14", "Tab", "3", "Tab", ..."60", "Tab", ..."0.97", "Tab", ..."40", "Enter");
    await gone(page);
    expect(bare(await saved(page))).toEqual(bare(MIXER));
    expect(presses).toBeLessThanOrEqual(MOST_PRESSES);
  });
});

describe("choices on the bench", () => {
  for (const [width, height, touch, theme] of [
    [1440, 900, false, "light"],
    ...(process.env.SOAK ? ([[1024, 768, false, "dark"]] as const) : []),
    [390, 844, true, "light"],
  ] as const) {
    it(`are whole and reachable at ${width} by ${height}`, async () => {
      const page = await open({ width, height, touch, theme });
      await page.evaluate(() => document.dispatchEvent(new KeyboardEvent("keydown", { key: " ", bubbles: true })));
      await page.keyboard.press("n");
      const plus = page.getByRole("button", { name: "Grow from gear a1" });
      const box = await plus.boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(touch ? 44 : 32);
      await (touch ? plus.tap() : plus.click());
      await choices(page);
      await page
        .locator("label")
        .filter({ has: page.getByRole("radio", { name: "At an angle" }) })
        .click();
      const put = page.getByRole("button", { name: "Put it there" });
      await put.scrollIntoViewIfNeeded();
      expect(await overflowing(page)).toEqual([]);
      expect(await violations(page)).toEqual([]);
      await app?.screenshot(`grow-${width}-${theme}`);
      await put.click();
      await gone(page);
      await page
        .getByRole("button", { name: /^Grow at the .* of B/ })
        .first()
        .waitFor();
      await page.evaluate(() => new Promise(requestAnimationFrame));
      await app?.screenshot(`grown-${width}-${theme}`);
    });
  }
});

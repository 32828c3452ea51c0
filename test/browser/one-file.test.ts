/** The one file to carry, opened from a folder with nothing beside it, as from a stick: no server, no net, no other file. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CARRIED } from "../../src/cli/launch.mjs";
import { parseDrive } from "../../src/engine/drive/parse";
import { SAMPLES } from "../../src/exchange/sample-list";
import { type AppOptions, openApp } from "./harness";
import { downloadOf, drop, enter, headline, withoutPickers } from "./steps";

/** Bytes: what a mail takes, and a stick or a class's network drive copies at once. */
const MOST_BYTES = 2_000_000;
const FIRST = "2 turns of Crank give 1 of Upright shaft";
const THIRD = "3 turns of Crank give 1 of Upright shaft";

let stick = "";
let file = "";
beforeAll(() => {
  stick = mkdtempSync(join(tmpdir(), "turnwise-stick-"));
  // A folder as people name them: the address holds signs that must be coded.
  const folder = join(stick, "Übung 3 # gears");
  mkdirSync(folder);
  file = join(folder, "turnwise.html");
  copyFileSync(CARRIED, file);
});
afterAll(() => rmSync(stick, { recursive: true, force: true }));

const openFromStick = (options: AppOptions = {}) =>
  openApp({
    file,
    path: "?first=no&drawing=full",
    ...options,
    // With service workers, so that one would be seen to be asked for.
    offline: true,
    before: async (page, context) => {
      await withoutPickers(page);
      await options.before?.(page, context);
      await context.setOffline(true);
    },
  });

/** How the gears on the bench stand, as a text. */
const stance = (page: Page): Promise<string> =>
  page.evaluate(() => {
    interface Seen {
      readonly name: string;
      readonly matrixWorld: { readonly elements: readonly number[] };
      traverse(visit: (object: Seen) => void): void;
    }
    const lines: string[] = [];
    const detail = ({ scene }: { scene: Seen }): void =>
      scene.traverse(({ name, matrixWorld }) => {
        if (name.startsWith("gear "))
          lines.push(`${name}: ${matrixWorld.elements.map((part) => part.toFixed(6)).join(" ")}`);
      });
    document.querySelector('[data-drawn="3d"] canvas')?.dispatchEvent(new CustomEvent("bench:inspect", { detail }));
    return lines.join("\n");
  });

describe("the one file to carry", () => {
  it("holds everything, within a policy that lets nothing be fetched and only its own script run", () => {
    const page = readFileSync(CARRIED, "utf8");
    expect(statSync(CARRIED).size).toBeLessThan(MOST_BYTES);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? "";
    expect(policy).toMatch(/^default-src 'none'; script-src 'sha256-[\w+/=]{44}'; style-src 'sha256-[\w+/=]{44}';/);
    expect(policy).not.toMatch(/unsafe|https?:|'self'|connect-src|\*/);
    expect(page.match(/<script\b/g)?.length).toBeGreaterThan(0);
    const markup = page
      .replace(/<style>[\s\S]*?<\/style>/g, "")
      .replace(/<script type="module">[\s\S]*?<\/script>/g, "");
    expect(markup).not.toMatch(/<script/);
    for (const [, address = ""] of markup.matchAll(/(?:src|href)="([^"]*)"/g)) expect(address).toMatch(/^data:/);
    expect(page).not.toMatch(/url\((?!["']?data:|["']?#)/);
  });

  it("a small job: turn, edit, a sample, undo, save, and all of it there after a reload", async () => {
    const app = await openFromStick();
    const { page } = app;
    await headline(page, FIRST);
    await page.locator('#bench [data-drawn="3d"] canvas').waitFor({ state: "attached" });
    expect(await page.evaluate(() => document.fonts.check('16px "Source Sans 3"'))).toBe(true);

    await page.getByRole("button", { name: "Pause" }).click();
    await expect.poll(() => stance(page)).toContain("gear b1: ");
    const before = await stance(page);
    await page.getByRole("button", { name: "Step forward" }).click();
    await expect.poll(() => stance(page)).not.toBe(before);

    await enter(page, "Teeth of b1", "60");
    await headline(page, THIRD);
    await page.getByRole("button", { name: "Samples…" }).click();
    const { title } = SAMPLES[0] as (typeof SAMPLES)[number];
    await page.getByRole("dialog", { name: "Samples" }).getByRole("button", { name: title }).click();
    await expect.poll(() => page.title()).toBe(`${title} · Turnwise`);
    await page.keyboard.press("Control+z");
    await headline(page, THIRD);

    const { name, text } = await downloadOf(page, () =>
      page.getByRole("button", { name: "Save", exact: true }).click(),
    );
    expect(name).toBe("crank-and-wheel.drive.json");
    expect(parseDrive(text).drive?.gears.map((gear) => "teeth" in gear && gear.teeth)).toContain(60);
    await page.waitForTimeout(800);
    await page.reload();
    await headline(page, THIRD);
    await page.getByText("Your drive from before is back.").waitFor();
    expect(await page.evaluate(() => navigator.serviceWorker.getRegistrations().catch(() => []))).toEqual([]);
    await app.close();
  });

  it("everything that comes later elsewhere is there: workings, findings, a stage, menus, every sample", async () => {
    const app = await openFromStick({ width: 1440, height: 900, path: "?first=no&drawing=flat" });
    const { page } = app;
    await headline(page, FIRST);
    await page.getByRole("button", { name: "Workings", exact: true }).click();
    await page.getByRole("heading", { name: /^How .* turns$/ }).waitFor();
    await page.getByRole("tab", { name: /^Findings/ }).click();
    await page.getByRole("tabpanel", { name: /^Findings/ }).waitFor();
    await page.getByRole("button", { name: "Commands for gear a1" }).click();
    await page.getByRole("menuitem", { name: "Remove this gear" }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Add a stage" }).click();
    await page.getByRole("form").first().waitFor();
    await page.keyboard.press("Escape");
    for (const { title } of SAMPLES) {
      await page.getByRole("button", { name: "Samples…" }).click();
      await page.getByRole("dialog", { name: "Samples" }).getByRole("button", { name: title }).click();
      await expect.poll(() => page.title()).toBe(`${title} · Turnwise`);
    }
    await app.close();
  });

  it("a long file is read apart, by a worker that is within the page too", async () => {
    const shafts = Array.from({ length: 12_000 }, (_, i) => ({
      id: `S${i}`,
      name: `Shaft number ${i} of a long row that makes the file a long one`,
      pose: { origin: [0, 0, 100 * i], axis: [1, 0, 0], ref: [0, 0, 1] },
    }));
    const text = JSON.stringify({ format: "turnwise.drive", version: 1, title: "Long row", shafts, gears: [], x: 1 });
    const app = await openFromStick();
    await headline(app.page, FIRST);
    const worker = app.page.waitForEvent("worker");
    await drop(app.page, "row.drive.json", "", Buffer.from(text));
    expect((await worker).url()).toMatch(/^blob:/);
    await app.page.getByText("row.drive.json was not opened").waitFor();
    await app.close();
  });

  it("a browser that keeps nothing for files: said once, the drive goes on and can be saved", async () => {
    const app = await openFromStick({
      before: async (page) => {
        await page.addInitScript(() => {
          const refuse = (): never => {
            throw new DOMException("Not for files.", "SecurityError");
          };
          for (const name of ["localStorage", "sessionStorage", "indexedDB"]) {
            Object.defineProperty(window, name, { get: refuse });
          }
        });
      },
    });
    const { page } = app;
    await headline(page, FIRST);
    const sentence = page.getByText("The browser does not let this page keep anything");
    await enter(page, "Teeth of b1", "60");
    await sentence.waitFor();
    await page.getByRole("button", { name: "Close this notice" }).click();
    await enter(page, "Teeth of b1", "80");
    await headline(page, "4 turns of Crank give 1 of Upright shaft");
    await page.waitForTimeout(1000);
    expect(await sentence.count()).toBe(0);
    const { text } = await downloadOf(page, () => page.getByRole("button", { name: "Save", exact: true }).click());
    expect(parseDrive(text).drive?.gears.map((gear) => "teeth" in gear && gear.teeth)).toContain(80);
    await app.close();
  });
});

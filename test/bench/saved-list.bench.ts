/**
 * 500 saved drives of 40 gears in a real browser: opening their list against reading them all from the browser's database. They come
 * in by the page's own import, and have their pictures.
 */
import { chromium } from "playwright-core";
import { DIST, ensureBuilt } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { writeDrive } from "../../src/engine/drive/write";
import { writeDrives } from "../../src/exchange/saved-file";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "../support/browser.mjs";
import { randomTree } from "../support/random-drives";
import { report } from "./measure";

const DRIVES = 500;
const ROUNDS = 9;

await ensureBuilt();
const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
const { server, url } = await serveFolder(DIST, 0);
const browser = await chromium.launch({ executablePath: program, args: [...WITH_WEBGL] });
const page = await browser.newPage();
await page.goto(`${url}?first=no&drawing=flat`);
const button = page.getByRole("button", { name: "Saved drives…" });
const dialog = page.getByRole("dialog", { name: "Saved drives" });
await button.click();

const items = Array.from({ length: DRIVES }, (_, seed) => ({
  name: `Tree ${seed}`,
  text: writeDrive(randomTree(seed, 21, 8)),
}));
const [chooser] = await Promise.all([
  page.waitForEvent("filechooser"),
  dialog.getByRole("button", { name: "Import…" }).click(),
]);
await chooser.setFiles({
  name: "all.drives.json",
  mimeType: "application/json",
  buffer: Buffer.from(writeDrives(items)),
});
await dialog.getByText(`Imported ${DRIVES} drives`).waitFor({ timeout: 120_000 });
// Each gets its picture while the list is open.
await page.waitForFunction((count) => document.querySelectorAll("dialog img").length === count, DRIVES, {
  timeout: 300_000,
});
await page.keyboard.press("Escape");
await dialog.waitFor({ state: "detached" });

/** ms to read all drives with their pictures, from a database that is open. */
const reading = (): Promise<number> =>
  page.evaluate(async (count) => {
    const database = await new Promise<IDBDatabase>((settle) => {
      const request = indexedDB.open("turnwise.saved");
      request.onsuccess = () => settle(request.result);
    });
    const start = performance.now();
    const lists = await Promise.all(
      ["heads", "drives"].map(
        (name) =>
          new Promise<unknown[]>((settle) => {
            const request = database.transaction(name).objectStore(name).getAll();
            request.onsuccess = () => settle(request.result);
          }),
      ),
    );
    const time = performance.now() - start;
    database.close();
    if (lists.some((list) => list.length !== count)) throw new Error("The drives are not all there.");
    return time;
  }, DRIVES);

/** ms from the press of the button to the list on the screen, with its count, and to its last card. */
const opening = (): Promise<{ first: number; all: number }> =>
  page.evaluate(async (count) => {
    const button = [...document.querySelectorAll("header button")].find(
      ({ textContent }) => textContent === "Saved drives…",
    );
    const frame = () => new Promise(requestAnimationFrame);
    const painted = async (): Promise<number> => {
      await frame();
      await new Promise((settle) => setTimeout(settle));
      return performance.now();
    };
    const cards = (): number => document.querySelectorAll("dialog li img").length;
    const start = performance.now();
    (button as HTMLElement).click();
    while (cards() === 0) await new Promise((settle) => setTimeout(settle));
    const first = (await painted()) - start;
    if (!document.querySelector("dialog")?.textContent?.includes(`${count} drives`))
      throw new Error("The list has not all.");
    while (cards() < count) await new Promise((settle) => setTimeout(settle));
    return { first, all: (await painted()) - start };
  }, DRIVES);

const times: { read: number; first: number; all: number }[] = [];
for (let round = -2; round < ROUNDS; round++) {
  const read = await reading();
  const { first, all } = await opening();
  await page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  if (round >= 0) times.push({ read, first, all });
}
await browser.close();
server.close();
server.closeAllConnections();

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] as number;
const read = median(times.map((time) => time.read));
for (const [what, key, target] of [
  ["on the screen", "first", "<= 2"],
  ["to its last card", "all", null],
] as const) {
  report({
    name: `list of 500 saved drives of 40 gears ${what}, against reading them all`,
    value: median(times.map((time) => time[key])),
    unit: "ms",
    against: read,
    ratio: median(times.map((time) => time[key] / time.read)),
    target,
  });
}

/** What a first visit fetches before anybody touches anything. */
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { expect, it } from "vitest";
import { DIST } from "../../src/cli/launch.mjs";
import { openApp } from "./harness";

/** Bytes, gzip, of everything together: scripts, styles, page, fonts. The bound is the project's own. */
const MOST_BYTES = 350_000;
/** ms: the bench has come, the first minute's question stands, and nothing more is asked for. */
const SETTLED = 9000;

it("a first visit fetches less than 350 kB, the panels before the bench; the rest only when the page is ready", async () => {
  const asked: string[] = [];
  /** What the worker asks for, to keep it for later, and when. */
  const forLater: { readonly path: string; readonly at: number }[] = [];
  const app = await openApp({
    offline: true,
    before: async (_page, context) => {
      context.on("request", (request) => {
        const path = new URL(request.url()).pathname;
        if (request.serviceWorker()) forLater.push({ path, at: Date.now() });
        else asked.push(path);
      });
    },
  });
  await app.page.locator("#bench canvas").first().waitFor();
  const ready = Date.now();
  await app.page.waitForTimeout(SETTLED);
  const bytesOf = async (paths: readonly string[]): Promise<number> => {
    let bytes = 0;
    for (const path of paths) {
      const file = await readFile(join(DIST, path === "/" ? "index.html" : path));
      // Fonts and pictures are compressed already.
      bytes += /\.(?:woff2|png)$/.test(path) ? file.length : gzipSync(file, { level: 9 }).length;
    }
    return bytes;
  };
  expect(asked.length).toBeGreaterThan(4);
  expect(await bytesOf(asked)).toBeLessThan(MOST_BYTES);
  // Keeping files for later waits for the first screen, and so is no part of what that needs.
  expect(forLater.length).toBeGreaterThan(10);
  expect(Math.min(...forLater.map(({ at }) => at))).toBeGreaterThan(ready);
  await app.close();
});

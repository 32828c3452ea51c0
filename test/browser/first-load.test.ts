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

it("a first visit fetches less than 350 kB, the panels before the bench", async () => {
  const asked: string[] = [];
  const app = await openApp({
    before: async (page) => {
      page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    },
  });
  await app.page.locator("#bench canvas").first().waitFor();
  await app.page.waitForTimeout(SETTLED);
  let bytes = 0;
  for (const path of asked) {
    const file = await readFile(join(DIST, path === "/" ? "index.html" : path));
    // Fonts are compressed already.
    bytes += path.endsWith(".woff2") ? file.length : gzipSync(file, { level: 9 }).length;
  }
  expect(asked.length).toBeGreaterThan(4);
  expect(bytes).toBeLessThan(MOST_BYTES);
  await app.close();
});

/**
 * Everything that a first visit loads, each file as gzip would send it: page, scripts (the bench's, which comes by
 * itself a moment later, too), styles, fonts and data. Asked of a real browser, not of a list of files.
 */
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";
import { DIST, ensureBuilt } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { findBrowser, NO_BROWSER, WITH_WEBGL } from "../support/browser.mjs";
import { report } from "./measure";

await ensureBuilt();
const program = findBrowser();
if (program === null) throw new Error(NO_BROWSER);
const { server, url } = await serveFolder(DIST, 0);
const browser = await chromium.launch({ executablePath: program, args: [...WITH_WEBGL] });
const page = await browser.newPage();
const files = new Set<string>();
page.on("response", (response) => {
  const path = decodeURIComponent(new URL(response.url()).pathname);
  if (response.url().startsWith(url)) files.add(path.endsWith("/") ? `${path}index.html` : path);
});
await page.goto(url, { waitUntil: "networkidle" });
await page.locator("canvas").first().waitFor();
await page.waitForLoadState("networkidle");
await browser.close();
server.close();
server.closeAllConnections();

const weights = [...files].map((path) => {
  const file = join(DIST, path);
  return statSync(file).isFile() ? gzipSync(readFileSync(file)).length : 0;
});
const total = weights.reduce((sum, weight) => sum + weight, 0) / 1000;
if (!(total > 50)) throw new Error("Too little was loaded to be the page.");
report({ name: "first load, gzip, all files", value: total, unit: "kB", against: null, ratio: null, target: "<= 350" });

// @ts-check
/**
 * `npm test`: installs what is missing, then checks types, lint and layers, builds, and runs every test; the last line
 * is `N passed, N failed` over all of them. Whatever did not pass has failed: nothing is skipped. Further arguments go
 * to vitest: `npm test -- test/engine/load`.
 */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { DIST, ensureBuilt, ensureInstalled, ROOT, run, Trouble } from "../src/cli/launch.mjs";
import { findBrowser, NO_BROWSER } from "./support/browser.mjs";

const tool = (/** @type {string} */ path) => join(ROOT, "node_modules", path);
const STEPS = [
  { name: "types of the page and the tests", args: [tool("typescript/bin/tsc"), "--noEmit", "-p", "tsconfig.json"] },
  { name: "types of the engine, without the DOM", args: [tool("typescript/bin/tsc"), "--noEmit", "-p", "src/engine"] },
  {
    name: "types of the command line, without the DOM",
    args: [tool("typescript/bin/tsc"), "--noEmit", "-p", "src/cli"],
  },
  {
    name: "lint, format and layers",
    args: [tool("@biomejs/biome/bin/biome"), "check", "--error-on-warnings", "--colors=off", "--max-diagnostics=40"],
  },
];

let passed = 0;
let failed = 0;
/** @type {string[]} */
const reasons = [];

const fail = (/** @type {string} */ reason, count = 1) => {
  failed += count;
  reasons.push(reason);
};

/** All test files, as paths from the root. */
const testFiles = (folder = join(ROOT, "test")) =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.test\.tsx?$/.test(name))
    .map((name) => relative(ROOT, join(folder, name)));

/**
 * Adds up a report of vitest.
 * @param {string} file
 * @param {number} status vitest's exit status
 * @param {boolean} isWhole whether every test file had to run
 */
const count = (file, status, isWhole) => {
  let report;
  try {
    report = JSON.parse(readFileSync(file, "utf8"));
  } catch {
    return fail("vitest did not come to its end.");
  }
  const ran = new Set();
  for (const suite of report.testResults) {
    const name = relative(ROOT, suite.name);
    ran.add(name);
    for (const test of suite.assertionResults) {
      if (test.status === "passed") passed += 1;
      else fail(`${name}: ${test.fullName} (${test.status})`);
    }
    if (suite.assertionResults.length === 0) fail(`${name}: no test in it could run`);
  }
  const left = isWhole ? testFiles().filter((name) => !ran.has(name)) : [];
  for (const name of left) fail(`${name}: belongs to no project of vite.config.ts, so it did not run`);
  if (ran.size === 0 && reasons.every((reason) => reason !== NO_BROWSER)) fail("No test file has such a name.");
  if (status !== 0 && failed === 0) fail("vitest found an error outside the tests: see above.");
};

const main = async () => {
  const more = process.argv.slice(2);
  const isWhole = more.length === 0;
  await ensureInstalled();
  // Beside each other, for each of them keeps one core busy; told in their order.
  const outcomes = STEPS.map(({ args }) => run(process.execPath, args, { quiet: true }));
  for (const [i, { name }] of STEPS.entries()) {
    const { status = 1, output = "" } = (await outcomes[i]) ?? {};
    console.log(`${status === 0 ? "passed" : "FAILED"}: ${name}`);
    if (status === 0) passed += 1;
    else {
      console.log(output.trim());
      fail(name);
    }
  }
  await ensureBuilt({ always: isWhole }).then(
    () => {
      passed += 1;
      console.log(`passed: build into ${relative(ROOT, DIST)}`);
    },
    (error) => {
      console.log("FAILED: build");
      fail(`build: ${error.message}`);
    },
  );
  const noBrowser = findBrowser() === null && (isWhole || more.some((word) => word.includes("browser")));
  if (noBrowser) fail(NO_BROWSER);
  const folder = mkdtempSync(join(tmpdir(), "turnwise-test-"));
  try {
    const report = join(folder, "report.json");
    const args = [tool("vitest/vitest.mjs"), "run", "--reporter=default", "--reporter=json"];
    args.push(`--outputFile.json=${report}`, ...(noBrowser ? ["--project=!browser"] : []), ...more);
    const env = { ...process.env, TURNWISE_BUILT: "1" };
    const { status } = await run(process.execPath, args, { env });
    // Without a browser, nothing may be left to run; that is told already.
    if (!noBrowser || existsSync(report)) count(report, status, isWhole && !noBrowser);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

main()
  .catch((error) => fail(error instanceof Trouble ? error.message : `npm test stopped: ${error?.stack ?? error}`))
  .finally(() => {
    for (const reason of reasons) console.log(`failed: ${reason}`);
    console.log(`${passed} passed, ${failed} failed`);
    process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
  });

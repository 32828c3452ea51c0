// @ts-check
/** What every command does first: see that packages are installed and the page is built. Needs no package itself. */
import { spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's folder. */
export const ROOT = resolve(fileURLToPath(new URL("../..", import.meta.url)));
/** The built page. */
export const DIST = join(ROOT, "dist");
/** The whole page as one file to carry; the last that a build writes. */
export const CARRIED = join(DIST, "turnwise.html");

/** A reason to stop that is told in one sentence, without a stack trace. */
export class Trouble extends Error {}

/**
 * Runs a program to its end and gives its exit status and what it wrote.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ quiet?: boolean, env?: NodeJS.ProcessEnv, shell?: boolean }} [options] `quiet` keeps its output for the caller
 * @returns {Promise<{ status: number, output: string }>}
 */
export const run = (program, args, options = {}) =>
  new Promise((settle) => {
    const child = spawn(program, [...args], {
      cwd: ROOT,
      env: options.env ?? process.env,
      shell: options.shell ?? false,
      stdio: options.quiet ? ["ignore", "pipe", "pipe"] : ["ignore", "inherit", "inherit"],
    });
    let output = "";
    child.stdout?.on("data", (chunk) => (output += chunk));
    child.stderr?.on("data", (chunk) => (output += chunk));
    child.on("error", (error) => settle({ status: 127, output: error.message }));
    child.on("close", (status) => settle({ status: status ?? 1, output }));
  });

/**
 * Whether every package of package-lock.json stands in node_modules at its version. npm keeps a list of what it
 * installed in node_modules/.package-lock.json; times of files would mislead after a checkout.
 */
const isInstalled = () => {
  try {
    const read = (/** @type {string} */ file) => JSON.parse(readFileSync(join(ROOT, file), "utf8")).packages;
    const wanted = read("package-lock.json");
    const there = read("node_modules/.package-lock.json");
    return Object.keys(wanted).every(
      (path) => path === "" || wanted[path].optional || there[path]?.version === wanted[path].version,
    );
  } catch {
    return false;
  }
};

/** Installs what is missing, from package-lock.json. Throws `Trouble` where that fails or Node is too old. */
export const ensureInstalled = async () => {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    throw new Trouble(`Turnwise needs Node 20.19 or newer, and this is ${process.versions.node}: install a newer one.`);
  }
  if (isInstalled()) return;
  console.error("Installing packages (npm ci) ...");
  const args = ["ci", "--no-audit", "--no-fund", "--include=dev", "--loglevel=error"];
  const npm = process.env.npm_execpath;
  const { status, output } = npm?.endsWith(".js")
    ? await run(process.execPath, [npm, ...args], { quiet: true })
    : await run("npm", args, { quiet: true, shell: process.platform === "win32" });
  if (status !== 0) {
    console.error(output.trim());
    throw new Trouble("The packages could not be installed: see npm's words above, then try again.");
  }
};

/**
 * Newest change below a file or folder, ms since 1970; folders count too, so that a removal is noticed.
 * @param {string} path
 * @returns {number}
 */
const newest = (path) => {
  if (!existsSync(path)) return 0;
  const entry = statSync(path);
  if (!entry.isDirectory()) return entry.mtimeMs;
  return readdirSync(path).reduce((last, name) => Math.max(last, newest(join(path, name))), entry.mtimeMs);
};

/** When what is built was last changed. */
const changed = () => {
  const sources = ["src", "public", "index.html", "vite.config.ts", "package-lock.json"];
  return Math.max(...sources.map((name) => newest(join(ROOT, name))));
};

/**
 * Whether a built file is newer than everything that it is built from.
 * @param {string} file
 */
const isFresh = (file) => existsSync(file) && changed() < statSync(file).mtimeMs;

/**
 * Runs the build. Throws `Trouble` where it fails.
 * @param {string} what the object of the sentence
 * @param {string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 */
const build = async (what, args, env) => {
  const vite = join(ROOT, "node_modules/vite/bin/vite.js");
  const { status, output } = await run(process.execPath, [vite, "build", "--logLevel", "warn", ...args], {
    quiet: true,
    // Test runners set NODE_ENV to "test", with which the page would hold React's development half.
    env: { ...process.env, NODE_ENV: "production", ...env },
  });
  if (output.trim() !== "") console.error(output.trim());
  if (status !== 0) throw new Trouble(`${what} could not be built: see the words above.`);
};

/**
 * Builds the page, and the one file to carry, where they are older than their sources. Throws `Trouble` where that fails.
 * @param {{ always?: boolean, pageOnly?: boolean }} [options] `pageOnly` leaves the one file for later
 */
export const ensureBuilt = async ({ always = false, pageOnly = false } = {}) => {
  const isBuilt = isFresh(join(DIST, "index.html")) && (pageOnly || isFresh(CARRIED));
  if (!always && isBuilt) return;
  console.error("Building the page ...");
  await build("The page", [], pageOnly ? { TURNWISE_PAGE_ONLY: "1" } : {});
};

/** Builds the one file to carry where it is older than its sources; the page beside it stays. Throws `Trouble` where that fails. */
export const ensureCarried = async () => {
  if (!isFresh(CARRIED)) await build("The one file to carry", ["--mode", "one-file"]);
};

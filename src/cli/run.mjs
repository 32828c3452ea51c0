// @ts-check
/**
 * `node src/cli/run.mjs NAME ARGUMENTS`: runs the command line of `src/cli/NAME.ts`. Node reads no TypeScript, so the
 * command is bundled into one file under `node_modules/.cache/turnwise/`, again only when a source is newer. Needs no
 * package where the bundle is there, so that it starts at once.
 */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync, utimesSync } from "node:fs";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const ROOT = resolve(fileURLToPath(new URL("../..", import.meta.url)));
const CACHE = join(ROOT, "node_modules/.cache/turnwise");
/** What a bundle is made from. Folders count with their own time, so that a removal is noticed. */
const SOURCES = ["src/engine", "src/cli", "package-lock.json"];

/**
 * Newest change below a file or folder, ms since 1970.
 * @param {string} path
 * @returns {number}
 */
const newest = (path) => {
  let last = statSync(path).mtimeMs;
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    const place = join(path, entry.name);
    last = Math.max(last, entry.isDirectory() ? newest(place) : statSync(place).mtimeMs);
  }
  return last;
};

/** @param {string} bundle */
const isFresh = (bundle) => {
  const built = statSync(bundle, { throwIfNoEntry: false })?.mtimeMs;
  if (built === undefined) return false;
  return SOURCES.every((name) => {
    const path = join(ROOT, name);
    const entry = statSync(path, { throwIfNoEntry: false });
    return !entry || (entry.isDirectory() ? newest(path) : entry.mtimeMs) < built;
  });
};

/**
 * Bundles a command. Two at once do no harm: each builds in a folder of its own and moves the whole file into place.
 * @param {string} name
 * @param {string} bundle
 */
const bundleCommand = async (name, bundle) => {
  const started = new Date();
  const { build } = await import("vite");
  mkdirSync(CACHE, { recursive: true });
  const outDir = mkdtempSync(join(CACHE, `${name}-`));
  try {
    await build({
      configFile: false,
      root: ROOT,
      logLevel: "silent",
      publicDir: false,
      ssr: { noExternal: true },
      build: {
        ssr: join(ROOT, "src/cli", `${name}.ts`),
        outDir,
        target: "node20",
        rolldownOptions: { output: { entryFileNames: "main.mjs", codeSplitting: false } },
      },
    });
    const file = join(outDir, "main.mjs");
    // Of the time at which the sources were read: an edit made meanwhile is then newer.
    utimesSync(file, started, started);
    renameSync(file, bundle);
  } finally {
    rmSync(outDir, { recursive: true, force: true });
  }
};

/**
 * The beginning of an error's words on one line, without colours.
 * @param {unknown} error
 */
const inOneLine = (error) =>
  String(error instanceof Error ? error.message : error)
    // biome-ignore lint/suspicious/noControlCharactersInRegex: an escape begins each colour code
    .replace(/\u001b\[[\d;]*m/g, "")
    .split(/\s*\n\s*/, 5)
    .join(" ")
    .slice(0, 300);

const [, , name = "", ...args] = process.argv;
try {
  if (!/^[a-z]+$/.test(name) || !existsSync(join(ROOT, "src/cli", `${name}.ts`))) {
    throw new Error(`There is no command ${name || "without a name"}.`);
  }
  const bundle = join(CACHE, `${name}.mjs`);
  if (!isFresh(bundle)) {
    if (!existsSync(join(ROOT, "node_modules/vite"))) throw new Error('Packages are missing: run "npm ci" first.');
    await bundleCommand(name, bundle);
  }
  const { main } = await import(pathToFileURL(bundle).href);
  process.exitCode = await main(args);
} catch (error) {
  process.stderr.write(`${name}: ${inOneLine(error)}\n`);
  process.exitCode = 2;
}

// @ts-check
/**
 * `npm run bench`: builds each `*.bench.ts` of this folder as the page is built, and runs it in a Node of its own. Each
 * prints lines of JSON `{name, value, unit, against, ratio, target}`. The exit status is 1 where one misses its target.
 * Words after `--` choose benchmarks by name: `npm run bench -- chain`.
 */
import { readdirSync, rmSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { ensureInstalled, ROOT, run, Trouble } from "../../src/cli/launch.mjs";

const HERE = join(ROOT, "test/bench");
const OUT = join(ROOT, "node_modules/.cache/turnwise-bench");

/** @param {{ value: number, ratio: number | null, target: string | null }} line */
const isMet = ({ value, ratio, target }) => {
  if (target === null) return true;
  const [sign, limit] = target.split(" ");
  return sign === "<=" ? (ratio ?? value) <= Number(limit) : (ratio ?? value) >= Number(limit);
};

const main = async () => {
  await ensureInstalled();
  const words = process.argv.slice(2);
  const all = readdirSync(HERE).filter((name) => name.endsWith(".bench.ts"));
  const chosen = all.filter((name) => words.length === 0 || words.some((word) => name.includes(word)));
  if (chosen.length === 0) throw new Trouble(`There is no such benchmark: choose from ${all.join(", ")}.`);
  const { build } = await import("vite");
  rmSync(OUT, { recursive: true, force: true });
  await build({
    configFile: false,
    root: ROOT,
    logLevel: "warn",
    plugins: [
      {
        name: "commands-stay-outside",
        enforce: "pre",
        // These find the project by their own place, so they must run from there.
        resolveId: (source) =>
          /src\/cli\/\w+\.mjs$/.test(source)
            ? { id: pathToFileURL(join(ROOT, "src/cli", basename(source))).href, external: "absolute" }
            : null,
      },
    ],
    build: {
      ssr: true,
      outDir: OUT,
      emptyOutDir: true,
      copyPublicDir: false,
      rolldownOptions: {
        input: Object.fromEntries(chosen.map((name) => [basename(name, ".ts"), join(HERE, name)])),
      },
    },
  });
  let status = 0;
  for (const name of chosen) {
    const file = join(OUT, basename(name).replace(/\.ts$/, ".js"));
    const result = await run(process.execPath, [file], { quiet: true });
    const lines = result.output.trim().split("\n");
    for (const line of lines) {
      console.log(line);
      if (line.startsWith("{") && !isMet(JSON.parse(line))) {
        console.error(`${name}: missed its target.`);
        status = 1;
      }
    }
    if (result.status !== 0) {
      console.error(`${name}: stopped with an error.`);
      status = 1;
    }
  }
  process.exitCode = status;
};

main().catch((error) => {
  console.error(error instanceof Trouble ? error.message : (error?.stack ?? error));
  process.exitCode = 1;
});

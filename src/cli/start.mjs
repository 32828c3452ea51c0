// @ts-check
/** `npm start`: installs what is missing, builds what is old, serves the page and prints its address. */
import { parseArgs } from "node:util";
import { DIST, ensureBuilt, ensureCarried, ensureInstalled, Trouble } from "./launch.mjs";
import { serveFolder } from "./serve.mjs";

const USUAL_PORT = 4173;

/**
 * The port that `--port N` or `--port=N` asks for.
 * @param {string[]} args
 */
const portFrom = (args) => {
  let text;
  try {
    text = parseArgs({ args, options: { port: { type: "string" } } }).values.port ?? String(USUAL_PORT);
  } catch {
    throw new Trouble('npm start takes a port and nothing else: write "npm start" or "npm start -- --port 8080".');
  }
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535) {
    throw new Trouble(`--port takes a whole number from 0 to 65535, and "${text}" is none.`);
  }
  return port;
};

const start = async () => {
  const wanted = portFrom(process.argv.slice(2));
  await ensureInstalled();
  await ensureBuilt({ pageOnly: true });
  const { port, url } = await serveFolder(DIST, wanted).catch((error) => {
    throw new Trouble(
      `Port ${wanted} cannot be used (${error.code ?? error.message}): try another with "npm start -- --port 8080".`,
    );
  });
  if (wanted !== 0 && port !== wanted) console.log(`Port ${wanted} is taken, so it is ${port}.`);
  console.log(`Turnwise is at ${url} (Ctrl-C stops it).`);
  // Nobody waits for it: the page is served already.
  await ensureCarried();
};

// Ctrl-C stops at once and without a word, whatever is under way.
process.once("SIGINT", () => process.exit(0));
process.once("SIGTERM", () => process.exit(0));
start().catch((error) => {
  console.error(error instanceof Trouble ? error.message : `npm start stopped: ${error?.message ?? error}`);
  process.exitCode = 1;
});

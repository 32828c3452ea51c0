/** Lets the built page work offline: gives it a version, and writes the worker that keeps its files, with their list. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve, sep } from "node:path";
import { build, type Plugin } from "vite";

const WORKER = "service-worker.js";
const PAGE = "index.html";
/** Files of the built folder that the page itself does not need: the pictures of README.md, the schema, the file to carry. */
const NOT_KEPT = [
  WORKER,
  PAGE,
  "drive.schema.json",
  "lesson.schema.json",
  "close-look.png",
  "teeth.png",
  "turnwise.png",
  "turnwise.html",
];

/** As the `integrity` of a fetch has it. */
const digestOf = (bytes: Buffer | string): string => `sha256-${createHash("sha256").update(bytes).digest("base64")}`;

const filesUnder = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .map((name) => name.split(sep).join("/"))
    .sort();

/** The worker as one plain script, which every browser with workers reads; `values` stand in for its declared constants. */
const bundleWorker = async (root: string, values: Readonly<Record<string, unknown>>): Promise<string> => {
  const result = await build({
    configFile: false,
    root,
    logLevel: "warn",
    publicDir: false,
    define: Object.fromEntries(Object.entries(values).map(([name, value]) => [name, JSON.stringify(value)])),
    build: {
      write: false,
      target: "es2022",
      modulePreload: false,
      rolldownOptions: {
        input: join(root, "src/app/versions/service-worker.ts"),
        output: { format: "iife", codeSplitting: false },
      },
    },
  });
  const [output] = Array.isArray(result) ? result : [result];
  if (!output || !("output" in output) || output.output.length !== 1) throw new Error(`${WORKER} is not one script.`);
  return output.output[0].code;
};

export const offline = (): Plugin => {
  let folder = "";
  let root = "";
  return {
    name: "turnwise-offline",
    apply: (_config, { command, mode }) => command === "build" && mode === "production",
    configResolved: (config) => {
      root = config.root;
      folder = resolve(config.root, config.build.outDir);
    },
    // What is listed is read from the folder that will be served, so that list and files can't differ.
    writeBundle: async () => {
      const files: Record<string, string> = {};
      for (const name of filesUnder(folder)) {
        if (!NOT_KEPT.includes(name)) files[name] = digestOf(readFileSync(join(folder, name)));
      }
      const plain = readFileSync(join(folder, PAGE), "utf8");
      const version = createHash("sha256").update(JSON.stringify(files)).update(plain).digest("hex").slice(0, 16);
      const page = plain.replace("</head>", `  <meta name="version" content="${version}">\n  </head>`);
      if (page === plain) throw new Error(`${PAGE} has no end of its head to write the version before.`);
      writeFileSync(join(folder, PAGE), page);
      const kept = { "./": digestOf(page), ...files };
      writeFileSync(join(folder, WORKER), await bundleWorker(root, { FILES: kept, VERSION: version }));
    },
  };
};

/**
 * The one file to carry: a second build of the page, with scripts, styles, fonts, samples, lessons and icon within the HTML itself. A page
 * opened from a folder (`file:`) may load no other file, so nothing may be left beside it: the build fails where something is.
 */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { basename, join, relative } from "node:path";
import { build, type InlineConfig, type Plugin } from "vite";

/** The mode of the second build; `import.meta.env.MODE` has it in the page. */
export const ONE_FILE = "one-file";
const NAME = "turnwise.html";
const PAGE = "index.html";

/** What one file does in another way than a page with a server: module of `src` -> the module that stands in for it. */
const STAND_INS: Readonly<Record<string, string>> = {
  "src/exchange/beside-text.ts": "src/exchange/carried/beside-text.ts",
  "src/exchange/start-loop-worker.ts": "src/exchange/carried/start-loop-worker.ts",
  "src/exchange/start-reader.ts": "src/exchange/carried/start-reader.ts",
  "src/panels/drawings/start-draft-worker.ts": "src/panels/drawings/carried/start-draft-worker.ts",
};
const TEXTS = "virtual:carried-texts";
const TEXT_FOLDERS = ["samples", "lessons"] as const;

const hash = (text: string): string => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/** Nothing is fetched from anywhere, the folder that the file lies in included; only its own script and styles run. */
const policyFor = (script: string, style: string): string =>
  [
    "default-src 'none'",
    `script-src ${hash(script)}`,
    `style-src ${hash(style)}`,
    "img-src data: blob:",
    "font-src data:",
    "worker-src blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");

/** A script within HTML ends at its end tag, and a comment's beginning changes how it is read; in a literal `\x3c` is `<`. */
const withinHtml = (script: string): string => script.replace(/<(?=\/script|!--)/gi, "\\x3c");

/** Puts all that the bundle holds into the page. */
const inlined = (page: string, scriptText: string, styleText: string, icon: string): string => {
  const script = withinHtml(scriptText);
  const style = styleText.trim();
  if (/<\/style/i.test(style)) throw new Error(`A style sheet of ${NAME} holds the end tag of its own element.`);
  const head = `<meta http-equiv="Content-Security-Policy" content="${policyFor(script, style)}">`;
  const bare = page
    .replace(/\s*<script\b[^>]*\bsrc="[^"]*"[^>]*><\/script>/g, "")
    .replace(/\s*<link\b[^>]*\brel="(?:stylesheet|modulepreload|manifest|apple-touch-icon)"[^>]*>/g, "")
    .replace(/(<link\b[^>]*\brel="icon"[^>]*\bhref=")[^"]*"/, (_all, before: string) => `${before}${icon}"`);
  // Functions, since a replacement text would give meaning to the dollar signs of the code.
  const left = /<(?:script|link|img)\b[^>]*\b(?:src|href)="(?!data:)([^"]*)"/.exec(bare);
  if (left) throw new Error(`${NAME} would ask for ${left[1]}, and must stand alone.`);
  return bare
    .replace(/(?<=<meta charset="utf-8"[^>]*>)/, () => `\n    ${head}`)
    .replace(/\s*<\/head>/, () => `\n    <style>${style}</style>\n  </head>`)
    .replace(/\s*<\/body>/, () => `\n    <script type="module">${script}</script>\n  </body>`);
};

/** Makes one file of the second build's bundle. */
const intoOneFile = (): Plugin => {
  let root = "";
  return {
    name: "turnwise-into-one-file",
    apply: (_config, { mode }) => mode === ONE_FILE,
    enforce: "pre",
    config: () => ({
      publicDir: false,
      build: {
        emptyOutDir: false,
        assetsInlineLimit: Number.POSITIVE_INFINITY,
        cssCodeSplit: false,
        reportCompressedSize: false,
        // Time of the worker within the script is the bundler's own, and no news to anybody.
        rolldownOptions: { output: { codeSplitting: false }, checks: { bundlerTimings: false } },
      },
    }),
    configResolved: (config) => {
      root = config.root;
    },
    resolveId: {
      // Asked for these alone: the bundler has thousands of names to find.
      filter: {
        id: [new RegExp(TEXTS), ...Object.keys(STAND_INS).map((name) => new RegExp(`/${basename(name, ".ts")}$`))],
      },
      async handler(source, importer) {
        if (source === TEXTS) return `\0${TEXTS}`;
        const found = importer && (await this.resolve(source, importer, { skipSelf: true }));
        const standIn = found && STAND_INS[relative(root, found.id)];
        return standIn ? join(root, standIn) : null;
      },
    },
    load(id) {
      if (id !== `\0${TEXTS}`) return null;
      const texts = TEXT_FOLDERS.flatMap((folder) =>
        readdirSync(join(root, "public", folder)).map((name) => [
          `${folder}/${name}`,
          readFileSync(join(root, "public", folder, name), "utf8"),
        ]),
      );
      return `export const CARRIED_TEXTS = ${JSON.stringify(Object.fromEntries(texts))};`;
    },
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        const parts = { page: "", script: "", style: "" };
        for (const [name, file] of Object.entries(bundle)) {
          const part = file.type === "chunk" ? "script" : name === PAGE ? "page" : "style";
          const isNew = parts[part] === "" && (part !== "style" || name.endsWith(".css"));
          if (!isNew) this.error(`${name} would lie beside ${NAME}, which must stand alone.`);
          parts[part] = file.type === "chunk" ? file.code : String(file.source);
          delete bundle[name];
        }
        const icon = readFileSync(join(root, "public/icon.svg")).toString("base64");
        const source = inlined(parts.page, parts.script, parts.style, `data:image/svg+xml;base64,${icon}`);
        this.emitFile({ type: "asset", fileName: NAME, source });
      },
    },
  };
};

/** Has the ordinary build leave the one file too; `npm start` has it made later, by the second build alone. */
const afterwards = (): Plugin => {
  let second: InlineConfig | null = null;
  return {
    name: "turnwise-one-file-afterwards",
    apply: (_config, { command, mode }) =>
      command === "build" && mode === "production" && process.env.TURNWISE_PAGE_ONLY !== "1",
    configResolved: ({ configFile, logLevel, root, build: { outDir } }) => {
      second = { configFile: configFile ?? false, root, logLevel, mode: ONE_FILE, build: { outDir } };
    },
    closeBundle: async () => {
      if (second) await build(second);
    },
  };
};

export const oneFile = (): Plugin[] => [intoOneFile(), afterwards()];

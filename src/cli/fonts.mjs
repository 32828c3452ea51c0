// @ts-check
/**
 * Cuts the page's font to what the first screen writes: `npm run fonts`. The rest of the Latin letters stands in the full file,
 * which a browser fetches only for a page that has such a letter.
 */
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import subset from "subset-font";
import { ROOT } from "./launch.mjs";

/** Its published types lack `keepFeatures`. @type {(font: Buffer, text: string, options: Record<string, unknown>) => Promise<Buffer>} */
const subsetFont = subset;
const PACKAGE = join(ROOT, "node_modules/@fontsource-variable/source-sans-3");
const OUT = join(ROOT, "src/app/fonts");

const ascii = Array.from({ length: 0x7f - 0x20 }, (_, i) => String.fromCharCode(0x20 + i)).join("");
/** What labels, numbers and units need beyond ASCII; theme.css names the same in its unicode-range. */
const SIGNS = "\u00a0°²³·×\u2009\u202f–—‘’“”…−";

const full = await readFile(join(PACKAGE, "files/source-sans-3-latin-wght-normal.woff2"));
const cut = await subsetFont(full, ascii + SIGNS, {
  targetFormat: "woff2",
  variationAxes: { wght: { min: 400, max: 700 } },
  // Its plain figures are tabular; small capitals and old figures would bring their own letters along.
  keepFeatures: ["kern", "ccmp", "mark", "tnum", "lnum"],
});
await writeFile(join(OUT, "source-sans-3-basic.woff2"), cut);
await writeFile(join(OUT, "LICENSE.txt"), await readFile(join(PACKAGE, "LICENSE")));
process.stdout.write(`${full.length} bytes cut to ${cut.length}\n`);

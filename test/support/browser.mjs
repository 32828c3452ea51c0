// @ts-check
/** Where the browser of the tests is, and how it is started. */
import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join } from "node:path";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

export const NO_BROWSER =
  "No browser to test with: install Chromium (on Debian or Ubuntu: apt-get install -y --no-install-recommends chromium), " +
  "or name one in the environment variable CHROME_PATH.";

/**
 * The program of an installed Chromium or Chrome: CHROME_PATH, else the first on PATH. Null where there is none.
 * @returns {string | null}
 */
export const findBrowser = () => {
  const named = process.env.CHROME_PATH;
  if (named) return existsSync(named) ? named : null;
  for (const name of NAMES) {
    for (const folder of (process.env.PATH ?? "").split(delimiter)) {
      const file = join(folder, name);
      try {
        accessSync(file, constants.X_OK);
        return file;
      } catch {
        // Not here: on to the next folder.
      }
    }
  }
  return null;
};

/** Quiet, and sending nothing out by itself. `--no-sandbox` because tests often run as root in a container. */
const COMMON = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-dev-shm-usage",
];

/** WebGL 2 in software, the same on every machine. */
export const WITH_WEBGL = [...COMMON, "--use-angle=swiftshader", "--enable-unsafe-swiftshader"];
/** A machine without any WebGL. */
export const WITHOUT_WEBGL = [...COMMON, "--disable-gpu", "--disable-webgl", "--disable-webgl2", "--disable-3d-apis"];

/**
 * The built page in a real browser. `openApp` serves dist on a port of its own, opens it and watches it: `close`
 * fails the test where the page wrote to the console, threw, lost a request or asked another origin for anything.
 */
import { mkdirSync } from "node:fs";
import type { Server } from "node:http";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll } from "vitest";
import { DIST, ROOT } from "../../src/cli/launch.mjs";
import { serveFolder } from "../../src/cli/serve.mjs";
import { findBrowser, NO_BROWSER, WITH_WEBGL, WITHOUT_WEBGL } from "../support/browser.mjs";

/** Pictures and other output of the tests. */
export const OUTPUT = join(ROOT, "node_modules/.cache/turnwise-test");

export interface AppOptions {
  /** Pixels of the page; 1280 by 800 where left out. */
  readonly width?: number;
  readonly height?: number;
  readonly theme?: "light" | "dark";
  /** A touch screen, as on a phone. */
  readonly touch?: boolean;
  /** False: a machine without any WebGL, as where the path asks for the flat drawing: a page in software is then quicker. */
  readonly webgl?: boolean;
  readonly reducedMotion?: boolean;
  /** What follows the address: "#sample=mill" or "?x". */
  readonly path?: string;
  /** A folder instead of the built page. */
  readonly folder?: string;
  /** A sub-path to serve it from, such as "/school/tools/"; "/" where left out. */
  readonly under?: string;
  /** A file to open from its folder, without any server. */
  readonly file?: string;
  /**
   * Lets the page keep its files for working offline. Left out, the browser has no service workers: what a test's routes are to
   * withhold would else come from what was kept.
   */
  readonly offline?: boolean;
  /** Runs before the page is loaded: routes, storage, init scripts. */
  readonly before?: (page: Page, context: BrowserContext) => Promise<void>;
  /** Console messages that this test provokes on purpose, each with the reason. */
  readonly expected?: readonly { readonly pattern: RegExp; readonly reason: string }[];
}

export interface App {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly url: string;
  /** What went wrong so far, one sentence each. */
  readonly complaints: readonly string[];
  /** Saves a picture of the page (not of what must be scrolled to) and gives its path. */
  screenshot(name: string): Promise<string>;
  /** Stops the server, as if the net were gone for good. */
  cut(): void;
  /** A second page of the same browser profile, watched like the first. */
  another(path?: string): Promise<Page>;
  /** Closes the page; throws where there was any complaint. */
  close(): Promise<void>;
}

const browsers = new Map<boolean, Promise<Browser>>();
const opened = new Set<{ readonly context: BrowserContext; readonly server: Server | null }>();

const browserFor = (webgl: boolean): Promise<Browser> => {
  const program = findBrowser();
  if (program === null) throw new Error(NO_BROWSER);
  const args = webgl ? WITH_WEBGL : WITHOUT_WEBGL;
  const browser = browsers.get(webgl) ?? chromium.launch({ executablePath: program, args: [...args] });
  browsers.set(webgl, browser);
  return browser;
};

const stopServer = (server: Server | null): void => {
  server?.close();
  server?.closeAllConnections();
};

/** Notes everything that a page of ours must never do. */
const watch = (page: Page, isOwn: (address: string) => boolean, options: AppOptions, complaints: string[]): void => {
  const complain = (text: string): void => {
    if (!(options.expected ?? []).some(({ pattern }) => pattern.test(text))) complaints.push(text);
  };
  page.on("console", (message) => {
    const place = message.location();
    complain(`console ${message.type()}: ${message.text()} (${place.url}:${place.lineNumber})`);
  });
  page.on("pageerror", (error) => complain(`error: ${error.stack ?? error.message}`));
  page.on("crash", () => complain("The page crashed."));
  page.on("request", (request) => {
    if (!isOwn(request.url())) complain(`request to another origin: ${request.url()}`);
  });
  page.on("websocket", (socket) => complain(`web socket: ${socket.url()}`));
  page.on("response", (response) => {
    if (response.status() >= 400) complain(`status ${response.status()}: ${response.url()}`);
  });
};

/** Opens the built page; see `AppOptions` for what can differ from a 1280 by 800 screen with WebGL. */
export const openApp = async (options: AppOptions = {}): Promise<App> => {
  const { width = 1280, height = 800, touch = false, path = "", under = "/" } = options;
  const { webgl = !path.includes("drawing=flat") } = options;
  const browser = await browserFor(webgl);
  const served = options.file ? null : await serveFolder(options.folder ?? DIST, 0, under);
  const url = served ? new URL(under, served.url).href : pathToFileURL(options.file ?? "").href;
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: options.theme ?? "light",
    reducedMotion: options.reducedMotion ? "reduce" : "no-preference",
    hasTouch: touch,
    isMobile: touch,
    acceptDownloads: true,
    locale: "en-GB",
  });
  const entry = { context, server: served?.server ?? null };
  opened.add(entry);
  const complaints: string[] = [];
  const { origin } = new URL(url);
  const isOwn = (address: string): boolean => {
    if (address.startsWith("data:") || address.startsWith(`blob:${origin}`)) return true;
    return served ? new URL(address).origin === origin : address.split(/[?#]/, 1)[0] === url;
  };
  if (!options.offline) {
    await context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, "serviceWorker"));
  }
  // Set before the first page, so that pages which the app itself opens are watched as well.
  context.on("page", (page) => watch(page, isOwn, options, complaints));
  const page = await context.newPage();
  await options.before?.(page, context);
  await page.goto(url + path, { waitUntil: "load" });
  return {
    page,
    context,
    url,
    complaints,
    screenshot: async (name) => {
      mkdirSync(OUTPUT, { recursive: true });
      const file = join(OUTPUT, `${name}.png`);
      await page.screenshot({ path: file });
      return file;
    },
    cut: () => stopServer(entry.server),
    another: async (more = "") => {
      const second = await context.newPage();
      await second.goto(url + more, { waitUntil: "load" });
      return second;
    },
    close: async () => {
      await context.close();
      stopServer(entry.server);
      opened.delete(entry);
      if (complaints.length > 0) throw new Error(`The page must be silent, and was not:\n${complaints.join("\n")}`);
    },
  };
};

// One browser of each sort for all tests of a file; a test that failed half-way may have left its page open.
afterAll(async () => {
  for (const { context, server } of opened) {
    await context.close();
    stopServer(server);
  }
  opened.clear();
  for (const browser of browsers.values()) await (await browser).close();
  browsers.clear();
});

/**
 * What the page itself does for working offline: says which version it is for as long as it is open, and, when the first
 * screen has come, loads the rest. Only the page of a server does any of this, not the one file to carry.
 */
import { cacheName, pageFolder } from "./cache-name";

/** ms of calm that the page is left after the bench has come: it draws its first frames, and may ask for more. */
const CALM = 2000;
/** ms that the page may stay busy after that before its files are kept all the same. */
const BUSY = 5000;

/** A lock that ends with the page: as long as it is held, no file of this version is dropped. */
const holdVersion = (version: string): void => {
  const forEver = (): Promise<never> => new Promise(() => undefined);
  navigator.locks?.request(cacheName(pageFolder(), version), { mode: "shared" }, forEver).catch(() => undefined);
};

const idle = (): Promise<void> =>
  new Promise((settle) => {
    if (typeof requestIdleCallback === "function") requestIdleCallback(() => settle(), { timeout: BUSY });
    else setTimeout(settle, BUSY);
  });

export const followVersions = async (): Promise<void> => {
  const version = document.querySelector<HTMLMetaElement>("meta[name=version]")?.content;
  if (!version || !("serviceWorker" in navigator)) return;
  holdVersion(version);
  // Nothing is fetched for later before the bench is there, or has failed to come.
  await import("../../bench/bench").catch(() => undefined);
  await new Promise((calm) => setTimeout(calm, CALM));
  await idle();
  const { watchVersions } = await import("./watch-versions");
  await watchVersions();
};

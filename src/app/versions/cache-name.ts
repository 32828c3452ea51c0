/**
 * The name of the cache that holds all files of one version, and of the lock that a page of that version holds while it is
 * open. One host may carry several copies in different folders, so the folder belongs to the name.
 */
export const cachePrefix = (folder: string): string => `turnwise ${folder} `;

export const cacheName = (folder: string, version: string): string => cachePrefix(folder) + version;

/** The folder of the page that this runs in, with a slash at the end: the same as its worker's own. */
export const pageFolder = (): string => new URL("./", document.baseURI).href;

/** What a page says to the worker of its files. */
export type Word = "take over" | "tidy";

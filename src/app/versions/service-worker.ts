/**
 * The worker between the page and the net: keeps every file of one version, so that the page comes up without the net.
 * A newer version waits until it is told to take over; files of an older one stay for as long as a page of it is open.
 */
import { cacheName, cachePrefix, type Word } from "./cache-name";

/** The build's own list: each file under the worker's folder with the digest of its bytes; "./" is the page itself. */
declare const FILES: Readonly<Record<string, string>>;
declare const VERSION: string;

interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Asked extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
/** What is used of a ServiceWorkerGlobalScope; the DOM's own types, which the page needs, do not know it. */
interface Scope {
  readonly registration: ServiceWorkerRegistration;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", handle: (event: Waiting) => void): void;
  addEventListener(type: "fetch", handle: (event: Asked) => void): void;
  addEventListener(type: "message", handle: (event: Waiting & { readonly data: Word }) => void): void;
}

const scope = self as unknown as Scope;
const FOLDER = scope.registration.scope;
const OWN = cacheName(FOLDER, VERSION);

/** Names that carry a digest of their content are never fetched twice; the others are asked for anew. */
const isNamedByContent = (file: string): boolean => file.startsWith("assets/");

/** A file as the build made it, or no version at all: the digest refuses a mixture of two versions, or a sign-in page of the net. */
const fetchFile = async (file: string, digest: string): Promise<Response> => {
  const cache = isNamedByContent(file) ? "default" : "no-cache";
  const answer = await fetch(new URL(file, FOLDER), { integrity: digest, cache });
  if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
  // A page that came by a detour may not be handed out as the answer to a navigation.
  if (!answer.redirected) return answer;
  return new Response(await answer.blob(), { headers: answer.headers });
};

const keepAll = async (): Promise<void> => {
  const cache = await caches.open(OWN);
  await Promise.all(
    Object.entries(FILES).map(async ([file, digest]) => {
      const address = new URL(file, FOLDER);
      if (isNamedByContent(file) && (await cache.match(address))) return;
      await cache.put(address, await fetchFile(file, digest));
    }),
  );
};

/** Caches of this folder's older versions, newest first; names of caches come in the order of their making. */
const olderCaches = async (): Promise<string[]> =>
  (await caches.keys()).filter((name) => name.startsWith(cachePrefix(FOLDER)) && name !== OWN).reverse();

/** Drops what no open page needs any more. Does nothing while a newer version is coming or waiting: its cache has no page yet. */
const tidy = async (): Promise<void> => {
  // Browsers without locks can't say what is open: nothing is dropped.
  if (!("locks" in navigator)) return;
  const names = await olderCaches();
  const { held = [], pending = [] } = await navigator.locks.query();
  const { installing, waiting } = scope.registration;
  if (installing || waiting) return;
  const used = new Set([...held, ...pending].map(({ name }) => name));
  await Promise.all(names.filter((name) => !used.has(name)).map((name) => caches.delete(name)));
};

/** The path of an address under the worker's folder; null outside it. */
const fileOf = (address: string): string | null => {
  const { origin, pathname } = new URL(address);
  const whole = origin + pathname;
  return whole.startsWith(FOLDER) ? whole.slice(FOLDER.length) : null;
};

const answerWith = async (request: Request, file: string): Promise<Response> => {
  const address = new URL(file, FOLDER);
  const own = await (await caches.open(OWN)).match(address);
  if (own) return own;
  for (const name of await olderCaches()) {
    const older = await (await caches.open(name)).match(address);
    if (older) return older;
  }
  return fetch(request);
};

/** On this machine another program may come to serve its own page at the same address: that one is not ours to hide. */
const isThisMachine = /^(?:localhost|127\.\d+\.\d+\.\d+|\[::1\])$/.test(new URL(FOLDER).hostname);

const answerWithPage = async (request: Request): Promise<Response> => {
  if (isThisMachine) {
    const live = await fetch(request).catch(() => null);
    if (live && !(await live.clone().text()).includes("<title>Turnwise</title>")) return live;
  }
  return answerWith(request, "./");
};

scope.addEventListener("install", (event) => event.waitUntil(keepAll()));
// The first page of all has the worker from now on, and so its own version's files, whatever the host carries later.
scope.addEventListener("activate", (event) => event.waitUntil(scope.clients.claim()));
scope.addEventListener("message", (event) => {
  if (event.data === "take over") event.waitUntil(scope.skipWaiting());
  if (event.data === "tidy") event.waitUntil(tidy());
});
scope.addEventListener("fetch", (event) => {
  const { request } = event;
  const file = fileOf(request.url);
  if (request.method !== "GET" || file === null) return;
  const isPage = file === "" || file === "index.html";
  // Other pages in the folder, the one file to carry among them, are the host's.
  if (isPage) event.respondWith(answerWithPage(request));
  else if (FILES[file] !== undefined || isNamedByContent(file)) event.respondWith(answerWith(request, file));
});

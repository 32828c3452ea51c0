// @ts-check
/** A small server of static files for this machine only: what `npm start` and the browser tests serve the built page with. */
import { createHash } from "node:crypto";
import { readFile, realpath, stat } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, resolve, sep } from "node:path";

/**
 * What the page may load: everything from its own origin and nothing else. Pictures may also come from memory
 * (figures being saved); there is neither eval nor inline script nor inline style sheet.
 */
export const CONTENT_POLICY = [
  "default-src 'self'",
  "img-src 'self' data: blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** @type {Readonly<Record<string, string>>} */
const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".ico": "image/x-icon",
  ".jpg": "image/jpeg",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".md": "text/markdown; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".stl": "model/stl",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".webp": "image/webp",
  ".woff2": "font/woff2",
};

const HEADERS = {
  "Content-Security-Policy": `${CONTENT_POLICY}; frame-ancestors 'none'`,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  // The browser asks each time and is told "unchanged": a new build is never hidden by an old one.
  "Cache-Control": "no-cache",
};

/**
 * The file that a request path stands for, or null where it stands for none inside `root`.
 * @param {string} root real path of the folder
 * @param {string} under the path that stands for the folder, with a slash at both ends
 * @param {string} url
 * @returns {Promise<string | null>}
 */
const fileFor = async (root, under, url) => {
  let path;
  try {
    path = decodeURIComponent((url.split(/[?#]/, 1)[0] ?? "/").replace(/^\/*/, "/"));
  } catch {
    return null;
  }
  if (path.includes("\0") || path.includes("\\") || !path.startsWith(under)) return null;
  const inside = (/** @type {string} */ file) => file === root || file.startsWith(root + sep);
  const asked = resolve(root, `./${path.slice(under.length)}`);
  if (!inside(asked)) return null;
  try {
    const file = (await stat(asked)).isDirectory() ? join(asked, "index.html") : asked;
    // A link that leads out of the folder is refused as well.
    const real = await realpath(file);
    return inside(real) && (await stat(real)).isFile() ? real : null;
  } catch {
    return null;
  }
};

/**
 * A server of the files in `folder`, not yet listening. Only GET and HEAD; a folder's own page is its index.html.
 * @param {string} folder
 * @param {string} [under] the path that stands for the folder, with a slash at both ends
 */
export const createStaticServer = (folder, under = "/") =>
  createServer(async (request, response) => {
    const fail = (/** @type {number} */ status, /** @type {string} */ text) => {
      response.writeHead(status, { ...HEADERS, "Content-Type": "text/plain; charset=utf-8" });
      response.end(request.method === "HEAD" ? undefined : `${text}\n`);
    };
    try {
      if (request.method !== "GET" && request.method !== "HEAD") return fail(405, "Only GET and HEAD.");
      const file = await fileFor(await realpath(folder), under, request.url ?? "/");
      if (file === null) return fail(404, "No such file.");
      const body = await readFile(file);
      const tag = `"${createHash("sha256").update(body).digest("base64url").slice(0, 22)}"`;
      if (request.headers["if-none-match"] === tag) {
        response.writeHead(304, { ...HEADERS, ETag: tag });
        return response.end();
      }
      const type = TYPES[extname(file).toLowerCase()] ?? "application/octet-stream";
      response.writeHead(200, { ...HEADERS, "Content-Type": type, "Content-Length": body.length, ETag: tag });
      return response.end(request.method === "HEAD" ? undefined : body);
    } catch {
      return response.headersSent ? response.destroy() : fail(500, "The file could not be read.");
    }
  });

/**
 * Serves `folder` at 127.0.0.1, at `port` or, where that is taken, at the next free one of the 50 after it
 * (0: any free one). Rejects where all of them are taken or the port may not be used.
 * @param {string} folder
 * @param {number} port 0 to 65535
 * @param {string} [under] the path that stands for the folder, with a slash at both ends
 * @returns {Promise<{ server: import("node:http").Server, port: number, url: string }>}
 */
export const serveFolder = async (folder, port, under = "/") => {
  for (let next = port; ; next += 1) {
    const server = createStaticServer(folder, under);
    try {
      await new Promise((settle, refuse) => {
        server.once("error", refuse);
        server.listen(next, "127.0.0.1", () => settle(undefined));
      });
      const address = server.address();
      const got = address !== null && typeof address === "object" ? address.port : next;
      return { server, port: got, url: `http://127.0.0.1:${got}/` };
    } catch (error) {
      const taken = error instanceof Error && "code" in error && error.code === "EADDRINUSE";
      if (!taken || port === 0 || next >= port + 50 || next >= 65535) throw error;
    }
  }
};

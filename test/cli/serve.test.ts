/** The server behind `npm start`: right types and headers, nothing outside its folder, a taken port is no crash. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { request, type Server } from "node:http";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveFolder } from "../../src/cli/serve.mjs";

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | readonly string[] | undefined>>;
  readonly body: string;
}

let outside = "";
let port = 0;
let server: Server;

beforeAll(async () => {
  outside = mkdtempSync(join(tmpdir(), "turnwise-serve-"));
  const folder = join(outside, "dist");
  mkdirSync(join(folder, "assets"), { recursive: true });
  mkdirSync(join(outside, "dist-secret"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>page</title>");
  writeFileSync(join(folder, "assets/a b.js"), "export {};");
  writeFileSync(join(folder, "assets/font.woff2"), "font");
  writeFileSync(join(folder, "drive.schema.json"), "{}");
  writeFileSync(join(folder, "unknown.xyz"), "x");
  writeFileSync(join(outside, "secret.txt"), "secret");
  writeFileSync(join(outside, "dist-secret/secret.txt"), "secret");
  symlinkSync(join(outside, "secret.txt"), join(folder, "link.txt"));
  const serving = await serveFolder(folder, 0);
  port = serving.port;
  server = serving.server;
});

afterAll(() => {
  server.close();
  server.closeAllConnections();
  rmSync(outside, { recursive: true, force: true });
});

/** Asks as it is written, without the tidying of paths that `fetch` does. */
const ask = (path: string, method = "GET", headers: Record<string, string> = {}): Promise<Answer> =>
  new Promise((settle, refuse) => {
    const asked = request({ host: "127.0.0.1", port, path, method, headers }, (response) => {
      let body = "";
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => {
        body += chunk;
      });
      response.on("end", () => settle({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    asked.on("error", refuse);
    asked.end();
  });

describe("the server of the built page", () => {
  it("gives each file its type, and the folder its index.html", async () => {
    const types: readonly (readonly [string, string])[] = [
      ["/", "text/html; charset=utf-8"],
      ["/index.html?x=1", "text/html; charset=utf-8"],
      ["/assets/a%20b.js", "text/javascript; charset=utf-8"],
      ["/assets/font.woff2", "font/woff2"],
      ["/drive.schema.json", "application/json; charset=utf-8"],
      ["/unknown.xyz", "application/octet-stream"],
    ];
    for (const [path, type] of types) {
      const { status, headers } = await ask(path);
      expect({ path, status, type: headers["content-type"] }).toEqual({ path, status: 200, type });
    }
  });

  it("sends the content policy, and asks the browser to check for a newer file", async () => {
    const { headers } = await ask("/");
    expect(headers["content-security-policy"]).toMatch(/^default-src 'self';.*frame-ancestors 'none'$/);
    expect(headers["content-security-policy"]).not.toMatch(/unsafe/);
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect(headers["cache-control"]).toBe("no-cache");
  });

  it("answers 304 where the file is unchanged", async () => {
    const { headers } = await ask("/");
    const again = await ask("/", "GET", { "If-None-Match": String(headers.etag) });
    expect([again.status, again.body]).toEqual([304, ""]);
  });

  it("refuses every way out of its folder", async () => {
    const ways = [
      "/../secret.txt",
      "/%2e%2e/secret.txt",
      "/..%2fsecret.txt",
      "/assets/../../secret.txt",
      "/..%5csecret.txt",
      "/../dist-secret/secret.txt",
      "//etc/passwd",
      "/link.txt",
      "/index.html%00.js",
      "/%E0%A4%A",
    ];
    for (const way of ways) {
      const { status, body } = await ask(way);
      expect({ way, status }).toEqual({ way, status: 404 });
      expect(body).not.toContain("secret");
    }
  });

  it("gives only files, to GET and HEAD only", async () => {
    expect((await ask("/assets/")).status).toBe(404);
    expect((await ask("/none.js")).status).toBe(404);
    expect((await ask("/", "POST")).status).toBe(405);
    const head = await ask("/", "HEAD");
    expect([head.status, head.body, head.headers["content-length"]]).toEqual([200, "", "34"]);
  });

  it("lives through nonsense on the wire", async () => {
    await new Promise<void>((settle) => {
      const socket = connect(port, "127.0.0.1", () => socket.end("\x00\x01 nonsense\r\n\r\n"));
      socket.on("error", () => settle());
      socket.on("close", () => settle());
      socket.resume();
    });
    expect((await ask("/")).status).toBe(200);
  });

  it("takes the next port where the one asked for is taken", async () => {
    const second = await serveFolder(join(outside, "dist"), port);
    expect(second.port).toBeGreaterThan(port);
    expect(second.url).toBe(`http://127.0.0.1:${second.port}/`);
    second.server.close();
  });

  it("can stand under a sub-path", async () => {
    const under = await serveFolder(join(outside, "dist"), 0, "/school/");
    const status = async (path: string): Promise<number> => (await fetch(new URL(path, under.url))).status;
    expect(await status("/school/")).toBe(200);
    expect(await status("/school/drive.schema.json")).toBe(200);
    expect(await status("/drive.schema.json")).toBe(404);
    under.server.close();
    under.server.closeAllConnections();
  });
});

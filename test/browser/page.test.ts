/** The built page as a whole: it loads in silence, from any sub-path, and the watcher that says so can be trusted. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { DIST } from "../../src/cli/launch.mjs";
import { openApp } from "./harness";

describe("the built page", () => {
  it("loads without a console message, an error or a request to another origin", async () => {
    const app = await openApp();
    await app.page.locator("#root > *").first().waitFor();
    expect(await app.page.title()).toContain("Turnwise");
    await app.screenshot("first-load");
    await app.close();
  });

  it("works from a sub-path of a host", async () => {
    const app = await openApp({ under: "/school/tools/turnwise/" });
    await app.page.locator("#root > *").first().waitFor();
    await app.close();
  });

  it("loads without WebGL as quietly", async () => {
    const app = await openApp({ webgl: false });
    await app.page.locator("#root > *").first().waitFor();
    expect(await app.page.evaluate(() => document.createElement("canvas").getContext("webgl2"))).toBeNull();
    await app.close();
  });

  it("carries a content policy and has no inline script", () => {
    const page = readFileSync(join(DIST, "index.html"), "utf8");
    expect(page).toContain('http-equiv="Content-Security-Policy"');
    expect(page).not.toMatch(/unsafe-(inline|eval)/);
    for (const [, attributes = "", body = ""] of page.matchAll(/<script\b([^>]*)>([^<]*)<\/script>/g)) {
      expect(attributes).toMatch(/\bsrc="\.\//);
      expect(body.trim()).toBe("");
    }
  });

  it("does not wait for three: no script that the page starts with holds it", () => {
    const page = readFileSync(join(DIST, "index.html"), "utf8");
    const queue = [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.js)"/g)].map((match) => match[1] as string);
    expect(queue.length).toBeGreaterThan(0);
    const seen = new Set<string>();
    for (const name of queue) {
      if (seen.has(name)) continue;
      seen.add(name);
      const text = readFileSync(join(DIST, name), "utf8");
      // Static imports only: `import ... from "./x.js"` and `import "./x.js"`.
      for (const match of text.matchAll(/(?:\bfrom|\bimport)\s*"\.\/([^"]+\.js)"/g)) queue.push(`assets/${match[1]}`);
      expect(text.includes("WebGLRenderer"), `${name} holds three`).toBe(false);
    }
    const all = readdirSync(join(DIST, "assets")).filter((name) => name.endsWith(".js"));
    const withThree = all.filter((name) => readFileSync(join(DIST, "assets", name), "utf8").includes("WebGLRenderer"));
    expect(withThree.length).toBeGreaterThan(0);
  });
});

describe("the watcher", () => {
  const withPage = async (script: string, then: (complaint: string) => void): Promise<void> => {
    const folder = mkdtempSync(join(tmpdir(), "turnwise-page-"));
    const head = '<!doctype html><html lang="en"><title>t</title><link rel="icon" href="i.svg"><p>Here</p>';
    writeFileSync(join(folder, "index.html"), `${head}<script src="./page.js"></script>`);
    writeFileSync(join(folder, "page.js"), script);
    writeFileSync(join(folder, "i.svg"), '<svg xmlns="http://www.w3.org/2000/svg" width="1" height="1"/>');
    try {
      const app = await openApp({ folder });
      await app.page.waitForLoadState("networkidle");
      await app.page.waitForTimeout(100);
      const closed = app.close().then(
        () => "",
        (error: Error) => error.message,
      );
      then(await closed);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  };

  it("has nothing to say of a quiet page", () =>
    withPage("document.title = 'quiet';", (text) => expect(text).toBe("")));
  it("sees a console message", () => withPage("console.log('hello')", (text) => expect(text).toMatch(/log: hello/)));
  it("sees an error", () => withPage("throw new Error('oh')", (text) => expect(text).toMatch(/error: Error: oh/)));
  it("sees a missing file", () =>
    withPage("fetch('./none.json')", (text) => expect(text).toMatch(/status 404: .*none\.json/)));
  it("sees a request to another origin", () =>
    withPage("new Image().src = 'http://127.0.0.2:9/x.png'", (text) => expect(text).toMatch(/127\.0\.0\.2/)));
  it("sees an inline script refused", () =>
    withPage("document.body.append(Object.assign(document.createElement('script'), { text: 'x = 1' }))", (text) =>
      expect(text).toMatch(/Content Security Policy/),
    ));
  it("sees eval refused", () =>
    withPage("try { eval('1') } catch (e) { console.error(String(e)) }", (text) => expect(text).toMatch(/EvalError/)));
});

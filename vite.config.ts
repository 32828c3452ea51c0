/// <reference types="vitest/config" />
import react from "@vitejs/plugin-react";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";
import { offline } from "./src/build/offline.ts";
import { ONE_FILE, oneFile } from "./src/build/one-file.ts";
import { CONTENT_POLICY } from "./src/cli/serve.mjs";

/** Writes the content policy into the built page, so that it holds on any static host. */
const contentPolicy = (): Plugin => ({
  name: "turnwise-content-policy",
  apply: (_config, { command, mode }) => command === "build" && mode !== ONE_FILE,
  transformIndexHtml: {
    order: "pre",
    handler: () => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: CONTENT_POLICY },
        injectTo: "head-prepend",
      },
    ],
  },
});

/** What three makes the bench's programs of: those of its materials (Lambert; basic, for lines too), and what the renderer adds. */
const SHADERS = [
  "meshlambert_vert",
  "meshlambert_frag",
  "meshbasic_vert",
  "meshbasic_frag",
  "colorspace_pars_fragment",
];
/** Parts of these programs that come to nothing without shadows, textures and the like: all their lines stand within an #if. */
const IDLE = [
  ...["shadowmap_pars_vertex", "shadowmap_vertex", "shadowmap_pars_fragment", "lightprobes_pars_fragment"],
  ...["envmap_fragment", "envmap_physical_pars_fragment", "alphahash_pars_fragment", "clipping_planes_fragment"],
  ...["bumpmap_pars_fragment", "normalmap_pars_fragment"],
];
/** Parts of three's renderer that the bench never calls upon, and the least that the renderer asks of each. */
const STAND_INS = {
  WebXRManager: `class WebXRManager extends EventDispatcher {
    enabled = false; isPresenting = false; setAnimationLoop() {} getEnvironmentBlendMode() {} dispose() {} }`,
  WebGLEnvironments: "function WebGLEnvironments() { return { get: ( texture ) => texture ?? null, dispose() {} }; }",
  WebGLShadowMap: "function WebGLShadowMap() { this.enabled = false; this.render = () => {}; }",
  WebGLOutput: "class WebGLOutput {}",
  WebGLUniformsGroups: "function WebGLUniformsGroups() { return { dispose() {} }; }",
  WebGLMorphtargets: "function WebGLMorphtargets() {}",
  getDFGLUT: "function getDFGLUT() {}",
};

/** Methods of three's objects that the bench never calls: reading a scene from a file and writing it, and meeting lines of sight. */
const IDLE_METHODS = ["toJSON", "raycast", "fromJSON", "computeTangents"];
/** Classes of three that stay for what is set on them from outside, though nobody makes one. */
const IDLE_CLASSES = ["KeyframeTrack", "Loader", "LoadingManager"];
/** Statements that keep a class, and all that it names, in the bundle. */
const IDLE_STATEMENTS = /^PropertyBinding\.[\s\S]*?;$/gm;

/**
 * Leaves out of three what it keeps for others: programs of other materials, virtual reality, shadows, mirrored surroundings.
 * Bundlers can't, since the renderer names them all. Stops the build where three no longer has what is looked for.
 */
function lighterCore(code: string): string {
  const without = (pattern: RegExp, name: string, standIn: string): void => {
    const before = code;
    code = code.replace(pattern, standIn);
    if (code === before) throw new Error(`three has no ${name} as lighterThree in vite.config.ts expects it.`);
  };
  for (const name of IDLE_METHODS)
    without(new RegExp(`^\\t${name}\\([^)]*\\) \\{[\\s\\S]*?^\\t\\}`, "gm"), name, `\t${name}() {}`);
  for (const name of IDLE_CLASSES)
    without(new RegExp(`^class ${name} \\{[\\s\\S]*?^\\}`, "m"), name, `class ${name} {}`);
  without(IDLE_STATEMENTS, "PropertyBinding", "");
  return code;
}

const lighterThree = (): Plugin => ({
  name: "turnwise-lighter-three",
  apply: "build",
  transform: {
    filter: { id: /three\/build\/three\.(?:module|core)\.js$/ },
    handler(code, id) {
      if (id.endsWith("three.core.js")) return { code: lighterCore(code), map: null };
      const find = (pattern: RegExp | null, name: string): string => {
        const part = pattern?.exec(code)?.[1];
        if (part === undefined) throw new Error(`three has no ${name} as lighterThree in vite.config.ts expects it.`);
        return part;
      };
      const chunks = find(/^const ShaderChunk = \{([^}]*)\}/m, "ShaderChunk");
      const variables = new Map(
        Array.from(chunks.matchAll(/(\w+): ([\w$]+)/g), ([, key, variable]) => [key, variable]),
      );
      const declared = (name: string): RegExp =>
        new RegExp(`(?<=^(?:var|const) ${variables.get(name)?.replaceAll("$", "\\$")} = )(".*")(?=;$)`, "m");
      const kept = new Set(SHADERS);
      // The set grows while it is gone through, so that what is included by an included part is kept too.
      for (const name of kept)
        for (const [, part = ""] of find(declared(name), name).matchAll(/#include <(\w+)>/g)) kept.add(part);
      for (const name of IDLE) if (!kept.delete(name)) find(null, `${name} in a program of the bench`);
      for (const name of variables.keys()) {
        if (name === undefined || kept.has(name)) continue;
        find(declared(name), name);
        code = code.replace(declared(name), IDLE.includes(name) ? '""' : '"#error left out"');
      }
      for (const [name, standIn] of Object.entries(STAND_INS)) {
        const whole = new RegExp(`^((?:class|function) ${name}\\b[\\s\\S]*?^\\})`, "m");
        find(whole, name);
        code = code.replace(whole, standIn);
      }
      return { code, map: null };
    },
  },
});

export default defineConfig({
  // Relative addresses: the built page works from any sub-path.
  base: "./",
  plugins: [react(), contentPolicy(), lighterThree(), offline(), oneFile()],
  build: {
    target: "es2022",
    // Every picture and font is a file of its own: the content policy allows no data: addresses for them.
    assetsInlineLimit: 0,
    // All browsers that can run the page know modulepreload; its stand-in would only add weight.
    modulePreload: { polyfill: false },
    // The bench comes by a lazy import and takes three with it. No groups by hand: one for three would draw in what the
    // panels share with it, and the panels would then wait for all of three.
    chunkSizeWarningLimit: 1000,
  },
  test: {
    // The main process only waits: of two cores, vitest would else leave one idle.
    maxWorkers: "100%",
    projects: [
      {
        extends: true,
        test: {
          name: "engine",
          environment: "node",
          include: ["test/{engine,cli,exchange-node}/**/*.test.ts", "test/*.test.ts"],
          // Pure functions leave nothing behind: loading them anew for each file would take a third of the time.
          isolate: false,
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: "store",
          environment: "node",
          include: ["test/store/**/*.test.ts"],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: "components",
          environment: "jsdom",
          include: ["test/{panels,app,bench-scene,lesson,exchange}/**/*.test.{ts,tsx}"],
          setupFiles: ["test/support/components.ts"],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          environment: "node",
          include: ["test/browser/**/*.test.ts"],
          globalSetup: ["test/support/built.ts"],
          // After everything else: waits are then steady.
          sequence: { groupOrder: 1 },
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});

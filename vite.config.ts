/// <reference types="vitest/config" />
import react from "@vitejs/plugin-react";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";
import { CONTENT_POLICY } from "./src/cli/serve.mjs";

/** Writes the content policy into the built page, so that it holds on any static host. */
const contentPolicy = (): Plugin => ({
  name: "turnwise-content-policy",
  apply: "build",
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

export default defineConfig({
  // Relative addresses: the built page works from any sub-path.
  base: "./",
  plugins: [react(), contentPolicy()],
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
    projects: [
      {
        extends: true,
        test: {
          name: "engine",
          environment: "node",
          include: ["test/{engine,cli,store,exchange-node}/**/*.test.ts", "test/*.test.ts"],
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
          // One browser at a time, after everything else: frame times and waits are then steady.
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});

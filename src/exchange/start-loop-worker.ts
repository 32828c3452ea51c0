/** A worker that writes a looped GIF; see `loop-worker.ts`. */
export const startLoopWorker = (): Worker =>
  new Worker(new URL("./loop-worker.ts", import.meta.url), { type: "module" });

/** A worker that draws; see `draft-worker.ts`. */
export const startDraftWorker = (): Worker =>
  new Worker(new URL("./draft-worker.ts", import.meta.url), { type: "module" });

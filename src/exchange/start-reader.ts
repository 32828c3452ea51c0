/** A worker that reads texts; see `read-worker.ts`. */
export const startReader = (): Worker => new Worker(new URL("./read-worker.ts", import.meta.url), { type: "module" });

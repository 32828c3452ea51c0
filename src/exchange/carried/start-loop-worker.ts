/** A worker that writes a looped GIF, in the one file to carry: its script is within the page. */
import Writer from "../loop-worker?worker&inline";

export const startLoopWorker = (): Worker => new Writer();

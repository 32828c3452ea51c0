/** Reading the text of a file; a long one in a worker, so that the page goes on turning meanwhile. */
import { type Parsed, parseDrive } from "../engine/drive/parse";
import { startReader } from "./start-reader";

/** Characters; below it reading takes less than a frame or two. */
const LONG = 1_000_000;

const readInWorker = (text: string): Promise<Parsed> =>
  new Promise((settle, fail) => {
    const worker = startReader();
    worker.addEventListener("message", (event: MessageEvent<Parsed>) => {
      worker.terminate();
      settle(event.data);
    });
    worker.addEventListener("error", () => {
      worker.terminate();
      fail(new Error("The reading worker stopped."));
    });
    worker.postMessage(text);
  });

/** The drive of a text, or all faults of the text. */
export const read = async (text: string): Promise<Parsed> => {
  if (text.length < LONG || typeof Worker === "undefined") return parseDrive(text);
  try {
    return await readInWorker(text);
  } catch {
    return parseDrive(text);
  }
};

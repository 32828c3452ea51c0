/** Has a looped GIF written on another thread, one picture at a time: the next is taken when the last is written. */
import type { GifOrder } from "./loop-gif";
import { startLoopWorker } from "./start-loop-worker";

export type LoopAsk =
  | { readonly order: GifOrder; readonly sample: Uint8ClampedArray }
  | { readonly picture: Uint8ClampedArray }
  | { readonly end: true };
/** `file` is null where there was nothing to write. */
export type LoopAnswer = { readonly done: true } | { readonly file: Uint8Array<ArrayBuffer> | null };

export interface LoopWish {
  readonly order: GifOrder;
  /** Pictures, at least 1. */
  readonly frames: number;
  /** RGBA of picture `k`; what it throws ends the writing. */
  readonly take: (k: number) => Uint8ClampedArray;
  /** Told after each picture how many are written. */
  readonly progress: (done: number) => void;
  readonly signal: AbortSignal;
}

/** Sends one message and waits for what comes back. Rejects where the worker breaks down, or the signal is aborted. */
function asked(worker: Worker, ask: LoopAsk, signal: AbortSignal): Promise<LoopAnswer> {
  return new Promise((settle, fail) => {
    const heard = new AbortController();
    const own = { signal: heard.signal };
    const end = (act: () => void): void => {
      heard.abort();
      act();
    };
    worker.addEventListener("message", ({ data }: MessageEvent<LoopAnswer>) => end(() => settle(data)), own);
    worker.addEventListener(
      "error",
      (event) => {
        event.preventDefault();
        end(() => fail(new Error("What writes the animation broke down.")));
      },
      own,
    );
    signal.addEventListener("abort", () => end(() => fail(signal.reason)), own);
    worker.postMessage(ask);
  });
}

/** Two pictures, half a round apart, from which the colours of all are chosen. */
function sampleOf({ frames, take }: LoopWish): Uint8ClampedArray {
  const [first, second] = [take(0), take(Math.floor(frames / 2))];
  const sample = new Uint8ClampedArray(first.length + second.length);
  sample.set(first);
  sample.set(second, first.length);
  return sample;
}

/** Writes the pictures to a file. Rejects with what `take` throws, with the signal's reason where it is aborted, and where the worker fails. */
export async function makeLoop(wish: LoopWish, start: () => Worker = startLoopWorker): Promise<Blob> {
  const { order, frames, take, progress, signal } = wish;
  signal.throwIfAborted();
  const worker = start();
  try {
    await asked(worker, { order, sample: sampleOf(wish) }, signal);
    for (let k = 0; k < frames; k++) {
      await asked(worker, { picture: take(k) }, signal);
      progress(k + 1);
    }
    const answer = await asked(worker, { end: true }, signal);
    if (!("file" in answer) || !answer.file) throw new Error("The animation came back without its file.");
    return new Blob([answer.file], { type: "image/gif" });
  } finally {
    worker.terminate();
  }
}

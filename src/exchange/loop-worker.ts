/** Writes a looped GIF picture by picture, and answers each message when it is done with it. */
import { type GifWriter, gifWriter } from "./loop-gif";
import type { LoopAnswer, LoopAsk } from "./loop-making";

let writer: GifWriter | null = null;

addEventListener("message", ({ data }: MessageEvent<LoopAsk>) => {
  const answer = (said: LoopAnswer): void => postMessage(said);
  if ("sample" in data) writer = gifWriter(data.order, data.sample);
  else if ("picture" in data) writer?.add(data.picture);
  else answer({ file: writer?.finish() ?? null });
  if (!("end" in data)) answer({ done: true });
});

/** The looped animation that is being made, or was made: one at a time, and dropped when other wishes come. */
import { useEffect, useRef, useState } from "react";
import { FrameLost, type FrameWish, holdBench } from "../../bench/loop-frames";
import { makeLoop } from "../../exchange/loop-making";

export type LoopState =
  | { readonly is: "idle" }
  | { readonly is: "making"; readonly done: number; readonly of: number }
  | { readonly is: "made"; readonly file: Blob }
  | { readonly is: "stopped" | "failed"; readonly words: string };

const IDLE: LoopState = { is: "idle" };
const FAILED =
  "The animation could not be made: what writes it did not come, or broke down. Nothing was saved; try again.";

export interface LoopMaker {
  readonly state: LoopState;
  /** @param delay hundredths of a second that each picture stands */
  readonly make: (wish: FrameWish, delay: number) => Promise<void>;
  readonly cancel: () => void;
  /** What was made is not what is wished for now. */
  readonly drop: () => void;
}

export function useLoop(): LoopMaker {
  const [state, setState] = useState<LoopState>(IDLE);
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);

  const make = async (wish: FrameWish, delay: number): Promise<void> => {
    const own = new AbortController();
    const { signal } = own;
    stop.current?.abort();
    stop.current = own;
    const { width, height, frames, ground } = wish;
    setState({ is: "making", done: 0, of: frames });
    try {
      const bench = await holdBench(wish, signal);
      try {
        const order = { width, height, delay, isTransparent: ground === null };
        const progress = (done: number): void => setState({ is: "making", done, of: frames });
        const file = await makeLoop({ order, frames, take: bench.take, progress, signal });
        setState({ is: "made", file });
      } finally {
        bench.release();
      }
    } catch (error) {
      if (signal.aborted) setState({ is: "stopped", words: "The animation was cancelled; nothing was saved." });
      else setState({ is: "failed", words: error instanceof FrameLost ? error.message : FAILED });
    }
  };
  return { state, make, cancel: () => stop.current?.abort(), drop: () => setState(IDLE) };
}

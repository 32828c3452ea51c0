/**
 * The frame loop: while the clock plays it moves it on once a frame and tells who draws. One loop, whoever draws and however
 * often it is asked for; it sleeps while nothing turns. No React in it.
 */
import { useEffect } from "react";
import { advance, clockStore, setPlaying } from "../store/clock";
import { documentStore } from "../store/document";

type Listener = (seconds: number) => void;
const listeners = new Set<Listener>();
let users = 0;
let frame = 0;
let last = 0;

/** Told each frame on which something turned, with the seconds since the frame before it. */
export function onTick(listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Tells who draws that the drive has been moved by something else than the clock: by hand, or by a step. */
export function tellMoved(): void {
  for (const listener of listeners) listener(0);
}

function tick(time: number): void {
  const seconds = last === 0 ? 1 / 60 : (time - last) / 1000;
  last = time;
  if (advance(seconds)) {
    for (const listener of listeners) listener(seconds);
    frame = requestAnimationFrame(tick);
  } else stop();
}

function stop(): void {
  if (frame) cancelAnimationFrame(frame);
  frame = 0;
  last = 0;
}

function wake(): void {
  if (users > 0 && !frame && clockStore.getState().playing) frame = requestAnimationFrame(tick);
}

clockStore.subscribe(({ playing }) => {
  if (playing) wake();
  else {
    stop();
    tellMoved();
  }
});
documentStore.subscribe((state, before) => {
  if (state.solved !== before.solved) wake();
});

let isFirst = true;

/** Keeps the clock running while the component is there. Where reduced motion is asked for, it starts paused. */
export function useTicking(): void {
  useEffect(() => {
    if (isFirst && window.matchMedia?.("(prefers-reduced-motion: reduce)").matches) setPlaying(false);
    isFirst = false;
    users++;
    wake();
    return () => {
      users--;
      if (users === 0) stop();
    };
  }, []);
}

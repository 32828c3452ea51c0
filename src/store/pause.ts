/** Waiting for edits to pause: for what need not follow every step of a drag or of a held key. */

export interface Pause {
  /** An edit came. */
  readonly touched: () => void;
  /** Nothing waits any more. */
  readonly stop: () => void;
}

/** Calls `take` once no edit has come for `pause` ms, or `longest` ms after the first that waits. */
export function pausing(pause: number, longest: number, take: () => void): Pause {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let [first, last] = [0, 0];
  const look = (): void => {
    timer = undefined;
    const left = Math.min(last + pause, first + longest) - performance.now();
    if (left > 0) timer = setTimeout(look, left);
    else take();
  };
  return {
    touched: () => {
      last = performance.now();
      if (timer !== undefined) return;
      first = last;
      timer = setTimeout(look, pause);
    },
    stop: () => {
      clearTimeout(timer);
      timer = undefined;
    },
  };
}

/** Stepping while a button is held down. */
import { useEffect, useRef } from "react";

/** ms before a held button goes on by itself, and between its steps. */
const HOLD_DELAY = 400;
const HOLD_REPEAT = 90;

/** A button that steps once at a press and goes on while it is held; a whole hold is one undo step. */
export function useHold(step: (times: 1 | -1) => void, begin: () => void, end: () => void) {
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const repeated = useRef(false);
  const act = useRef({ step, begin, end });
  act.current = { step, begin, end };

  const stop = () => {
    clearTimeout(timer.current);
    timer.current = undefined;
    if (repeated.current) act.current.end();
  };
  useEffect(() => () => clearTimeout(timer.current), []);

  return (times: 1 | -1) => ({
    onPointerDown: () => {
      repeated.current = false;
      const again = () => {
        if (!repeated.current) act.current.begin();
        repeated.current = true;
        act.current.step(times);
        timer.current = setTimeout(again, HOLD_REPEAT);
      };
      timer.current = setTimeout(again, HOLD_DELAY);
    },
    onPointerUp: stop,
    onPointerLeave: stop,
    onPointerCancel: stop,
    onClick: () => {
      if (repeated.current) {
        repeated.current = false;
        return;
      }
      act.current.begin();
      act.current.step(times);
      act.current.end();
    },
  });
}

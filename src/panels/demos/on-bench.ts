/** Puts the drive of a demonstration on the bench, in the place of the document's, and takes it away again. */
import { useEffect } from "react";
import type { Drive } from "../../engine/drive/types";
import { solve } from "../../engine/solve";
import { setDemo } from "../../store/demo";

/** `drive` must stay the same as long as nothing changed; null leaves the bench as it is. Drawn with the next frame, the last of several. */
export function useOnBench(drive: Drive | null, words: string): void {
  useEffect(() => {
    if (!drive) {
      setDemo({ shown: null });
      return;
    }
    const frame = requestAnimationFrame(() => setDemo({ shown: { solved: solve(drive), words } }));
    return () => cancelAnimationFrame(frame);
  }, [drive, words]);
  useEffect(() => () => setDemo({ shown: null }), []);
}

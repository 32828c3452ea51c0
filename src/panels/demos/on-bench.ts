/** Puts the drive of a demonstration on the bench, in the place of the document's, and takes it away again. */
import { useEffect } from "react";
import type { Drive } from "../../engine/drive/types";
import { ZERO } from "../../engine/motion/rational";
import { solve } from "../../engine/solve";
import type { Solved } from "../../engine/solved";
import { setDemo } from "../../store/demo";

interface Shown {
  /** Id of a shaft that stands still, since what should turn it slips. */
  readonly still?: string | null;
  readonly growth?: number;
}

/** The same, but that one shaft stands still: no equation of the pair holds where it slips. */
function without(solved: Solved, still: string): Solved {
  const shaft = solved.index.shafts.get(still) ?? -1;
  const { motion } = solved;
  const set = <T>(list: readonly T[], value: T): readonly T[] => list.map((one, i) => (i === shaft ? value : one));
  const way = Int8Array.from(motion.way);
  way[shaft] = 0;
  return {
    ...solved,
    motion: { ...motion, way, speed: set(motion.speed, 0), speeds: set(motion.speeds, ZERO) },
  };
}

/** `drive` must stay the same as long as nothing changed; null leaves the bench as it is. Drawn with the next frame, the last of several. */
export function useOnBench(drive: Drive | null, words: string, { still = null, growth }: Shown = {}): void {
  useEffect(() => {
    if (!drive) {
      setDemo({ shown: null });
      return;
    }
    const frame = requestAnimationFrame(() => {
      const solved = solve(drive);
      setDemo({ shown: { solved: still === null ? solved : without(solved, still), words, growth } });
    });
    return () => cancelAnimationFrame(frame);
  }, [drive, words, still, growth]);
  useEffect(() => () => setDemo({ shown: null }), []);
}

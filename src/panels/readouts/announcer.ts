/** Tells a screen reader what an edit did to the outputs: once, when the hand lets go. */
import { useEffect } from "react";
import { HIDDEN, turning } from "../../engine/explain/directions";
import { spoken } from "../../engine/explain/numbers";
import { statusWords } from "../../engine/explain/statuses";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";
import { documentStore, isDragging } from "../../store/document";
import { currentUnits } from "../../store/units";
import { announce } from "../../store/view";

/** A breath after the last change, ms: an edit that is settled changes the document more than once. */
const BREATH = 250;
const MOST_OUTPUTS = 3;

/** "Mixer: 290 revolutions per minute, clockwise seen from the mixer end." */
export function outputsSpoken(solved: Solved, outputs: readonly number[]): string {
  if (solved.motion.status !== "determined") return statusWords(solved).sentence;
  return outputs
    .slice(0, MOST_OUTPUTS)
    .map((shaft) => {
      const { veil } = solved;
      const speed = solved.motion.speed[shaft] ?? veil?.speedSize(shaft) ?? null;
      if (speed === null && !veil?.hides(shaft, "speed")) {
        return `${shaftName(solved.drive, shaft)}: speed not fixed yet.`;
      }
      const size = speed === null ? `speed ${HIDDEN}` : spoken(Math.abs(speed), "rev/min", currentUnits());
      return `${shaftName(solved.drive, shaft)}: ${size}, ${turning(solved, shaft)}.`;
    })
    .join(" ");
}

export function useAnnounceChanges(outputsOf: (solved: Solved) => readonly number[]): void {
  useEffect(() => {
    const speak = (solved: Solved) => outputsSpoken(solved, outputsOf(solved));
    let said = speak(documentStore.getState().solved);
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stop = documentStore.subscribe((state, before) => {
      // Whoever reveals says by itself what comes out.
      if (state.isRevealed !== before.isRevealed) {
        said = speak(state.solved);
        return;
      }
      clearTimeout(timer);
      timer = setTimeout(() => {
        if (isDragging()) return;
        const words = speak(documentStore.getState().solved);
        if (words !== said) announce(words);
        said = words;
      }, BREATH);
    });
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [outputsOf]);
}

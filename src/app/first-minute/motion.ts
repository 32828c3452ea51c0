/** What moves in the first minute: the drive easing to a stop, and its second shaft leaning over. Frames of the browser, no React. */
import { tellMoved } from "../../bench/ticking";
import { setMesh } from "../../engine/drive/commands/mesh";
import { clockStore, now, setPlaying } from "../../store/clock";
import { beginDrag, documentStore, endDrag, perform } from "../../store/document";

/** ms */
const EASE = 1400;
const LEAN = 2000;
/** ms: a frame that took longer (a tab that was away) moves no further than this. */
const LONGEST_FRAME = 50;

export const prefersStill = (): boolean => window.matchMedia?.("(prefers-reduced-motion: reduce)").matches ?? false;

/** Calls `step` with the part of `duration` that has gone, 0 to 1, each frame up to the end, then `done`. Returns the stop function. */
function glide(duration: number, step: (part: number, seconds: number) => void, done: () => void): () => void {
  let frame = 0;
  let last: number | null = null;
  let gone = 0;
  const go = (time: number): void => {
    const passed = last === null ? 0 : Math.min(LONGEST_FRAME, time - last);
    last = time;
    gone += passed;
    step(Math.min(1, gone / duration), passed / 1000);
    if (gone < duration) frame = requestAnimationFrame(go);
    else done();
  };
  frame = requestAnimationFrame(go);
  return () => cancelAnimationFrame(frame);
}

/** Lets the drive run out: the clock stops, and what it shows goes on ever slower to a stand. */
export function easeToStop(done: () => void): () => void {
  const { playing, direction, slowdown } = clockStore.getState();
  if (!playing || prefersStill()) {
    setPlaying(false);
    done();
    return () => undefined;
  }
  setPlaying(false);
  return glide(
    EASE,
    (part, seconds) => {
      // Somebody pressed play: it is theirs.
      if (clockStore.getState().playing) return;
      now.time += (direction * slowdown * seconds * (1 - part) ** 2) / 60;
      tellMoved();
    },
    done,
  );
}

const smooth = (part: number): number => part * part * (3 - 2 * part);

/** Leans a pair over to an angle before one's eyes, as one undo step. The stop function finishes it at once. */
export function leanTo(mesh: string, angle: number, done: () => void): () => void {
  const from = documentStore.getState().drive.meshes.find(({ id }) => id === mesh)?.shaftAngle ?? angle;
  const label = `shaft angle of ${mesh}`;
  const set = (degrees: number): boolean => perform(setMesh(mesh, { shaftAngle: degrees }), label);
  if (prefersStill()) {
    set(angle);
    done();
    return () => undefined;
  }
  let isOver = false;
  beginDrag();
  const finish = (): void => {
    if (isOver) return;
    isOver = true;
    set(angle);
    endDrag();
    done();
  };
  const stop = glide(
    LEAN,
    (part) => {
      // Tenths of a degree: what stands in the parts list meanwhile can be read.
      if (part < 1) set(Math.round((from + (angle - from) * smooth(part)) * 10) / 10);
    },
    finish,
  );
  return () => {
    stop();
    finish();
  };
}

/**
 * Pictures of one round of the drive, taken from the 3D that is on the screen: from where the eye is, in the sides' ratio of the bench, at any
 * size. The clock stands for as long and is put back after each of them, so that it is where it was however the taking ends.
 */
import type { Loop } from "../engine/motion/loop";
import { foldsOf, loopOf } from "../engine/motion/loop";
import { timeOfFrame } from "../engine/motion/loop-choices";
import type { Rational } from "../engine/motion/rational";
import { clockStore, now, setPlaying } from "../store/clock";
import { setView } from "../store/view";
import { restingOrbit, screenSize, setOrbit } from "./camera";
import { drawnFolds } from "./drawn-folds";
import { type OnStage, onStage } from "./on-stage";
import { isBuilding } from "./shared";
import { shownDrive } from "./shown-drive";

/**
 * The loop of the drive on the bench as the bench draws it.
 * @param hasTeeth teeth are drawn: without them and without marks nothing tells that it turns
 */
export function loopOnBench(hasMarks: boolean, hasTeeth: boolean): Loop {
  const { layout } = shownDrive();
  const folds = foldsOf(layout.solved, hasMarks, (shaft) => drawnFolds(layout, shaft, hasMarks));
  const loop = loopOf(layout.solved, folds);
  return "period" in loop && !hasMarks && !hasTeeth ? { none: "round" } : loop;
}

/** Pixels of a picture that is `width` wide, in the sides' ratio of the bench. */
export const frameHeight = (width: number): number => {
  const screen = screenSize();
  return Math.max(1, Math.round((width * screen.height) / screen.width));
};

/** The picture can't be had any more; its message says why, and what to do. */
export class FrameLost extends Error {}

const LOST =
  "The picture was lost while the animation was made: the graphics card dropped it. Nothing was saved; try again.";
const CHANGED = "The drive was changed while the animation was made. Nothing was saved; make it again.";

export interface FrameWish {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly hasMarks: boolean;
  /** `#rrggbb` behind the drive; null for none. */
  readonly ground: string | null;
  /** Minutes of the running drive that the round takes, and pictures in it. */
  readonly period: Rational;
  readonly frames: number;
}

export interface Frames {
  /** RGBA of picture `k`, row by row from the top, not premultiplied. Throws a FrameLost. */
  readonly take: (k: number) => Uint8ClampedArray;
  /** Gives the bench back as it was; call it once, however the taking ended. */
  readonly release: () => void;
}

/** ms for which nothing must be left to build before what is seen is what was wished for. Longer than levels of detail wait. */
const QUIET = 200;
const LOOK = 20;

const pause = (ms: number): Promise<void> => new Promise((settle) => setTimeout(settle, ms));

/** Gears without their marks are built in turns of the page's thread. */
async function settled(stage: OnStage, signal: AbortSignal): Promise<void> {
  for (let quiet = 0; quiet < QUIET; quiet += LOOK) {
    await pause(LOOK);
    signal.throwIfAborted();
    if (onStage() !== stage) throw new FrameLost(LOST);
    if (isBuilding()) quiet = 0;
  }
}

/** Makes the bench ready to be taken. Throws a FrameLost where it isn't drawn in 3D, and the signal's reason where that is aborted. */
export async function holdBench(wish: FrameWish, signal: AbortSignal): Promise<Frames> {
  const stage = onStage();
  const sheet = document.createElement("canvas");
  [sheet.width, sheet.height] = [wish.width, wish.height];
  const context = sheet.getContext("2d", { willReadFrequently: true });
  if (!stage || !context) throw new FrameLost(LOST);
  const { solved } = shownDrive().layout;
  const { playing, direction } = clockStore.getState();
  const begun = now.time;
  const release = (): void => {
    stage.isHeld = false;
    setView({ posed: null });
    if (onStage() === stage) stage.fill();
    if (playing) setPlaying(true);
  };
  setPlaying(false);
  // The end of a glide: all pictures are seen from one place.
  setOrbit(restingOrbit(), false);
  setView({ posed: { marks: wish.hasMarks } });
  try {
    await settled(stage, signal);
  } catch (error) {
    release();
    throw error;
  }
  stage.isHeld = true;
  stage.picture.setSize(wish.width, wish.height, 1);

  const take = (k: number): Uint8ClampedArray => {
    if (shownDrive().layout.solved !== solved) throw new FrameLost(CHANGED);
    const kept = now.time;
    now.time = begun + direction * timeOfFrame(wish.period, wish.frames, k);
    try {
      if (onStage() !== stage) throw new FrameLost(LOST);
      stage.picture.draw();
      if (wish.ground === null) context.clearRect(0, 0, wish.width, wish.height);
      else {
        context.fillStyle = wish.ground;
        context.fillRect(0, 0, wish.width, wish.height);
      }
      // Within the turn that drew it: afterwards the browser clears the canvas.
      context.drawImage(stage.canvas, 0, 0, wish.width, wish.height);
      const { data } = context.getImageData(0, 0, wish.width, wish.height);
      // Asked last: a picture that was lost on the way is empty.
      if (stage.isLost()) throw new FrameLost(LOST);
      return data;
    } finally {
      now.time = kept;
    }
  };
  return { take, release };
}

/** How a loop may be played: as long as it is, or faster so that it lasts no longer than a slide bears. */
import { type Rational, toNumber } from "./rational";

/** s: what lasts longer says so, and offers a shorter one. */
export const LONGEST_LOOP = 10;

export interface LoopPlan {
  /** s that one round is shown. */
  readonly seconds: number;
  /** Pictures in one round, at least 2; the last one is followed by the first. */
  readonly frames: number;
  /** Hundredths of a second that each picture stands, as a GIF counts them. */
  readonly delay: number;
  /** How many times faster than on the bench. */
  readonly faster: number;
}

/**
 * Seconds that a loop lasts at the speed shown.
 * @param period minutes of the running drive, exact
 * @param slowdown shown speed over true speed, 0 < slowdown <= 1
 */
export const shownSeconds = (period: Rational, slowdown: number): number => (toNumber(period) * 60) / slowdown;

/** The least whole number of times that `seconds` must be played faster to last no longer than `LONGEST_LOOP`; 1 where it does. */
export const leastFaster = (seconds: number): number => Math.max(1, Math.ceil(seconds / LONGEST_LOOP - 1e-9));

/**
 * Pictures of one round, all equally far apart in the drive's own time, so that it closes exactly.
 * @param seconds of the round on the bench, above 0
 * @param faster times that it is played faster, at least 1
 * @param delay hundredths of a second a picture, whole, at least 2: many readers of GIF slow shorter ones down (common practice, no source)
 */
export function planLoop(seconds: number, faster: number, delay: number): LoopPlan {
  const frames = Math.max(2, Math.round((seconds / faster) * (100 / delay)));
  return { seconds: (frames * delay) / 100, frames, delay, faster };
}

/**
 * Pitches of the fastest mesh from one picture to the next; from half a pitch on the eye takes the next tooth for the last one, and
 * sees the drive stand still or run backwards (the sampling theorem).
 * @param fastest pitches a minute of the running drive: `fastestMesh`
 */
export const pitchesAPicture = (fastest: number, period: Rational, frames: number): number =>
  (fastest * toNumber(period)) / frames;

/** Time of picture `k` of `frames` as a part of the period, minutes of the running drive. */
export const timeOfFrame = (period: Rational, frames: number, k: number): number => toNumber(period) * (k / frames);

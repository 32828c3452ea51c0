/** What is said of a looped animation: why there is none, and how long it lasts. Plain data in, sentences out. */
import type { NoLoop } from "../../engine/motion/loop";
import { LONGEST_LOOP } from "../../engine/motion/loop-choices";
import { CLOSED } from "../../store/question";

export interface LoopPlace {
  readonly isHidden: boolean;
  readonly gears: number;
  /** A demonstration, or a part that would be, is on the bench. */
  readonly isGuest: boolean;
  readonly isFlat: boolean;
  /** Why it is drawn flat: the browser has no WebGL, the picture was lost, there are too many gears; null where it was chosen. */
  readonly why: "noWebGL" | "lost" | "many" | null;
}

const FLAT = {
  noWebGL:
    "This browser offers no 3D graphics (WebGL), and the animation is of the 3D picture: take one of the drawings.",
  lost: "The 3D picture was lost, since the graphics card dropped it: press Draw in full on the bench, then try again.",
  many: "This drive has more gears than the bench can draw in 3D, and the animation is of the 3D picture.",
} as const;

/** Why nothing can be taken from the bench; null where it can. */
export function placeTrouble({ isHidden, gears, isGuest, isFlat, why }: LoopPlace): string | null {
  if (isHidden) return CLOSED;
  if (gears === 0) return NO_LOOP.empty;
  if (isFlat) {
    return why === null
      ? "The bench draws flat, and the animation is of the 3D picture: press Draw in full on the bench, or open the page without drawing=flat in its address."
      : FLAT[why];
  }
  return isGuest
    ? "The bench shows a demonstration, or a part that would be: leave that first, for the animation is of your drive."
    : null;
}

export const NO_LOOP: Readonly<Record<NoLoop, string>> = {
  empty: "The drive has nothing to animate: add a shaft and a gear first.",
  hidden: CLOSED,
  undetermined: "The motion of this drive is not determined, so that it closes no round: see its findings.",
  still: "The drive stands still, so that there is nothing to see: give an input a speed, or free what is locked.",
  round: "Without teeth and marks no turning would be seen: show the marks.",
};

/** s; about a day. A speed that is a decimal against another may need years. */
export const NEVER = 100_000;
export const TOO_LONG =
  "It takes more than a day at the bench's speed until this drive looks as it did, and no animation is that long: hide the marks, or change the teeth or speeds.";

/** Pictures in an animation at most: more would not fit a slide, nor the memory of a small machine. */
export const MOST_FRAMES = 1000;
/** Pitches from one picture to the next at which the eye goes wrong: the next tooth stands where this one stood between the two. */
export const MOST_PITCHES = 0.5;

export interface LoopTelling {
  /** s of a round at the bench's speed, and as it would be shown. */
  readonly whole: number;
  readonly shown: number;
  readonly frames: number;
  readonly hasMarks: boolean;
  /** A shaft carries others round. */
  readonly hasCarrier: boolean;
  readonly faster: number;
  /** s with the marks hidden; null where that is no loop, or they are. */
  readonly bare: number | null;
  readonly pitches: number;
  readonly seconds: (s: number) => string;
}

/** How long it lasts, and what would be shorter. */
export function lengthWords(telling: Omit<LoopTelling, "pitches">): string {
  const { whole, shown, frames, hasMarks, hasCarrier, faster, bare, seconds } = telling;
  const bareRound = `whole tooth pitches${hasCarrier ? " and whole turns of carriers" : ""}, since no marks show`;
  const until = hasMarks ? "whole turns, since marks show" : bareRound;
  const first = `The drive looks as it did after ${seconds(whole)} at the bench's speed (${until}).`;
  const long =
    whole > LONGEST_LOOP
      ? ` That is longer than ${seconds(LONGEST_LOOP)}${bare !== null && bare < whole ? `; with the marks hidden it is ${seconds(bare)}` : ""}.`
      : "";
  const as = faster > 1 ? `, ${faster} times faster` : "";
  return `${first}${long} The animation lasts ${seconds(shown)}${as}, in ${frames} pictures.`;
}

/** What makes it impossible, or misleading; null where nothing does. */
export function lengthTrouble({ frames, pitches }: Pick<LoopTelling, "frames" | "pitches">): {
  readonly words: string;
  readonly isRefused: boolean;
} | null {
  if (!(frames <= MOST_FRAMES)) {
    return {
      words: `An animation has ${MOST_FRAMES} pictures at the most: choose fewer a second, hide the marks, or show it faster.`,
      isRefused: true,
    };
  }
  return pitches >= MOST_PITCHES
    ? {
        words:
          "Teeth pass by half a pitch or more from one picture to the next, so that they seem to stand still or run backwards: choose more pictures a second, or a slower speed, or turn down the speed on the bench.",
        isRefused: false,
      }
    : null;
}

/** The 3D picture that is on the screen, for whoever takes a figure from it. */
import type { Picture } from "./picture";

export interface OnStage {
  readonly picture: Picture;
  readonly canvas: HTMLCanvasElement;
  /** While it is held, the picture doesn't follow the size of the screen. */
  isHeld: boolean;
  /** The graphics card dropped it: whatever is drawn is empty. */
  readonly isLost: () => boolean;
  /** Draws it at the size of the screen. */
  readonly fill: () => void;
}

let here: OnStage | null = null;

/** Null where nothing is drawn in 3D. */
export const onStage = (): OnStage | null => here;
export const setOnStage = (stage: OnStage | null): void => {
  here = stage;
};

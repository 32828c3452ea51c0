/** Whether the picture keeps up: frames counted while the drive turns, and what to draw less of where it doesn't. */
import type { Drawing } from "../store/view";

/** Frames a second below which a simpler drawing is better. */
export const LEAST_RATE = 20;
/** Seconds for which it must have been slower. */
export const SLOW_FOR = 2;
/** Seconds left out after each change: programs are being built for the graphics card. */
const SETTLE = 1;
/** A longer pause is a hidden page or a sleeping machine, not a slow one. Seconds. */
const PAUSE = 1;

export class FrameWatch {
  private settled = 0;
  private time = 0;
  private frames = 0;

  /** Takes one frame; true once, when frames have been too slow for long enough. */
  isTooSlow(seconds: number): boolean {
    if (seconds <= 0 || seconds > PAUSE) {
      this.time = this.frames = 0;
      return false;
    }
    if (this.settled < SETTLE) {
      this.settled += seconds;
      return false;
    }
    this.time += seconds;
    this.frames++;
    if (this.time < SLOW_FOR) return false;
    const isSlow = this.frames / this.time < LEAST_RATE;
    this.time = this.frames = 0;
    if (isSlow) this.settled = 0;
    return isSlow;
  }
}

/** More gears than this are drawn flat from the start: the first picture of so many bodies may never come. */
export const MOST_BODIES = 400;

export const simpler = (drawing: Drawing): Drawing => (drawing === "full" ? "simple" : "flat");

export const REASONS = {
  simple: "Drawn without teeth: this computer drew under 20 pictures a second.",
  flat: "Drawn flat: this computer drew under 20 pictures a second.",
  many: "Drawn flat: this drive has more gears than can be shown as bodies.",
  noWebGL: "This is a flat drawing, because this browser offers no 3D graphics (WebGL).",
  lost: "This is a flat drawing, because the graphics card dropped the 3D picture.",
} as const;

/** `?drawing=full`, `simple` or `flat` in the address pins a drawing: nothing then changes it by itself. */
export function pinnedDrawing(search: string): Drawing | null {
  const wanted = new URLSearchParams(search).get("drawing");
  return wanted === "full" || wanted === "simple" || wanted === "flat" ? wanted : null;
}

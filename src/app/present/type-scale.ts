/**
 * How much larger than usual a presentation is written. A capital must be 26 px high on a projector of 1024 by 768, and on a finer
 * one the same part of the picture. Capitals of the page's face are 0.66 of its size (test/browser/present.test.ts measures them), and text
 * is 16 px at least, so it takes 26 / (0.66 · 16) = 2.46 times: 2.5.
 */
const SCALE = 2.5;
const WIDTH = 1024;
const HEIGHT = 768;
/** On a phone, which is held in the hand, and on walls of screens. */
const LEAST = 1.125;
const MOST = 8;

/** @param width px of the window, as `height` */
export function typeScale(width: number, height: number): number {
  const scale = SCALE * Math.min(width / WIDTH, height / HEIGHT);
  return Math.min(MOST, Math.max(LEAST, Math.round(scale * 100) / 100));
}

/**
 * Pictures of one round as a GIF that runs for ever. One palette serves all pictures, so that no colour flickers from one to
 * the next. No DOM: it runs in a worker, and in tests.
 */
import { applyPalette, GIFEncoder, type Palette, quantize } from "gifenc";

export interface GifOrder {
  /** Pixels, 1 to 65535: what the file format can count. */
  readonly width: number;
  readonly height: number;
  /** Hundredths of a second that each picture stands. */
  readonly delay: number;
  /** Pixels less than half opaque are left clear; otherwise all count as opaque. */
  readonly isTransparent: boolean;
}

export interface GifWriter {
  /** The next picture: RGBA, row by row from the top. Throws a RangeError where its size is another. */
  add(rgba: Uint8ClampedArray): void;
  /** The whole file; call once, last. Throws a RangeError where it would have no picture. */
  finish(): Uint8Array<ArrayBuffer>;
}

const MOST_COLOURS = 256;
/** A number of the palette that is kept for what is clear. */
const CLEAR = 0;
const HALF_OPAQUE = 128;

const isClear = (rgba: Uint8ClampedArray, pixel: number): boolean => (rgba[4 * pixel + 3] ?? 0) < HALF_OPAQUE;

/** Only the pixels that are seen: what is clear would take colours from the palette. */
function seenPixels(rgba: Uint8ClampedArray): Uint8ClampedArray {
  const seen = new Uint8ClampedArray(rgba.length);
  let length = 0;
  for (let at = 0; at < rgba.length; at += 4) {
    if (isClear(rgba, at / 4)) continue;
    seen.set(rgba.subarray(at, at + 4), length);
    length += 4;
  }
  return seen.slice(0, length);
}

function paletteOf(sample: Uint8ClampedArray, isTransparent: boolean): Palette {
  const seen = isTransparent ? seenPixels(sample) : sample;
  const colours = seen.length === 0 ? [[0, 0, 0]] : quantize(seen, MOST_COLOURS - (isTransparent ? 1 : 0));
  return isTransparent ? [[0, 0, 0], ...colours] : colours;
}

/** @param sample RGBA of one or more pictures, end to end, from which the colours are chosen */
export function gifWriter(order: GifOrder, sample: Uint8ClampedArray): GifWriter {
  const { width, height, delay, isTransparent } = order;
  const palette = paletteOf(sample, isTransparent);
  const opaque = isTransparent ? palette.slice(1) : palette;
  const gif = GIFEncoder();
  let count = 0;
  return {
    add: (rgba) => {
      if (rgba.length !== 4 * width * height) {
        throw new RangeError(`Picture ${count + 1} of the animation is not ${width} × ${height} pixels.`);
      }
      const index = applyPalette(rgba, opaque);
      if (isTransparent) {
        for (let pixel = 0; pixel < index.length; pixel++) {
          index[pixel] = isClear(rgba, pixel) ? CLEAR : (index[pixel] ?? 0) + 1;
        }
      }
      gif.writeFrame(index, width, height, {
        delay: 10 * delay,
        ...(count === 0 ? { palette, repeat: 0 } : {}),
        ...(isTransparent ? { transparent: true, transparentIndex: CLEAR, dispose: 2 } : {}),
      });
      count++;
    },
    finish: () => {
      if (count === 0) throw new RangeError("An animation needs a picture.");
      gif.finish();
      return gif.bytes();
    },
  };
}

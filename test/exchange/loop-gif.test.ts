import { describe, expect, it } from "vitest";
import { type GifOrder, gifWriter } from "../../src/exchange/loop-gif";
import { difference, readGif } from "../support/read-gif";

const SIZE = 48;
const FRAMES = 12;
const order: GifOrder = { width: SIZE, height: SIZE, delay: 4, isTransparent: false };

/** A disc with 6 soft stripes, turned by `part` of a pitch, on a clear ground. */
function disc(part: number): Uint8ClampedArray {
  const rgba = new Uint8ClampedArray(4 * SIZE * SIZE);
  for (let y = 0; y < SIZE; y++) {
    for (let x = 0; x < SIZE; x++) {
      const [dx, dy] = [x - SIZE / 2 + 0.5, y - SIZE / 2 + 0.5];
      if (Math.hypot(dx, dy) > SIZE / 2 - 2) continue;
      const light = 128 + 100 * Math.cos(6 * Math.atan2(dy, dx) - 2 * Math.PI * part);
      rgba.set([light, 60, 255 - light, 255], 4 * (y * SIZE + x));
    }
  }
  return rgba;
}

function written(of: GifOrder, frames: number, partOf = (k: number): number => k / frames) {
  const pictures = Array.from({ length: frames }, (_, k) => disc(partOf(k)));
  const writer = gifWriter(of, pictures[0] as Uint8ClampedArray);
  for (const picture of pictures) writer.add(picture);
  return { pictures, gif: readGif(writer.finish()) };
}

/** How far the step from the last picture to the first is from the steps between neighbours, as a part of their mean. */
function jump(pictures: readonly Uint8Array[]): number {
  const steps = pictures.slice(1).map((picture, k) => difference(picture, pictures[k] as Uint8Array));
  const mean = steps.reduce((a, b) => a + b, 0) / steps.length;
  return Math.abs(difference(pictures.at(-1) as Uint8Array, pictures[0] as Uint8Array) - mean) / mean;
}

describe("a looped GIF, read by another library", () => {
  it("has every picture, its delay, and runs for ever", () => {
    const { gif } = written(order, FRAMES);
    expect([gif.width, gif.height, gif.loops]).toEqual([SIZE, SIZE, 0]);
    expect(gif.delays).toEqual(new Array(FRAMES).fill(4));
  });

  it("shows what was painted, to the steps of a palette of 256 colours", () => {
    const { gif, pictures } = written({ ...order, isTransparent: true }, FRAMES);
    gif.pictures.forEach((picture, k) => {
      expect(difference(picture, new Uint8Array(pictures[k] as Uint8ClampedArray))).toBeLessThan(3);
    });
  });

  it("closes without a jump where the round is a whole pitch, and the same measure sees a jump where it is not", () => {
    expect(jump(written(order, FRAMES).gif.pictures)).toBeLessThan(0.2);
    expect(jump(written(order, FRAMES, (k) => (0.6 * k) / FRAMES).gif.pictures)).toBeGreaterThan(1);
  });

  it("leaves the ground clear where that is asked for, in every picture", () => {
    const corners = (isTransparent: boolean): number[] =>
      written({ ...order, isTransparent }, 3).gif.pictures.map((picture) => picture[3] ?? -1);
    expect(corners(true)).toEqual([0, 0, 0]);
    expect(corners(false)).toEqual([255, 255, 255]);
  });

  it("takes a picture of nothing, and no picture of another size, nor none at all", () => {
    const nothing = new Uint8ClampedArray(4 * SIZE * SIZE);
    const writer = gifWriter({ ...order, isTransparent: true }, nothing);
    expect(() => writer.finish()).toThrow("needs a picture");
    expect(() => writer.add(new Uint8ClampedArray(8))).toThrow("Picture 1 of the animation is not 48 × 48 pixels.");
    writer.add(nothing);
    expect(readGif(writer.finish()).pictures[0]?.every((value) => value === 0)).toBe(true);
  });
});

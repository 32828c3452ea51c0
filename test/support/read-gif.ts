/** Reads a GIF by another library than the one that writes it. */
import { createRequire } from "node:module";

interface Reader {
  readonly width: number;
  readonly height: number;
  numFrames(): number;
  loopCount(): number | null;
  frameInfo(k: number): {
    readonly delay: number;
    readonly disposal: number;
    readonly transparent_index: number | null;
  };
  decodeAndBlitFrameRGBA(k: number, pixels: Uint8Array): void;
}

const { GifReader } = createRequire(import.meta.url)("omggif") as { GifReader: new (bytes: Uint8Array) => Reader };

export interface ReadGif {
  readonly width: number;
  readonly height: number;
  /** 0: for ever; null where the file doesn't say. */
  readonly loops: number | null;
  /** Hundredths of a second of each picture. */
  readonly delays: readonly number[];
  /** RGBA of each picture by itself. */
  readonly pictures: readonly Uint8Array[];
}

export function readGif(bytes: Uint8Array): ReadGif {
  const reader = new GifReader(bytes);
  const all = Array.from({ length: reader.numFrames() }, (_, k) => k);
  return {
    width: reader.width,
    height: reader.height,
    loops: reader.loopCount(),
    delays: all.map((k) => reader.frameInfo(k).delay),
    pictures: all.map((k) => {
      const pixels = new Uint8Array(4 * reader.width * reader.height);
      reader.decodeAndBlitFrameRGBA(k, pixels);
      return pixels;
    }),
  };
}

/** Mean difference of two pictures, 0 to 255 a channel. */
export function difference(a: Uint8Array, b: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += Math.abs((a[i] ?? 0) - (b[i] ?? 0));
  return sum / a.length;
}

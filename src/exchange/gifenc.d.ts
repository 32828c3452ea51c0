/** The part of gifenc (which brings no types) that is used here. */
declare module "gifenc" {
  export type Palette = number[][];
  export interface FrameOptions {
    readonly palette?: Palette;
    readonly transparent?: boolean;
    readonly transparentIndex?: number;
    /** Milliseconds. */
    readonly delay: number;
    /** 0: for ever. */
    readonly repeat?: number;
    /** 2: the ground is laid bare before the next picture. */
    readonly dispose?: number;
  }
  export function GIFEncoder(): {
    writeFrame(index: Uint8Array, width: number, height: number, options: FrameOptions): void;
    finish(): void;
    bytes(): Uint8Array<ArrayBuffer>;
  };
  export function quantize(rgba: Uint8ClampedArray, most: number, options?: { format: "rgb565" }): Palette;
  export function applyPalette(rgba: Uint8ClampedArray, palette: Palette, format?: "rgb565"): Uint8Array;
}

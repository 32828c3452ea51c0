/** Figures as files: SVG as it is, or painted as a PNG with a transparent ground. Nothing leaves the page. */

/** Pixels: the least and the most that a picture may be wide, and how many it may have in all. */
export interface WidthRange {
  readonly min: number;
  readonly max: number;
  readonly pixels: number;
}
export const PNG_WIDTH: WidthRange = { min: 100, max: 10_000, pixels: 64_000_000 };
/** Of each picture of an animation. */
export const LOOP_WIDTH: WidthRange = { min: 100, max: 1200, pixels: 1_500_000 };

/** Size of a figure, in any unit. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

export const svgFile = (svg: string): Blob => new Blob([svg], { type: "image/svg+xml" });

/** The width in pixels that a person typed; one sentence where it is none. */
export function readWidth(text: string, { width, height }: Size, limits = PNG_WIDTH): number | string {
  const typed = text.trim();
  const range = `a whole number of pixels from ${limits.min} to ${limits.max}`;
  if (!/^\d{1,6}$/.test(typed)) return `The width is ${range}.`;
  const pixels = Number(typed);
  if (pixels < limits.min || pixels > limits.max) return `The width is ${range}, not ${pixels}.`;
  const most = Math.floor(Math.sqrt((limits.pixels * width) / height));
  if (pixels > most) return `This figure is tall: it can be ${most} pixels wide at the most.`;
  return pixels;
}

export const pixelHeight = (pixels: number, { width, height }: Size): number =>
  Math.max(1, Math.round((pixels * height) / width));

/** The same picture, whose own size is given in pixels. */
const sized = (svg: string, width: number, height: number): string =>
  svg.replace(/<svg\b[^>]*>/, (root) =>
    root.replace(/ width="[^"]*"/, ` width="${width}"`).replace(/ height="[^"]*"/, ` height="${height}"`),
  );

async function picture(address: string): Promise<HTMLImageElement> {
  const image = new Image();
  image.src = address;
  await image.decode();
  return image;
}

/** The figure as a PNG, `pixels` wide. Rejects where the browser can't paint it: there is no canvas, or too little memory. */
export async function pngOf(svg: string, size: Size, pixels: number): Promise<Blob> {
  const height = pixelHeight(pixels, size);
  const address = URL.createObjectURL(svgFile(sized(svg, pixels, height)));
  try {
    const image = await picture(address);
    const canvas = document.createElement("canvas");
    canvas.width = pixels;
    canvas.height = height;
    const context = canvas.getContext("2d");
    if (!context) throw new Error("There is no canvas to paint on.");
    context.drawImage(image, 0, 0, pixels, height);
    if (context.isContextLost?.()) throw new Error("The canvas was lost.");
    return await new Promise<Blob>((settle, fail) => {
      canvas.toBlob((blob) => (blob ? settle(blob) : fail(new Error("The canvas gave no picture."))), "image/png");
    });
  } finally {
    URL.revokeObjectURL(address);
  }
}

/**
 * Copies a picture that may still be on its way, since browsers want to be asked while the press is fresh. False where the browser does
 * not let this page copy pictures; rejects where there is no picture.
 */
export async function copyPicture(png: Promise<Blob>): Promise<boolean> {
  try {
    await navigator.clipboard.write([new ClipboardItem({ "image/png": png })]);
    return true;
  } catch {
    await png;
    return false;
  }
}

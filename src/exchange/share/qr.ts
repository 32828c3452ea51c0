/** The QR picture of a link (ISO/IEC 18004) as one path of dark squares, for a picture that measures `size` squares a side. */
import { encode } from "uqr";

export interface QrPicture {
  /** Squares a side, the light border of four included. */
  readonly size: number;
  /** An SVG path of unit squares. */
  readonly path: string;
}

/** Squares of light border that the standard asks for. */
const BORDER = 4;
/** Version 31 has 149 squares a side with its border: in 300 pixels each is two wide, which is the least that cameras tell apart. */
const LARGEST_VERSION = 31;

/** Null where the text is too long for a picture that a phone can read. */
export function qrPicture(text: string): QrPicture | null {
  let rows: readonly (readonly boolean[])[];
  try {
    rows = encode(text, { ecc: "L", boostEcc: true, border: BORDER, maxVersion: LARGEST_VERSION }).data;
  } catch {
    return null;
  }
  const runs: string[] = [];
  rows.forEach((row, y) => {
    for (let x = 0; x < row.length; x++) {
      if (!row[x]) continue;
      const start = x;
      while (row[x + 1]) x += 1;
      runs.push(`M${start} ${y}h${x + 1 - start}v1H${start}z`);
    }
  });
  return { size: rows.length, path: runs.join("") };
}

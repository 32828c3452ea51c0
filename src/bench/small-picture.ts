/** A small picture of a drive for a list: the flat drawing from the corner, at time zero, in the colours of paper. */
import type { Drive } from "../engine/drive/types";
import { veiled } from "../engine/question/veil";
import { solve } from "../engine/solve";
import { shaftColour } from "../store/colours";
import { benchLayout } from "./bench-layout";
import { roomOf } from "./camera";
import { paintFlat } from "./flat-paint";
import { fitView, HOME } from "./orbit";
import type { BenchColours } from "./theme-colours";
import { makeTurning } from "./turning";

/** Pixels of the picture; shown at a third of the size, so that its lines are narrow. */
export const PICTURE = { width: 288, height: 192 } as const;

/** The same in light and dark, as a sheet of paper is. */
export const PAPER: BenchColours = {
  isDark: false,
  ground: "#ffffff",
  surface: "#ffffff",
  ink: "#16232e",
  inkSoft: "#4b5a67",
  line: "#c4ced5",
  accent: "#9a5b00",
  focus: "#005fcc",
  warning: "#855000",
  shaft: (index) => shaftColour(index).light,
};

/** More gears than this are a blot at this size, and slow. */
const MOST_GEARS = 400;

/** The picture as a data address; null where the browser can't draw it, or there is too much to see. */
export function smallPicture(drive: Drive): string | null {
  if (drive.gears.length > MOST_GEARS || drive.gears.length === 0) return null;
  try {
    const sheet = document.createElement("canvas");
    sheet.width = PICTURE.width;
    sheet.height = PICTURE.height;
    const context = sheet.getContext("2d", { willReadFrequently: true });
    if (!context) return null;
    const solved = veiled(solve(drive));
    const layout = benchLayout(solved);
    const orbit = fitView(HOME, roomOf(layout, false), PICTURE.width / PICTURE.height);
    paintFlat({
      context,
      layout,
      turning: makeTurning(solved, () => 0),
      orbit,
      ...PICTURE,
      colours: PAPER,
      selection: null,
      hover: null,
      troubles: new Map(),
      direction: 1,
    });
    // A browser that knows no WebP gives a PNG by itself.
    return sheet.toDataURL("image/webp", 0.8);
  } catch {
    return null;
  }
}

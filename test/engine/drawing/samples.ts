import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type DrawingWishes, drawingOf } from "../../../src/engine/drawing/sheet";
import { svgOf } from "../../../src/engine/drawing/svg";
import { parseDrive } from "../../../src/engine/drive/parse";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";

const FOLDER = join(import.meta.dirname, "../../../public/samples");

export const SAMPLES: readonly (readonly [string, Solved])[] = readdirSync(FOLDER)
  .sort()
  .map((name) => {
    const { drive } = parseDrive(readFileSync(join(FOLDER, name), "utf8"));
    if (!drive) throw new Error(`${name} is no drive`);
    return [name.replace(".drive.json", ""), solve(drive)] as const;
  });

export function figure(
  solved: Solved,
  wishes: Partial<DrawingWishes>,
): { readonly svg: string; readonly scale: number } {
  const drawing = drawingOf(solved, { view: "three", angle: "first", gears: "simplified", ...wishes });
  if ("trouble" in drawing) throw new Error(drawing.trouble);
  return { svg: svgOf(drawing), scale: drawing.scale };
}

/** Drawings of a drive of 40 gears: a section and three views, simplified and with true teeth, and the size of the SVG. */

import { type DrawingWishes, drawingOf } from "../../src/engine/drawing/sheet";
import { svgOf } from "../../src/engine/drawing/svg";
import { makeGear } from "../../src/engine/drive/defaults";
import type { Drive } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import type { Solved } from "../../src/engine/solved";
import { measure, report } from "./measure";

/** Two spur gears a shaft, each driving the next: 20 pairs that wind up a tower. */
function tower(pairs: number): Drive {
  const shafts = Array.from({ length: pairs + 1 }, (_, i) => ({
    id: `s${i}`,
    name: "",
    ...(i === 0 ? { pose: { origin: [0, 0, 0], axis: [0, 1, 0], ref: [1, 0, 0] } as const } : {}),
  }));
  const gears = Array.from({ length: pairs }, (_, i) => [
    makeGear({ id: `a${i}`, shaft: `s${i}`, kind: "spur", teeth: 18 + (i % 5), module: 2, face: 10, at: 14 * i }),
    makeGear({ id: `b${i}`, shaft: `s${i + 1}`, kind: "spur", teeth: 40 + i, module: 2, face: 10, at: 14 * i }),
  ]).flat();
  const meshes = Array.from({ length: pairs }, (_, i) => ({
    id: `m${i}`,
    gears: [`a${i}`, `b${i}`] as const,
    azimuth: 70 * i,
    efficiency: 1,
  }));
  return { title: "Tower", notes: "", shafts, gears, meshes, ports: [{ shaft: "s0", role: "input", speed: 60 }] };
}

const LIMITS = { simplified: 300, teeth: 5000 } as const;
const BYTES = 2_000_000;

function all(gears: DrawingWishes["gears"]): number {
  // Solved anew each time: nothing is known of it.
  const solved: Solved = solve(tower(20));
  return (["three", "section"] as const).reduce((most, view) => {
    const drawing = drawingOf(solved, { view, angle: "first", gears });
    if ("trouble" in drawing) throw new Error(drawing.trouble);
    return Math.max(most, svgOf(drawing).length);
  }, 0);
}

for (const gears of ["simplified", "teeth"] as const) {
  let bytes = 0;
  const time = measure(
    () => all(gears),
    (size) => {
      bytes = size;
    },
    gears === "teeth" ? { rounds: 3, warmUp: 1 } : {},
  );
  const words = `section and three views of 40 gears, ${gears === "teeth" ? "true teeth" : "simplified"}`;
  const rest = { against: null, ratio: null } as const;
  report({ name: words, value: time, unit: "ms", ...rest, target: `<= ${LIMITS[gears]}` });
  report({ name: `${words}: the larger SVG`, value: bytes, unit: "bytes", ...rest, target: `<= ${BYTES}` });
}

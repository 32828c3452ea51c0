/** Outlines of gears read back from the SVG: as far across as their tips, and as long as their faces, in first and third angle. */
import { Vector3 } from "three";
import { describe, expect, it } from "vitest";
import type { Gear, Vec3 } from "../../../src/engine/solved";
import { arcsOf, linesOf, readSvg, type XY } from "./read-figure";
import { figure, SAMPLES } from "./samples";

type View = "front" | "top" | "side";
type Angle = "first" | "third";
const VIEWS: readonly View[] = ["front", "top", "side"];

/** Right and down on the sheet, written out. ISO 5456-2, from memory. */
const flat = (view: View, angle: Angle, { x, y, z }: Vector3): XY =>
  view === "front" ? [x, -z] : view === "top" ? [x, -y] : [angle === "third" ? y : -y, -z];
const eye = (view: View): Vector3 =>
  view === "front" ? new Vector3(0, 1, 0) : view === "top" ? new Vector3(0, 0, 1) : new Vector3(1, 0, 0);
const vec = ([x, y, z]: Vec3): Vector3 => new Vector3(x, y, z);

/** mm of paper: two rounded numbers. */
const NEAR = 0.004;

/**
 * Diameter over the tips: d + 2 m (ha* + x) cos δ; on a ring the tips point inward: d - 2 m (ha* - x). Smooth wheels end at their own
 * diameter. `pitchAngle` in degrees. ISO 21771 and ISO 23509, from memory.
 */
function tipDiameter(gear: Gear, pitchAngle: number): number {
  if (!("teeth" in gear)) return gear.diameter;
  const d = gear.teeth * gear.module;
  if (gear.kind === "internal") return d - 2 * gear.module * (gear.addendum - gear.shift);
  return d + 2 * gear.module * (gear.addendum + gear.shift) * Math.cos((pitchAngle * Math.PI) / 180);
}

const checked = { ends: 0, sides: 0 };

describe.each(SAMPLES)("%s", (_name, solved) => {
  it.each(["first", "third"] as const)(
    "has its gears as wide as their tips and as long as their faces, %s angle",
    (angle) => {
      const { svg: text, scale } = figure(solved, { angle });
      const svg = readSvg(text);
      const shortened = new Set(
        solved.findings.filter(({ message }) => /drawn and exported/.test(message)).flatMap(({ at }) => at),
      );
      solved.drive.gears.forEach((gear, i) => {
        const shaft = solved.placement.shafts[solved.index.shaftOfGear[i] ?? -1];
        const placed = solved.placement.gears[i];
        if (!shaft || !placed || shortened.has(gear.id)) return;
        const tip = (scale * tipDiameter(gear, placed.pitchAngle ?? 0)) / 2;
        const axis = vec(shaft.axis);
        for (const view of VIEWS) {
          // What lies on one line is drawn once, whosever edge it is: so edges of all parts are asked.
          const layers = [`${view}-visible`, `${view}-hidden`];
          const arcs = layers.flatMap((id) => arcsOf(svg, id));
          const lines = layers.flatMap((id) => linesOf(svg, id));
          const along = Math.abs(axis.dot(eye(view)));
          const pitch = [...arcsOf(svg, `${view}-pitch`), ...linesOf(svg, `${view}-pitch`)]
            .filter(({ part }) => part === gear.id)
            .flatMap(({ from, to }) => [from, to]);
          const middle = [0, 1].map((k) => pitch.reduce((sum, point) => sum + (point[k] ?? 0), 0) / pitch.length);
          const from = ([x, y]: XY): XY => [x - (middle[0] ?? 0), y - (middle[1] ?? 0)];
          if (along > 1 - 1e-9) {
            // Seen along its axis: a circle at the tips, round the middle of the pitch circle.
            const isTip = ({ rx, ry, ...ends }: (typeof arcs)[number]): boolean =>
              [rx, ry, Math.hypot(...from(ends.from)), Math.hypot(...from(ends.to))].every(
                (r) => Math.abs(r - tip) < NEAR,
              );
            expect(arcs.some(isTip), `tips of ${gear.id} in ${view}`).toBe(true);
            checked.ends++;
          } else if (along < 1e-9 && (gear.kind === "spur" || gear.kind === "wheel")) {
            // Seen across: a rectangle, face by tip diameter, round the middle of the pitch lines.
            const [ax, ay] = flat(view, angle, axis);
            const half = (scale * gear.face) / 2;
            const at = (point: XY): XY => {
              const [x, y] = from(point);
              return [x * ax + y * ay, -x * ay + y * ax];
            };
            for (const [k, side, other] of [
              [0, half, tip],
              [0, -half, tip],
              [1, tip, half],
              [1, -tip, half],
            ] as const) {
              const isSide = (line: (typeof lines)[number]): boolean => {
                const [p, q] = [at(line.from), at(line.to)];
                const [low, high] = [Math.min(p[1 - k] ?? 0, q[1 - k] ?? 0), Math.max(p[1 - k] ?? 0, q[1 - k] ?? 0)];
                return [p, q].every((point) => Math.abs((point[k] ?? 0) - side) < NEAR) && low < other && high > -other;
              };
              expect(lines.some(isSide), `side ${k} at ${side} of ${gear.id} in ${view}`).toBe(true);
            }
            checked.sides++;
          }
        }
      });
    },
  );
});

it("that was checked on ends and on sides", () => {
  expect(checked.ends).toBeGreaterThan(20);
  expect(checked.sides).toBeGreaterThan(20);
});

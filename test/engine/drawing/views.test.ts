/** Views read back from the SVG by public libraries, against formulas of their own, in first and third angle. */
import { Quaternion, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { arcsOf, layer, linesOf, readPaths, readSvg, type XY } from "./read-figure";
import { figure, SAMPLES } from "./samples";

type View = "front" | "top" | "side";
type Angle = "first" | "third";
const VIEWS: readonly View[] = ["front", "top", "side"];
const ANGLES: readonly Angle[] = ["first", "third"];

/** Written out, not computed: right and down on the sheet, z up in the world. ISO 5456-2, from memory. */
const flat = (view: View, angle: Angle, [x, y, z]: Vec3): XY => {
  if (view === "front") return [x, -z];
  if (view === "top") return [x, -y];
  return angle === "third" ? [y, -z] : [-y, -z];
};
const eye = (view: View, angle: Angle): Vector3 =>
  view === "front"
    ? new Vector3(0, -1, 0)
    : view === "top"
      ? new Vector3(0, 0, 1)
      : new Vector3(angle === "third" ? 1 : -1, 0, 0);

const vec = ([x, y, z]: Vec3): Vector3 => new Vector3(x, y, z);
const triple = ({ x, y, z }: Vector3): Vec3 => [x, y, z];
/** Half of the last digit of two rounded numbers, and some: mm of paper. */
const NEAR = 0.003;

const diameter = (solved: Solved, i: number): number => {
  const gear = solved.drive.gears[i];
  if (!gear) throw new Error("no gear");
  return "teeth" in gear ? gear.teeth * gear.module : gear.diameter;
};

/** Where the view's world origin lies on the sheet: from the first pitch surface, checked by all others. */
function offsetOf(solved: Solved, svg: ReturnType<typeof readSvg>, view: View, angle: Angle, scale: number): XY {
  const offsets: XY[] = [];
  solved.drive.gears.forEach((gear, i) => {
    const placed = solved.placement.gears[i];
    const shaft = solved.placement.shafts[solved.index.shaftOfGear[i] ?? -1];
    if (!placed || !shaft) return;
    const heel = vec(shaft.origin).addScaledVector(vec(shaft.axis), gear.at);
    const [hx, hy] = flat(view, angle, triple(heel));
    const arcs = arcsOf(svg, `${view}-pitch`).filter(({ part }) => part === gear.id);
    const [one] = arcs;
    if (one) offsets.push([(one.from[0] + one.to[0]) / 2 - scale * hx, (one.from[1] + one.to[1]) / 2 - scale * hy]);
    const lines = linesOf(svg, `${view}-pitch`).filter(({ part }) => part === gear.id);
    if (arcs.length === 0 && lines.length === 2) {
      // A cone is drawn towards its heel, a cylinder over its whole face.
      const ends = lines.flatMap(({ from, to }) => (placed.coneDistance === null ? [from, to] : [to]));
      const mean = (k: 0 | 1): number => ends.reduce((sum, end) => sum + end[k], 0) / ends.length;
      offsets.push([mean(0) - scale * hx, mean(1) - scale * hy]);
    }
  });
  const [first] = offsets;
  if (!first) throw new Error(`${view} has no pitch surface that tells where it lies`);
  for (const [x, y] of offsets) {
    expect(Math.abs(x - first[0])).toBeLessThan(NEAR);
    expect(Math.abs(y - first[1])).toBeLessThan(NEAR);
  }
  return first;
}

describe.each(SAMPLES)("%s", (_name, solved) => {
  it.each(ANGLES)("stands in %s angle with centre lines on the axes and pitch circles of z · m", (angle) => {
    const { svg: text, scale } = figure(solved, { angle });
    const svg = readSvg(text);
    const offsets = new Map<View, XY>();
    for (const view of VIEWS) {
      const [ox, oy] = offsetOf(solved, svg, view, angle, scale);
      offsets.set(view, [ox, oy]);
      const sheet = (p: Vec3): XY => {
        const [x, y] = flat(view, angle, p);
        return [ox + scale * x, oy + scale * y];
      };
      let circles = 0;
      solved.drive.gears.forEach((gear, i) => {
        const shaft = solved.placement.shafts[solved.index.shaftOfGear[i] ?? -1];
        if (!shaft) return;
        const cosine = Math.abs(vec(shaft.axis).dot(eye(view, angle)));
        const arcs = arcsOf(svg, `${view}-pitch`).filter(({ part }) => part === gear.id);
        expect(arcs).toHaveLength(cosine > 1e-6 ? 2 : 0);
        for (const { rx, ry } of arcs) {
          circles++;
          expect(Math.abs(rx - (scale * diameter(solved, i)) / 2)).toBeLessThan(NEAR);
          expect(Math.abs(ry - (scale * cosine * diameter(solved, i)) / 2)).toBeLessThan(NEAR);
        }
      });
      const centres = linesOf(svg, `${view}-centre`);
      expect(centres.length).toBeGreaterThan(0);
      for (const { from, to, part } of centres) {
        const shaft = solved.placement.shafts[solved.index.shafts.get(part) ?? -1];
        if (!shaft) throw new Error(`a centre line of no shaft: ${part}`);
        const [px, py] = sheet(shaft.origin);
        const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        const miss = Math.abs(dx * (py - from[1]) - dy * (px - from[0])) / Math.hypot(dx, dy);
        expect(miss).toBeLessThan(NEAR);
        const [ax, ay] = flat(view, angle, shaft.axis);
        if (Math.hypot(ax, ay) > 1e-6) expect(Math.abs(ax * dy - ay * dx) / Math.hypot(ax, ay)).toBeLessThan(2 * NEAR);
      }
      expect(circles + centres.length).toBeGreaterThan(1);
    }
    // Linked: front above or below top, in one column; front and side in one row. First angle: top view below; third: above.
    const [front, top, side] = VIEWS.map((view) => offsets.get(view) as XY) as [XY, XY, XY];
    const middle = (id: View): number => {
      const ys = linesOf(svg, `${id}-centre`).flatMap(({ from, to }) => [from[1], to[1]]);
      return (Math.min(...ys) + Math.max(...ys)) / 2;
    };
    expect(Math.abs(front[0] - top[0])).toBeLessThan(NEAR);
    expect(Math.abs(front[1] - side[1])).toBeLessThan(NEAR);
    expect(middle("top") > middle("front")).toBe(angle === "first");
    expect(text).toContain(angle === "first" ? ">First angle<" : ">Third angle<");
  });

  it.each(ANGLES)("shows each turn as the solver has it, from every side, %s angle", (angle) => {
    const svg = readSvg(figure(solved, { angle }).svg);
    let arrows = 0;
    for (const view of VIEWS) {
      const paths = readPaths(layer(svg, `${view}-arrows`)).filter(({ turn }) => turn !== undefined);
      solved.drive.shafts.forEach(({ id }, i) => {
        const velocity = solved.motion.angularVelocity[i];
        const own = paths.filter(({ part }) => part === id);
        if (!velocity || Math.hypot(...velocity) === 0) {
          expect(own).toHaveLength(0);
          return;
        }
        arrows++;
        const heads = own.filter(({ isFilled }) => isFilled);
        expect(heads).toHaveLength(1);
        const [side1, base] = heads[0]?.lines ?? [];
        const tip = side1?.from as XY;
        const foot: XY = [
          ((base?.from[0] ?? 0) + (base?.to[0] ?? 0)) / 2,
          ((base?.from[1] ?? 0) + (base?.to[1] ?? 0)) / 2,
        ];
        const way: XY = [tip[0] - foot[0], tip[1] - foot[1]];
        const look = eye(view, angle);
        // A point of the shaft near the eye, or beside the axis where that points at the eye, a moment later. Turned by three.
        const omega = vec(velocity).normalize();
        const step = new Quaternion().setFromAxisAngle(omega, 1e-4);
        const arc = own.flatMap(({ arcs }) => arcs)[0];
        if (!arc) {
          const moved = look.clone().applyQuaternion(step).sub(look);
          const [x, y] = flat(view, angle, triple(moved));
          expect((x * way[0] + y * way[1]) / (Math.hypot(x, y) * Math.hypot(...way))).toBeGreaterThan(0.99);
          expect(heads[0]?.turn).toBe("near side moves");
          return;
        }
        // The arc is open below, an eighth on each side: its middle lies above the middle of its ends.
        const centre: XY = [(arc.from[0] + arc.to[0]) / 2, (arc.from[1] + arc.to[1]) / 2 - arc.rx * Math.SQRT1_2];
        const at: XY = [tip[0] - centre[0], tip[1] - centre[1]];
        const isCounter = at[0] * way[1] - at[1] * way[0] < 0;
        const beside = new Vector3(0.3, 0.5, 0.8).cross(look).normalize();
        const seen = (p: Vector3): XY => flat(view, angle, triple(p));
        const [a, b] = [seen(beside), seen(beside.clone().applyQuaternion(step))];
        expect(isCounter).toBe(a[0] * b[1] - a[1] * b[0] < 0);
        expect(heads[0]?.turn).toBe(isCounter ? "counterclockwise" : "clockwise");
      });
    }
    expect(arrows).toBeGreaterThan(0);
  });

  it("is the same to the last byte each time", () => {
    for (const view of ["three", "section", "schematic"] as const) {
      const { svg } = figure(solved, { view });
      expect(figure(solved, { view }).svg).toBe(svg);
      expect(svg).toContain("Scale ");
      expect(svg).not.toMatch(/NaN|Infinity|-0[ "]/);
    }
  });
});

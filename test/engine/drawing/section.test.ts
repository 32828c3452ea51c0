/** Sections read back from the SVG: hatching lies in the bodies, and not in teeth or shafts, by formulas of their own. */
import { describe, expect, it } from "vitest";
import { rodsOf } from "../../../src/engine/collisions/rods";
import { linesOf, readSvg, type XY } from "./read-figure";
import { figure, SAMPLES } from "./samples";

const NEAR = 0.004;

const through = ({ from, to }: { from: XY; to: XY }): { middle: XY; way: XY; size: number } => {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(dx, dy);
  return { middle: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], way: [dx / size, dy / size], size };
};

/** Every mesh of the samples whose axes meet or are parallel. */
const CASES = SAMPLES.flatMap(([name, solved]) =>
  solved.drive.meshes.flatMap(({ id }, i) => (solved.placement.meshes[i] ? [[name, id, solved] as const] : [])),
);

describe.each(CASES)("%s, section through %s", (_name, mesh, solved) => {
  const { svg: text, scale } = figure(solved, { view: "section", mesh });
  const svg = readSvg(text);
  const hatching = linesOf(svg, "section-hatching");
  const centre = new Map(linesOf(svg, "section-centre").map((line) => [line.part, line]));

  it("hatches both gears at 45 degrees, each in another way or spacing", () => {
    const ids = solved.drive.meshes.find(({ id }) => id === mesh)?.gears ?? ["", ""];
    const looks = ids.map((id) => {
      const own = hatching.filter(
        ({ part, from, to }) => part === id && Math.hypot(to[0] - from[0], to[1] - from[1]) > 1,
      );
      expect(own.length).toBeGreaterThan(0);
      const offsets = new Set<number>();
      const slopes = new Set<number>();
      for (const { from, to } of own) {
        const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        expect(Math.abs(Math.abs(dx) - Math.abs(dy))).toBeLessThan(NEAR);
        const slope = Math.sign(dx * dy);
        slopes.add(slope);
        offsets.add(Math.round(((from[1] - slope * from[0]) / Math.SQRT2) * 50) / 50);
      }
      expect(slopes.size).toBe(1);
      const sorted = [...offsets].sort((a, b) => a - b);
      const steps = sorted.slice(1).flatMap((x, k) => (x - (sorted[k] ?? 0) > 0.1 ? [x - (sorted[k] ?? 0)] : []));
      return { slope: [...slopes][0], step: Math.min(...steps) };
    });
    const [a, b] = looks as [(typeof looks)[0], (typeof looks)[0]];
    expect(a.slope !== b.slope || Math.abs(a.step - b.step) > 0.2).toBe(true);
  });

  it("leaves teeth and shafts free of hatching", () => {
    let checked = 0;
    solved.drive.gears.forEach((gear, i) => {
      const at = solved.index.shaftOfGear[i] ?? -1;
      const axis = centre.get(solved.drive.shafts[at]?.id ?? "");
      const own = hatching.filter(({ part }) => part === gear.id);
      if (!axis || own.length === 0) return;
      const { way, middle } = through(axis);
      const rod = rodsOf(solved).rods[at]?.radius ?? 0;
      // The text of ISO 53 basic racks: dedendum = addendum + clearance, shifted by x modules. ISO 21771, from memory.
      const toothed = "teeth" in gear;
      const depth = toothed ? gear.module * (gear.addendum + gear.clearance - gear.shift) : 0;
      const pitch = toothed ? (gear.teeth * gear.module) / 2 : gear.diameter / 2;
      const isRing = gear.kind === "internal" || gear.kind === "internal-wheel";
      if (gear.kind === "bevel" || gear.kind === "cone") return;
      const [least, most] = isRing
        ? [pitch + (toothed ? gear.module * (gear.addendum + gear.clearance + gear.shift) : 0), Infinity]
        : [Math.max(rod, gear.bore / 2), pitch - depth];
      let cut = 0;
      for (const line of own) {
        for (const [x, y] of [line.from, line.to]) {
          const radius = Math.abs((x - middle[0]) * way[1] - (y - middle[1]) * way[0]) / scale;
          expect(radius).toBeGreaterThan(least - NEAR / scale);
          expect(radius).toBeLessThan(most + NEAR / scale);
        }
        cut += through(line).size;
      }
      // Length times spacing is the area: both halves of a ring of rectangles.
      if (!isRing) {
        const area = 2 * (most - least) * gear.face * scale * scale;
        const spacings = [2.5, 2.5 * 0.75, 2.5 * 0.75 ** 2];
        const miss = Math.min(...spacings.map((s) => Math.abs((cut * s) / area - 1)));
        if (area > 300) expect(miss).toBeLessThan(0.08);
      }
      checked++;
    });
    const kinds = solved.drive.meshes
      .find(({ id }) => id === mesh)
      ?.gears.map((id) => solved.drive.gears.find((g) => g.id === id)?.kind);
    if (kinds?.every((kind) => kind !== "bevel" && kind !== "cone")) expect(checked).toBeGreaterThan(1);
  });

  it("draws the pitch lines of the pair through one contact line", () => {
    // Along it both pitch surfaces touch: a pitch line of each gear lies on one straight line.
    const ids = solved.drive.meshes.find(({ id }) => id === mesh)?.gears ?? ["", ""];
    const [first, second] = ids.map((id) => linesOf(svg, "section-pitch").filter(({ part }) => part === id));
    const misses = (first ?? []).flatMap((a) =>
      (second ?? []).map((b) => {
        const { middle, way } = through(a);
        return Math.max(
          ...[b.from, b.to].map(([x, y]) => Math.abs((x - middle[0]) * way[1] - (y - middle[1]) * way[0])),
        );
      }),
    );
    expect(Math.min(...misses)).toBeLessThan(0.02);
  });
});

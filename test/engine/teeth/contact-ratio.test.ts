/** Contact ratio measured on the built solids against the table of the formula, and against the solver's own figure. */
import { describe, expect, test } from "vitest";
import { solve } from "../../../src/engine/solve";
import { buildSolid } from "../../../src/engine/teeth/gear-mesh";
import { QUALITIES, toothSpec } from "../../../src/engine/teeth/spec";
import references from "../references.json";
import { type PairOptions, pair } from "./judge";

const ALPHA = Math.PI / 9;

/** Length of the path of contact over the base pitch, from the tips of the solids alone. */
function measured(options: PairOptions): number {
  const data = pair(options);
  const { index, placement } = solve(data);
  const radii = data.gears.map((_, i) => {
    const { points } = buildSolid(toothSpec(data, index, placement, i, QUALITIES.fine));
    let [tip, bore] = [0, Infinity];
    for (let k = 0; k < points.length; k += 3) {
      const r = Math.hypot(points[k] ?? 0, points[k + 1] ?? 0);
      tip = Math.max(tip, r);
      bore = Math.min(bore, r);
    }
    // The innermost points of a ring are its tips.
    return data.gears[i]?.kind === "internal" ? bore : tip;
  });
  const [z1, z2] = options.teeth;
  const [r1, r2] = [z1, z2];
  const along = (r: number, pitch: number) =>
    Math.sqrt(r * r - (pitch * Math.cos(ALPHA)) ** 2) - pitch * Math.sin(ALPHA);
  const [first, second] = [along(radii[0] ?? 0, r1), along(radii[1] ?? 0, r2)];
  return (first + (options.isRing ? -second : second)) / (2 * Math.PI * Math.cos(ALPHA));
}

describe("contact ratio", () => {
  const table = references.find(({ id }) => id === "geom-contact-ratio-table");
  const wanted = table?.expect as unknown as Record<string, number>;
  test.each([
    [17, 17],
    [20, 20],
    [20, 40],
    [30, 30],
  ] as const)("%i/%i as in the table (full depth, 20 degrees)", (z1, z2) => {
    const ratio = measured({ teeth: [z1, z2] });
    expect(Math.abs(ratio / (wanted[`cr_${z1}_${z2}`] ?? 0) - 1)).toBeLessThan(1e-3);
  });
  test.each([
    { teeth: [20, 50] },
    { teeth: [25, 32], shifts: [0.2, -0.2] },
    { teeth: [34, 90], isRing: true },
  ] as PairOptions[])("%j as the solver says, where no tip is cut", (options) => {
    const said = solve(pair(options)).load.meshes[0]?.contactRatio ?? 0;
    expect(Math.abs(measured(options) - said)).toBeLessThan(2e-3);
  });
});

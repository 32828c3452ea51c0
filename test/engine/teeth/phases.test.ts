/** Where shafts stand at time zero: a tooth in a gap at every mesh, at rest and after any turn. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeDrive, makeGear, makeMesh, makePort, makeShaft } from "../../../src/engine/drive/defaults";
import type { Drive } from "../../../src/engine/drive/types";
import { solve } from "../../../src/engine/solve";
import { anglesAfter } from "../../../src/engine/standing-solid";
import { phaseMesh, phaseMiss, restPhases } from "../../../src/engine/teeth/phases";
import { pair } from "./judge";

const TURN = 2 * Math.PI;

const misses = (data: Drive, degrees: number): number[] => {
  const solved = solve(data);
  const rest = restPhases(data, solved.index, solved.placement);
  const angles = anglesAfter(solved, degrees) ?? new Float64Array(data.shafts.length);
  return data.meshes.map((_, i) => {
    const mesh = phaseMesh(data, solved.index, solved.placement, i);
    const [a, b] = solved.index.shaftsOfMesh[i] as readonly [number, number];
    const at = (shaft: number) => ((rest[shaft] ?? 0) + (angles[shaft] ?? 0)) / TURN;
    return mesh ? Math.abs(phaseMiss(mesh, [at(a), at(b)])) : 0;
  });
};

const chains = fc.record({
  kinds: fc.array(fc.constantFrom("spur", "ring", "ringFirst", "bevel", "friction"), { minLength: 1, maxLength: 6 }),
  teeth: fc.array(fc.integer({ min: 8, max: 97 }), { minLength: 12, maxLength: 12 }),
  azimuths: fc.array(fc.double({ min: -400, max: 400, noNaN: true }), { minLength: 6, maxLength: 6 }),
  angles: fc.array(fc.double({ min: 10, max: 170, noNaN: true }), { minLength: 6, maxLength: 6 }),
  phases: fc.array(fc.double({ min: -180, max: 180, noNaN: true }), { minLength: 12, maxLength: 12 }),
  sides: fc.array(fc.constantFrom("+" as const, "-" as const), { minLength: 12, maxLength: 12 }),
  turn: fc.double({ min: -1000, max: 1000, noNaN: true }),
});

/** A train of the given stages; gears `in` and `out` of a stage on neighbouring shafts, every one keyed at will. */
function chain({
  kinds,
  teeth,
  azimuths,
  angles,
  phases,
  sides,
}: typeof chains extends fc.Arbitrary<infer T> ? T : never): Drive {
  const gears = kinds.flatMap((kind, i) => {
    const common = { module: 2, face: 6, at: 40 * i };
    const at = (k: 0 | 1) => ({
      ...common,
      id: `g${i}${k}`,
      shaft: `S${i + k}`,
      phase: phases[2 * i + k] ?? 0,
      apex: sides[2 * i + k] ?? "+",
    });
    const [a = 20, b = 30] = [teeth[2 * i], teeth[2 * i + 1]];
    if (kind === "friction")
      return ([0, 1] as const).map((k) => makeGear({ ...at(k), kind: "wheel", diameter: 40 } as never));
    const types = {
      spur: ["spur", "spur"],
      ring: ["spur", "internal"],
      ringFirst: ["internal", "spur"],
      bevel: ["bevel", "bevel"],
    }[kind] as unknown as readonly ["spur", "spur"];
    const counts = kind === "ring" ? [a, a + b] : kind === "ringFirst" ? [a + b, a] : [a, b];
    return ([0, 1] as const).map((k) => makeGear({ ...at(k), kind: types[k], teeth: counts[k] ?? 20 }));
  });
  return makeDrive({
    shafts: Array.from({ length: kinds.length + 1 }, (_, i) =>
      makeShaft(
        i === 0 ? { id: "S0", pose: { origin: [1, 2, 3], axis: [1, 2, -1], ref: [0, 1, 0] } } : { id: `S${i}` },
      ),
    ),
    gears,
    meshes: kinds.map((kind, i) =>
      makeMesh({
        id: `m${i}`,
        gears: i % 2 === 0 ? [`g${i}0`, `g${i}1`] : [`g${i}1`, `g${i}0`],
        azimuth: azimuths[i] ?? 0,
        ...(kind === "bevel" ? { shaftAngle: angles[i] ?? 90 } : {}),
      }),
    ),
    ports: [makePort({ shaft: "S0", role: "input", speed: 60 })],
  });
}

describe("phases", () => {
  test("a tooth stands in a gap at every mesh of random trains, at rest and turned", () => {
    fc.assert(
      fc.property(chains, (drawn) => {
        const data = chain(drawn);
        for (const degrees of [0, drawn.turn])
          expect(Math.max(...misses(data, degrees))).toBeLessThan(1e-9 * 10 ** data.meshes.length);
      }),
      { numRuns: 300, seed: 11 },
    );
  });
  test("roots stand at 0, placed shafts within their first pitch", () => {
    fc.assert(
      fc.property(chains, (drawn) => {
        const data = chain(drawn);
        const solved = solve(data);
        const rest = restPhases(data, solved.index, solved.placement);
        expect(rest[0]).toBe(0);
        data.shafts.slice(1).forEach((_, i) => {
          const gear = data.gears[2 * i + 1];
          const pitch = gear && "teeth" in gear ? TURN / gear.teeth : 0;
          expect(rest[i + 1]).toBeGreaterThanOrEqual(0);
          if (pitch === 0) expect(rest[i + 1]).toBe(0);
          else expect(rest[i + 1]).toBeLessThan(pitch);
        });
      }),
      { numRuns: 200, seed: 12 },
    );
  });
  test("by hand: a spur pair at azimuth 0; the mate of even teeth stands half a pitch on, of odd teeth at 0", () => {
    // At azimuth 0 a tooth of the first points at the mate; the mate's azimuth of contact is 180. With even teeth a tooth of
    // it would point there too, so it turns by half a pitch; with odd teeth a gap stands there already.
    const at = (teeth: number) => {
      const data = makeDrive({
        shafts: [
          makeShaft({ id: "A", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } }),
          makeShaft({ id: "B" }),
        ],
        gears: [
          makeGear({ id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2 }),
          makeGear({ id: "b", shaft: "B", kind: "spur", teeth, module: 2 }),
        ],
        meshes: [makeMesh({ id: "m", gears: ["a", "b"] })],
      });
      const solved = solve(data);
      return ((restPhases(data, solved.index, solved.placement)[1] ?? 0) * teeth) / TURN;
    };
    expect(at(30)).toBeCloseTo(0.5, 12);
    expect(at(31)).toBe(0);
  });
  test("a whole number of turns, however many, changes nothing", () => {
    const data = pair({ teeth: [20, 50] });
    const solved = solve(data);
    expect(anglesAfter(solved, 360 * 5e9)?.[1]).toBeCloseTo(0, 12);
    expect(anglesAfter(solved, 90)?.[1]).toBeCloseTo((-90 * 2) / 5 / (180 / Math.PI), 12);
  });
});

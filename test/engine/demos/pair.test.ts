/** One pair by itself: built by the engine at every shaft angle, it is what the closed forms say, and the drive is left alone. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gripOf, MATERIALS, pressInDrive } from "../../../src/engine/demos/friction";
import { type DemoPair, demoPair, leanedPair, leanInDrive, NEARLY_FACING } from "../../../src/engine/demos/pair";
import { specialAngles, sweptPair } from "../../../src/engine/demos/shaft-angle";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { readDrive } from "../../../src/engine/drive/parse";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import MIXER from "../../support/mixer.drive.json";

const DEG = Math.PI / 180;

function solvedOf(file: unknown): Solved {
  const { drive, faults } = readDrive(file);
  if (!drive) throw new Error(JSON.stringify(faults));
  return solve(drive);
}
const sample = (name: string): Solved =>
  solvedOf(JSON.parse(readFileSync(`public/samples/${name}.drive.json`, "utf8")));
const pairOf = (solved: Solved, id: string): DemoPair => {
  const pair = demoPair(solved, id);
  if (!pair) throw new Error(`no pair ${id}`);
  return pair;
};
const couple = (first: object, second: object, mesh: object): Solved =>
  solvedOf({
    format: "turnwise.drive",
    version: 1,
    shafts: [{ id: "A", pose: { origin: [1, 2, 3], axis: [0, 1, 0], ref: [1, 0, 0] } }, { id: "B" }],
    gears: [
      { id: "a", shaft: "A", face: 8, ...first },
      { id: "b", shaft: "B", face: 8, ...second },
    ],
    meshes: [{ id: "m", gears: ["a", "b"], azimuth: 30, ...mesh }],
    ports: [{ shaft: "A", role: "input", speed: 90 }],
  });

describe("a pair by itself", () => {
  it("is what it is in the drive: sizes, speeds in its frame, torque, who drives", () => {
    const solved = solvedOf(MIXER);
    const first = pairOf(solved, "m1");
    expect(first).toMatchObject({ names: ["Motor", "Cross shaft"], sizes: [20, 50], radii: [20, 50], leans: 1 });
    // Closed form: 1450 · 20/50 = 580, the other way; 40 N·m · 16/32 / 0.97 · 20/50 = 8.247 N·m.
    expect(first.speeds).toEqual([1450, -580]);
    expect(first.torque).toBeCloseTo(((40 / 0.97) * 16 * 20) / 32 / 50, 9);
    expect(first.coneDistance).toBe(Infinity);
    const second = pairOf(solved, "m2");
    expect(second.shaftAngle).toBeCloseTo(90, 12);
    // R = sqrt(24² + 48²) at a right angle.
    expect(second.coneDistance).toBeCloseTo(Math.hypot(24, 48), 9);
    expect(demoPair(solved, "gone")).toBeNull();
  });

  it("keeps the places of its shafts modulo eight, whatever ids they have", () => {
    const solved = solvedOf(MIXER);
    const { drive, shafts } = pairOf(solved, "m2");
    expect(shafts).toEqual([1, 2]);
    expect(drive.shafts.map(({ id }) => id)).toEqual(["place 0", "B", "C"]);
    expect(solve(drive).motion.speed[1]).toBeCloseTo(-580, 9);
  });

  it("stands, at its own angle, where it stands in the drive", () => {
    for (const [solved, id] of [
      [solvedOf(MIXER), "m1"],
      [solvedOf(MIXER), "m2"],
      [sample("two-leaning-lanterns"), null],
    ] as const) {
      const pair = pairOf(solved, id ?? solved.drive.meshes[0]?.id ?? "");
      const alone = solve(pair.drive);
      for (const side of [0, 1] as const) {
        const there = solved.placement.shafts[pair.shafts[side]];
        const here = alone.placement.shafts[alone.index.shafts.get(pair.ids[side]) ?? -1];
        for (const key of ["origin", "axis", "ref"] as const) {
          for (const k of [0, 1, 2] as const) expect(here?.[key][k]).toBeCloseTo(there?.[key][k] ?? Number.NaN, 9);
        }
      }
    }
  });

  it("on a carrier turns as an eye on the carrier sees it", () => {
    const solved = solvedOf({
      format: "turnwise.drive",
      version: 1,
      shafts: [
        { id: "S", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
        { id: "C", coaxial: "S" },
        { id: "P", frame: "C" },
      ],
      gears: [
        { id: "s", shaft: "S", kind: "spur", teeth: 24, module: 1 },
        { id: "p", shaft: "P", kind: "spur", teeth: 12, module: 1 },
      ],
      meshes: [{ id: "m", gears: ["s", "p"] }],
      ports: [
        { shaft: "S", role: "input", speed: 100 },
        { shaft: "C", role: "input", speed: 40 },
      ],
    });
    const pair = pairOf(solved, "m");
    expect(pair.isCarried).toBe(true);
    // 100 - 40 = 60 in the carrier's frame; the planet of half the size turns 120 the other way.
    expect(pair.speeds).toEqual([60, -120]);
    expect(pair.drive.shafts.every(({ frame }) => frame === undefined)).toBe(true);
  });
});

describe("pressed together", () => {
  it("slips at the torque from which the solver says so, on cylinders and on cones", () => {
    const wheels = [
      couple({ kind: "wheel", diameter: 60 }, { kind: "wheel", diameter: 150 }, {}),
      couple({ kind: "cone", diameter: 60 }, { kind: "cone", diameter: 90, apex: "-" }, { shaftAngle: 80 }),
      couple({ kind: "wheel", diameter: 60 }, { kind: "internal-wheel", diameter: 150 }, {}),
    ];
    for (const solved of wheels) {
      const pair = pairOf(solved, "m");
      const [oak] = MATERIALS;
      const pressed = pressInDrive(pair, oak, 150)?.(solved.drive);
      if (!pressed || isRefused(pressed)) throw new Error("refused");
      const next = solve({ ...pressed, ports: [...pressed.ports, { shaft: "B", role: "output", torque: 1 }] });
      expect(next.load.meshes[0]?.slipTorque).toBeCloseTo(gripOf(oak, 150, pair.meanRadii[1], 1).most, 9);
    }
    expect(pressInDrive(pairOf(solvedOf(MIXER), "m1"), MATERIALS[0], 10)).toBeNull();
  });
});

describe("swept", () => {
  const check = (pair: DemoPair, angle: number): void => {
    const drive = leanedPair(pair, angle);
    if (!drive) throw new Error(`not built at ${angle}`);
    const solved = solve(drive);
    const [a, b] = pair.ids.map((id) => solved.index.shafts.get(id) ?? -1) as [number, number];
    const expected = sweptPair(pair.sizes, angle, pair.radii[0]);
    pair.gears.forEach(({ id }, k) => {
      const placed = solved.placement.gears[solved.index.gears.get(id) ?? -1];
      expect(placed?.pitchAngle).toBeCloseTo(expected.pitchAngles[k as 0 | 1], 6);
      const { coneDistance } = placed ?? {};
      if (angle > 0 && angle < 180) expect((coneDistance ?? 0) / expected.coneDistance).toBeCloseTo(1, 6);
    });
    // The ratio stays, and the driver's speed with it.
    const [w1, w2] = [solved.motion.speed[a], solved.motion.speed[b]];
    expect(Math.abs(w1 ?? 0)).toBeCloseTo(Math.abs(pair.speeds?.[0] ?? Number.NaN), 9);
    expect(Math.abs((w1 ?? 0) * pair.sizes[0])).toBeCloseTo(Math.abs((w2 ?? 0) * pair.sizes[1]), 6);
  };

  it("from outside pair over cones and crown to a pinion in a ring, whatever it begins as", () => {
    const toothed = fc.tuple(fc.integer({ min: 8, max: 60 }), fc.integer({ min: 8, max: 60 }));
    fc.assert(
      fc.property(toothed, fc.double({ min: 1, max: 179, noNaN: true }), ([z1, z2], angle) => {
        const size = (teeth: number) => ({ teeth, module: 2 });
        const bevel = couple({ kind: "bevel", ...size(z1) }, { kind: "bevel", ...size(z2) }, { shaftAngle: 75 });
        const spur = couple({ kind: "spur", ...size(z1) }, { kind: "spur", ...size(z2) }, {});
        for (const pair of [pairOf(bevel, "m"), pairOf(spur, "m")]) {
          for (const at of [angle, 0, 90, ...(z1 === z2 ? [] : [180])]) check(pair, at);
          for (const special of specialAngles(pair.sizes)) if (special.angle < 180) check(pair, special.angle);
        }
      }),
      { numRuns: 25 },
    );
  });

  it("without teeth likewise, by diameters", () => {
    const cones = couple({ kind: "cone", diameter: 30 }, { kind: "cone", diameter: 48.5 }, { shaftAngle: 100 });
    for (const angle of [0, 20, 100, 150, 180]) check(pairOf(cones, "m"), angle);
    const ring = couple({ kind: "wheel", diameter: 30 }, { kind: "internal-wheel", diameter: 90 }, {});
    for (const angle of [0, 20, 100, 150, 180]) check(pairOf(ring, "m"), angle);
  });

  it("equal gears at 180 are built just before it", () => {
    const pair = pairOf(
      couple({ kind: "bevel", teeth: 20, module: 2 }, { kind: "bevel", teeth: 20, module: 2 }, { shaftAngle: 90 }),
      "m",
    );
    const drive = leanedPair(pair, 180);
    expect(drive?.meshes[0]?.shaftAngle).toBe(NEARLY_FACING);
    expect(leanedPair(pair, 181)).toBeNull();
  });

  it("taken over, all that hangs on the shaft goes with it; a mesh that closes a loop has no angle to set", () => {
    const solved = solvedOf(MIXER);
    const edit = leanInDrive(pairOf(solved, "m2"), solved, 60);
    const drive = edit?.(solved.drive);
    if (!drive || isRefused(drive)) throw new Error("refused");
    const next = solve(drive);
    const [b, c] = [next.placement.shafts[1], next.placement.shafts[2]];
    const cos = [0, 1, 2].reduce((sum, k) => sum + (b?.axis[k] ?? 0) * (c?.axis[k] ?? 0), 0);
    // The outward axes are that of B reversed and that of C: 180 - 60 between the shafts' own.
    expect(Math.acos(-cos) / DEG).toBeCloseTo(60, 9);
    const loop = solvedOf({
      ...MIXER,
      meshes: [...MIXER.meshes, { id: "again", gears: ["b2", "c1"], shaftAngle: 90 }],
    });
    expect(leanInDrive(pairOf(loop, "again"), loop, 60)).toBeNull();
  });
});

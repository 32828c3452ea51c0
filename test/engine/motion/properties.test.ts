import { solve as leastSquares, Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, it } from "vitest";
import type { Drive, Gear, Port, Vec3 } from "../../../src/engine/drive/types";
import { hasTeeth, pitchDiameter } from "../../../src/engine/drive/types";
import { toText } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { add, along, cross, distance, dot, length, scale, sub } from "../../../src/engine/vector";
import { ALL_PAIRS, differential, picker, planetary, randomTree } from "../../support/random-drives";

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);
const tree = (seed: number): Drive => randomTree(seed, 12, 5, { pairs: ALL_PAIRS, shuffled: seed % 2 === 0 });

/**
 * Velocity of the material point of a shaft that stands at `point` now, from the shafts' absolute spins alone, mm/s. A
 * carried shaft's axis is itself carried round: its point goes with the carrier about the carrier's axis, plus its own spin.
 */
function velocityAt({ placement, motion, index }: Solved, shaft: number, point: Vec3): Vec3 {
  const placed = placement.shafts[shaft];
  const absolute = motion.angularVelocity[shaft];
  const frame = index.frameOfShaft[shaft] as number;
  if (!placed || !absolute) throw new Error("not determined");
  const ofAxis: Vec3 =
    frame === -1 ? [0, 0, 0] : velocityAt({ placement, motion, index } as Solved, frame, placed.origin);
  return add(ofAxis, cross(absolute, sub(point, placed.origin)));
}

describe("mates roll: equal surface velocity at both ends of the contact line, in world vectors", () => {
  const drives: [string, Drive][] = [
    ...SEEDS.map((seed): [string, Drive] => [`tree, seed ${seed}`, tree(seed)]),
    ["planetary", planetary(21, 18, 57, 3)],
    ["differential", differential(24, 16, 2)],
  ];
  for (const [name, drive] of drives) {
    it(name, () => {
      const solved = solve(drive);
      let checked = 0;
      solved.placement.meshes.forEach((mesh, i) => {
        if (!mesh) return;
        const [s1, s2] = solved.index.shaftsOfMesh[i] as readonly [number, number];
        for (const point of mesh.contact) {
          const [v1, v2] = [velocityAt(solved, s1, point), velocityAt(solved, s2, point)];
          const size = Math.max(length(v1), length(v2), 1);
          expect(distance(v1, v2) / size).toBeLessThan(1e-9);
          checked++;
        }
      });
      expect(checked).toBe(2 * drive.meshes.length);
    });
  }

  it("a spoiled pitch angle would be seen: the same check fails where the cone is not the rolling one", () => {
    const drive = differential(24, 16, 1);
    const solved = solve(drive);
    const mesh = solved.placement.meshes[0];
    const [s1, s2] = solved.index.shaftsOfMesh[0] as readonly [number, number];
    const off = add((mesh?.contact[1] ?? [0, 0, 0]) as Vec3, [1, 0, 0]);
    expect(distance(velocityAt(solved, s1, off), velocityAt(solved, s2, off))).toBeGreaterThan(1);
  });
});

describe("an outside solver agrees (ml-matrix, singular values and least squares on the same equations in doubles)", () => {
  const drives: [string, Drive][] = [
    ...SEEDS.map((seed): [string, Drive] => [`tree, seed ${seed}`, tree(seed)]),
    ["planetary, three planets", planetary(21, 18, 57, 3)],
    ["differential, two inputs", differential(24, 16, 2)],
  ];
  for (const [name, drive] of drives) {
    it(name, () => {
      const { motion, index } = solve(drive);
      // The equations are set up here from surface velocity, not from the engine's rows: at every pitch point the
      // velocity along the rim is equal, written for unit spins of each shaft.
      const { equations, right } = velocityEquations(drive);
      const singular = new SingularValueDecomposition(new Matrix(equations.slice(0, drive.meshes.length)), {
        autoTranspose: true,
      });
      const largest = Math.max(...singular.diagonal);
      const rank = singular.diagonal.filter((value) => value > 1e-9 * largest).length;
      expect(motion.mobility).toBe(drive.shafts.length - rank);
      const speeds = leastSquares(new Matrix(equations), Matrix.columnVector(right), true).to1DArray();
      drive.shafts.forEach((shaft) => {
        const i = index.shafts.get(shaft.id) as number;
        const exact = motion.speed[i] as number;
        expect(Math.abs((speeds[i] as number) - exact)).toBeLessThan(1e-8 * Math.max(1, Math.abs(exact)));
      });
    });
  }
});

/** One row a mesh from velocities along the rim at the heel of the contact line, one row an input or held port. */
function velocityEquations(drive: Drive): { readonly equations: number[][]; readonly right: number[] } {
  const solved = solve(drive);
  const { placement, index } = solved;
  const equations: number[][] = [];
  const right: number[] = [];
  placement.meshes.forEach((mesh, i) => {
    const row = new Array<number>(drive.shafts.length).fill(0);
    const [s1, s2] = index.shaftsOfMesh[i] as readonly [number, number];
    const point = mesh?.contact[0] as Vec3;
    const placed = placement.shafts[s1];
    if (!placed) throw new Error("unplaced");
    const rim = cross(placed.axis, sub(point, placed.origin));
    const along = scale(rim, 1 / length(rim));
    for (const [shaft, sign] of [
      [s1, 1],
      [s2, -1],
    ] as const) {
      // Every shaft that carries this one, and itself, moves the point: v = sum of w_k axis_k x (point - origin_k).
      for (let at = shaft; at !== -1; at = index.frameOfShaft[at] as number) {
        const own = placement.shafts[at];
        if (!own) throw new Error("unplaced");
        row[at] = (row[at] as number) + sign * dot(cross(own.axis, sub(point, own.origin)), along);
      }
    }
    equations.push(row);
    right.push(0);
  });
  for (const port of drive.ports) {
    if (port.role === "output") continue;
    const row = new Array<number>(drive.shafts.length).fill(0);
    row[index.shafts.get(port.shaft) as number] = 1;
    equations.push(row);
    right.push(port.role === "held" ? 0 : (port.speed as number));
  }
  return { equations, right };
}

describe("what must not change an answer", () => {
  const ratiosById = (drive: Drive): Record<string, string | null> => {
    const { motion } = solve(drive);
    return Object.fromEntries(
      drive.shafts.map((shaft, i) => [shaft.id, motion.ratios[i] ? toText(motion.ratios[i]) : null]),
    );
  };

  for (const seed of SEEDS) {
    it(`turning the drive, renaming ids, reversing the input; seed ${seed}`, () => {
      const drive = tree(seed);
      const solved = solve(drive);
      const before = ratiosById(drive);

      const pick = picker(seed + 1000);
      const vector = (): Vec3 => [pick.random() - 0.5, pick.random() - 0.5, pick.random() + 0.2];
      const turned: Drive = {
        ...drive,
        shafts: drive.shafts.map((shaft) =>
          shaft.pose
            ? { ...shaft, pose: { origin: scale(vector(), 300), axis: vector(), ref: cross(vector(), vector()) } }
            : shaft,
        ),
      };
      expect(ratiosById(turned)).toEqual(before);

      const rename = (id: string): string => `№ ${id} ‮x`;
      const renamed: Drive = {
        ...drive,
        shafts: drive.shafts.map((shaft) => ({ ...shaft, id: rename(shaft.id) })),
        gears: drive.gears.map((gear): Gear => ({ ...gear, id: rename(gear.id), shaft: rename(gear.shaft) })),
        meshes: drive.meshes.map((mesh) => ({ ...mesh, gears: [rename(mesh.gears[0]), rename(mesh.gears[1])] })),
        ports: drive.ports.map((port) => ({ ...port, shaft: rename(port.shaft) })),
      };
      expect(solve(renamed).motion.speed).toEqual(solved.motion.speed);
      expect(solve(renamed).placement.shafts.map((shaft) => shaft?.origin)).toEqual(
        solved.placement.shafts.map((shaft) => shaft?.origin),
      );

      const reversed: Drive = {
        ...drive,
        ports: drive.ports.map((port): Port => ({ ...port, speed: -(port.speed as number) })),
      };
      expect(solve(reversed).motion.speed).toEqual(solved.motion.speed.map((speed) => -(speed as number)));
    });

    it(`document order and swapping input and output; seed ${seed}`, () => {
      const drive = tree(seed);
      const before = ratiosById(drive);
      const backwards: Drive = {
        ...drive,
        shafts: [...drive.shafts].reverse(),
        gears: [...drive.gears].reverse(),
        meshes: [...drive.meshes].reverse(),
      };
      expect(ratiosById(backwards)).toEqual(before);

      const last = drive.shafts.at(-1)?.id as string;
      const swapped: Drive = { ...drive, ports: [{ shaft: last, role: "input", speed: 100 }] };
      const there = solve(drive).motion.ratios.at(-1);
      const back = solve(swapped).motion.ratios[0];
      if (!there || !back) throw new Error("no ratio");
      expect(there.n * back.n === there.d * back.d).toBe(true);
      expect(solve(swapped).motion.ratios.at(-1)).toEqual({ n: 1n, d: 1n });
    });
  }
});

describe("placement", () => {
  for (const seed of SEEDS) {
    it(`pitch surfaces touch and do not pass through one another; seed ${seed}`, () => {
      const { placement, drive, index } = solve(tree(seed));
      placement.meshes.forEach((mesh, i) => {
        const gears = index.gearsOfMesh[i] as readonly [number, number];
        const heel = mesh?.contact[0] as Vec3;
        for (const side of [0, 1] as const) {
          const gear = drive.gears[gears[side]] as Gear;
          const shaft = placement.shafts[index.shaftOfGear[gears[side]] as number];
          if (!shaft) throw new Error("unplaced");
          const off = sub(heel, shaft.origin);
          const radius = length(along(off, shaft.axis, -dot(off, shaft.axis)));
          expect(radius).toBeCloseTo(pitchDiameter(gear) / 2, 8);
          if (mesh?.shape.centreDistance === 0 && hasTeeth(gear)) {
            // At the heel the outer pitch circle itself.
            expect(dot(off, shaft.axis)).toBeCloseTo(gear.at, 8);
          }
        }
      });
    });
  }
});

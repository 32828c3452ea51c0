/** Trains that several tests of loads share. */
import type { Port } from "../../../src/engine/drive/types";
import { POSE, type Written } from "./loaded";

const spur = (id: string, shaft: string, teeth: number, at = 0, module = 1) =>
  ({ id, shaft, kind: "spur", teeth, at, module, face: 10 }) as const;
const ring = (id: string, shaft: string, teeth: number, at = 0) =>
  ({ id, shaft, kind: "internal", teeth, at, module: 1, face: 10 }) as const;

/** Shafts A, B, C … in a row, spur gears; `stages` are pairs of teeth, each with its efficiency. */
export function chain(
  stages: readonly (readonly [number, number, number?])[],
  ports: readonly Port[],
  module = 2,
): Written {
  const name = (k: number) => String.fromCharCode(65 + k);
  return {
    shafts: [{ id: "A", pose: POSE }, ...stages.map((_, k) => ({ id: name(k + 1) }))],
    gears: stages.flatMap(([first, second], k) => [
      spur(`p${k + 1}`, name(k), first, 40 * k, module),
      spur(`q${k + 1}`, name(k + 1), second, 40 * k, module),
    ]),
    meshes: stages.map(([, , efficiency = 1], k) => ({
      id: `m${k + 1}`,
      gears: [`p${k + 1}`, `q${k + 1}`],
      efficiency,
    })),
    ports,
  };
}

/** Sun S, ring R, carrier C and planets P1, P2 … on one axis. */
export function planetary(
  sun: number,
  planet: number,
  planets: number,
  ports: readonly Port[],
  efficiency: readonly [number, number] = [1, 1],
): Written {
  const each = Array.from({ length: planets }, (_, k) => k + 1);
  return {
    shafts: [
      { id: "S", pose: POSE },
      { id: "R", coaxial: "S" },
      { id: "C", coaxial: "S" },
      ...each.map((k) => ({ id: `P${k}`, frame: "C" })),
    ],
    gears: [spur("s", "S", sun), ring("r", "R", sun + 2 * planet), ...each.map((k) => spur(`p${k}`, `P${k}`, planet))],
    meshes: each.flatMap((k) => [
      { id: `sp${k}`, gears: ["s", `p${k}`] as const, azimuth: (360 / planets) * (k - 1), efficiency: efficiency[0] },
      { id: `pr${k}`, gears: [`p${k}`, "r"] as const, efficiency: efficiency[1] },
    ]),
    ports,
  };
}

/** Sun 75 on F, planet gears 18 and 17 on one carried shaft P, sun 71 on L, carrier C. */
export function steppedPlanet(ports: readonly Port[], efficiency = 0.98): Written {
  return {
    shafts: [
      { id: "F", pose: POSE },
      { id: "C", coaxial: "F" },
      { id: "P", frame: "C" },
      { id: "L", coaxial: "F" },
    ],
    gears: [
      spur("f", "F", 75, 0, 1),
      spur("p", "P", 18, 0, 1),
      spur("q", "P", 17, 30, 93 / 88),
      spur("l", "L", 71, 30, 93 / 88),
    ],
    meshes: [
      { id: "m1", gears: ["f", "p"], efficiency },
      { id: "m2", gears: ["q", "l"], efficiency },
    ],
    ports,
  };
}

/** Side gears L and R, one planet P, carrier C; all bevels at 90 degrees. */
export function differential(teeth: number, planet: number, ports: readonly Port[]): Written {
  const bevel = (id: string, shaft: string, z: number, apex: "+" | "-", at = 0) =>
    ({ id, shaft, kind: "bevel", teeth: z, module: 2, face: 5, apex, at }) as const;
  return {
    shafts: [
      { id: "L", pose: POSE },
      { id: "C", coaxial: "L" },
      { id: "P", frame: "C" },
      { id: "R", coaxial: "L" },
    ],
    gears: [bevel("l", "L", teeth, "+"), bevel("p", "P", planet, "-"), bevel("r", "R", teeth, "-", 2 * planet)],
    meshes: [
      { id: "lp", gears: ["l", "p"], shaftAngle: 90 },
      { id: "pr", gears: ["p", "r"], shaftAngle: 90 },
    ],
    ports,
  };
}

/** Four gears of 20 teeth in a square, each meshing with its two neighbours: A, B, C, D in turn. */
export function square(ports: readonly Port[], efficiency = 1): Written {
  return {
    shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }, { id: "D" }],
    gears: ["A", "B", "C", "D"].map((id) => spur(id.toLowerCase(), id, 20, 0, 2)),
    meshes: [
      { id: "ab", gears: ["a", "b"], azimuth: 0, efficiency },
      { id: "bc", gears: ["b", "c"], azimuth: 90, efficiency },
      { id: "ad", gears: ["a", "d"], azimuth: 90, efficiency },
      { id: "dc", gears: ["d", "c"], efficiency },
    ],
    ports,
  };
}

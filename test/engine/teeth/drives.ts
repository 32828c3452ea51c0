/** Drives with loops of teeth, for the tests of phases and of solids. */
import {
  type GearFields,
  makeDrive,
  makeGear,
  makeMesh,
  makePort,
  makeShaft,
} from "../../../src/engine/drive/defaults";
import type { Drive, Mesh, Shaft } from "../../../src/engine/drive/types";
import { drive } from "./judge";

/** Sun, planets on a carrier, ring. The ring is placed by the first planet and held; the sun drives. */
export function planetary(sun: number, planet: number, planets: number | readonly number[], isRunning = false): Drive {
  const azimuths =
    typeof planets === "number" ? Array.from({ length: planets }, (_, i) => (360 * i) / planets) : planets;
  const gear = (id: string, shaft: string, teeth: number, kind: "spur" | "internal" = "spur"): GearFields => ({
    id,
    shaft,
    teeth,
    kind,
    module: 2,
    face: 8,
    bore: 6,
  });
  const shafts: Shaft[] = [
    makeShaft({ id: "S", pose: { origin: [0, 0, 0], axis: [0.1, 0.2, 1], ref: [1, 0, 0] } }),
    makeShaft({ id: "C", coaxial: "S" }),
    ...azimuths.map((_, i) => makeShaft({ id: `P${i + 1}`, frame: "C" })),
    makeShaft({ id: "R" }),
  ];
  const meshes: Mesh[] = [
    ...azimuths.map((azimuth, i) => makeMesh({ id: `s${i + 1}`, gears: ["s", `p${i + 1}`], azimuth })),
    // The ring's centre lies back along the planet's azimuth: half a turn on from the sun's view of the planet.
    ...azimuths.map((azimuth, i) => makeMesh({ id: `r${i + 1}`, gears: [`p${i + 1}`, "r"], azimuth: azimuth + 180 })),
  ];
  return makeDrive({
    shafts,
    gears: [
      makeGear(gear("s", "S", sun)),
      ...azimuths.map((_, i) => makeGear(gear(`p${i + 1}`, `P${i + 1}`, planet))),
      makeGear(gear("r", "R", sun + 2 * planet, "internal")),
    ],
    meshes,
    ports: isRunning
      ? [makePort({ shaft: "S", role: "input", speed: 60 }), makePort({ shaft: "R", role: "held" })]
      : [],
  });
}

/** Two side gears and pinions between them, on a carrier. The left side gear drives, the right one is held. */
export function differential(side: number, pinion: number, count: number): Drive {
  const azimuths = Array.from({ length: count }, (_, i) => (360 * i) / count);
  const gear = (id: string, shaft: string, teeth: number, apex: "+" | "-"): GearFields => ({
    id,
    shaft,
    teeth,
    apex,
    kind: "bevel",
    module: 2,
    face: 7,
    bore: 4,
  });
  return makeDrive({
    shafts: [
      makeShaft({ id: "L", pose: { origin: [0, 0, 0], axis: [1, 0.3, 0.2], ref: [0, 0, 1] } }),
      makeShaft({ id: "C", coaxial: "L" }),
      ...azimuths.map((_, i) => makeShaft({ id: `P${i + 1}`, frame: "C" })),
      makeShaft({ id: "R" }),
    ],
    gears: [
      makeGear(gear("l", "L", side, "+")),
      ...azimuths.map((_, i) => makeGear(gear(`p${i + 1}`, `P${i + 1}`, pinion, "-"))),
      makeGear(gear("r", "R", side, "-")),
    ],
    meshes: [
      ...azimuths.map((azimuth, i) =>
        makeMesh({ id: `l${i + 1}`, gears: ["l", `p${i + 1}`], shaftAngle: 90, azimuth }),
      ),
      ...azimuths.map((_, i) => makeMesh({ id: `r${i + 1}`, gears: [`p${i + 1}`, "r"], shaftAngle: 90, azimuth: 180 })),
    ],
    ports: [makePort({ shaft: "L", role: "input", speed: 60 }), makePort({ shaft: "R", role: "held" })],
  });
}

/** Counts a, b, a, b round a parallelogram of the given angle at the first shaft. */
export function rhombus(a: number, b: number, angle: number): Drive {
  const teeth = [a, b, a, b];
  return drive({
    shafts: ["A", "B", "C", "D"],
    gears: teeth.map((z, i) => ({
      id: "abcd".charAt(i),
      shaft: "ABCD".charAt(i),
      kind: "spur",
      teeth: z,
      module: 2,
      face: 8,
      bore: 6,
    })),
    meshes: [
      makeMesh({ id: "ab", gears: ["a", "b"], azimuth: 10 }),
      makeMesh({ id: "bc", gears: ["b", "c"], azimuth: 10 + angle }),
      makeMesh({ id: "cd", gears: ["c", "d"], azimuth: 190 }),
      makeMesh({ id: "da", gears: ["d", "a"] }),
    ],
    ports: [makePort({ shaft: "A", role: "input", speed: 60 })],
  });
}

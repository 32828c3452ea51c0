/**
 * Drives made by rule or by seed, for property tests and benchmarks. The same arguments give the same drive, with
 * every default filled in. Gears of one shaft stand well apart, so the drives made here have no overlap of their own.
 */
import { FIRST_POSE, makeGear, makeMesh, makeShaft } from "../../src/engine/drive/defaults";
import type { Drive, Gear, GearKind, Mesh, Port, Shaft } from "../../src/engine/drive/types";

/** A seeded source of doubles in [0, 1). The mulberry32 mixing steps (public domain, T. Ettinger). */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
};

/** Picks from a seeded source: whole numbers with both ends included, and members of a list. */
export const picker = (seed: number) => {
  const random = seeded(seed);
  return {
    random,
    whole: (least: number, most: number): number => least + Math.floor(random() * (most - least + 1)),
    of: <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T,
  };
};

export type ToothedKind = "spur" | "internal" | "bevel";
type ToothlessKind = "wheel" | "internal-wheel" | "cone";
export type GearRest = Partial<Omit<Gear, "kind" | "id" | "shaft" | "teeth" | "module" | "diameter">>;

/** A toothed gear with the format's defaults; module in mm. */
export const toothed = (
  id: string,
  shaft: string,
  kind: ToothedKind,
  teeth: number,
  module: number,
  rest: GearRest = {},
): Gear => makeGear({ ...rest, id, shaft, kind, teeth, module });

/** A toothless gear with the format's defaults; diameter in mm. */
export const toothless = (
  id: string,
  shaft: string,
  kind: ToothlessKind,
  diameter: number,
  rest: GearRest = {},
): Gear => makeGear({ ...rest, id, shaft, kind, diameter });

export const mesh = (id: string, first: string, second: string, rest: Partial<Omit<Mesh, "id" | "gears">> = {}): Mesh =>
  makeMesh({ ...rest, id, gears: [first, second] });

/** A shaft at the origin along x, with azimuth 0 up. */
export const root = (id: string): Shaft => makeShaft({ id, name: id, pose: FIRST_POSE });

export type PairName = "spur" | "internal" | "bevel" | "wheel" | "internal-wheel" | "cone";
export const TOOTHED_PAIRS: readonly PairName[] = ["spur", "internal", "bevel"];
export const ALL_PAIRS: readonly PairName[] = [...TOOTHED_PAIRS, "wheel", "internal-wheel", "cone"];

export interface TreeOptions {
  /** Which pairs to choose from; spur, internal and bevel where left out. */
  readonly pairs?: readonly PairName[];
  /** Efficiencies between 0.9 and 1 instead of 1. */
  readonly losses?: boolean;
  /** Ports instead of the default ones: shaft 0 driven at 100 rev/min. */
  readonly ports?: readonly Port[];
  /** Shuffle meshes, so that placing needs several passes. */
  readonly shuffled?: boolean;
}

/** mm between neighbours on one shaft: more than any bevel gear made here is deep. */
const PITCH_OF_PLACES = 80;

/** Appends to `gears` and `meshes` a pair of the given name between two shafts, and returns nothing. */
const joinPair = (
  name: PairName,
  pick: ReturnType<typeof picker>,
  number: number,
  shafts: readonly [string, string],
  places: readonly [number, number],
  losses: boolean,
  gears: Gear[],
  meshes: Mesh[],
): void => {
  const ids = [`g${number}a`, `g${number}b`] as const;
  const module = pick.of([1, 1.5, 2, 3]);
  const small = pick.whole(17, 40);
  const other = pick.whole(17, 60);
  const isRing = name === "internal" || name === "internal-wheel";
  const ringSide = isRing ? pick.whole(0, 1) : -1;
  const isAngled = name === "bevel" || name === "cone";
  const isSmooth = name === "wheel" || name === "internal-wheel" || name === "cone";
  for (const side of [0, 1] as const) {
    // A ring has at least 20 teeth more than its pinion, so that it goes round it.
    const teeth = isRing ? (side === ringSide ? small + 20 + other : small) : side === 0 ? small : other;
    const rest: GearRest = { at: places[side], apex: isAngled ? pick.of(["+", "-"] as const) : "+" };
    const smoothKind: ToothlessKind = isAngled ? "cone" : side === ringSide ? "internal-wheel" : "wheel";
    const toothKind: ToothedKind = isAngled ? "bevel" : side === ringSide ? "internal" : "spur";
    gears.push(
      isSmooth
        ? toothless(ids[side], shafts[side], smoothKind, teeth * module, rest)
        : toothed(ids[side], shafts[side], toothKind, teeth, module, rest),
    );
  }
  const azimuth = pick.whole(0, 359);
  const efficiency = losses ? pick.whole(90, 100) / 100 : 1;
  // Up to 120: beyond it small ratios give pitch angles near 180, where a cone has no sensible face left.
  const angle = isAngled ? { shaftAngle: pick.whole(30, 120) } : {};
  const friction = isSmooth ? { normalForce: 200, friction: 0.3 } : {};
  // Either gear may be listed first.
  const [first, second] = pick.random() < 0.5 ? ids : ([ids[1], ids[0]] as const);
  meshes.push(mesh(`m${number}`, first, second, { azimuth, efficiency, ...angle, ...friction }));
};

/**
 * A tree of shafts on ground: shaft 0 is the root and the input, every other is joined to one before it, none more
 * than `depth` meshes from the root, and (where there are enough shafts) one exactly so.
 */
export const randomTree = (seed: number, shafts: number, depth: number, options: TreeOptions = {}): Drive => {
  const pick = picker(seed);
  const pairs = options.pairs ?? TOOTHED_PAIRS;
  const list: Shaft[] = [root("s0")];
  const gears: Gear[] = [];
  const meshes: Mesh[] = [];
  const depths = [0];
  const taken = [0];
  const open = depth > 0 ? [0] : [];
  for (let i = 1; i < shafts; i += 1) {
    // The first shafts make one chain to the full depth.
    const parent = i <= depth ? i - 1 : pick.of(open);
    const place = taken[parent] as number;
    taken[parent] = place + 1;
    depths[i] = (depths[parent] as number) + 1;
    taken[i] = 1;
    if ((depths[i] as number) < depth) open.push(i);
    list.push(makeShaft({ id: `s${i}`, name: `Shaft ${i}` }));
    const places = [place * PITCH_OF_PLACES, 0] as const;
    joinPair(pick.of(pairs), pick, i, [`s${parent}`, `s${i}`], places, options.losses ?? false, gears, meshes);
  }
  if (options.shuffled) {
    for (let i = meshes.length - 1; i > 0; i -= 1) {
      const j = pick.whole(0, i);
      [meshes[i], meshes[j]] = [meshes[j] as Mesh, meshes[i] as Mesh];
    }
  }
  const ports = options.ports ?? [{ shaft: "s0", role: "input", speed: 100 } as const];
  return { title: `Tree ${seed}`, notes: "", shafts: list, gears, meshes, ports };
};

/** One train of `stages` meshes, driven at its first shaft `s0` at 100 rev/min, output at its last. */
export const chain = (stages: number, seed = 1, options: TreeOptions = {}): Drive => {
  const ports: readonly Port[] = [
    { shaft: "s0", role: "input", speed: 100 },
    { shaft: `s${stages}`, role: "output" },
  ];
  const drive = randomTree(seed, stages + 1, stages, { pairs: ["spur"], ports, ...options });
  return { ...drive, title: `Chain of ${stages}` };
};

/**
 * Sun `S`, carrier `C`, ring `R` on one line, and planets `P1`... between them; with `zr = zs + 2 zp` it fits. Sun
 * driven at 100 rev/min, ring held, carrier the output, unless `ports` says otherwise.
 */
export const planetary = (zs: number, zp: number, zr: number, planets: number, ports?: readonly Port[]): Drive => {
  const numbers = Array.from({ length: planets }, (_, i) => i + 1);
  return {
    title: `Planetary ${zs}/${zp}/${zr}`,
    notes: "",
    shafts: [
      root("S"),
      { id: "C", name: "Carrier", coaxial: "S" },
      { id: "R", name: "Ring", coaxial: "S" },
      ...numbers.map((i) => ({ id: `P${i}`, name: `Planet ${i}`, frame: "C" })),
    ],
    gears: [
      toothed("s", "S", "spur", zs, 2),
      toothed("r", "R", "internal", zr, 2),
      ...numbers.map((i) => toothed(`p${i}`, `P${i}`, "spur", zp, 2)),
    ],
    meshes: [
      ...numbers.map((i) => mesh(`sp${i}`, "s", `p${i}`, { azimuth: (360 * (i - 1)) / planets })),
      ...numbers.map((i) => mesh(`pr${i}`, `p${i}`, "r")),
    ],
    ports: ports ?? [
      { shaft: "S", role: "input", speed: 100 },
      { shaft: "R", role: "held" },
      { shaft: "C", role: "output" },
    ],
  };
};

/**
 * A bevel differential: side gears on `L` and `R`, carrier `C` on the same line, pinions on `P1`..., square to it.
 * L driven at 100 rev/min, R at 50, the carrier the output, unless `ports` says otherwise.
 */
export const differential = (zSide: number, zPinion: number, pinions = 2, ports?: readonly Port[]): Drive => {
  const numbers = Array.from({ length: pinions }, (_, i) => i + 1);
  const module = 3;
  // At 90 degrees the height of the side gear's cone is the pinion's pitch radius.
  const height = (module * zPinion) / 2;
  return {
    title: `Bevel differential ${zSide}/${zPinion}`,
    notes: "",
    shafts: [
      root("L"),
      { id: "R", name: "Right", coaxial: "L" },
      { id: "C", name: "Carrier", coaxial: "L" },
      ...numbers.map((i) => ({ id: `P${i}`, name: `Pinion ${i}`, frame: "C" })),
    ],
    gears: [
      toothed("l", "L", "bevel", zSide, module, { at: -height, apex: "+" }),
      toothed("r", "R", "bevel", zSide, module, { at: height, apex: "-" }),
      ...numbers.map((i) => toothed(`p${i}`, `P${i}`, "bevel", zPinion, module, { apex: "-" })),
    ],
    meshes: [
      ...numbers.map((i) => mesh(`lp${i}`, "l", `p${i}`, { shaftAngle: 90, azimuth: (360 * (i - 1)) / pinions })),
      ...numbers.map((i) => mesh(`rp${i}`, "r", `p${i}`, { shaftAngle: 90 })),
    ],
    ports: ports ?? [
      { shaft: "L", role: "input", speed: 100 },
      { shaft: "R", role: "input", speed: 50 },
      { shaft: "C", role: "output" },
    ],
  };
};

/** The gear kinds that a drive holds, for tests that want all of them. */
export const kindsIn = (drive: Drive): ReadonlySet<GearKind> => new Set(drive.gears.map((gear) => gear.kind));

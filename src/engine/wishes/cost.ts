/** What a change costs: which parts are new, cut anew or moved. Weights are our own, from setting a lever to making a stage. */
import { hasTeeth } from "../drive/types";
import type { Gear, PlacedShaft, Solved } from "../solved";
import { ON_AXIS } from "../tolerances";
import { cross, distance, dot, length, sub } from "../vector";

/** The heaviest sort of work that a change asks for. */
export type CostKind = "setting" | "place" | "teeth" | "parts";

export interface Cost {
  readonly kind: CostKind;
  /** "2 gears cut anew, 1 shaft moves" */
  readonly words: string;
  /** For ordering: the smaller, the smaller the change. */
  readonly weight: number;
}

export interface Difference {
  /** Ids of shafts that are new, and of those that stand elsewhere or lean otherwise than before. */
  readonly newShafts: readonly string[];
  readonly moved: readonly string[];
  /** Ids of gears that are new, cut anew, and slid along or turned round on their shafts. */
  readonly newGears: readonly string[];
  readonly recut: readonly string[];
  readonly slid: readonly string[];
  /** How many gears, shafts and meshes went. */
  readonly gone: number;
  /** How many inputs, held shafts and loads are set otherwise. */
  readonly ports: number;
  /** mm by which the shaft that moves the furthest moves. */
  readonly furthest: number;
  /** Ids of gears that stand elsewhere or are others than before: those that may come into the way of something. */
  readonly touched: ReadonlySet<string>;
}

const isSameCut = (a: Gear, b: Gear): boolean =>
  a.kind === b.kind &&
  a.shift === b.shift &&
  (hasTeeth(a) && hasTeeth(b) ? a.teeth === b.teeth && a.module === b.module : true) &&
  (!hasTeeth(a) && !hasTeeth(b) ? a.diameter === b.diameter : true);

/** Degrees: a cone that differs by less is the same cone. */
const SAME_CONE = 1e-6;

/** Along its own line too: what a mesh places goes with it. */
const isSamePlace = (a: PlacedShaft, b: PlacedShaft): boolean =>
  dot(a.axis, b.axis) > 0 && length(cross(a.axis, b.axis)) < ON_AXIS && distance(a.origin, b.origin) < ON_AXIS;

/** What differs between two drives of which the second came from the first by an edit. Ids tell which part is which. */
export function differenceOf(before: Solved, after: Solved): Difference {
  const newShafts: string[] = [];
  const moved: string[] = [];
  const newGears: string[] = [];
  const recut: string[] = [];
  const slid: string[] = [];
  const touched = new Set<string>();
  let furthest = 0;
  after.drive.shafts.forEach(({ id }, i) => {
    const old = before.index.shafts.get(id);
    if (old === undefined) {
      newShafts.push(id);
      return;
    }
    const [was, now] = [before.placement.shafts[old], after.placement.shafts[i]];
    if (!was || !now || isSamePlace(was, now)) return;
    moved.push(id);
  });
  after.drive.gears.forEach((gear, i) => {
    const at = before.index.gears.get(gear.id);
    const old = at === undefined ? undefined : before.drive.gears[at];
    if (at === undefined || !old) {
      newGears.push(gear.id);
      touched.add(gear.id);
      return;
    }
    const [was, now] = [before.placement.gears[at], after.placement.gears[i]];
    const isOtherCone = Math.abs((was?.pitchAngle ?? 0) - (now?.pitchAngle ?? 0)) > SAME_CONE;
    if (!isSameCut(old, gear) || isOtherCone) recut.push(gear.id);
    else if (Math.abs(old.at - gear.at) > ON_AXIS || old.apex !== gear.apex) slid.push(gear.id);
    const apart = was && now ? length(sub(now.centre, was.centre)) : 0;
    if (!moved.includes(gear.shaft)) {
      if (apart > ON_AXIS || recut.includes(gear.id) || slid.includes(gear.id)) touched.add(gear.id);
      return;
    }
    furthest = Math.max(furthest, apart);
    touched.add(gear.id);
  });
  for (const id of moved) {
    const [was, now] = [before, after].map((solved) => solved.placement.shafts[solved.index.shafts.get(id) ?? -1]);
    if (was && now) furthest = Math.max(furthest, distance(now.origin, was.origin));
  }
  const lost = (list: "shafts" | "gears" | "meshes"): number => {
    const left = new Set(after.drive[list].map(({ id }) => id));
    return before.drive[list].filter(({ id }) => !left.has(id)).length;
  };
  const portText = (solved: Solved): string[] => solved.drive.ports.map((port) => JSON.stringify(port));
  const had = new Set(portText(before));
  return {
    newShafts,
    moved,
    newGears,
    recut,
    slid,
    gone: lost("shafts") + lost("gears"),
    ports: portText(after).filter((port) => !had.has(port)).length,
    furthest,
    touched,
  };
}

const WEIGHTS = { port: 1, slid: 1.5, recut: 2, moved: 1, part: 3, warning: 1.5 };
/** A whole drive that moves together is one move, not a hundred. */
const MOST_MOVES = 3;
/** One hundredth missed weighs as much as setting one thing more. */
const ERROR_WEIGHT = 100;

const counted = (count: number, one: string, more: string): string[] =>
  count === 0 ? [] : [count === 1 ? `1 ${one}` : `${count} ${more}`];

export function costOf(difference: Difference, warnings: number, error: number): Cost {
  const { newShafts, moved, newGears, recut, slid, gone, ports } = difference;
  const parts = newShafts.length + newGears.length + gone;
  const kind: CostKind =
    parts > 0 ? "parts" : recut.length > 0 ? "teeth" : slid.length + moved.length > 0 ? "place" : "setting";
  const words = [
    ...counted(newShafts.length, "shaft more", "shafts more"),
    ...counted(newGears.length, "gear more", "gears more"),
    ...counted(gone, "part fewer", "parts fewer"),
    ...counted(recut.length, "gear cut anew", "gears cut anew"),
    ...counted(slid.length, "gear set otherwise on its shaft", "gears set otherwise on their shafts"),
    ...counted(moved.length, "shaft moves", "shafts move"),
  ];
  return {
    kind,
    words: words.length === 0 ? "nothing is built anew" : words.join(", "),
    weight:
      ports * WEIGHTS.port +
      slid.length * WEIGHTS.slid +
      recut.length * WEIGHTS.recut +
      Math.min(moved.length, MOST_MOVES) * WEIGHTS.moved +
      parts * WEIGHTS.part +
      warnings * WEIGHTS.warning +
      Math.abs(error) * ERROR_WEIGHT,
  };
}

/** The way the drive runs: from its inputs through meshes, and through planets to their carriers, to every shaft that joins them. */
import { isZero } from "../motion/rational";
import type { Solved } from "../solved";
import { gearSets } from "./gear-sets";

/** How a shaft is reached from the one before it. */
export type Link =
  | {
      readonly kind: "mesh";
      readonly mesh: number /** Which of its gears is on the shaft before. */;
      readonly near: 0 | 1;
    }
  /** From a planet to its carrier, or from a carrier to what it carries. */
  | { readonly kind: "carrier"; readonly isOutward: boolean };

export interface RoutePoint {
  readonly shaft: number;
  readonly from: number;
  readonly link: Link;
}

export interface Route {
  /** Every shaft once, each after the one that it is reached from. */
  readonly order: readonly number[];
  /** Shafts at which a walk begins: inputs first, then one for each part that no input reaches. */
  readonly starts: ReadonlySet<number>;
  /** For each shaft how it is reached; undefined at a start. */
  readonly cameBy: readonly (RoutePoint | undefined)[];
}

const known = new WeakMap<Solved, Route>();

/** Inputs in document order, those that turn first; then held shafts; then every shaft in document order. */
function beginnings(solved: Solved): readonly (readonly number[])[] {
  const portShafts = (role: string, turns: boolean): number[] =>
    solved.drive.ports
      .filter((port) => port.role === role)
      .map((port) => solved.index.shafts.get(port.shaft) ?? -1)
      .filter((shaft) => shaft >= 0 && turns === !isZero(solved.motion.speeds[shaft] ?? { n: 1n, d: 1n }));
  const others = solved.drive.shafts.map((_, shaft) => shaft);
  const isPlaced = (shaft: number): boolean => Boolean(solved.placement.shafts[shaft]);
  return [
    [...portShafts("input", true), ...portShafts("input", false)],
    ...others.filter(isPlaced).map((shaft) => [shaft]),
    ...others.filter((shaft) => !isPlaced(shaft)).map((shaft) => [shaft]),
  ];
}

/** The route through a whole drive. Breadth first, in document order: the same drive gives the same route. Linear; kept for each solved drive. */
export function routeOf(solved: Solved): Route {
  const found = known.get(solved);
  if (found) return found;
  const { index } = solved;
  const carried = new Map<number, number[]>();
  solved.drive.shafts.forEach((_, shaft) => {
    const carrier = index.frameOfShaft[shaft] ?? -1;
    if (carrier < 0) return;
    const riders = carried.get(carrier);
    if (riders) riders.push(shaft);
    else carried.set(carrier, [shaft]);
  });
  const planets = new Set(gearSets(solved).flatMap((set) => set.planets));
  const order: number[] = [];
  const starts = new Set<number>();
  const cameBy: (RoutePoint | undefined)[] = new Array(solved.drive.shafts.length).fill(undefined);
  const isSeen = new Uint8Array(solved.drive.shafts.length);
  const reach = (shaft: number, from: number, link: Link): void => {
    if (isSeen[shaft]) return;
    isSeen[shaft] = 1;
    cameBy[shaft] = { shaft, from, link };
    order.push(shaft);
  };
  for (const begins of beginnings(solved)) {
    let at = order.length;
    for (const shaft of begins) {
      if (isSeen[shaft]) continue;
      isSeen[shaft] = 1;
      starts.add(shaft);
      order.push(shaft);
    }
    for (; at < order.length; at++) {
      const shaft = order[at] ?? -1;
      for (const mesh of index.meshesOfShaft[shaft] ?? []) {
        const pair = index.shaftsOfMesh[mesh];
        if (!pair || !solved.motion.rows[mesh]) continue;
        const near = pair[0] === shaft ? 0 : 1;
        reach(pair[near === 0 ? 1 : 0], shaft, { kind: "mesh", mesh, near });
      }
      const carrier = index.frameOfShaft[shaft] ?? -1;
      if (carrier >= 0 && planets.has(shaft)) reach(carrier, shaft, { kind: "carrier", isOutward: false });
      for (const rider of carried.get(shaft) ?? []) reach(rider, shaft, { kind: "carrier", isOutward: true });
    }
  }
  const route = { order, starts, cameBy };
  known.set(solved, route);
  return route;
}

/** The links from a start to a shaft, first to last; empty at a start. */
export function wayTo(solved: Solved, shaft: number): readonly RoutePoint[] {
  const { cameBy } = routeOf(solved);
  const points: RoutePoint[] = [];
  for (let at = cameBy[shaft]; at; at = cameBy[at.from]) points.push(at);
  return points.reverse();
}

/** Which bodies may stand in one another at all: by the boxes round them, at rest or all the way round with their carriers. */
import type { Solved } from "../solved";
import type { Body } from "./bodies";
import { isSameLine, type Line, reachFrom } from "./carrying";
import { nearPairs } from "./near-pairs";
import { rodProfile, supportAlong } from "./profile";
import type { Turned } from "./turned";

/** Calls `meet` with the numbers of two bodies that may touch, until it answers false. */
export function candidatePairs(solved: Solved, bodies: readonly Body[], meet: (i: number, j: number) => boolean): void {
  const isExempt = exemptions(solved, bodies);
  /** For each frame (-1 ground) the bodies in it, and those that carriers in it move. */
  const frames = new Map<number, Entries>();
  bodies.forEach((body, i) => {
    let swept: Turned | null = body;
    let via = -1;
    for (let shaft = body.shaft; shaft >= 0 && swept; ) {
      const frame: number = solved.index.frameOfShaft[shaft] ?? -1;
      let entries = frames.get(frame);
      if (!entries) {
        entries = { bodies: [], vias: [], boxes: [] };
        frames.set(frame, entries);
      }
      entries.bodies.push(i);
      entries.vias.push(via);
      addBox(swept, entries.boxes);
      const carrier: Line | null | undefined = solved.placement.shafts[frame];
      swept = carrier ? sweepRound(swept, carrier) : null;
      via = frame;
      shaft = frame;
    }
  });
  let isOver = false;
  for (const entries of frames.values()) {
    if (isOver) return;
    nearPairs(Float64Array.from(entries.boxes), (a, b) => {
      const [first, second] = [entries.bodies[a] as number, entries.bodies[b] as number];
      // What one carrier carries meets in that carrier's own frame.
      if ((entries.vias[a] as number) >= 0 && entries.vias[a] === entries.vias[b]) return true;
      const [i, j] = first < second ? [first, second] : [second, first];
      if (isExempt(i, j)) return true;
      isOver = !meet(i, j);
      return !isOver;
    });
  }
}

interface Entries {
  readonly bodies: number[];
  /** The carrier in this frame that moves the body, -1 for none. */
  readonly vias: number[];
  /** Six numbers each. */
  readonly boxes: number[];
}

/** Appends least and greatest x, y, z of a body. */
function addBox({ profile, origin, axis }: Turned, boxes: number[]): void {
  for (let k = 0; k < 3; k++) boxes.push((origin[k] as number) - supportAlong(profile, -(axis[k] as number)));
  for (let k = 0; k < 3; k++) boxes.push((origin[k] as number) + supportAlong(profile, axis[k] as number));
}

/** A full cylinder about a carrier's line that holds the body all the way round. */
export function sweepRound(body: Turned, line: Line): Turned | null {
  const c = body.axis[0] * line.axis[0] + body.axis[1] * line.axis[1] + body.axis[2] * line.axis[2];
  const d = [0, 1, 2].map((k) => (body.origin[k] as number) - (line.origin[k] as number));
  const at = (d[0] as number) * line.axis[0] + (d[1] as number) * line.axis[1] + (d[2] as number) * line.axis[2];
  const [low, high] = [at - supportAlong(body.profile, -c), at + supportAlong(body.profile, c)];
  const profile = rodProfile(low, high, reachFrom(line, body));
  return profile && { profile, origin: line.origin, axis: line.axis };
}

/**
 * Two bodies that belong together, and so are no collision: on one shaft; gears in mesh; a shaft and whatever is on its own line
 * (sleeves, carriers: one runs within the other); a shaft and what carries it.
 */
export function exemptions({ index, placement }: Solved, bodies: readonly Body[]): (i: number, j: number) => boolean {
  const inMesh = new Set<number>();
  const count = index.shaftOfGear.length;
  for (let m = 0; m < index.gearAt.length; m += 2) {
    const [a, b] = [index.gearAt[m] as number, index.gearAt[m + 1] as number];
    inMesh.add(Math.min(a, b) * count + Math.max(a, b));
  }
  return (i, j) => {
    const [a, b] = [bodies[i], bodies[j]];
    if (!a || !b || a.shaft === b.shaft) return true;
    if (a.kind === "gear" && b.kind === "gear") {
      return inMesh.has(Math.min(a.index, b.index) * count + Math.max(a.index, b.index));
    }
    if (a.kind === "shaft" && b.kind === "shaft") {
      if (index.frameOfShaft[a.shaft] === b.shaft || index.frameOfShaft[b.shaft] === a.shaft) return true;
    }
    const [first, second] = [placement.shafts[a.shaft], placement.shafts[b.shaft]];
    return Boolean(first && second && isSameLine(first, second));
  };
}

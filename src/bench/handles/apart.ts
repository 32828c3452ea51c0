/** Where knobs go on the screen: at their places, within the picture, and never on one another. Pure. */

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** The room of the picture in pixels, from its upper left corner. */
export interface Frame {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** px between the middles of two knobs: each can be touched by a finger of its own. */
export const APART = 48;

const into = (spot: Spot, { left, top, right, bottom }: Frame): Spot => ({
  x: Math.max(left, Math.min(Math.max(left, right), spot.x)),
  y: Math.max(top, Math.min(Math.max(top, bottom), spot.y)),
});

/** A knob keeps its place where it can: one that lies on an earlier knob goes to the nearest free place round it. */
export function spread(spots: readonly Spot[], frame: Frame): Spot[] {
  const set: Spot[] = [];
  for (const spot of spots) {
    const own = into(spot, frame);
    set.push(isFree(own, set) ? own : (freePlace(own, set, frame) ?? own));
  }
  return set;
}

const isFree = (spot: Spot, set: readonly Spot[]): boolean =>
  set.every((other) => Math.hypot(spot.x - other.x, spot.y - other.y) >= APART - 1e-6);

function freePlace(spot: Spot, set: readonly Spot[], frame: Frame): Spot | null {
  for (let ring = 1; ring <= 6; ring++) {
    for (let turn = 0; turn < 12; turn++) {
      const angle = (turn * Math.PI) / 6;
      const r = (ring * APART) / 2;
      const place = into({ x: spot.x + r * Math.cos(angle), y: spot.y + r * Math.sin(angle) }, frame);
      if (isFree(place, set)) return place;
    }
  }
  return null;
}

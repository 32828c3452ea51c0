/** Where round a shaft the pointer would have what is being grown: the azimuth under a line of sight. */
import type { Solved, Vec3 } from "../engine/solved";
import { add, along, cross, DEGREE, dot, length, scale, square, sub } from "../engine/vector";
import { type GrowSpot, growStore, openSpot, setGrow } from "../store/growing";
import type { BenchLayout } from "./bench-layout";
import type { Ray } from "./orbit";
import { shownDrive } from "./shown-drive";
import { outOfFrame } from "./turning";

/** Sine of the angle between sight and plane below which the plane is seen edge on. */
const EDGE_ON = 0.15;
/** Degrees to which a pointer's place is rounded: the free places lie coarser. */
const ROUND = 5;

/** World, at time zero: the middle round which what grows there swings. */
export function growCentre({ solved, rods }: BenchLayout, spot: GrowSpot): Vec3 | null {
  const { index, placement } = solved;
  const shaft = index.shafts.get(spot.shaft) ?? -1;
  const placed = placement.shafts[shaft];
  const gear = placement.gears[index.gears.get(spot.gear ?? "") ?? -1];
  if (!placed || gear) return gear?.centre ?? null;
  const rod = rods[shaft];
  return along(placed.origin, placed.axis, rod ? (spot.side === -1 ? rod.low : rod.high) : 0);
}

/** Degrees from the shaft's `ref`, as an azimuth; null where the line of sight meets the axis itself. `sight`: at time zero. */
export function azimuthUnder(solved: Solved, shaft: number, centre: Vec3, sight: Ray): number | null {
  const placed = solved.placement.shafts[shaft];
  if (!placed) return null;
  const down = dot(sight.direction, placed.axis);
  const from = sub(centre, sight.origin);
  // Edge on: the point of the line of sight that is nearest to the middle tells above from below.
  const reach = Math.abs(down) < EDGE_ON ? dot(from, sight.direction) : dot(from, placed.axis) / down;
  const away = square(sub(add(sight.origin, scale(sight.direction, reach)), centre), placed.axis);
  if (length(away) < 1e-6 * Math.abs(reach)) return null;
  const azimuth = Math.atan2(dot(away, cross(placed.axis, placed.ref)), dot(away, placed.ref)) / DEGREE;
  return (Math.round(azimuth / ROUND) * ROUND + 360) % 360;
}

/** Swings what is being grown to where a line of sight points; returns that azimuth, null where nothing is being grown. */
export function aimGrowth(sight: Ray): number | null {
  const spot = openSpot();
  if (!spot) return null;
  const { layout, turning } = shownDrive();
  const shaft = layout.solved.index.shafts.get(spot.shaft) ?? -1;
  const centre = growCentre(layout, spot);
  const local = outOfFrame(turning.poses, layout.solved.index.frameOfShaft[shaft] ?? -1, sight);
  const azimuth = centre && azimuthUnder(layout.solved, shaft, centre, local);
  if (azimuth !== null && growStore.getState().pointed !== azimuth) setGrow({ pointed: azimuth });
  return azimuth;
}

export const leaveGrowth = (): void => {
  if (growStore.getState().pointed !== null) setGrow({ pointed: null });
};

/** How fast the two pitch surfaces run along their contact line, and how they scrub where a pitch angle is wrong. Pure numbers. */
import { DEGREE } from "../vector";

export interface RollingPair {
  /** mm, pitch radii at the heel. */
  readonly radii: readonly [number, number];
  /** Degrees, as they should be. */
  readonly pitchAngles: readonly [number, number];
  /** rev/min of the first body, a size. */
  readonly speed: number;
}

export interface SurfaceSpeeds {
  /** m/s of each body's surface, square to the plane of both axes. */
  readonly bodies: readonly [number, number];
  /** m/s: the first less the second. */
  readonly sliding: number;
  /** mm, radius of each body there. */
  readonly radii: readonly [number, number];
}

/** rev/min times mm to m/s. */
const RIM = (2 * Math.PI) / 60 / 1000;

/**
 * Surface speeds at a place of the contact line: v = w r for either body; the second turns as its heel rolls on the first's
 * (rigid bodies about fixed axes; from memory).
 * With a pitch angle spoiled, the heels touch as before and the shaft angle stays, so the other cone is wrong by as much the other way.
 * @param fromHeel mm along the contact line, from the heel towards the toe, 0 or more
 * @param spoiled degrees added to the first pitch angle
 */
export function surfaceSpeeds(pair: RollingPair, fromHeel: number, spoiled = 0): SurfaceSpeeds {
  const [r1, r2] = pair.radii;
  const [d1, d2] = pair.pitchAngles;
  const own = r1 - fromHeel * Math.sin((d1 + spoiled) * DEGREE);
  const other = r2 - fromHeel * Math.sin((d2 - spoiled) * DEGREE);
  const bodies = [pair.speed * own * RIM, ((pair.speed * r1) / r2) * other * RIM] as const;
  return { bodies, sliding: bodies[0] - bodies[1], radii: [own, other] };
}

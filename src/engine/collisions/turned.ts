/** Bodies of revolution in the world, and what is asked of and told about the gap between two of them. */
import type { Stop } from "./minimise";
import type { Profile } from "./profile";

/** A body of revolution in the world: the origin of its profile, its unit axis. */
export interface Turned {
  readonly profile: Profile;
  readonly origin: readonly [number, number, number];
  readonly axis: readonly [number, number, number];
}

export interface Gap {
  /** The gap lies between these, mm. */
  readonly low: number;
  readonly high: number;
  /** In the middle of the gap, or of the common space. */
  readonly at: readonly [number, number, number];
}

export interface GapWish {
  /** mm within which the gap is wanted. */
  readonly tolerance: number;
  /** A gap known to be at least this need not be known better. */
  readonly enough?: number;
  /** Nor one known to be less than this. */
  readonly below?: number;
}

/** The wish for the least of max(f, g), half the gap. */
export const halfOf = ({ tolerance, enough = Infinity, below = -Infinity }: GapWish): Stop => ({
  tolerance: tolerance / 2,
  enough: enough / 2,
  below: below / 2,
});

/** A rolling cup seen from above: where its two ends, its side and a mark on its wider rim are. Pure numbers, mm, apex at the origin. */
import type { CupPath } from "./rolling-cup";

/** An end of the cup seen from above: an ellipse whose axes lie along and across the contact line. */
export interface CupEnd {
  /** From the apex along the contact line. */
  readonly centre: number;
  readonly along: number;
  readonly across: number;
  /** Where the straight side touches it (and at minus `y`); null where the end hides all of the side from above. */
  readonly side: { readonly x: number; readonly y: number } | null;
}

/**
 * An end of slant distance s from the apex and radius r: with sin δ = r/s the axis rises by δ from the table, so that the centre stands
 * s cos²δ from the apex, seen from above, and the circle is an ellipse of r sin δ and r. A tangent from the apex touches it at cos t = -tan²δ.
 * Our own reckoning, held against points in space in the tests.
 */
export function cupEnd(slant: number, radius: number): CupEnd {
  const sin = radius / slant;
  const [centre, along] = [slant * (1 - sin * sin), radius * sin];
  const cosine = -along / centre;
  const side = Math.abs(cosine) < 1 ? { x: centre + along * cosine, y: radius * Math.sqrt(1 - cosine * cosine) } : null;
  return { centre, along, across: radius, side };
}

/**
 * The mark on the rim of an end after the cup has gone round by `lap`, in the coordinates that go round with it (x along the contact
 * line, y the way that it goes). It begins on the table. The rim has rolled off slant · lap of the circle, so it has turned by slant/radius · lap.
 * @param lap radians round the apex
 */
export function markAt(
  slant: number,
  radius: number,
  lap: number,
): { readonly x: number; readonly y: number; readonly up: number } {
  const { centre, along } = cupEnd(slant, radius);
  const turned = (slant / radius) * lap;
  const sin = radius / slant;
  return {
    x: centre + along * Math.cos(turned),
    y: -radius * Math.sin(turned),
    up: radius * Math.sqrt(1 - sin * sin) * (1 - Math.cos(turned)),
  };
}

/** Most prints that are drawn. */
const MOST_PRINTS = 60;

/** Radians round the apex at which the mark of the wider rim was on the table, from 0 to `lap`. */
export function prints({ turnsFromAxis }: CupPath, lap: number): readonly number[] {
  const step = (2 * Math.PI) / turnsFromAxis;
  const count = Math.min(MOST_PRINTS, Math.floor(lap / step + 1e-9) + 1);
  return Array.from({ length: count }, (_, k) => k * step);
}

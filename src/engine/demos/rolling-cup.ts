/** A cup (a frustum on its side) that rolls on a table without sliding: it goes round its apex. Pure numbers. */

export interface CupPath {
  /** mm: circles of the wider and the narrower end about the apex; Infinity where the cup runs straight. */
  readonly circles: readonly [number, number];
  /** Turns about its own axis in one lap, seen by an eye that goes round with the axis; Infinity where it runs straight. */
  readonly turnsFromAxis: number;
  /** The same seen from the ground: the part of its whole turning that is about its own axis. */
  readonly turnsFromGround: number;
}

/**
 * The wider end's circle is R s / (R - r) by similar triangles. Rolling, 2π L = turns · 2π R: L/R turns, seen from the moving axis.
 * The lap itself turns the cup back by sin δ = R/L about its axis, so that from the ground L/R - R/L are left: the whole angular
 * velocity is the vector sum of both and lies along the contact line (rigid body with one point fixed; from memory).
 * @param radii mm, of the two ends in either order, each > 0
 * @param slant mm along the side, more than the difference of the radii
 * @throws RangeError where no cup has these sizes.
 */
export function cupPath(radii: readonly [number, number], slant: number): CupPath {
  const [wide, narrow] = [Math.max(...radii), Math.min(...radii)];
  if (!(narrow > 0 && slant > wide - narrow && Number.isFinite(wide + slant))) {
    throw new RangeError("A cup needs radii above 0 and a side longer than their difference.");
  }
  if (wide === narrow) return { circles: [Infinity, Infinity], turnsFromAxis: Infinity, turnsFromGround: Infinity };
  const outer = (wide * slant) / (wide - narrow);
  return {
    circles: [outer, outer - slant],
    turnsFromAxis: outer / wide,
    turnsFromGround: outer / wide - wide / outer,
  };
}

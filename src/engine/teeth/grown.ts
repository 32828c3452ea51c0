/** Teeth that grow out of a smooth wheel. */
import type { ToothSpec } from "./spec";

/** Sides of a wheel without teeth: its outline is all that is seen of it. */
const ROUND = 180;

/** The gear with teeth of only a `part` (0 to 1) of their height: at 0 the smooth wheel or cone that rolls on its mate's. */
export function grownSpec(spec: ToothSpec, part: number): ToothSpec {
  if (part >= 1 || spec.teeth === 0) return spec;
  const shrunk = {
    ...spec,
    addendum: spec.addendum * part,
    dedendum: spec.dedendum * part,
    shift: spec.shift * part,
    thinning: spec.thinning * part,
    rounding: spec.rounding * part,
    filletHeight: spec.filletHeight * part,
  };
  return part > 0 ? shrunk : { ...shrunk, teeth: 0, quality: { ...spec.quality, body: ROUND } };
}

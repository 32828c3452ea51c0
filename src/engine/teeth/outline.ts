/** One tooth pitch of a gear's section as a grid: rows from root to tip, columns from the right flank to the left. */
import type { Profile } from "./profile";
import { toothProfile } from "./profile";
import type { ToothSpec } from "./spec";

export interface Outline {
  /** Teeth, or the steps of a smooth body. */
  readonly pitches: number;
  readonly profile: Profile | null;
  /** Place and half thickness of each row; none for a smooth body. */
  readonly rowPlace: Float64Array;
  readonly rowHalf: Float64Array;
  /** Steps across the tooth, and along each half of the root land. */
  readonly columns: number;
  readonly landSteps: number;
  /** Azimuths of the points on the root circle of one pitch, from the middle of the gap on. */
  readonly rootAzimuths: Float64Array;
  readonly root: number;
  readonly tip: number;
  readonly outward: 1 | -1;
  /** Cosine of half the widest step along the root circle. */
  readonly sag: number;
  /** Segments that a flank and a fillet got, fewer than asked where the gear has very many teeth. */
  readonly flankSegments: number;
}

/** No step of a circle spans more than this, radians. */
const WIDEST_STEP = 0.22;
/** More triangles than this are never built. */
export const MOST_TRIANGLES = 2_000_000;

/** The quality that such a gear can have without going past the limit of triangles. */
export function affordable(spec: ToothSpec): ToothSpec {
  const { teeth, quality } = spec;
  const perTooth = (flank: number, fillet: number) => 8 * (flank + fillet + 1) + 12;
  if (teeth * perTooth(quality.flank, quality.fillet) <= MOST_TRIANGLES) return spec;
  for (let flank = quality.flank; flank >= 1; flank--) {
    const fillet = Math.max(1, Math.min(quality.fillet, Math.ceil(flank / 2)));
    if (teeth * perTooth(flank, fillet) <= MOST_TRIANGLES || flank === 1) {
      return { ...spec, quality: { ...quality, flank, fillet } };
    }
  }
  return spec;
}

export function outlineOf(asked: ToothSpec): Outline {
  const spec = asked.teeth > 0 ? affordable(asked) : asked;
  const outward = spec.form === "ring" ? -1 : 1;
  if (spec.teeth === 0) {
    const place = spec.form === "conical" ? spec.pitchAngle : spec.pitchRadius;
    const pitches = spec.quality.body;
    return {
      pitches,
      profile: null,
      rowPlace: new Float64Array(0),
      rowHalf: new Float64Array(0),
      columns: 0,
      landSteps: 1,
      rootAzimuths: Float64Array.of(-Math.PI / pitches),
      root: place,
      tip: place,
      outward,
      sag: Math.cos(Math.PI / pitches),
      flankSegments: 0,
    };
  }
  const profile = toothProfile(spec);
  const places: number[] = [];
  const halves: number[] = [];
  for (const { q, half } of profile.stretches) {
    // Where two stretches meet they share one row.
    for (let i = places.length > 0 ? 1 : 0; i < q.length; i++) {
      places.push(q[i] ?? 0);
      halves.push(half[i] ?? 0);
    }
  }
  const gapMiddle = Math.PI / spec.teeth;
  const first = halves[0] ?? gapMiddle / 2;
  // A root rounded all through still keeps a land: an edge without length is no solid.
  if (first > gapMiddle * 0.995) halves[0] = gapMiddle * 0.995;
  const rootHalf = halves[0] ?? first;
  const columns = Math.max(1, Math.ceil((2 * Math.max(...halves)) / WIDEST_STEP));
  const landSteps = Math.max(1, Math.ceil((gapMiddle - rootHalf) / WIDEST_STEP));
  const azimuths: number[] = [];
  for (let i = 0; i < landSteps; i++) azimuths.push(-gapMiddle + ((gapMiddle - rootHalf) * i) / landSteps);
  for (let i = 0; i <= columns; i++) azimuths.push(rootHalf * ((2 * i) / columns - 1));
  for (let i = 1; i < landSteps; i++) azimuths.push(rootHalf + ((gapMiddle - rootHalf) * i) / landSteps);
  const widest = Math.max((2 * rootHalf) / columns, (gapMiddle - rootHalf) / landSteps);
  return {
    pitches: spec.teeth,
    profile,
    rowPlace: Float64Array.from(places),
    rowHalf: Float64Array.from(halves),
    columns,
    landSteps,
    rootAzimuths: Float64Array.from(azimuths),
    root: profile.root,
    tip: profile.tip,
    outward,
    sag: Math.cos(widest / 2),
    flankSegments: spec.quality.flank,
  };
}

/** One tooth pitch of a gear's section as a grid: rows from root to tip, columns from the right flank to the left. */
import type { Profile } from "./profile";
import { toothProfile } from "./profile";
import type { ToothSpec } from "./spec";
import type { Stretch } from "./stretches";

export interface Outline {
  /** Teeth, or the steps of a smooth body. */
  readonly pitches: number;
  readonly profile: Profile | null;
  /** Place and half thickness of each row; none for a smooth body. */
  readonly rowPlace: Float64Array;
  readonly rowHalf: Float64Array;
  /** Steps across the tooth, and along each half of the root land. */
  readonly columns: number;
  /** Rows across a tooth follow circles; else they are straight, but for the tip's (outside gears of more than a few teeth). */
  readonly isWide: boolean;
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
/** A tooth whose root is wider than this, radians, has rows along circles: straight ones would run into the bore. */
const WIDEST_CHORD = 1.3;
/** The tip's arc has steps of at most this, radians: it then sags by less than a thousandth of its radius. */
const TIP_STEP = 0.08;
/** More triangles than this are never built. */
export const MOST_TRIANGLES = 2_000_000;

/** The quality that such a gear can have without going past the limit of triangles; at the worst one straight line a flank. */
export function affordable(spec: ToothSpec): ToothSpec {
  const { teeth, quality } = spec;
  // Flanks, fillets with one tangent more than segments, both ends, tip, land, and the seam to the body.
  const perTooth = (flank: number, fillet: number) => 8 * (flank + fillet + 1) + 14;
  if (teeth * perTooth(quality.flank, quality.fillet) <= MOST_TRIANGLES) return spec;
  for (let flank = quality.flank; flank >= 1; flank--) {
    const fillet = Math.max(1, Math.min(quality.fillet, Math.ceil(flank / 2)));
    if (teeth * perTooth(flank, fillet) <= MOST_TRIANGLES) return { ...spec, quality: { ...quality, flank, fillet } };
  }
  return { ...spec, quality: { ...quality, flank: 1, fillet: 0 } };
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
      isWide: false,
      landSteps: 1,
      rootAzimuths: Float64Array.of(-Math.PI / pitches),
      root: place,
      tip: place,
      outward,
      sag: Math.cos(Math.PI / pitches),
      flankSegments: 0,
    };
  }
  const isPlain = spec.quality.fillet === 0;
  const whole = toothProfile(spec);
  const isVast = whole.stretches.some(({ half }) => half.some((h) => 2 * h > WIDEST_CHORD));
  const isWide = spec.form !== "outside" || isVast;
  const profile = isPlain ? straightened(whole) : isVast ? densened(whole) : whole;
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
  const widestHalf = isWide ? Math.max(...halves) : (halves.at(-1) ?? 0);
  const columns = isPlain ? 1 : Math.max(1, Math.ceil((2 * widestHalf) / (isWide ? WIDEST_STEP : TIP_STEP)));
  const landSteps = isPlain ? 0 : Math.max(1, Math.ceil((gapMiddle - rootHalf) / WIDEST_STEP));
  const azimuths: number[] = [];
  for (let i = 0; i < landSteps; i++) azimuths.push(-gapMiddle + ((gapMiddle - rootHalf) * i) / landSteps);
  for (let i = 0; i <= columns; i++) azimuths.push(acrossAzimuth(rootHalf, (2 * i) / columns - 1, isWide));
  for (let i = 1; i < landSteps; i++) azimuths.push(rootHalf + ((gapMiddle - rootHalf) * i) / landSteps);
  const widest = Math.max(
    isWide ? (2 * rootHalf) / columns : 2 * rootHalf,
    (gapMiddle - rootHalf) / Math.max(1, landSteps),
  );
  return {
    pitches: spec.teeth,
    profile,
    rowPlace: Float64Array.from(places),
    rowHalf: Float64Array.from(halves),
    columns,
    isWide,
    landSteps,
    rootAzimuths: Float64Array.from(azimuths),
    root: profile.root,
    tip: profile.tip,
    outward,
    sag: Math.cos(widest / 2),
    flankSegments: spec.quality.flank,
  };
}

/** The tooth with one straight line for each flank. */
function straightened(profile: Profile): Profile {
  const [first, last] = [profile.stretches[0], profile.stretches.at(-1)];
  if (!first || !last) return profile;
  const ends = (values: (stretch: Stretch) => number[]) => [values(first)[0] ?? 0, values(last).at(-1) ?? 0];
  const line: Stretch = {
    q: ends(({ q }) => q),
    half: ends(({ half }) => half),
    normalQ: [last.normalQ.at(-1) ?? 0, last.normalQ.at(-1) ?? 0],
    normalA: [last.normalA.at(-1) ?? 1, last.normalA.at(-1) ?? 1],
  };
  return { ...profile, stretches: [line] };
}

/** Azimuth of a point `part` (-1 to 1) of the way across a tooth: along the circle, or along the straight chord. */
export const acrossAzimuth = (half: number, part: number, isArc: boolean): number =>
  isArc ? half * part : Math.atan(part * Math.tan(half));

/** Rows close enough that no flank cuts a corner past the circles between them. */
function densened(profile: Profile): Profile {
  const stretches = profile.stretches.map((stretch): Stretch => {
    const dense: Stretch = { q: [], half: [], normalQ: [], normalA: [] };
    const lists = [
      [dense.q, stretch.q],
      [dense.half, stretch.half],
      [dense.normalQ, stretch.normalQ],
      [dense.normalA, stretch.normalA],
    ] as const;
    for (let i = 0; i < stretch.q.length; i++) {
      const step = i === 0 ? 0 : Math.abs((stretch.half[i] ?? 0) - (stretch.half[i - 1] ?? 0));
      const parts = i === 0 ? 1 : Math.max(1, Math.ceil(step / (WIDEST_STEP / 2)));
      for (let k = 1; k <= parts; k++) {
        for (const [to, from] of lists) {
          const [a, b] = [from[Math.max(0, i - 1)] ?? 0, from[i] ?? 0];
          to.push(k === parts ? b : a + ((b - a) * k) / parts);
        }
        const last = dense.q.length - 1;
        const size = Math.hypot(dense.normalQ[last] ?? 0, dense.normalA[last] ?? 0) || 1;
        dense.normalQ[last] = (dense.normalQ[last] ?? 0) / size;
        dense.normalA[last] = (dense.normalA[last] ?? 0) / size;
      }
    }
    return dense;
  });
  return { ...profile, stretches };
}

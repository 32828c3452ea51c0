/**
 * Involute flanks, plane and spherical, as one thing: the half thickness of a tooth, an angle about the gear's axis, at
 * a place q: the radius in mm on a spur gear or ring, the polar angle from the outward axis in radians on a bevel gear.
 *
 * Plane: with t = tan φ (φ the pressure angle at the place), q = rb √(1 + t²) and the curve runs round the base circle
 * by inv φ = t - atan t (involute function, any gear handbook; ISO 21771).
 * Spherical, for every pitch angle 0 < δ < 180: base cone sin δb = cos α sin δ; with ψ the arc unrolled along the great
 * circle of action, cos d = cos δb cos ψ and the curve runs round by ψ / sin δb - atan2(sin ψ, cos ψ sin δb). Past d = 90
 * it turns from convex to concave by itself: the crown gear and the internal bevel need no case of their own.
 * Source: spherical trigonometry of a great circle rolling on a small circle; checked in the tests.
 */

/** One flank family. `p` is the curve's parameter: tan φ, or ψ. */
export interface Flank {
  /** +1 where the tooth's tip lies at larger q, -1 on a ring. */
  readonly outward: 1 | -1;
  /** Places where the involute begins and ends; beyond them the half thickness stays as it is there (a meridian). */
  readonly base: number;
  readonly end: number;
  /** Half thickness of the tooth at q, radians about the axis. */
  half(q: number): number;
  placeAt(p: number): number;
  parameterAt(q: number): number;
  /** Outward normal of the left flank (the one on the side of growing azimuth): parts along growing q and azimuth. */
  normalAt(p: number): readonly [number, number];
}

/** inv φ as a function of tan φ, radians. */
export const involute = (t: number): number =>
  // Below 1e-3 the difference loses digits: its series instead.
  t < 1e-3 ? t * t * t * (1 / 3 - (t * t) / 5) : t - Math.atan(t);

/** Run-out in azimuth of the spherical involute at arc ψ on the base cone of sine `s`, radians. */
export const sphericalRunOut = (psi: number, s: number): number =>
  psi / s - Math.atan2(Math.sin(psi), Math.cos(psi) * s);

/**
 * Plane flank: `radius` the pitch radius, `halfAtPitch` the tooth's half thickness there (on a ring too), radians.
 * On a ring the tooth is the outside gear's gap.
 */
export function planeFlank(radius: number, pressureAngle: number, halfAtPitch: number, outward: 1 | -1): Flank {
  const base = radius * Math.cos(pressureAngle);
  const atPitch = involute(Math.tan(pressureAngle));
  const parameterAt = (q: number) => (q <= base ? 0 : Math.sqrt((q / base) ** 2 - 1));
  return {
    outward,
    base,
    end: Infinity,
    parameterAt,
    placeAt: (p) => base * Math.hypot(1, p),
    half: (q) => halfAtPitch + outward * (atPitch - involute(parameterAt(q))),
    normalAt: (p) => {
      const c = 1 / Math.hypot(1, p);
      return [outward * p * c, c];
    },
  };
}

/** Spherical flank on a pitch cone of angle `pitchAngle`; `halfAtPitch` as above. Tips always lie at larger q. */
export function sphericalFlank(pitchAngle: number, pressureAngle: number, halfAtPitch: number): Flank {
  const s = Math.cos(pressureAngle) * Math.sin(pitchAngle);
  const base = Math.asin(Math.min(1, s));
  const c = Math.cos(base);
  const parameterAt = (q: number) => arcOf(q, base);
  const atPitch = sphericalRunOut(parameterAt(pitchAngle), s);
  return {
    outward: 1,
    base,
    end: Math.PI - base,
    parameterAt,
    placeAt: (p) => polarOf(p, base),
    half: (q) => halfAtPitch + atPitch - sphericalRunOut(parameterAt(q), s),
    normalAt: (p) => {
      const d = polarOf(p, base);
      const [sinP, cosP] = [Math.sin(p), Math.cos(p)];
      const run = Math.atan2(sinP, cosP * s);
      const [sinR, cosR] = [Math.sin(run), Math.cos(run)];
      return [Math.cos(d) * (cosP * sinR - sinP * s * cosR) + Math.sin(d) * sinP * c, sinP * s * sinR + cosP * cosR];
    },
  };
}

/** ψ at polar angle d: cos ψ = cos d / cos δb, by half angles so that neither end nor a small cone loses digits. */
function arcOf(d: number, base: number): number {
  if (d <= base) return 0;
  if (d >= Math.PI - base) return Math.PI;
  // tan²(ψ/2) = (cos δb - cos d) / (cos δb + cos d) = tan((d + δb)/2) tan((d - δb)/2)
  return 2 * Math.atan(Math.sqrt(Math.tan((d + base) / 2) * Math.tan((d - base) / 2)));
}

/** d at arc ψ: cos d = cos δb cos ψ, by half angles: sin²(d/2) = sin²(δb/2) + cos δb sin²(ψ/2). */
function polarOf(psi: number, base: number): number {
  const low = Math.sin(base / 2) ** 2 + Math.cos(base) * Math.sin(psi / 2) ** 2;
  return 2 * Math.atan2(Math.sqrt(low), Math.sqrt(Math.max(0, 1 - low)));
}

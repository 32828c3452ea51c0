/**
 * The root that a rack leaves: the trochoid of its rounded tip, and where that meets the involute (higher up where the
 * tooth is undercut). Basic rack of ISO 53: tip rounding as large as its clearance allows, c / (1 - sin α) (0.38 modules
 * for c = 0.25), or as the rack tooth's own width allows, whichever is less.
 *
 * With e the depth of the rounding's centre below the rolling line and λ the slope of the common normal from the
 * vertical, the normal through the pitch point fixes the roll: contact at (e tan λ + ρ sin λ, r - e - ρ cos λ), the
 * rack moved on by e tan λ - xc. Source: the law of gearing (common normal through the pitch point), worked out here.
 */
import { involute } from "./flank";
import type { ToothSpec } from "./spec";

export interface RackRoot {
  /** mm, radius of the root circle. */
  readonly root: number;
  /** tan φ where the involute begins: the rack's last touch, or where an undercut ends. */
  readonly start: number;
  readonly isUndercut: boolean;
  /** True where the root is less deep than the gear asks for: the rack tooth ends in a point, or the root in the axis. */
  readonly isRaised: boolean;
  /** mm from the pitch circle inwards: how deep the rack's straight flank goes. */
  readonly straight: number;
  /** λ at which the trochoid ends, from 0 at the root circle. */
  readonly end: number;
  /** Radius and tooth half thickness (no thinning) at λ. */
  at(slope: number): { readonly q: number; readonly half: number };
}

/** The root circle is never less than this part of the pitch radius. Our own limit: below it no body is left. */
const LEAST_ROOT = 0.25;

export function rackRoot(spec: ToothSpec): RackRoot {
  const { module: m, pitchRadius: r, pressureAngle: alpha, shift, teeth } = spec;
  const [sin, cos, tan] = [Math.sin(alpha), Math.cos(alpha), Math.tan(alpha)];
  // The rack tooth comes to a point at depth π m / (4 tan α).
  const deepest = Math.min((0.98 * Math.PI * m) / (4 * tan), r * (1 - LEAST_ROOT) + shift);
  const depth = Math.min(spec.dedendum, deepest);
  const full = ((Math.PI * m) / 4 - depth * tan) * ((1 + sin) / cos);
  const round = Math.max(0, Math.min(spec.rounding, 0.98 * full));
  const centre = depth - round - shift;
  const halfWidth = (Math.PI * m) / 4 - (depth - round) * tan - round / cos;
  const root = r + shift - depth;
  const at = (slope: number) => {
    const [s, c] = [Math.sin(slope), Math.cos(slope)];
    const x = (centre * s) / c + round * s;
    const y = r - centre - round * c;
    const gap = Math.atan2(x, y) - ((centre * s) / c - halfWidth) / r;
    return { q: Math.hypot(x, y), half: Math.PI / teeth - gap };
  };
  const last = Math.PI / 2 - alpha;
  const flankEnd = depth - round * (1 - sin) - shift;
  const touch = (r * sin - flankEnd / sin) / (r * cos);
  const base = { root, straight: flankEnd, isRaised: depth < spec.dedendum * (1 - 1e-12), at };
  if (touch >= 0) return { ...base, start: touch, isUndercut: false, end: last };

  // Undercut: from the last touch down the trochoid lies first outside, then inside the involute; find the crossing.
  const halfAtPitch = Math.PI / (2 * teeth) + (2 * shift * tan) / (m * teeth);
  const rb = r * cos;
  const over = (slope: number) => {
    const point = at(slope);
    const t = point.q > rb ? Math.sqrt((point.q / rb) ** 2 - 1) : 0;
    return { t, excess: point.half - (halfAtPitch + involute(tan) - involute(t)) };
  };
  const steps = 48;
  let high = last;
  for (let i = steps - 1; i >= 0; i--) {
    const low = (last * i) / steps;
    if (over(low).excess < 0) {
      let [inside, outside] = [low, high];
      for (let k = 0; k < 60; k++) {
        const middle = (inside + outside) / 2;
        if (over(middle).excess < 0) inside = middle;
        else outside = middle;
      }
      return { ...base, start: over(inside).t, isUndercut: true, end: inside };
    }
    high = low;
  }
  return { ...base, start: 0, isUndercut: true, end: last };
}

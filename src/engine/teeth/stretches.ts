/** Stretches of a tooth's outline: the involute, the trochoid of a rack's tip, the parabola of other roots. */
import type { Flank } from "./flank";
import type { RackRoot } from "./rack-root";
import type { ToothSpec } from "./spec";

/** One smooth stretch of the outline; where two meet there may be an edge. */
export interface Stretch {
  readonly q: number[];
  /** Radians, half thickness. */
  readonly half: number[];
  /** Outward normal of the left flank along growing q and along growing azimuth. */
  readonly normalQ: number[];
  readonly normalA: number[];
}

/** Part of the pitch that a gap keeps at the root. */
export const LEAST_GAP = 0.02;

/** Size of a step in azimuth at q, per radian, in units of q. */
export const circleRadius = (spec: ToothSpec, q: number): number => (spec.form === "conical" ? Math.sin(q) : q);

/** Involute from place to place; points closer where the curve bends more (equal chord sag). */
export function involuteStretch(flank: Flank, from: number, to: number, segments: number): Stretch {
  const stretch: Stretch = { q: [], half: [], normalQ: [], normalA: [] };
  const [a, b] = [flank.parameterAt(from) ** 1.5, flank.parameterAt(to) ** 1.5];
  for (let i = 0; i <= segments; i++) {
    const p = (a + ((b - a) * i) / segments) ** (2 / 3);
    const q = i === 0 ? from : i === segments ? to : flank.placeAt(p);
    const [nq, na] = flank.normalAt(i === 0 || i === segments ? flank.parameterAt(q) : p);
    stretch.q.push(q);
    stretch.half.push(flank.half(q));
    stretch.normalQ.push(nq);
    stretch.normalA.push(na);
  }
  return stretch;
}

/**
 * The trochoid as a line of tangents: its chords would reach into the gap, where a mate's tip passes close by. Only its two
 * ends lie on the curve itself.
 */
export function trochoidStretch(spec: ToothSpec, rack: RackRoot, thin: number, tip: number): Stretch {
  const stretch: Stretch = { q: [], half: [], normalQ: [], normalA: [] };
  const push = (q: number, half: number, nq: number, na: number) => {
    stretch.q.push(q);
    stretch.half.push(half);
    stretch.normalQ.push(nq);
    stretch.normalA.push(na);
  };
  // As points (q cos half, q sin half) with unit tangents, in the tooth's own frame.
  const sample = (slope: number) => {
    const h = 1e-5;
    const [low, high] = [rack.at(Math.max(0, slope - h)), rack.at(slope + h)];
    const { q, half } = rack.at(slope);
    const flat = (p: { q: number; half: number }) =>
      [p.q * Math.cos(p.half - thin), p.q * Math.sin(p.half - thin)] as const;
    const [a, b] = [flat(low), flat(high)];
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return {
      q,
      half: half - thin,
      at: flat({ q, half }),
      along: [(b[0] - a[0]) / size, (b[1] - a[1]) / size] as const,
    };
  };
  type Sample = ReturnType<typeof sample>;
  const normalAt = (azimuth: number, along: readonly [number, number]) => {
    // The tangent turned by a right angle to the left, in parts along the radius and the azimuth.
    const [c, s] = [Math.cos(azimuth), Math.sin(azimuth)];
    return [-along[1] * c + along[0] * s, along[1] * s + along[0] * c] as const;
  };
  const pushCurve = ({ q, half, along }: Sample) => push(q, half, ...normalAt(half, along));
  const count = Math.max(1, spec.quality.fillet);
  let before = sample(0);
  push(rack.root, before.half, 1, 0);
  for (let i = 1; i <= count; i++) {
    const here = sample((rack.end * i) / count);
    if (here.q >= tip) break;
    const cross = before.along[0] * here.along[1] - before.along[1] * here.along[0];
    const [dx, dy] = [here.at[0] - before.at[0], here.at[1] - before.at[1]];
    const reach = (dx * here.along[1] - dy * here.along[0]) / cross;
    const span = Math.hypot(dx, dy);
    // Only where the curve bends towards the gap do its tangents meet between the two points.
    if (cross > 1e-6 && reach > 0 && reach < span) {
      const [x, y] = [before.at[0] + reach * before.along[0], before.at[1] + reach * before.along[1]];
      const q = Math.hypot(x, y);
      const along = [before.along[0] + here.along[0], before.along[1] + here.along[1]] as const;
      const size = Math.hypot(along[0], along[1]);
      const half = Math.atan2(y, x);
      if (q > (stretch.q.at(-1) ?? 0)) push(q, half, ...normalAt(half, [along[0] / size, along[1] / size]));
    } else if (i > 1) pushCurve(before);
    before = here;
  }
  pushCurve(before);
  return stretch;
}

/** A parabola that leaves the root circle and joins the flank at `top`, tangent to both. */
export function parabola(spec: ToothSpec, flank: Flank, root: number, top: number, gapMiddle: number): Stretch {
  const scale = circleRadius(spec, root);
  const half = flank.half(top);
  const step = Math.abs(top - root) * 1e-4;
  const slope = (flank.half(top + step) - flank.half(top - step)) / (2 * step);
  // Where the flank's tangent meets the root circle, and as far again along it, if the gap is that wide.
  const corner = Math.min(half - slope * (top - root), gapMiddle * (1 - LEAST_GAP / 2));
  const away = Math.min(Math.abs(top - root) / scale, (gapMiddle - corner) * 0.9);
  const [a0, a1, a2] = [corner + away, corner, half];
  const stretch: Stretch = { q: [], half: [], normalQ: [], normalA: [] };
  const count = Math.max(1, spec.quality.fillet);
  for (let i = 0; i <= count; i++) {
    const u = i / count;
    const q = root + u * u * (top - root);
    const a = (1 - u) * (1 - u) * a0 + 2 * u * (1 - u) * a1 + u * u * a2;
    const dq = 2 * u * (top - root);
    const da = (2 * (1 - u) * (a1 - a0) + 2 * u * (a2 - a1)) * circleRadius(spec, q);
    const size = Math.hypot(dq, da) || 1;
    stretch.q.push(i === count ? top : q);
    stretch.half.push(i === count ? half : a);
    stretch.normalQ.push((-da * flank.outward) / size);
    stretch.normalA.push((dq * flank.outward) / size);
  }
  return stretch;
}

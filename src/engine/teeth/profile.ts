/**
 * The section of one tooth: half of it, from the root circle up to the tip, as places q with half thicknesses (see
 * flank.ts) and outward normals. The other half is its mirror image.
 *
 * Roots. Outside: the trochoid that a rack leaves (rack-root.ts). Ring and conical: the flank goes on as involute, or
 * below the base circle along the meridian, and is rounded by a parabola that stays within the clearance, where no
 * mate's tip comes: it can't cut the mate. A shaper's own trochoid depends on the cutter, which a drive doesn't name.
 */
import type { Flank } from "./flank";
import { planeFlank, sphericalFlank } from "./flank";
import { type RackRoot, rackRoot } from "./rack-root";
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

export interface Profile {
  readonly stretches: readonly Stretch[];
  readonly root: number;
  readonly tip: number;
  readonly outward: 1 | -1;
  /** What kept the tooth from being as the gear asks; nothing for a sound tooth. */
  readonly faults: ProfileFaults;
  /** Null where the tooth is a mere stub. */
  readonly flank: Flank | null;
}

export interface ProfileFaults {
  /** The tip was cut back to the mate's limit, from this place. */
  readonly trimmedFrom: number | null;
  /** The flanks meet below the tip circle: this much short of it (mm, or radians). */
  readonly pointed: number | null;
  /** The root is less deep than asked. */
  readonly isRootRaised: boolean;
  readonly isUndercut: boolean;
  /** No true tooth exists with these numbers; a plain stub stands for it. */
  readonly isStub: boolean;
}

/** Half land left at a pointed tip, in modules: an edge without width is no solid. */
const LEAST_LAND = 0.004;
/** Part of the pitch that a gap keeps at the root. */
const LEAST_GAP = 0.02;

/** Size of a step in azimuth at q, per radian, in units of q. */
export const circleRadius = (spec: ToothSpec, q: number): number => (spec.form === "conical" ? Math.sin(q) : q);

/** q per mm: places of conical gears are angles. */
const perMillimetre = (spec: ToothSpec): number => (spec.form === "conical" ? 1 / spec.coneDistance : 1);

/** The flank family of a gear, thinning and shift included. */
export function flankOf(spec: ToothSpec): Flank {
  const { teeth, module: m, pitchRadius: r, pressureAngle: alpha, shift, thinning } = spec;
  const wider = (2 * (shift / m) * Math.tan(alpha)) / teeth;
  const half = Math.PI / (2 * teeth) - thinning / (2 * r);
  if (spec.form === "conical") return sphericalFlank(spec.pitchAngle, alpha, half + wider);
  if (spec.form === "ring") return planeFlank(r, alpha, half - wider, -1);
  return planeFlank(r, alpha, half + wider, 1);
}

/** Tip and root as the numbers ask, before any limit. */
export function askedEnds(spec: ToothSpec): { readonly tip: number; readonly root: number } {
  const up = spec.addendum + spec.shift;
  const down = spec.dedendum - spec.shift;
  if (spec.form === "conical") {
    const { pitchAngle, coneDistance } = spec;
    return { tip: pitchAngle + Math.atan(up / coneDistance), root: pitchAngle - Math.atan(down / coneDistance) };
  }
  if (spec.form === "ring") {
    return {
      tip: spec.pitchRadius - spec.addendum + spec.shift,
      root: spec.pitchRadius + spec.dedendum + spec.shift,
    };
  }
  return { tip: spec.pitchRadius + up, root: spec.pitchRadius - down };
}

export function toothProfile(spec: ToothSpec): Profile {
  const flank = flankOf(spec);
  const outside = spec.form === "outside" ? rackRoot(spec) : null;
  if (outside) {
    const profile = outsideProfile(spec, flank, outside);
    if (isSound(profile, spec)) return profile;
  }
  const profile = roundedProfile(spec, flank, outside !== null);
  return isSound(profile, spec) ? profile : stubProfile(spec);
}

/** Where the tip ends: asked, cut to the mate's limit, cut where the flanks meet. */
function tipOf(spec: ToothSpec, flank: Flank, from: number) {
  const asked = askedEnds(spec).tip;
  const s = flank.outward;
  let tip = asked;
  // On a ring nothing of the involute is left within the base circle; on a cone none past the far base circle.
  if (s < 0) tip = Math.max(tip, flank.base * (1 + 1e-9));
  else if (spec.form === "conical") tip = Math.min(tip, flank.end);
  const ended = tip;
  if (spec.tipLimit !== null) tip = s > 0 ? Math.min(tip, spec.tipLimit) : Math.max(tip, spec.tipLimit);
  const trimmedFrom = Math.abs(tip - asked) > 1e-6 * spec.module * perMillimetre(spec) ? (ended === tip ? asked : ended) : null;
  const land = (q: number) => flank.half(q) * circleRadius(spec, q) - LEAST_LAND * spec.module * perMillimetre(spec);
  let pointed: number | null = null;
  if (land(tip) < 0 && land(from) > 0) {
    let [solid, air] = [from, tip];
    for (let i = 0; i < 60; i++) {
      const middle = (solid + air) / 2;
      if (land(middle) > 0) solid = middle;
      else air = middle;
    }
    pointed = Math.abs(tip - solid);
    tip = solid;
  }
  return { tip, trimmedFrom, pointed };
}

/** Involute from place to place; points closer where the curve bends more (equal chord sag). */
function involuteStretch(flank: Flank, from: number, to: number, segments: number): Stretch {
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

function outsideProfile(spec: ToothSpec, flank: Flank, rack: RackRoot): Profile {
  const start = flank.placeAt(rack.start);
  const thin = spec.thinning / (2 * spec.pitchRadius);
  const { tip, trimmedFrom, pointed } = tipOf(spec, flank, start);
  const stretches: Stretch[] = [];
  const trochoid = trochoidStretch(spec, rack, thin, tip);
  if (tip > start && trochoid.q.length > 1) trochoid.half[trochoid.half.length - 1] = flank.half(start);
  if (trochoid.q.length > 1) stretches.push(trochoid);
  if (tip > start) stretches.push(involuteStretch(flank, start, tip, Math.max(1, spec.quality.flank)));
  const faults = { trimmedFrom, pointed, isRootRaised: rack.isRaised, isUndercut: rack.isUndercut, isStub: false };
  return { stretches, root: rack.root, tip: tip > start ? tip : (trochoid.q.at(-1) ?? tip), outward: 1, faults, flank };
}

/**
 * The trochoid as a line of tangents: its chords would reach into the gap, where a mate's tip passes close by. Only its two
 * ends lie on the curve itself.
 */
function trochoidStretch(spec: ToothSpec, rack: RackRoot, thin: number, tip: number): Stretch {
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
    const flat = (p: { q: number; half: number }) => [p.q * Math.cos(p.half - thin), p.q * Math.sin(p.half - thin)] as const;
    const [a, b] = [flat(low), flat(high)];
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return { q, half: half - thin, at: flat({ q, half }), along: [(b[0] - a[0]) / size, (b[1] - a[1]) / size] as const };
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

/** Involute, meridian below the base circle, and a parabola into the root circle. */
function roundedProfile(spec: ToothSpec, flank: Flank, isFallback: boolean): Profile {
  const s = flank.outward;
  const per = perMillimetre(spec);
  const gapMiddle = Math.PI / spec.teeth;
  const atPitch = spec.form === "conical" ? spec.pitchAngle : spec.pitchRadius;
  const wanted = askedEnds(spec).root;
  let root = s > 0 ? Math.max(wanted, 0.25 * atPitch) : wanted;
  // Where neighbouring flanks meet above the root circle the gap ends there.
  const gap = (q: number) => gapMiddle * (1 - LEAST_GAP) - flank.half(q);
  const { tip, trimmedFrom, pointed } = tipOf(spec, flank, s > 0 ? Math.max(root, flank.base) : root);
  if (gap(root) < 0 && gap(tip) > 0) {
    let [closed, open] = [root, tip];
    for (let i = 0; i < 60; i++) {
      const middle = (closed + open) / 2;
      if (gap(middle) > 0) open = middle;
      else closed = middle;
    }
    root = open;
  }
  const depth = s * (tip - root);
  const height = Math.min(spec.filletHeight * per, 0.4 * depth);
  const top = root + s * height;
  const onInvolute = s > 0 ? Math.max(top, flank.base) : top;
  const stretches: Stretch[] = [];
  if (height > 1e-9 * depth) stretches.push(parabola(spec, flank, root, top, gapMiddle));
  if (s > 0 && top < flank.base && flank.base < tip) {
    const half = flank.half(flank.base);
    stretches.push({ q: [top, flank.base], half: [half, half], normalQ: [0, 0], normalA: [1, 1] });
  }
  if (s * (tip - onInvolute) > 0) stretches.push(involuteStretch(flank, onInvolute, tip, Math.max(1, spec.quality.flank)));
  const isRootRaised = Math.abs(root - wanted) > 1e-9 * atPitch;
  return {
    stretches,
    root,
    tip,
    outward: s,
    flank,
    faults: { trimmedFrom, pointed, isRootRaised, isUndercut: isFallback, isStub: false },
  };
}

/** A parabola that leaves the root circle and joins the flank at `top`, tangent to both. */
function parabola(spec: ToothSpec, flank: Flank, root: number, top: number, gapMiddle: number): Stretch {
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

/** What stands for a tooth that can't be: straight sides, half a pitch wide at mid height. */
function stubProfile(spec: ToothSpec): Profile {
  const s = spec.form === "ring" ? -1 : 1;
  const per = perMillimetre(spec);
  const atPitch = spec.form === "conical" ? spec.pitchAngle : spec.pitchRadius;
  const height = Math.min(spec.module, 0.6 * spec.pitchRadius) * 0.9;
  const root = atPitch - s * Math.atan(height * per);
  let tip = atPitch + s * Math.atan(height * per);
  if (spec.form !== "conical") tip = atPitch + s * height;
  const low = spec.form === "conical" ? Math.max(root, 0.4 * atPitch) : atPitch - s * height;
  if (spec.form === "conical") tip = Math.min(tip, Math.PI - 0.4 * (Math.PI - atPitch));
  const pitch = Math.PI / spec.teeth;
  const [q, half] = [
    [low, tip],
    [0.62 * pitch, 0.36 * pitch],
  ];
  const dq = (tip - low) * s;
  const da = -0.26 * pitch * circleRadius(spec, atPitch);
  const size = Math.hypot(dq, da);
  return {
    stretches: [{ q, half, normalQ: [(-da * s) / size, (-da * s) / size], normalA: [dq / size, dq / size] }],
    root: low,
    tip,
    outward: s,
    flank: null,
    faults: { trimmedFrom: null, pointed: null, isRootRaised: false, isUndercut: false, isStub: true },
  };
}

/** Places grow steadily from root to tip, and everywhere there is both some tooth and some gap. */
function isSound(profile: Profile, spec: ToothSpec): boolean {
  const gapMiddle = Math.PI / spec.teeth;
  const least = 1e-4 * spec.module * perMillimetre(spec);
  if (profile.stretches.length === 0 || !(profile.root > 0)) return false;
  if (!(profile.outward * (profile.tip - profile.root) > 100 * least)) return false;
  if (spec.form === "conical" && !(profile.tip < Math.PI)) return false;
  // A root past the crown on a gear that isn't internal: its body would lie on the wrong side.
  if (spec.form === "conical" && spec.pitchAngle < Math.PI / 2 && profile.root >= Math.PI / 2) return false;
  let last = profile.root;
  for (const { q, half } of profile.stretches) {
    for (let i = 0; i < q.length; i++) {
      const [place, thick] = [q[i] ?? Number.NaN, half[i] ?? Number.NaN];
      const rise = profile.outward * (place - last);
      if (!(rise >= (i === 0 ? -1e-9 * profile.root : 0)) || !(thick * circleRadius(spec, place) > least)) return false;
      if (!(thick < gapMiddle)) return false;
      last = place;
    }
  }
  return true;
}

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
import { circleRadius, involuteStretch, LEAST_GAP, parabola, type Stretch, trochoidStretch } from "./stretches";

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
  const trimmedFrom =
    Math.abs(tip - asked) > 1e-6 * spec.module * perMillimetre(spec) ? (ended === tip ? asked : ended) : null;
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
  if (s * (tip - onInvolute) > 0)
    stretches.push(involuteStretch(flank, onInvolute, tip, Math.max(1, spec.quality.flank)));
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

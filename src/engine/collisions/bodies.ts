/**
 * The bodies of a drive as they stand at time zero: gears up to the tips of their teeth, with bores and the backs of rings as they
 * are drawn and exported, and the rods of shafts. Turning about their own axes changes nothing of them.
 */
import { hasTeeth } from "../drive/types";
import type { Gear, PlacedGear, Solved } from "../solved";
import { blankOf, endPoint } from "../teeth/blank";
import { outlineOf } from "../teeth/outline";
import { askedEnds } from "../teeth/profile";
import { loneSpec, type Quality, type ToothSpec, toothKey, toothSpec } from "../teeth/spec";
import { DEGREE } from "../vector";
import { type Profile, profileOf, type RadiusPlace, rodProfile } from "./profile";
import { rodsOf } from "./rods";
import type { Turned } from "./turned";

export interface Body extends Turned {
  readonly kind: "gear" | "shaft";
  /** Index of the gear, or of the shaft. */
  readonly index: number;
  /** Index of its shaft. */
  readonly shaft: number;
}

/** Round bodies rather than the many-sided ones of a mesh. */
const ROUND: Quality = { flank: 1, fillet: 2, body: 1e9, trim: true };

/** The half section of a gear up to its tips, z along its shaft from the gear's place on it. */
function sectionOf(spec: ToothSpec, tip: number, root: number): Profile | null {
  const { line } = blankOf(spec, root, 1);
  const points: RadiusPlace[] = [endPoint(spec, tip, 0), endPoint(spec, root, 0), ...line];
  points.push(endPoint(spec, root, 1), endPoint(spec, tip, 1));
  const turn = spec.isFlipped ? -1 : 1;
  // A shell or ring leaves its inside free, and so does a bore.
  const isSolid = !points.some(([r]) => r < 0) && line.some(([r]) => r === 0);
  return profileOf(
    points.map(([r, z]) => [Math.max(0, r), turn * z]),
    isSolid,
  );
}

/** Roots that go beyond the axis (few teeth, long dedenda) end here, as a part of the pitch radius or angle. */
const LEAST_ROOT = 0.05;

/** With tips as the numbers ask: never less than the true one. */
function askedSection(gear: Gear, pitchAngle: number): Profile | null {
  const spec = loneSpec(gear, pitchAngle, ROUND);
  const { tip, root } = askedEnds(spec);
  const pitch = spec.form === "conical" ? spec.pitchAngle : spec.pitchRadius;
  return sectionOf(spec, Math.max(0, tip), Math.max(LEAST_ROOT * pitch, root));
}

/** Sections of gears of one look, mates included. */
const drawn = new Map<string, Profile | null>();
const MOST_DRAWN = 1024;

/** With tips cut back where mates ask for it, as drawn and exported. */
export function trueSection({ drive, index, placement }: Solved, gear: number): Profile | null {
  const spec = toothSpec(drive, index, placement, gear, ROUND);
  // The outline of a smooth body has a step for each side: it needs no outline.
  if (spec.teeth === 0) return askedSection(drive.gears[gear] as Gear, spec.pitchAngle);
  const key = toothKey(spec);
  const had = drawn.get(key);
  if (had !== undefined) return had;
  const { tip, root } = outlineOf({ ...spec, quality: { ...ROUND, body: 8 } });
  const profile = sectionOf(spec, tip, root);
  if (drawn.size > MOST_DRAWN) drawn.clear();
  drawn.set(key, profile);
  return profile;
}

/** Sections of gears alike in every number that they follow from: drives have few looks, and an edit changes few gears. */
const known = new Map<string, Profile | null>();
const MOST_KNOWN = 4096;

function sectionAt(gear: Gear, { pitchAngle }: PlacedGear): Profile | null {
  if (pitchAngle === null) return null;
  const { kind, face, apex, pressureAngle, addendum, clearance, shift, bore, backlash } = gear;
  const size = hasTeeth(gear) ? `${gear.teeth} ${gear.module}` : gear.diameter;
  const key = `${kind} ${size} ${face} ${apex} ${pitchAngle} ${pressureAngle} ${addendum} ${clearance} ${shift} ${bore} ${backlash}`;
  const had = known.get(key);
  if (had !== undefined) return had;
  if (known.size > MOST_KNOWN) known.clear();
  const profile = askedSection(gear, pitchAngle * DEGREE);
  known.set(key, profile);
  return profile;
}

const bodies = new WeakMap<Solved, readonly Body[]>();

/** All bodies that stand somewhere: gears first, then shafts, each in document order. The same answer for the same solution. */
export function bodiesOf(solved: Solved): readonly Body[] {
  const had = bodies.get(solved);
  if (had) return had;
  const { drive, index, placement } = solved;
  const list: Body[] = [];
  drive.gears.forEach((gear, i) => {
    const placed = placement.gears[i];
    const shaft = index.shaftOfGear[i] ?? -1;
    const axis = placement.shafts[shaft]?.axis;
    const profile = placed && axis ? sectionAt(gear, placed) : null;
    if (placed && axis && profile) list.push({ kind: "gear", index: i, shaft, profile, origin: placed.centre, axis });
  });
  for (const rod of rodsOf(solved).rods) {
    const placed = rod && placement.shafts[rod.shaft];
    const profile = rod && rodProfile(rod.low, rod.high, rod.radius);
    if (!rod || !placed || !profile) continue;
    list.push({ kind: "shaft", index: rod.shaft, shaft: rod.shaft, profile, origin: placed.origin, axis: placed.axis });
  }
  bodies.set(solved, list);
  return list;
}

/** The body with its true tips; null where nothing of it is left. */
export function trueBody(solved: Solved, body: Body): Body {
  if (body.kind === "shaft") return body;
  const profile = trueSection(solved, body.index);
  return profile && !isAlike(profile, body.profile) ? { ...body, profile } : body;
}

/** mm: radii that differ by less are the same by rounding. */
const ALIKE = 1e-9;

const isAlike = (a: Profile, b: Profile): boolean =>
  a.radii.length === b.radii.length &&
  a.radii.every(
    (r, i) => Math.abs(r - (b.radii[i] ?? 0)) < ALIKE && Math.abs((a.places[i] ?? 0) - (b.places[i] ?? 0)) < ALIKE,
  );

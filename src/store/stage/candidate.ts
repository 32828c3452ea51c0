/** A stage as it has been chosen so far, made whole: what the command is given, and the drive that would be. */

import { bodiesOf, bodyOf, standIn } from "../../engine/checks/bodies";
import { type Edit, isRefused } from "../../engine/drive/commands/edit";
import { addStage, type StageFields } from "../../engine/drive/commands/stage";
import { DEFAULTS } from "../../engine/drive/defaults";
import { type Gear, type GearKind, hasTeeth } from "../../engine/drive/types";
import type { Finding } from "../../engine/findings";
import type { MeshKind } from "../../engine/mesh-kinds/contract";
import { GEAR_FORMS } from "../../engine/mesh-kinds/gear-forms";
import { fromNumber, type Rational, rational } from "../../engine/motion/rational";
import { solve } from "../../engine/solve";
import type { Solved } from "../../engine/solved";
import { distance } from "../../engine/vector";
import { gearName } from "../../engine/wording";
import { type Side, sideName } from "./sides";

/** What somebody chose by hand; all that is left out is filled in. */
export interface Choice {
  readonly kind: MeshKind;
  /** A gear of the shaft that takes the mate; null for a new one. */
  readonly gear?: string | null;
  /** Teeth, or mm of diameter, of the gear on the shaft and of the new shaft's. */
  readonly sizes?: readonly [number, number];
  /** mm; of new toothed gears. */
  readonly module?: number;
  /** Degrees. */
  readonly shaftAngle?: number;
  /** Degrees. */
  readonly azimuth?: number;
  readonly side?: Side;
  /** mm along the shaft. */
  readonly at?: number;
}

/** The choice made whole, but for where it stands. */
export interface Candidate {
  readonly shaft: number;
  readonly kind: MeshKind;
  /** Gears of the shaft that could take the mate. */
  readonly usable: readonly Gear[];
  readonly gear: Gear | null;
  readonly kinds: readonly [GearKind, GearKind];
  readonly hasTeeth: boolean;
  readonly sizes: readonly [number, number];
  readonly module: number;
  readonly shaftAngle: number;
  /** What the first gear takes up. */
  readonly firstForm: {
    readonly kind: GearKind;
    readonly tipRadius: number;
    readonly face: number;
    readonly module: number;
  };
}

const USUAL_TEETH = [20, 40] as const;
const USUAL_DIAMETERS = [60, 120] as const;
const USUAL_MODULE = 2;
/** Degrees. */
const USUAL_ANGLE = 90;
/** Times the size of the gear inside: a toothed ring of three times would be dug into at 20 teeth and 20 degrees (`interference`). */
const RING_TIMES = 4;
const SMOOTH_RING_TIMES = 2;

const isRing = (kind: GearKind): boolean => GEAR_FORMS[kind].pitchAngle === 180;
export const sizeOf = (gear: Gear): number => (hasTeeth(gear) ? gear.teeth : gear.diameter);

/** Fills in all that was left open. `wanted` is the gear that was selected, if one was. */
export function candidateOf(solved: Solved, shaft: number, choice: Choice, wanted?: string): Candidate {
  const { drive, index } = solved;
  const own = (index.gearsOfShaft[shaft] ?? []).flatMap((g) => drive.gears[g] ?? []);
  const usable = own.filter((gear) => choice.kind.pairs.includes(gear.kind));
  const meshed = new Set(drive.meshes.flatMap((mesh) => mesh.gears));
  const offered = usable.find((gear) => gear.id === wanted) ?? usable.findLast((gear) => !meshed.has(gear.id)) ?? null;
  const gear = choice.gear === undefined ? offered : (usable.find(({ id }) => id === choice.gear) ?? null);

  const [a, b] = choice.kind.pairs;
  const kinds: readonly [GearKind, GearKind] = gear && gear.kind === b ? [b, a] : [a, b];
  const toothed = GEAR_FORMS[a].hasTeeth;
  const like = gear ?? own.findLast((one) => hasTeeth(one)) ?? null;
  const module = gear && hasTeeth(gear) ? gear.module : (choice.module ?? moduleOf(like));
  // A cone that meshes already has its one pitch cone: a further mate has to ask for the same.
  const fixed = gear && GEAR_FORMS[gear.kind].pitchAngle === null ? mateOf(solved, gear) : null;
  const sizes = sizesOf(kinds, toothed, gear, choice.sizes ?? (gear && fixed ? [sizeOf(gear), fixed.size] : undefined));
  const size = toothed ? module : 0;
  return {
    shaft,
    kind: choice.kind,
    usable,
    gear,
    kinds,
    hasTeeth: toothed,
    sizes,
    module,
    shaftAngle: choice.shaftAngle ?? fixed?.shaftAngle ?? USUAL_ANGLE,
    firstForm: {
      kind: kinds[0],
      tipRadius: (sizes[0] * (toothed ? module : 1)) / 2 + size,
      face: (gear ?? own.at(-1))?.face ?? DEFAULTS.face,
      module: size,
    },
  };
}

/** Size of the first mate of a gear, and the angle between the two shafts; null where it meshes with nothing. */
function mateOf({ drive, index }: Solved, gear: Gear): { readonly size: number; readonly shaftAngle?: number } | null {
  const mesh = drive.meshes.find(({ gears }) => gears.includes(gear.id));
  const mate = drive.gears[index.gears.get(mesh?.gears.find((id) => id !== gear.id) ?? "") ?? -1];
  return mesh && mate ? { size: sizeOf(mate), shaftAngle: mesh.shaftAngle } : null;
}

const moduleOf = (gear: Gear | null): number => (gear && hasTeeth(gear) ? gear.module : USUAL_MODULE);

function sizesOf(
  kinds: readonly [GearKind, GearKind],
  toothed: boolean,
  gear: Gear | null,
  chosen: readonly [number, number] | undefined,
): readonly [number, number] {
  const usual = toothed ? USUAL_TEETH : USUAL_DIAMETERS;
  const first = gear ? sizeOf(gear) : (chosen?.[0] ?? usual[0]);
  if (chosen) return [first, chosen[1]];
  const times = toothed ? RING_TIMES : SMOOTH_RING_TIMES;
  if (isRing(kinds[1])) return [first, times * first];
  if (isRing(kinds[0])) return [first, Math.max(1, Math.round(first / times))];
  return [first, gear ? 2 * first : usual[1]];
}

/** Speed of the new shaft over that of the first, its sign left aside. */
export const ratioOf = ({ sizes, hasTeeth: toothed }: Candidate): Rational =>
  toothed
    ? rational(BigInt(sizes[0]), BigInt(sizes[1]))
    : (({ n, d }, over) => rational(n * over.d, d * over.n))(fromNumber(sizes[0]), fromNumber(sizes[1]));

/** On which side of the first gear its apex lies: where it has none yet, further out. */
const apexOf = ({ gear }: Candidate, side: Side): "+" | "-" => gear?.apex ?? (side === 1 ? "+" : "-");

/**
 * The ends of the shaft that a new one at an angle leans to: `back` at less than a right angle, which is the way that the first gear's
 * outward axis points, away from its apex (format, shaft angle), and `on` at more.
 */
export function leanEnds(
  solved: Solved,
  candidate: Candidate,
  side: Side,
): { readonly back: string; readonly on: string } {
  const outward: Side = apexOf(candidate, side) === "-" ? 1 : -1;
  return {
    back: sideName(solved, candidate.shaft, outward),
    on: sideName(solved, candidate.shaft, outward === 1 ? -1 : 1),
  };
}

export interface Standing {
  readonly azimuth: number;
  readonly side: Side;
  /** mm; not used where a gear that is there takes the mate. */
  readonly at: number;
}

/** What the command is given. */
export function fieldsOf(solved: Solved, candidate: Candidate, { azimuth, side, at }: Standing): StageFields {
  const { kind, gear, sizes } = candidate;
  return {
    shaft: solved.drive.shafts[candidate.shaft]?.id ?? "",
    kind: kind.id,
    azimuth,
    ...(gear ? { gear: gear.id } : { at }),
    ...(candidate.hasTeeth ? { teeth: sizes, module: candidate.module } : { diameters: sizes }),
    // The new shaft points away from the apex, and a new first gear has its apex further out.
    ...(kind.needsShaftAngle
      ? { shaftAngle: candidate.shaftAngle, apexes: [apexOf(candidate, side), "-"] as const }
      : {}),
  };
}

export interface Tried {
  /** The drive that would be; null where the command refused. */
  readonly solved: Solved | null;
  /** Why it can't stand there, one sentence; null where it can. */
  readonly blocked: string | null;
}

const keyOf = (finding: Finding): string => JSON.stringify([finding.code, finding.at]);

/** Builds and solves the drive that would be, and says what speaks against it: a new error, or a gear in the way. */
export function tryEdit(solved: Solved, edit: Edit): Tried {
  const result = edit(solved.drive);
  if (isRefused(result)) return { solved: null, blocked: result.refused };
  const next = solve(result, solved);
  const known = new Set(solved.findings.filter(({ severity }) => severity === "error").map(keyOf));
  const error = next.findings.find((finding) => finding.severity === "error" && !known.has(keyOf(finding)));
  return { solved: next, blocked: error?.message ?? inTheWay(solved, next) };
}

export const tryStage = (solved: Solved, fields: StageFields): Tried => tryEdit(solved, addStage(fields));

/** Whether a gear is new or other than before, or stands elsewhere. */
export function isOther(before: Solved, next: Solved, gear: number): boolean {
  const [was, now] = [before.placement.gears[gear], next.placement.gears[gear]];
  if (before.drive.gears[gear] !== next.drive.gears[gear]) return true;
  return Boolean(was && now && (distance(was.centre, now.centre) > 1e-6 || distance(was.outward, now.outward) > 1e-9));
}

/** The sentence about a gear on another shaft in which one that is new or moved would stand; null for none. */
function inTheWay(before: Solved, next: Solved): string | null {
  const { drive, index } = next;
  const mates = new Set(drive.meshes.flatMap(({ gears }) => [gears.join(" "), [...gears].reverse().join(" ")]));
  const others = drive.gears.map((_, gear) => isOther(before, next, gear));
  for (let g = drive.gears.length - 1; g >= 0; g--) {
    const body = others[g] ? bodyOf(next, g) : null;
    const own = drive.gears[g];
    if (!body || !own) continue;
    for (const other of bodiesOf(next)) {
      const gear = drive.gears[other.gear];
      // Of two that both moved one look is enough.
      if (!gear || other.shaft === body.shaft || (others[other.gear] && other.gear > g)) continue;
      if (mates.has(`${own.id} ${gear.id}`) || !standIn(body, other)) continue;
      const shaft = index.shaftOfGear[other.gear] ?? -1;
      return `Gear ${own.id} would stand in ${gearName(drive, gear, shaft)}.`;
    }
  }
  return null;
}

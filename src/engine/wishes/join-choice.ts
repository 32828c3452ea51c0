/** One pair that joins two placed shafts: its two new gears, tried out, with its teeth in the gaps. */

import { approximations } from "../design/approximations";
import { type Edit, isRefused } from "../drive/commands/edit";
import { newGear } from "../drive/commands/gear";
import { freshMeshId } from "../drive/commands/ids";
import { makeMesh } from "../drive/defaults";
import type { GearKind, ToothedGear } from "../drive/types";
import { crankMode } from "../motion/crank";
import { divide, equals, fromNumber, isZero, negate, type Rational, rational, toNumber } from "../motion/rational";
import { indexDrive } from "../placement/index-drive";
import { place } from "../placement/place";
import type { Drive, Gear, Solved } from "../solved";
import { phaseMesh, phaseMiss, restPhases } from "../teeth/phases";
import { distance } from "../vector";
import { quantity, shaftName, toothSizeWords } from "../wording";
import { type Change, tryOut } from "./change";
import { tidyDegrees } from "./parts";
import { turnsNow } from "./told";

export interface JoinMove {
  /** mm and degrees: one of the two is 0. */
  readonly millimetres: number;
  readonly degrees: number;
  /** "Move C by 3.5 mm …" */
  readonly words: string;
  /** Makes the move, where the shaft stands by itself; null where a mesh places it. */
  readonly edit: Edit | null;
}

/** Where two axes stand to one another. */
export type Standing = "one-line" | "parallel" | "crossing" | "skew";

export interface Wanted {
  /** Speed of the second over the first, above 0; null for any. */
  readonly ratio: Rational | null;
  /** True where the drive joins the two already: any other ratio would jam. */
  readonly isFixed: boolean;
}

export interface JoinChoice {
  readonly kind: string;
  /** Teeth on the first shaft and on the second. */
  readonly teeth: readonly [number, number];
  /** mm. */
  readonly module: number;
  /** Degrees between the outward axes; null on parallel shafts. */
  readonly shaftAngle: number | null;
  /** mm along the two shafts. */
  readonly at: readonly [number, number];
  readonly apex: readonly ["+" | "-", "+" | "-"];
  readonly change: Change;
}

/** A pair to be tried: what its two gears are. */
export interface PairFields {
  readonly kinds: readonly [GearKind, GearKind];
  readonly teeth: readonly [number, number];
  readonly module: number;
  readonly shaftAngle?: number;
  readonly at: readonly [number, number];
  readonly apex?: readonly ["+" | "-", "+" | "-"];
  readonly face: number;
  readonly title: string;
}

/**
 * Speed of b over that of a, where the drive ties the two to one another already; null where they can turn each by itself. Signed
 * about the two positive axes.
 */
export function knownRatio(solved: Solved, a: number, b: number): Rational | null {
  const [speedA, speedB] = [solved.motion.speeds[a] ?? null, solved.motion.speeds[b] ?? null];
  if (speedA && speedB && (!isZero(speedA) || !isZero(speedB))) {
    // Two inputs that each turn may still be joined by chance only: the speeds tell all the same what must be kept.
    return isZero(speedA) ? rational(0n) : divide(speedB, speedA);
  }
  const mode = crankMode(solved, a);
  const by = mode?.[b] ?? 0;
  if (Math.abs(by) < 1e-12) return null;
  const near = approximations(fromNumber(Number(Math.abs(by).toPrecision(12))), 1_000_000).at(-1);
  if (!near || Math.abs(toNumber(near) / Math.abs(by) - 1) > 1e-9) return null;
  return by < 0 ? negate(near) : near;
}

/** Adds both gears and their mesh; the second is keyed on its shaft so that its teeth stand in the gaps. */
export const joinedBy =
  (shafts: readonly [string, string], fields: PairFields): Edit =>
  (drive) => {
    let next: Drive = drive;
    const made: Gear[] = [];
    for (const side of [0, 1] as const) {
      const gear = newGear(next, shafts[side], {
        kind: fields.kinds[side] as ToothedGear["kind"],
        teeth: fields.teeth[side],
        module: fields.module,
        at: fields.at[side],
        face: fields.face,
        ...(fields.apex ? { apex: fields.apex[side] } : {}),
      });
      if (isRefused(gear)) return gear;
      made.push(gear);
      next = { ...next, gears: [...next.gears, gear] };
    }
    const [first, second] = made as [Gear, Gear];
    const mesh = makeMesh({ id: freshMeshId(next), gears: [first.id, second.id], shaftAngle: fields.shaftAngle });
    next = { ...next, meshes: [...next.meshes, mesh] };
    return keyed(next, second.id);
  };

/** The last mesh's second gear turned on its shaft until its teeth stand in the gaps of the first. */
function keyed(drive: Drive, gear: string): Drive {
  const index = indexDrive(drive);
  const placement = place(drive, index);
  const at = drive.meshes.length - 1;
  const mesh = phaseMesh(drive, index, placement, at);
  const on = index.shaftsOfMesh[at];
  if (!mesh || !on) return drive;
  const rest = restPhases(drive, index, placement);
  const turns = on.map((shaft) => (rest[shaft] ?? 0) / (2 * Math.PI)) as [number, number];
  const miss = phaseMiss(mesh, turns);
  if (Math.abs(miss) < 1e-9) return drive;
  const phase = tidyDegrees(-(miss / (mesh.signs[1] * mesh.teeth[1])) * 360);
  return { ...drive, gears: drive.gears.map((one) => (one.id === gear ? ({ ...one, phase } as Gear) : one)) };
}

/** mm: a shaft that a new mesh leaves where it is. */
const STAYS = 1e-6;

/** Tries a pair out: every shaft stays, the loop closes, and nothing stands in its way. Null where that isn't so. */
export function tried(solved: Solved, a: number, b: number, fields: PairFields, wanted: Wanted): JoinChoice | null {
  const { drive } = solved;
  const shafts = [drive.shafts[a]?.id ?? "", drive.shafts[b]?.id ?? ""] as const;
  const edit = joinedBy(shafts, fields);
  const [n1, n2] = fields.teeth;
  const ratio = rational(BigInt(n1), BigInt(n2));
  if (wanted.isFixed && wanted.ratio && !equals(wanted.ratio, ratio)) return null;
  const change = tryOut(
    solved,
    { means: "counts", title: fields.title, edit },
    {
      shaft: b,
      isMet: (after) => {
        const placed = after.placement.meshes.at(-1);
        const stays = solved.placement.shafts.every((was, i) => {
          const now = after.placement.shafts[i];
          return !was || (now && distance(was.origin, now.origin) < STAYS && distance(was.axis, now.axis) < STAYS);
        });
        return stays && placed?.closesLoop === true && placed.holds && after.motion.rows.at(-1) !== null;
      },
      tell: (after) => tell(after, a, b, fields),
    },
  );
  if (
    !change ||
    change.solved.findings.some(
      ({ code, at }) => code === "loop-misfit" && at.includes(change.solved.drive.meshes.at(-1)?.id ?? ""),
    )
  ) {
    return null;
  }
  return {
    kind: change.solved.placement.meshes.at(-1)?.kind.id ?? "",
    teeth: fields.teeth,
    module: fields.module,
    shaftAngle: fields.shaftAngle ?? null,
    at: fields.at,
    apex: fields.apex ?? ["+", "+"],
    change,
  };
}

function tell(after: Solved, a: number, b: number, { teeth, module, at }: PairFields): string {
  const [nameA, nameB] = [shaftName(after.drive, a), shaftName(after.drive, b)];
  return `${nameA} gets ${teeth[0]} teeth at ${quantity(at[0], "mm")} and ${nameB} ${teeth[1]} teeth at ${quantity(at[1], "mm")}, ${toothSizeWords(module)}; ${turnsNow(after, b, nameB)}.`;
}

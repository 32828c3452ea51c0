/**
 * What a choice at a `+` comes to: the edit, the drive that would be, where it stands, and what speaks against it. The free place
 * nearest to the one that was asked for is taken, in steps of 15 degrees.
 */
import { type Edit, inTurn, isRefused } from "../../engine/drive/commands/edit";
import { setGear } from "../../engine/drive/commands/gear";
import { setPort } from "../../engine/drive/commands/port";
import { addStage } from "../../engine/drive/commands/stage";
import { type Gear, hasTeeth } from "../../engine/drive/types";
import { azimuthOf, clockFace, directionAt, placeWords } from "../../engine/explain/lies";
import type { MeshKind } from "../../engine/mesh-kinds/contract";
import { solve } from "../../engine/solve";
import type { PlacedShaft, Solved } from "../../engine/solved";
import { FILE_UNITS, type UnitChoice } from "../../engine/units/choice";
import { dot, unit } from "../../engine/vector";
import { shaftName } from "../../engine/wording";
import type { GrowSettings, GrowSpot } from "../growing";
import { freePlace } from "./along";
import { type Candidate, candidateOf, fieldsOf, type Tried } from "./candidate";
import { growOptions } from "./grow-options";
import { gearGrowth, idlerGrowth, portGrowth } from "./growth-others";
import { type Base, capital, type Growth, NO_VALUES, refused, tryOnce } from "./growth-parts";
import { type Side, sidesOf } from "./sides";
import { sizesTyped, sizeText } from "./typed-sizes";
import { stageTurns, turningWords, wayWords } from "./words";

/** Degrees between the places that are tried round a shaft. */
export const AZIMUTH_STEP = 15;
const STEPS = 360 / AZIMUTH_STEP;
/** Every sixth step is an hour that the eye expects: above, right, below, left. */
const QUARTER = STEPS / 4;
/** Where a new shaft is best seen from the first eye: above first, then to the right, in front, behind, below. */
const BEST_SEEN = unit([0.6, -0.3, 1]);

/** What the choice comes to at a place; null where the place is gone. */
export function growthOf(
  solved: Solved,
  spot: GrowSpot,
  option: string | null,
  settings: GrowSettings,
  units: UnitChoice = FILE_UNITS,
): Growth | null {
  const shaft = solved.index.shafts.get(spot.shaft) ?? -1;
  const options = growOptions(solved, spot);
  const chosen = options.find(({ id }) => id === option) ?? options[0];
  const placed = solved.placement.shafts[shaft];
  if (!chosen || !placed) return null;
  const base = {
    option: chosen,
    units,
    shaft,
    read: null,
    blocked: null,
    place: null,
    candidate: null,
    side: spot.side ?? sidesOf(solved, shaft)[0],
  } as const;
  if (chosen.what === "port") return portGrowth(solved, base, settings);
  if (chosen.what === "idler") return idlerGrowth(solved, base, spot, settings);
  if (chosen.what === "gear") return gearGrowth(solved, base, spot, settings);
  return chosen.kind ? stageGrowth({ solved, spot, settings, kind: chosen.kind, placed }, base) : null;
}

interface Wanted {
  readonly solved: Solved;
  readonly spot: GrowSpot;
  readonly settings: GrowSettings;
  readonly kind: MeshKind;
  readonly placed: PlacedShaft;
}

/** Numbers of a gear without a mate are still open: module and face of the pair, and its own size, go to it as well. */
function openGear(solved: Solved, own: Gear | null, settings: GrowSettings, size: number | null): Edit | null {
  if (!own || solved.drive.meshes.some(({ gears }) => gears.includes(own.id))) return null;
  const patch = {
    ...(settings.face === undefined || settings.face === own.face ? {} : { face: settings.face }),
    ...(hasTeeth(own) && settings.module !== undefined ? { module: settings.module } : {}),
    ...(size === null ? {} : hasTeeth(own) ? { teeth: size } : { diameter: size }),
  };
  return Object.keys(patch).length > 0 ? setGear(own.id, patch, { mates: "none" }) : null;
}

function stageGrowth({ solved, spot, settings, kind, placed }: Wanted, base: Base): Growth {
  const { shaft } = base;
  const own = spot.gear === undefined ? null : (solved.drive.gears[solved.index.gears.get(spot.gear) ?? -1] ?? null);
  const gear = own && kind.pairs.includes(own.kind) ? own : null;
  const choice = { kind, gear: gear?.id ?? null, module: settings.module, shaftAngle: settings.shaftAngle };
  const isFixed = gear !== null && solved.drive.meshes.some(({ gears }) => gears.includes(gear.id));
  const text = settings.sizes?.trim() ?? "";
  const first = candidateOf(solved, shaft, choice, gear?.id);
  const read = text === "" ? null : sizesTyped(text, first, isFixed, base.units);
  const sizes = read?.ok ? read.sizes : undefined;
  const patch = openGear(solved, gear, settings, sizes && gear && sizes[0] !== first.sizes[0] ? sizes[0] : null);
  const patched = patch ? patch(solved.drive) : solved.drive;
  if (isRefused(patched))
    return refused({ ...base, candidate: first }, patched.refused, stageFields(first, settings, 0, base.units));
  const start = patched === solved.drive ? solved : solve(patched, solved);
  const candidate = candidateOf(start, shaft, { ...choice, sizes }, gear?.id);

  const order = spot.side === undefined ? sidesOf(start, shaft) : [spot.side];
  const face = clockFace(solved, shaft, placed);
  let found: { readonly tried: Tried; readonly azimuth: number; readonly edit: Edit } | null = null;
  let why: string | null = null;
  let side: Side = order[0] ?? 1;
  for (const one of settings.at === undefined && !gear ? order : order.slice(0, 1)) {
    const at = settings.at ?? freePlace(start, shaft, one, candidate.firstForm);
    for (const azimuth of azimuths(solved, shaft, placed, settings.azimuth)) {
      const edit = inTurn(
        ...(patch ? [patch] : []),
        addStage({
          ...fieldsOf(start, candidate, { azimuth, side: one, at }),
          ...(settings.face === undefined ? {} : { face: settings.face }),
          ...(settings.efficiency === undefined ? {} : { efficiency: settings.efficiency }),
        }),
        loadAtLast(settings.load),
      );
      const tried = tryOnce(solved, edit, JSON.stringify([spot, kind.id, { ...settings, azimuth: 0 }, azimuth, at]));
      why ??= tried.blocked;
      if (tried.blocked !== null) continue;
      found = { tried, azimuth, edit };
      break;
    }
    side = one;
    if (found) break;
  }
  const at = settings.at ?? freePlace(start, shaft, side, candidate.firstForm);
  const rest = { ...stageFields(candidate, settings, at, base.units), read: read?.words ? read : null };
  const whole: Base = { ...base, candidate, side };
  const next = found?.tried.solved;
  if (!found || !next) return refused(whole, why ?? "It can stand nowhere round this shaft.", rest);
  const added = next.drive.shafts.length - 1;
  const values = { ...rest.values, face: next.drive.gears.at(-1)?.face ?? rest.values.face };
  const place = {
    azimuth: found.azimuth,
    words: placeWords(directionAt(placed, found.azimuth)),
    seenFrom: face.endName,
    clockwise: clockwiseAt(solved, shaft, placed, found.azimuth),
  };
  const isBad = read?.ok === false;
  return {
    ...whole,
    ...rest,
    values,
    edit: isBad ? null : found.edit,
    next: isBad ? null : next,
    words: isBad ? [] : stageWords(solved, next, whole, candidate, added),
    // Where it was asked for it can't stand; that it moved on is told, and the reason.
    blocked: isBad ? read.words : settings.azimuth === undefined ? null : why,
    place,
  };
}

function stageWords(solved: Solved, next: Solved, { units }: Base, candidate: Candidate, added: number): string[] {
  const name = shaftName(next.drive, added);
  const way = wayWords(next, candidate.shaft, added);
  const turns = stageTurns(solved, candidate, name, units);
  return [way ? `${name} ${way}: ${turns}.` : `${turns}.`, `${capital(turningWords(next, added, units))}.`];
}

function stageFields(
  candidate: Candidate,
  settings: GrowSettings,
  at: number,
  units: UnitChoice,
): Pick<Growth, "fields" | "values"> {
  const { gear, hasTeeth: toothed, kind, sizes } = candidate;
  const shown = sizes.map((size) => sizeText(size, toothed, units));
  return {
    fields: [
      "sizes",
      "face",
      ...(toothed ? (["module"] as const) : []),
      ...(gear ? [] : (["at"] as const)),
      "efficiency",
      "load",
      ...(kind.needsShaftAngle ? (["shaftAngle"] as const) : []),
    ],
    values: {
      ...NO_VALUES,
      sizes: settings.sizes ?? (gear ? (shown[1] ?? "") : shown.join(":")),
      face: settings.face ?? candidate.firstForm.face,
      module: toothed ? candidate.module : null,
      at,
      shaftAngle: kind.needsShaftAngle ? candidate.shaftAngle : null,
      load: settings.load ?? null,
    },
  };
}

const loadAtLast =
  (torque: number | undefined): Edit =>
  (drive) =>
    torque === undefined ? drive : setPort(drive.shafts.at(-1)?.id ?? "", { role: "output", torque })(drive);

/** Azimuths in the order in which they are tried: nearest to the one asked for, else the best seen quarter first. */
function azimuths(solved: Solved, shaft: number, placed: PlacedShaft, wanted: number | undefined): number[] {
  const face = clockFace(solved, shaft, placed);
  const all = Array.from({ length: STEPS }, (_, k) => ({
    azimuth: azimuthOf(face, placed, k * AZIMUTH_STEP),
    isQuarter: k % QUARTER === 0,
  }));
  const seen = (azimuth: number): number => dot(directionAt(placed, azimuth), BEST_SEEN);
  const rank = ({ azimuth, isQuarter }: (typeof all)[number]): number =>
    wanted === undefined ? -seen(azimuth) - (isQuarter ? 10 : 0) : apart(azimuth, wanted);
  return all.sort((a, b) => rank(a) - rank(b)).map(({ azimuth }) => azimuth);
}

const apart = (a: number, b: number): number => Math.abs(((((a - b) % 360) + 540) % 360) - 180);

function clockwiseAt(solved: Solved, shaft: number, placed: PlacedShaft, azimuth: number): number {
  const face = clockFace(solved, shaft, placed);
  for (let k = 0; k < STEPS; k++) {
    if (apart(azimuthOf(face, placed, k * AZIMUTH_STEP), azimuth) < AZIMUTH_STEP / 2) return k * AZIMUTH_STEP;
  }
  return 0;
}

/** The azimuth of the next free place clockwise (1) or counterclockwise (-1); the same where there is no other. */
export function swung(
  solved: Solved,
  spot: GrowSpot,
  option: string | null,
  settings: GrowSettings,
  by: 1 | -1,
): number {
  const now = growthOf(solved, spot, option, { ...settings });
  const placed = solved.placement.shafts[now?.shaft ?? -1];
  if (!now?.place || !placed) return settings.azimuth ?? 0;
  const face = clockFace(solved, now.shaft, placed);
  for (let k = 1; k < STEPS; k++) {
    const azimuth = azimuthOf(face, placed, now.place.clockwise + by * k * AZIMUTH_STEP);
    const there = growthOf(solved, spot, option, { ...settings, azimuth });
    if (there?.place && apart(there.place.azimuth, azimuth) < 1) return azimuth;
  }
  return now.place.azimuth;
}

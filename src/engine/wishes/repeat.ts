/**
 * Repeat round the carrier: N equal planets at equal spacings, where they can be assembled: (sun + ring) / N whole for plain planets,
 * and in general wherever the phases of all loops of teeth close. Says too which N would touch one another.
 */
import { type Edit, missing } from "../drive/commands/edit";
import { freshGearId, freshMeshId, freshShaftId } from "../drive/commands/ids";
import { makeGear, makeMesh, makeShaft } from "../drive/defaults";
import { hasTeeth } from "../drive/types";
import { gearSets } from "../explain/gear-sets";
import type { Drive, Gear, Mesh, Shaft, Solved } from "../solved";
import { loopPhases } from "../teeth/loop-phases";
import { parentOf, restPhases } from "../teeth/phases";
import { FITS_MODULE } from "../tolerances";
import { distance } from "../vector";
import { figures, listNames, quantity, shaftName } from "../wording";
import { type Asked, type Change, outcome, tryOut } from "./change";
import { tidyDegrees } from "./parts";
import { assemblyQuotient, plainSet } from "./planet-counts";
import { type PlanetGap, planetGap } from "./planet-gap";

export interface RepeatChoice extends PlanetGap {
  readonly count: number;
  /** Whether so many stand there already, equally spaced. */
  readonly isThere: boolean;
  /** What it does; null where it can't be. */
  readonly change: Change | null;
  /** Why not: it can't be assembled, or neighbours would touch. Null where it can be. */
  readonly why: string | null;
  /** Pitches by which the worst mesh misses, 0 where it assembles. */
  readonly miss: number;
}

export type RepeatAnswer =
  | {
      readonly choices: readonly RepeatChoice[];
      /** "2, 3 and 4 planets can be; …": one or two sentences. */
      readonly summary: string;
    }
  | { readonly cannot: string };

const MOST_PLANETS = 12;
/** Pitches: what is allowed to positions, as a part of π m. */
const FITS = FITS_MODULE / Math.PI;

/** A planet with the meshes by which it stands: the one that placed it, and those with shafts on the same line. */
interface Planet {
  readonly shaft: string;
  readonly gears: readonly Gear[];
  readonly meshes: readonly Mesh[];
  readonly azimuth: number;
}

/** A planet like the pattern: what placed it, and degrees by which it stands further round. */
interface Equal {
  readonly id: string;
  readonly placedBy: string;
  readonly round: number;
}

/** The planet as a pattern, and its equals that stand round the same sun. */
function patternOf(
  solved: Solved,
  shaft: number,
): { readonly planet: Planet; readonly equals: readonly Equal[] } | null {
  const { drive, index, placement } = solved;
  const link = parentOf(drive, index, placement, shaft);
  const data = drive.shafts[shaft];
  if (!link || !data || data.frame === undefined) return null;
  const gears = (index.gearsOfShaft[shaft] ?? []).flatMap((gear) => drive.gears[gear] ?? []);
  const own = new Set(gears.map(({ id }) => id));
  const meshes = drive.meshes.filter((mesh) => mesh.gears.some((gear) => own.has(gear)));
  const placing = drive.meshes[link.mesh];
  if (!placing) return null;
  const planet = { shaft: data.id, gears, meshes, azimuth: placing.azimuth };
  const signature = (at: number): string =>
    JSON.stringify(
      (index.gearsOfShaft[at] ?? []).map((gear) => {
        const { kind, at: place, ...one } = drive.gears[gear] as Gear;
        return [kind, place, hasTeeth({ kind, at: place, ...one } as Gear) ? (one as { teeth: number }).teeth : 0];
      }),
    );
  const equals = drive.shafts.flatMap(({ id, frame }, at) => {
    const up = at === shaft || frame !== data.frame ? null : parentOf(drive, index, placement, at);
    const placedBy = up && drive.meshes[up.mesh];
    if (!placedBy || up.shaft !== link.shaft || signature(at) !== signature(shaft)) return [];
    return [{ id, placedBy: placedBy.id, round: tidyDegrees(placedBy.azimuth - placing.azimuth) }];
  });
  return { planet, equals: equals.sort((a, b) => a.round - b.round) };
}

/** Puts `count` equal planets round the sun, the first where it stands; equals that stand there already move, or go. */
export function repeated(solved: Solved, shaft: string, count: number): Edit {
  return (drive: Drive) => {
    const pattern = patternOf(solved, solved.index.shafts.get(shaft) ?? -1);
    const original = drive.shafts.find(({ id }) => id === shaft);
    if (!pattern || !original) return missing("planet", shaft);
    const { planet, equals } = pattern;
    const azimuthOf = (i: number): number => tidyDegrees(planet.azimuth + (360 * i) / count);
    const gone = new Set(equals.slice(count - 1).map(({ id }) => id));
    const goneGears = new Set(drive.gears.filter((gear) => gone.has(gear.shaft)).map(({ id }) => id));
    const moved = new Map(equals.slice(0, count - 1).map(({ placedBy }, i) => [placedBy, azimuthOf(i + 1)]));
    const isStill = drive.meshes.every(({ id, azimuth }) => {
      const to = moved.get(id);
      return to === undefined || Math.abs(to - tidyDegrees(azimuth)) < 1e-9;
    });
    if (isStill && equals.length === count - 1) return drive;
    let next: Drive = {
      ...drive,
      shafts: drive.shafts.filter(({ id }) => !gone.has(id)),
      gears: drive.gears.filter(({ id }) => !goneGears.has(id)),
      meshes: drive.meshes
        .filter(({ gears }) => !gears.some((id) => goneGears.has(id)))
        .map((mesh) => (moved.has(mesh.id) ? makeMesh({ ...mesh, azimuth: moved.get(mesh.id) ?? 0 }) : mesh)),
      ports: drive.ports.filter((port) => !gone.has(port.shaft)),
    };
    for (let i = equals.length + 1; i < count; i++) next = withCopy(next, original, planet, (360 * i) / count);
    return next;
  };
}

/** One more planet, turned round the sun by so many degrees. */
function withCopy(drive: Drive, original: Shaft, planet: Planet, by: number): Drive {
  const id = freshShaftId(drive);
  const copy = makeShaft({ ...original, id, name: nameFor(drive, original.name || original.id) });
  let next: Drive = { ...drive, shafts: [...drive.shafts, copy] };
  const ids = new Map<string, string>();
  for (const gear of planet.gears) {
    const fresh = freshGearId(next, id);
    ids.set(gear.id, fresh);
    next = { ...next, gears: [...next.gears, makeGear({ ...gear, id: fresh, shaft: id })] };
  }
  for (const mesh of planet.meshes) {
    const gears = mesh.gears.map((gear) => ids.get(gear) ?? gear) as [string, string];
    const azimuth = tidyDegrees(mesh.azimuth + by);
    next = { ...next, meshes: [...next.meshes, makeMesh({ ...mesh, id: freshMeshId(next), gears, azimuth })] };
  }
  return next;
}

/** "Planet 2" after "Planet" or "Planet 1". */
function nameFor(drive: Drive, name: string): string {
  const stem = name.replace(/\s*\d+$/, "");
  const taken = new Set(drive.shafts.map((shaft) => shaft.name));
  for (let i = 2; ; i++) if (!taken.has(`${stem} ${i}`)) return `${stem} ${i}`;
}

/** How far the teeth of the worst loop through shafts of one carrier miss, in pitches; a sun or ring that may be turned to fit fits. */
function worstMiss(after: Solved, carrier: string | undefined): number {
  const { drive, index, placement } = after;
  const loops = loopPhases(drive, index, placement, restPhases(drive, index, placement));
  const isCarried = (mesh: number): boolean =>
    (index.shaftsOfMesh[mesh] ?? []).some((shaft) => drive.shafts[shaft]?.frame === carrier);
  const misses = loops.filter(({ mesh, isJoin, fitsElsewhere }) => !isJoin && !fitsElsewhere && isCarried(mesh));
  return Math.max(0, ...misses.map(({ miss }) => Math.abs(miss)));
}

/** For each number of planets from 2 to 12 whether it can be; or why nothing can be repeated here. */
export function repeatChoices(solved: Solved, shaftId: string): RepeatAnswer {
  const shaft = solved.index.shafts.get(shaftId) ?? -1;
  const name = shaft < 0 ? shaftId : shaftName(solved.drive, shaft);
  const pattern = patternOf(solved, shaft);
  if (!pattern) {
    return {
      cannot: `${name} is no planet: only a shaft that a carrier carries, placed by a mesh with a gear on the carrier's line, can be repeated round it.`,
    };
  }
  const choices: RepeatChoice[] = [];
  for (let count = 2; count <= MOST_PLANETS; count++) {
    const choice = choiceOf(solved, shaft, pattern.equals.length + 1, count);
    choices.push(choice);
    // Once neighbours touch, more of them touch as well.
    if (choice.touches) break;
  }
  return { choices, summary: summaryOf(choices) };
}

function choiceOf(solved: Solved, shaft: number, now: number, count: number): RepeatChoice {
  const id = solved.drive.shafts[shaft]?.id ?? "";
  const edit = repeated(solved, id, count);
  const after = outcome(solved.drive, edit);
  if (!after) {
    const why = `${count} equal planets stand there already.`;
    return { count, isThere: true, change: null, why, miss: 0, touches: false, gap: null };
  }
  const copies = after.drive.shafts.filter(({ frame }) => frame === solved.drive.shafts[shaft]?.frame);
  const second = neighbourOf(
    after,
    id,
    copies.map((copy) => copy.id),
  );
  const room = second === null ? { touches: false, gap: null } : planetGap(after, id, second);
  const { touches, gap } = room;
  const miss = worstMiss(after, solved.drive.shafts[shaft]?.frame);
  if (touches) {
    const overlap = gap !== null && gap < 0 ? `: their tips overlap by ${quantity(-gap, "mm", 3)}` : "";
    return {
      count,
      isThere: false,
      change: null,
      why: `${count} planets would touch one another${overlap}.`,
      miss,
      ...room,
    };
  }
  if (miss > FITS) {
    return {
      count,
      isThere: false,
      change: null,
      why: `${count} planets can't be assembled: ${ruleWords(solved, shaft, count) ?? `their teeth miss the gaps by ${figures(miss, 3)} of a pitch`}.`,
      miss,
      ...room,
    };
  }
  const asked: Asked = {
    shaft,
    isMet: () => true,
    tell: () =>
      `${count} equal planets stand ${quantity(360 / count, "°", 6)} apart in place of ${now}; ${gap === null ? "" : `between their tips ${quantity(gap, "mm", 3)} stay free, and `}their number changes no speed.`,
  };
  const change = tryOut(solved, { means: "planets", title: `${count} planets round the carrier`, edit }, asked);
  return change
    ? { count, isThere: false, change, why: null, miss, ...room }
    : {
        count,
        isThere: false,
        change: null,
        why: `${count} planets would bring an error, or stand in other gears.`,
        miss,
        ...room,
      };
}

/** The copy nearest to the first. */
function neighbourOf(after: Solved, first: string, ids: readonly string[]): string | null {
  const origin = (id: string) => after.placement.shafts[after.index.shafts.get(id) ?? -1]?.origin;
  const own = origin(first);
  const others = ids.filter((id) => id !== first && origin(id));
  if (!own || others.length === 0) return null;
  const apart = (id: string): number => {
    const gear = (shaft: string) =>
      after.placement.gears[after.index.gearsOfShaft[after.index.shafts.get(shaft) ?? -1]?.[0] ?? -1];
    const [a, b] = [gear(first), gear(id)];
    return a && b ? distance(a.centre, b.centre) : Number.POSITIVE_INFINITY;
  };
  return others.sort((a, b) => apart(a) - apart(b))[0] ?? null;
}

/** "(24 + 60)/5 is not a whole number"; null where the set is not of that plain kind. */
function ruleWords(solved: Solved, shaft: number, count: number): string | null {
  const set = gearSets(solved).find(({ planets }) => planets.includes(shaft));
  const plain = set && plainSet(solved, set);
  if (!plain) return null;
  const [sun, ring] = [plain.sunGear.teeth, plain.ringGear.teeth];
  return assemblyQuotient(sun, ring, count).d === 1n ? null : `(${sun} + ${ring})/${count} is not a whole number`;
}

function summaryOf(choices: readonly RepeatChoice[]): string {
  const can = choices.filter(({ change, isThere }) => change || isThere).map(({ count }) => String(count));
  const not = choices
    .filter(({ change, touches, isThere }) => !change && !isThere && !touches)
    .map(({ count }) => String(count));
  const touch = choices.find(({ touches }) => touches);
  return [
    can.length > 0 ? `${listNames(can)} planets can be.` : "No number of planets can be.",
    ...(not.length > 0 ? [`${listNames(not)} can't.`] : []),
    ...(touch ? [`From ${touch.count} on neighbours would touch.`] : []),
  ].join(" ");
}

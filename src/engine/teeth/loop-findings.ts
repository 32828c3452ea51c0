/** Loops whose teeth don't meet, in sentences: by how much, and what the nearest cures are. */
import type { Drive, Mesh } from "../drive/types";
import { hasTeeth } from "../drive/types";
import type { Finding } from "../findings";
import { toNumber } from "../motion/rational";
import type { DriveIndex, PlacedShaft, Placement } from "../solved";
import { FITS_MODULE, MISFIT_MODULE, ON_AXIS } from "../tolerances";
import { cross, dot, length, square, sub } from "../vector";
import { figures, nameText, quantity, shaftName } from "../wording";
import { type LoopPhase, loopPhases } from "./loop-phases";
import { fraction, parentOf, phaseMesh, restPhases } from "./phases";

/** Pitches: what is allowed to positions (format.md), as a part of the pitch π m. */
const FITS = FITS_MODULE / Math.PI;
const SLIGHT = MISFIT_MODULE / Math.PI;

export function loopPhaseFindings(drive: Drive, index: DriveIndex, placement: Placement): Finding[] {
  if (!placement.meshes.some((mesh) => mesh?.closesLoop)) return [];
  const loops = loopPhases(drive, index, placement, restPhases(drive, index, placement));
  return loops.flatMap((loop): Finding[] => {
    if (Math.abs(loop.miss) <= FITS) return [];
    const mesh = drive.meshes[loop.mesh] as Mesh;
    const cures = loop.isJoin
      ? [joinCure(drive, index, placement, loop)]
      : [
          ...planetCures(drive, index, placement, loop),
          ...parallelogramCure(drive, index, placement, loop),
          ...keyCures(drive, index, placement, loop),
        ];
    const cure = cures.length > 0 ? cures.join("; or ") : "change a tooth count or an azimuth of the loop";
    const by = `${figures(Math.abs(loop.miss), 3)} of a pitch`;
    const start = loop.isJoin
      ? `At mesh ${nameText(mesh.id)} both shafts stand where the file puts them, and their teeth miss the gaps by ${by}`
      : `Mesh ${nameText(mesh.id)} closes a loop whose teeth don't meet: they miss the gaps by ${by}`;
    return [
      {
        severity: Math.abs(loop.miss) <= SLIGHT ? "note" : "warning",
        code: "loop-phase",
        at: [mesh.id, ...mesh.gears],
        message: `${start}: ${cure}.`,
      },
    ];
  });
}

/** A phase in degrees next to 0, of the same look: a gear turned by whole pitches looks as before. */
const nearestPhase = (turns: number, teeth: number): number => {
  const pitches = fraction(turns * teeth);
  return ((pitches > 0.5 ? pitches - 1 : pitches) / teeth) * 360;
};

function joinCure(drive: Drive, index: DriveIndex, placement: Placement, loop: LoopPhase): string {
  const phase = phaseMesh(drive, index, placement, loop.mesh);
  const on = index.shaftsOfMesh[loop.mesh] ?? [-1, -1];
  // The gear of a shaft that stands by itself is the one to turn.
  const side = parentOf(drive, index, placement, on[1]) === null ? 1 : 0;
  const gear = drive.meshes[loop.mesh]?.gears[side] ?? "";
  if (!phase) return "turn one of the gears on its shaft";
  const turned = phase.keys[side] - loop.miss / (phase.signs[side] * phase.teeth[side]);
  return `give gear ${nameText(gear)} a phase of ${degrees(nearestPhase(turned, phase.teeth[side]))}`;
}

/** Digits enough that what is offered fits when it is typed back. */
/** Digits enough that the teeth meet when it is typed in. */
const degrees = (x: number): string => quantity(x, "°", 8);

const isOneLine = (a: PlacedShaft, b: PlacedShaft): boolean =>
  length(cross(a.axis, b.axis)) < ON_AXIS && length(square(sub(b.origin, a.origin), a.axis)) < ON_AXIS;

/** A gear between two others on one line, such as a planet: other places round them, or other counts. */
function planetCures(drive: Drive, index: DriveIndex, placement: Placement, loop: LoopPhase): string[] {
  const on = index.shaftsOfMesh[loop.mesh];
  const closing = phaseMesh(drive, index, placement, loop.mesh);
  if (!on || !closing) return [];
  for (const side of [0, 1] as const) {
    const planet = on[side];
    const other = on[side === 0 ? 1 : 0];
    const link = parentOf(drive, index, placement, planet);
    const first = link && phaseMesh(drive, index, placement, link.mesh);
    const [inner, outer, own] = [
      placement.shafts[link?.shaft ?? -1],
      placement.shafts[other],
      placement.shafts[planet],
    ];
    if (!link || !first || !inner || !outer || !own || !isOneLine(inner, outer)) continue;
    const mesh = drive.meshes[link.mesh] as Mesh;
    const up = link.side === 0 ? 1 : 0;
    // Residual per turn of the planet's azimuth: through the planet's own rotation, less the pitch point's on the other gear.
    const through =
      (closing.signs[side] * closing.teeth[side] * first.signs[up] * first.teeth[up]) /
      (first.signs[link.side] * first.teeth[link.side]);
    const turn = dot(inner.axis, outer.axis) > 0 ? 1 : -1;
    const far = side === 0 ? 1 : 0;
    const slope = through - turn * closing.signs[far] * closing.teeth[far];
    if (Math.abs(slope) < 1e-9) continue;
    const step = 360 / Math.abs(slope);
    const nearest = mesh.azimuth - (loop.miss / slope) * 360;
    const further = nearest + (nearest > mesh.azimuth ? -step : step);
    const name = shaftName(drive, planet);
    const cures = [
      `put ${name} at azimuth ${degrees(wrap(nearest))} or ${degrees(wrap(further))} in mesh ${nameText(mesh.id)}`,
    ];
    const isSimple = closing.teeth[side] === first.teeth[link.side];
    if (isSimple) cures.push(...planetCounts(drive, index, placement, loop, first.teeth[up], closing.teeth[far]));
    return cures;
  }
  return [];
}

const wrap = (x: number): number => ((x % 360) + 360) % 360;

/** (z1 + z2) × spacing must be whole: the nearest sums that are. */
function planetCounts(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  loop: LoopPhase,
  inner: number,
  outer: number,
): string[] {
  const sum = inner + outer;
  if (!loop.exact) return [];
  // Azimuths of all that stand around the same gear, as the rule counts them: spacings from the first.
  const parent =
    parentOf(drive, index, placement, loop.path[0] ?? -1) ?? parentOf(drive, index, placement, loop.path.at(-1) ?? -1);
  const spacings = drive.meshes.flatMap((mesh, i) => {
    const on = index.shaftsOfMesh[i];
    return placement.meshes[i] && parent && on?.includes(parent.shaft) ? [mesh.azimuth / 360] : [];
  });
  const first = spacings[0] ?? 0;
  const fits = (candidate: number) =>
    candidate > 0 &&
    spacings.every((turns) => Math.abs(candidate * (turns - first) - Math.round(candidate * (turns - first))) < 1e-6);
  const near = (direction: 1 | -1): number | null => {
    for (let i = 1; i <= 60; i++) if (fits(sum + direction * 2 * i)) return sum + direction * 2 * i;
    return null;
  };
  const sums = [near(-1), near(1)].filter((value) => value !== null);
  if (sums.length === 0) return [];
  return [
    `choose counts of the two gears on one line that add up to ${sums.join(" or ")} in place of ${sum} (the sum times the spacing in turns must be whole)`,
  ];
}

/** Four single gears round a parallelogram: 2 (a + b) × angle must be whole turns. */
function parallelogramCure(drive: Drive, index: DriveIndex, placement: Placement, loop: LoopPhase): string[] {
  const shafts = loop.path.map((shaft) => placement.shafts[shaft]);
  if (loop.path.length !== 4 || shafts.some((shaft) => !shaft)) return [];
  const [a, b, c, d] = shafts as [PlacedShaft, PlacedShaft, PlacedShaft, PlacedShaft];
  if ([b, c, d].some((shaft) => length(cross(shaft.axis, a.axis)) > ON_AXIS)) return [];
  const teeth = loop.path.map((shaft) => {
    const used = (index.gearsOfShaft[shaft] ?? [])
      .map((gear) => drive.gears[gear])
      .filter((gear) => gear && hasTeeth(gear));
    return used.length === 1 && used[0] && hasTeeth(used[0]) ? used[0].teeth : 0;
  });
  const [side, other] = [square(sub(b.origin, a.origin), a.axis), square(sub(d.origin, a.origin), a.axis)];
  const opposite = square(sub(c.origin, b.origin), a.axis);
  if (teeth.includes(0) || length(sub(opposite, other)) > ON_AXIS * Math.max(1, length(other))) return [];
  const corner = (Math.atan2(length(cross(side, other)), dot(side, other)) * 180) / Math.PI;
  const angle = Math.min(corner, 180 - corner);
  const sum = teeth.reduce((total, z) => total + z, 0);
  const step = 360 / sum;
  const below = Math.floor(angle / step) * step;
  return [
    `open the angle between the rows from ${degrees(angle)} to ${degrees(below)} or ${degrees(below + step)} (the four counts' sum, ${sum}, times the angle must be whole turns)`,
  ];
}

/** Another phase of one of two gears on a compound shaft of the loop. */
function keyCures(drive: Drive, index: DriveIndex, placement: Placement, loop: LoopPhase): string[] {
  for (const shaft of loop.path) {
    const at = loop.path.indexOf(shaft);
    const link = parentOf(drive, index, placement, shaft);
    const rate = loop.rates.get(shaft);
    if (!link || !rate || rate.n === 0n || !loop.path.includes(link.shaft)) continue;
    const inward = index.gearsOfMesh[link.mesh]?.[link.side];
    const outward = outwardGear(drive, index, placement, loop, at, link.shaft);
    const gear = outward === null ? undefined : drive.gears[outward];
    if (outward === null || outward === inward || !gear || !hasTeeth(gear)) continue;
    const turned = gear.phase / 360 - loop.miss / toNumber(rate);
    const whole = loop.fitsElsewhere ? ", or put the loop together some teeth further on, which does the same" : "";
    return [`key gear ${nameText(gear.id)} at a phase of ${degrees(nearestPhase(turned, gear.teeth))}${whole}`];
  }
  return [];
}

/** The gear by which a shaft of the path goes on away from the shaft that placed it. */
function outwardGear(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
  loop: LoopPhase,
  at: number,
  parent: number,
): number | null {
  const shaft = loop.path[at] as number;
  const next = loop.path[at - 1] === parent ? loop.path[at + 1] : loop.path[at - 1];
  const link = next === undefined ? null : parentOf(drive, index, placement, next);
  const mesh = link && link.shaft === shaft ? link.mesh : loop.mesh;
  const side = index.shaftsOfMesh[mesh]?.[0] === shaft ? 0 : 1;
  return index.gearsOfMesh[mesh]?.[side] ?? null;
}

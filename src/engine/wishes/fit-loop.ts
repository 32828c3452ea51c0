/**
 * Fit to loop: a mesh that closes a loop and misses by a little is made to fit by the smallest single move: a swing, a slide, a pose,
 * the module of the closing pair, or its shaft angle. Each is searched numerically on the misfit that placement itself reports.
 */
import { type Edit, inTurn, isRefused } from "../drive/commands/edit";
import { joinedGears, setGear } from "../drive/commands/gear";
import { setMesh } from "../drive/commands/mesh";
import { setShaft } from "../drive/commands/shaft";
import type { Vec3 } from "../drive/types";
import { hasTeeth } from "../drive/types";
import { indexDrive } from "../placement/index-drive";
import { place } from "../placement/place";
import type { Drive, Solved } from "../solved";
import { loopPath } from "../teeth/loop-path";
import { FITS_MODULE } from "../tolerances";
import { along, angleBetween, cross, DEGREE, distance, dot, length, square, sub, unit } from "../vector";
import { listNames, nameText, quantity, shaftName, toothSizeWords } from "../wording";
import { type Answer, type Asked, type Change, type Proposal, tryOut } from "./change";
import { alongShaft } from "./parts";
import { placings } from "./places";

/** One number of the drive that may give way. */
interface Knob {
  readonly title: (by: number) => string;
  readonly now: number;
  /** By how much it may be tried at first. */
  readonly step: number;
  readonly set: (value: number) => Edit;
}

/** Misfit in modules; Infinity where it can't be told. */
function missAt(drive: Drive, mesh: string): number {
  const index = indexDrive(drive);
  const placement = place(drive, index);
  return placement.meshes[index.meshes.get(mesh) ?? -1]?.misfit.modules ?? Number.POSITIVE_INFINITY;
}

/** The value nearest to the present one at which the mesh fits: outwards in growing steps, then by golden section. */
function bestValue(knob: Knob, miss: (value: number) => number): number | null {
  const here = miss(knob.now);
  const least = 1e-7 * Math.max(1, Math.abs(knob.now));
  const fits = [1, -1].flatMap((way) => {
    let step = knob.step;
    // The first step may go past it: the step that first brings it nearer is looked for, inwards.
    while (step > least && !(miss(knob.now + way * step) < here)) step /= 4;
    if (step <= least) return [];
    let lastMiss = here;
    for (let i = 0; i < 40; i++) {
      const nextMiss = miss(knob.now + way * step);
      if (!(nextMiss < lastMiss)) break;
      lastMiss = nextMiss;
      step *= 1.6;
    }
    const ends = [knob.now, knob.now + way * step] as const;
    const found = golden(miss, Math.min(...ends), Math.max(...ends));
    return miss(found) <= FITS_MODULE ? [found] : [];
  });
  return fits.sort((a, b) => Math.abs(a - knob.now) - Math.abs(b - knob.now))[0] ?? null;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

function golden(miss: (value: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [atC, atD] = [miss(c), miss(d)];
  for (let i = 0; i < 80 && b - a > 1e-13 * Math.max(1, Math.abs(a)); i++) {
    if (atC < atD) {
      [b, d, atD] = [d, c, atC];
      c = b - GOLDEN * (b - a);
      atC = miss(c);
    } else {
      [a, c, atC] = [c, d, atD];
      d = a + GOLDEN * (b - a);
      atD = miss(d);
    }
  }
  return atC < atD ? c : d;
}

/** Drives on which a search would be felt are not searched. */
const MOST_SHAFTS = 2000;
const MOST_KNOBS = 16;

/** The smallest single moves after which a mesh that closes a loop fits, nearest first; or why none does. */
export function fitLoop(solved: Solved, meshId: string): Answer {
  const { drive, index, placement } = solved;
  const at = index.meshes.get(meshId) ?? -1;
  const placed = placement.meshes[at];
  const on = index.shaftsOfMesh[at];
  if (!placed?.closesLoop || !on)
    return { cannot: `Mesh ${nameText(meshId)} closes no loop: nothing is to be fitted.` };
  if (placed.misfit.modules <= FITS_MODULE) return { cannot: `Mesh ${nameText(meshId)} fits already.` };
  if (drive.shafts.length > MOST_SHAFTS)
    return { cannot: "This drive is too large to search for the smallest move; change an azimuth or a place by hand." };
  const asked: Asked = {
    shaft: -1,
    isMet: (after) =>
      (after.placement.meshes[after.index.meshes.get(meshId) ?? -1]?.misfit.modules ?? 1) <= FITS_MODULE,
    tell: () => `Mesh ${nameText(meshId)} missed by ${misfitWords(placed.misfit)} and fits now.`,
  };
  const proposals: Proposal[] = [...exactPlaces(solved, at)];
  for (const knob of knobs(solved, at, on).slice(0, MOST_KNOBS)) {
    const value = bestValue(knob, (tried) => {
      const result = knob.set(tried)(drive);
      return isRefused(result) ? Number.POSITIVE_INFINITY : missAt(result, meshId);
    });
    if (value === null) continue;
    proposals.push({ means: "place", title: knob.title(value), edit: knob.set(value) });
  }
  const changes = proposals.flatMap((proposal) => tryOut(solved, proposal, asked) ?? []);
  // A module that no standard knows comes after every move.
  const size = (change: Change): number =>
    movedBy(solved, change) + (change.difference.recut.length > 0 ? placed.misfit.unit : 0);
  const sorted = changes.sort((a, b) => size(a) - size(b) || a.cost.weight - b.cost.weight);
  if (sorted.length > 0) return { changes: sorted.slice(0, 3) };
  return {
    cannot: `Mesh ${nameText(meshId)} misses by ${misfitWords(placed.misfit)}, and no single swing, slide, pose or module takes that up without an error elsewhere: two numbers of the loop have to change at once.`,
  };
}

const misfitWords = ({ millimetres, degrees }: { readonly millimetres: number; readonly degrees: number }): string =>
  [
    ...(millimetres > 1e-9 ? [quantity(millimetres, "mm", 3)] : []),
    ...(degrees > 1e-9 ? [quantity(degrees, "°", 3)] : []),
  ].join(" and ");

/** mm by which the gear that moves the furthest moves, and by which sizes change: what makes a move small. */
function movedBy(before: Solved, { solved: after }: Change): number {
  let most = 0;
  after.drive.gears.forEach((gear, i) => {
    const old = before.index.gears.get(gear.id) ?? -1;
    const [was, now] = [before.placement.gears[old], after.placement.gears[i]];
    if (!was || !now) return;
    most = Math.max(most, distance(was.centre, now.centre), Math.abs(was.pitchDiameter - now.pitchDiameter) / 2);
  });
  return most;
}

/** Bevel mates slid to where the crossing of the two axes is, and cut for the angle of the axes. */
function exactPlaces(solved: Solved, at: number): Proposal[] {
  const placed = solved.placement.meshes[at];
  const on = solved.index.shaftsOfMesh[at];
  if (!placed?.kind.needsShaftAngle || !on) return [];
  const gears = placed.pair.gears;
  const shafts = on.map((shaft) => solved.placement.shafts[shaft]);
  const [a, b] = shafts;
  if (!a || !b) return [];
  const outward = gears.map((gear) => solved.placement.gears[solved.index.gears.get(gear.id) ?? -1]?.outward ?? a.axis);
  const angle = angleBetween(outward[0] as Vec3, outward[1] as Vec3) / DEGREE;
  const n = cross(a.axis, b.axis);
  if (length(n) < 1e-9) return [];
  const apex = along(a.origin, a.axis, dot(cross(sub(b.origin, a.origin), b.axis), n) / dot(n, n));
  const isOffAngle = placed.misfit.degrees > 1e-9;
  const shaftAngle = Number(angle.toFixed(10));
  const shape = placed.kind.shape(
    { ...placed.pair.mesh, shaftAngle: isOffAngle ? shaftAngle : placed.pair.mesh.shaftAngle },
    gears,
  );
  const slides = gears.map((gear, side) => {
    const reach = shape.coneDistances[side as 0 | 1] * Math.cos(shape.pitchAngles[side as 0 | 1]);
    return setGear(gear.id, { at: alongShaft(solved, on[side as 0 | 1], apex) + (gear.apex === "-" ? reach : -reach) });
  });
  const names = gears.map(({ id }) => nameText(id)).join(" and ");
  return [
    {
      means: "place",
      title: isOffAngle
        ? `Cut ${names} for ${quantity(angle, "°", 6)} and slide both to the crossing of the axes`
        : `Slide ${names} to the crossing of the axes`,
      edit: inTurn(...(isOffAngle ? [setMesh(placed.pair.mesh.id, { shaftAngle })] : []), ...slides),
    },
  ];
}

/** Every number of the loop that may give way, those nearest to the closing mesh first. */
function knobs(solved: Solved, at: number, on: readonly [number, number]): Knob[] {
  const { drive, index, placement } = solved;
  const mesh = drive.meshes[at];
  const placed = placement.meshes[at];
  if (!mesh || !placed) return [];
  const path = new Set(loopPath(drive, index, placement, on));
  const links = on.flatMap((shaft) => placings(solved, shaft).links).filter(({ child }) => path.has(child));
  const found: Knob[] = [];
  const seen = new Set<string>();
  for (const { joint, child, parent } of links) {
    if (seen.has(joint.mesh.id)) continue;
    seen.add(joint.mesh.id);
    const name = shaftName(drive, child);
    found.push({
      title: (value) => `Swing ${name} round ${shaftName(drive, parent)} to ${quantity(value, "°", 9)}`,
      now: joint.mesh.azimuth,
      step: 0.01,
      set: (azimuth) => setMesh(joint.mesh.id, { azimuth }),
    });
    const gear = joint.from === null ? undefined : joint.gears[joint.from];
    if (gear && joint.kind.needsShaftAngle) {
      found.push({
        title: (value) => `Slide ${nameText(gear.id)} along ${shaftName(drive, parent)} to ${quantity(value, "mm", 7)}`,
        now: gear.at,
        step: 0.01,
        set: (to) => setGear(gear.id, { at: to }),
      });
    }
  }
  const { gears } = placed.pair;
  if (placed.kind.needsShaftAngle) {
    for (const gear of gears) {
      found.push({
        title: (value) => `Slide ${nameText(gear.id)} to ${quantity(value, "mm", 7)}`,
        now: gear.at,
        step: 0.01,
        set: (to) => setGear(gear.id, { at: to }),
      });
    }
  } else if (gears.every(hasTeeth)) {
    // All that meshes join to it are cut anew: they have one module.
    const joined = joinedGears(drive, gears[0].id);
    const names = listNames(
      drive.gears.flatMap((gear) => (joined.has(gear.id) && hasTeeth(gear) ? nameText(gear.id) : [])),
    );
    found.push({
      title: (value) => `Give ${names} ${toothSizeWords(value, 7)}`,
      now: (gears[0] as { module: number }).module,
      step: 1e-4,
      set: (module) => setGear(gears[0].id, { module }),
    });
  }
  return [...found, ...poseKnobs(solved, on)];
}

/** A shaft that stands by itself, moved along the line between the two axes. */
function poseKnobs(solved: Solved, on: readonly [number, number]): Knob[] {
  const roots = on.map((shaft) => placings(solved, shaft).root);
  const [a, b] = on.map((shaft) => solved.placement.shafts[shaft]);
  if (roots[0] === roots[1] || !a || !b) return [];
  const across = square(sub(b.origin, a.origin), a.axis);
  const normal = cross(a.axis, b.axis);
  const line = length(normal) > 1e-9 ? unit(normal) : length(across) > 1e-9 ? unit(across) : a.ref;
  return roots.flatMap((root): Knob[] => {
    const { pose, id } = solved.drive.shafts[root ?? -1] ?? {};
    if (!pose || id === undefined) return [];
    return [
      {
        title: (by) =>
          `Move ${shaftName(solved.drive, root ?? 0)} by ${quantity(Math.abs(by), "mm", 4)} ${by * (root === roots[1] ? 1 : -1) > 0 ? "away" : "nearer"}`,
        now: 0,
        step: 0.01,
        set: (by) => setShaft(id, { pose: { ...pose, origin: along(pose.origin, line, by) } }),
      },
    ];
  });
}

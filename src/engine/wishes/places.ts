/** Where a shaft leans and comes out: one lean, one swing or one slide of a mesh on the way by which it was placed. */
import { type Edit, inTurn, refuse } from "../drive/commands/edit";
import { leanMesh } from "../drive/commands/lean";
import { setShaft } from "../drive/commands/shaft";
import { makeGear } from "../drive/defaults";
import { hasTeeth, type ToothedGear, type Vec3 } from "../drive/types";
import { outwardAxis } from "../mesh-kinds/intersecting";
import { kindOf } from "../mesh-kinds/list";
import { atAzimuth } from "../mesh-kinds/parallel";
import { alignedWith } from "../placement/aligned";
import type { PlacedShaft, Solved } from "../solved";
import { parentOf } from "../teeth/phases";
import { clamp, cross, DEGREE, dot, length, turn, unit } from "../vector";
import { nameText, quantity, shaftName } from "../wording";
import { recutBevels } from "./bevels";
import type { Proposal } from "./change";
import { areToothed, isAlone, type Joint, jointAt, remade, remeshed, tidyDegrees } from "./parts";

/** One link of the way by which a shaft was placed: the mesh and the shaft that it was placed from. */
export interface Placing {
  readonly joint: Joint;
  readonly parent: number;
  readonly child: number;
}

/** The meshes by which a shaft was placed, the nearest first, and the shaft at which they begin. */
export function placings(solved: Solved, shaft: number): { readonly links: readonly Placing[]; readonly root: number } {
  const { drive, index, placement } = solved;
  const links: Placing[] = [];
  let at = shaft;
  for (let steps = 0; steps <= drive.shafts.length; steps++) {
    const link = parentOf(drive, index, placement, at);
    const joint = link && jointAt(solved, link.mesh, link.side === 0 ? 1 : 0);
    if (link && joint) {
      links.push({ joint, parent: link.shaft, child: at });
      at = link.shaft;
      continue;
    }
    const named = drive.shafts[at]?.coaxial;
    const on = named === undefined ? undefined : index.shafts.get(named);
    if (on === undefined) break;
    at = on;
  }
  return { links, root: at };
}

/** Links of one shaft's way that another's does not share: what moves the one and leaves the other. */
export function ownPlacings(solved: Solved, shaft: number, other: number | null): readonly Placing[] {
  const { links } = placings(solved, shaft);
  if (other === null) return links;
  const shared = new Set(placings(solved, other).links.map(({ joint }) => joint.mesh.id));
  return links.filter(({ joint }) => !shared.has(joint.mesh.id));
}

/** Angles (radians, -π to π) by which `a` has to be turned about `n` for a cosine of `cosine` with `t`. All unit. */
export function turnsToAngle(a: Vec3, n: Vec3, t: Vec3, cosine: number): number[] {
  const constant = dot(n, a) * dot(n, t);
  const [p, q] = [dot(a, t) - constant, dot(cross(n, a), t)];
  const size = Math.hypot(p, q);
  const rest = (cosine - constant) / size;
  if (!(Math.abs(rest) <= 1 + 1e-12)) return [];
  const [middle, off] = [Math.atan2(q, p), Math.acos(clamp(rest, -1, 1))];
  const within = (x: number): number => Math.atan2(Math.sin(x), Math.cos(x));
  return [within(middle + off), within(middle - off)];
}

/** Degrees: less is no change, and a lean this near to 0 or 180 leaves no bevel pair. */
const NO_TURN = 1e-7;
const LEAST_LEAN = 1;

const tidy = (x: number): number => Number(x.toFixed(9));

/** Every single lean, swing or pose that brings a shaft's axis to one of the cosines with `t`. */
export function leans(
  solved: Solved,
  shaft: number,
  other: number | null,
  t: Vec3,
  cosines: readonly number[],
): Proposal[] {
  const own = solved.placement.shafts[shaft];
  if (!own) return [];
  const turns = (n: Vec3): number[] =>
    cosines
      .flatMap((cosine) => turnsToAngle(own.axis, n, t, cosine))
      .map((x) => tidy(x / DEGREE))
      .filter((x) => Math.abs(x) > NO_TURN)
      .sort((a, b) => Math.abs(a) - Math.abs(b));
  const proposals = ownPlacings(solved, shaft, other).flatMap((link) => [
    ...leanOf(solved, link, turns),
    ...swingOf(solved, link, turns),
    ...bevelled(solved, link, turns),
  ]);
  return [...proposals, ...poseTurned(solved, shaft, other, own, t, cosines)];
}

type Turns = (n: Vec3) => readonly number[];

const names = ({ joint }: Placing): string => `${nameText(joint.gears[0].id)} and ${nameText(joint.gears[1].id)}`;

/**
 * Another shaft angle of a bevel pair: u2 = cos Σ u1 + sin Σ r turns about u1 × r. At 0 and 180 the axes are parallel, and the pair is cut
 * for that.
 */
function leanOf(solved: Solved, link: Placing, turns: Turns): Proposal[] {
  const { joint, parent, child } = link;
  const { from, mesh, gears } = joint;
  const placed = solved.placement.shafts[parent];
  if (!joint.kind.needsShaftAngle || from === null || !placed) return [];
  const angle = mesh.shaftAngle ?? 90;
  const n = unit(cross(outwardAxis(placed, gears[from]), atAzimuth(placed, mesh.azimuth)));
  return turns(n).flatMap((by) => {
    const next = tidy(angle + by);
    const isFlat = next === 0 || next === 180;
    if (!isFlat && (next < LEAST_LEAN || next > 180 - LEAST_LEAN)) return [];
    if (!gears.every((gear) => isAlone(solved, gear))) return [];
    const edit = isFlat
      ? leanMesh(mesh.id, { angle: next, leans: (1 - from) as 0 | 1, aligned: alignedWith(solved, child) })
      : recutBevels(solved, joint, { shaftAngle: next });
    const cut = isFlat
      ? `as ${next === 0 ? "a pair on parallel shafts" : "a pinion in a ring"}`
      : `for a shaft angle of ${quantity(next, "°", 6)} in place of ${quantity(angle, "°", 6)}`;
    return edit
      ? [
          {
            means: "place",
            title: `Lean ${shaftName(solved.drive, child)} by ${quantity(Math.abs(by), "°", 6)}`,
            edit,
            how: `${names(link)} are cut anew ${cut}.`,
          },
        ]
      : [];
  });
}

/** Another azimuth: all beyond the mesh swings round the shaft before it. */
function swingOf(solved: Solved, link: Placing, turns: Turns): Proposal[] {
  const placed = solved.placement.shafts[link.parent];
  if (!placed) return [];
  const { mesh } = link.joint;
  return turns(placed.axis).map((by) => swung(solved, link, by, `${quantity(tidyDegrees(mesh.azimuth + by), "°", 6)}`));
}

function swung(solved: Solved, { joint, parent, child }: Placing, by: number, words: string): Proposal {
  const { mesh } = joint;
  return {
    means: "place",
    title: `Swing ${shaftName(solved.drive, child)} round ${shaftName(solved.drive, parent)} by ${quantity(Math.abs(by), "°", 6)}`,
    edit: remeshed(mesh.id, { azimuth: tidyDegrees(mesh.azimuth + by) }),
    how: `Mesh ${nameText(mesh.id)} stands at azimuth ${words} in place of ${quantity(mesh.azimuth, "°", 6)}; both gears stay as they are.`,
  };
}

/** An outside pair on parallel shafts cut as a bevel pair: it leans from 0 to the wanted angle. */
function bevelled(solved: Solved, link: Placing, turns: Turns): Proposal[] {
  const { joint, parent } = link;
  const { gears, mesh, from, kind } = joint;
  const placed = solved.placement.shafts[parent];
  const isOutside = kind.shape(mesh, gears).shaftAngle === 0;
  if (kind.needsShaftAngle || !isOutside || !placed || from === null || !areToothed(gears)) return [];
  if (!gears.every((gear) => isAlone(solved, gear) && gear.shift === 0)) return [];
  const r = atAzimuth(placed, mesh.azimuth);
  return turns(unit(cross(placed.axis, r))).flatMap((by) => {
    const angle = Math.abs(by);
    if (angle < LEAST_LEAN || angle > 180 - LEAST_LEAN) return [];
    // Apexes on the - side: a2 = cos Σ a1 + sin Σ r; on the + side it leans back from r.
    const apex = by > 0 ? "-" : "+";
    const bevel = gears.map((gear) => makeGear({ ...gear, kind: "bevel", apex })) as [ToothedGear, ToothedGear];
    const cones = kindOf("bevel", "bevel")?.shape({ ...mesh, shaftAngle: angle }, bevel).coneDistances ?? [];
    const cone = Math.min(...cones);
    const most = Math.floor((cone / 3) * 2) / 2;
    const cut = (gear: ToothedGear): Edit =>
      remade(gear.id, { kind: "bevel", apex, face: most > 0 ? Math.min(gear.face, most) : gear.face });
    return [
      {
        means: "counts",
        title: `Make ${names(link)} a bevel pair of ${quantity(angle, "°", 6)}`,
        edit: inTurn(cut(gears[0]), cut(gears[1]), remeshed(mesh.id, { shaftAngle: angle })),
        how: "The two spur gears are cut anew as bevel gears of the same teeth and module.",
      },
    ];
  });
}

/** The shaft with which the way begins, leaned where it stands; all that it places goes with it. */
function poseTurned(
  solved: Solved,
  shaft: number,
  other: number | null,
  own: PlacedShaft,
  t: Vec3,
  cosines: readonly number[],
): Proposal[] {
  const { root } = placings(solved, shaft);
  if (other !== null && placings(solved, other).root === root) return [];
  const { pose, id } = solved.drive.shafts[root] ?? {};
  if (!pose || id === undefined) return [];
  const across = cross(own.axis, t);
  const n = unit(
    length(across) > 1e-9
      ? across
      : Math.abs(own.axis[0]) < 0.9
        ? cross(own.axis, [1, 0, 0])
        : cross(own.axis, [0, 1, 0]),
  );
  const [by] = cosines
    .flatMap((cosine) => turnsToAngle(own.axis, n, t, cosine))
    .filter((x) => Math.abs(x) > NO_TURN * DEGREE)
    .sort((a, b) => Math.abs(a) - Math.abs(b));
  if (by === undefined) return [];
  const turned = (v: Vec3): Vec3 => turn(v, n, by).map((x) => (Math.abs(x) < 1e-15 ? 0 : x)) as unknown as Vec3;
  const whole = root === shaft && placesNothing(solved, root) ? "" : " with all that it places";
  return [
    {
      means: "place",
      title: `Lean ${shaftName(solved.drive, root)}${whole} by ${quantity(Math.abs(by) / DEGREE, "°", 6)}`,
      edit: setShaft(id, { pose: { ...pose, axis: turned(pose.axis), ref: turned(pose.ref) } }),
    },
  ];
}

const placesNothing = (solved: Solved, shaft: number): boolean =>
  (solved.index.meshesOfShaft[shaft] ?? []).every((mesh) => solved.placement.meshes[mesh]?.closesLoop ?? true);

/** mm, and the direction in words left to the caller: the shaft with which the way begins, moved by `by`. */
export function poseMoved(solved: Solved, shaft: number, by: Vec3): Proposal[] {
  const { root } = placings(solved, shaft);
  const { pose, id } = solved.drive.shafts[root] ?? {};
  if (!pose || id === undefined || length(by) < 1e-9) return [];
  const origin = pose.origin.map((x, i) => tidy(x + (by[i] ?? 0))) as unknown as Vec3;
  const whole = root === shaft && placesNothing(solved, root) ? "" : " with all that it places";
  return [
    {
      means: "place",
      title: `Move ${shaftName(solved.drive, root)}${whole} by ${quantity(length(by), "mm", 4)}`,
      edit: setShaft(id, { pose: { ...pose, origin } }),
      how: `By ${quantity(by[0], "mm", 3)} along x, ${quantity(by[1], "mm", 3)} along y and ${quantity(by[2], "mm", 3)} along z (up).`,
    },
  ];
}

/** A mesh slid along the shaft before it and swung round it; either may be nothing. */
export function slidAndSwung(solved: Solved, link: Placing, along: number, by: number): Proposal | null {
  const { joint, parent, child } = link;
  const gear = joint.from === null ? undefined : joint.gears[joint.from];
  const [isSlid, isSwung] = [Math.abs(along) > 1e-7, Math.abs(by) > NO_TURN];
  if (!gear || (!isSlid && !isSwung)) return null;
  const [name, on] = [shaftName(solved.drive, child), shaftName(solved.drive, parent)];
  const at = tidy(gear.at + along);
  const slide: Edit = (drive) => {
    const now = drive.gears.find(({ id }) => id === gear.id);
    if (!now) return refuse(`There is no gear ${gear.id} any more; choose another.`);
    const moved = hasTeeth(now) ? makeGear({ ...now, at }) : makeGear({ ...now, at });
    return { ...drive, gears: drive.gears.map((one) => (one === now ? moved : one)) };
  };
  const swing = swung(solved, link, by, quantity(tidyDegrees(joint.mesh.azimuth + by), "°", 6));
  if (!isSlid) return swing;
  const how = `${nameText(gear.id)} sits at ${quantity(at, "mm", 6)} in place of ${quantity(gear.at, "mm", 6)}.`;
  const title = `Slide ${nameText(gear.id)} by ${quantity(Math.abs(along), "mm", 4)} along ${on}`;
  if (!isSwung) return { means: "place", title, edit: slide, how };
  return {
    means: "place",
    title: `${title} and swing ${name} by ${quantity(Math.abs(by), "°", 4)}`,
    edit: inTurn(slide, swing.edit),
    how: `${how} ${swing.how ?? ""}`,
  };
}

/** A shaft's line brought through a point: slid, swung, other counts, an idler, or the pose with which its way begins. */

import { MODULES } from "../design/iso-54";
import { inTurn } from "../drive/commands/edit";
import type { Vec3 } from "../drive/types";
import { gcdNumber } from "../motion/rational";
import type { PlacedShaft, Solved } from "../solved";
import { ON_AXIS } from "../tolerances";
import { along, cross, DEGREE, dot, length, square, sub } from "../vector";
import { nameText, quantity, shaftName, toothSizeWords } from "../wording";
import type { Proposal } from "./change";
import { AIR_TEETH, LEAST, triangle, withIdlers } from "./idlers";
import { areToothed, isAlone, isRing, remade, remeshed, tidyDegrees } from "./parts";
import { type Placing, placings, poseMoved, slidAndSwung } from "./places";

/** mm between a point and a shaft's axis. */
export const missOfLine = (shaft: PlacedShaft, point: Vec3): number =>
  length(square(sub(point, shaft.origin), shaft.axis));

/** A point about an axis: distance from it, azimuth in degrees from its ref, place along it. */
interface Cylinder {
  readonly radius: number;
  readonly azimuth: number;
  readonly at: number;
}

function about(shaft: PlacedShaft, point: Vec3): Cylinder {
  const from = sub(point, shaft.origin);
  const across = square(from, shaft.axis);
  return {
    radius: length(across),
    azimuth: Math.atan2(dot(across, cross(shaft.axis, shaft.ref)), dot(across, shaft.ref)) / DEGREE,
    at: dot(from, shaft.axis),
  };
}

export function comeOut(solved: Solved, shaft: number, point: Vec3): Proposal[] {
  const own = solved.placement.shafts[shaft];
  if (!own) return [];
  const proposals = placings(solved, shaft).links.flatMap((link) => {
    const parent = solved.placement.shafts[link.parent];
    if (!parent) return [];
    return [...slideAndSwing(solved, link, parent, own, point), ...roundParallel(solved, link, parent, shaft, point)];
  });
  return [...proposals, ...poseMoved(solved, shaft, square(sub(point, own.origin), own.axis))];
}

/** By one slide along the shaft before and one swing round it: the line's points as far from that axis as the point is. */
function slideAndSwing(solved: Solved, link: Placing, parent: PlacedShaft, own: PlacedShaft, point: Vec3): Proposal[] {
  const wanted = about(parent, point);
  const reach = (by: Cylinder): Proposal[] => {
    const turn = tidyDegrees(wanted.azimuth - by.azimuth);
    const swing = turn > 180 ? turn - 360 : turn;
    const proposal = slidAndSwung(solved, link, wanted.at - by.at, wanted.radius < ON_AXIS ? 0 : swing);
    return proposal ? [proposal] : [];
  };
  // The square of the distance from the parent's axis along the line: |p|² + 2 (p·q) t + |q|² t².
  const [p, q] = [square(sub(own.origin, parent.origin), parent.axis), square(own.axis, parent.axis)];
  const steep = dot(q, q);
  if (steep < ON_AXIS) {
    const line = about(parent, own.origin);
    return Math.abs(line.radius - wanted.radius) < ON_AXIS ? reach({ ...line, at: wanted.at }) : [];
  }
  const half = dot(p, q) / steep;
  const inside = half * half - (dot(p, p) - wanted.radius ** 2) / steep;
  if (inside < -ON_AXIS) return [];
  const root = Math.sqrt(Math.max(0, inside));
  return [-half + root, -half - root].flatMap((t) => reach(about(parent, along(own.origin, own.axis, t))));
}

/** Parts by which a ratio may differ where the distance asks for other counts. */
const NEAR_ENOUGH = 0.02;
/** A distance in modules that is whole within this is whole. */
const WHOLE = 1e-7;

/** On parallel shafts: counts for the new distance at the same ratio, or one idler or two in the gap. */
function roundParallel(solved: Solved, link: Placing, parent: PlacedShaft, shaft: number, point: Vec3): Proposal[] {
  const { joint, child } = link;
  const { gears, mesh, from } = joint;
  const [own, childAt] = [solved.placement.shafts[shaft], solved.placement.shafts[child]];
  if (joint.kind.needsShaftAngle || from === null || !areToothed(gears) || !own || !childAt) return [];
  if (length(cross(own.axis, parent.axis)) > ON_AXIS) return [];
  // The child has to move by as much as the shaft itself, square to the common direction.
  const target = along(childAt.origin, square(sub(point, own.origin), own.axis), 1);
  const { radius, azimuth } = about(parent, target);
  if (radius < ON_AXIS) return [];
  const name = shaftName(solved.drive, child);
  const [first, second] = [gears[from], gears[from === 0 ? 1 : 0]];
  const proposals: Proposal[] = [];
  const towards = tidyDegrees(azimuth);
  if (isAlone(solved, first) && isAlone(solved, second) && !gears.some(isRing)) {
    const modules = [first.module, ...MODULES.filter((module) => module !== first.module)];
    for (const module of modules) {
      const counts = countsFor(radius, module, first.teeth, second.teeth);
      if (!counts) continue;
      const other = module === first.module ? "" : ` at ${toothSizeWords(module)}`;
      proposals.push({
        means: "counts",
        title: `Give ${nameText(first.id)} ${counts[0]} and ${nameText(second.id)} ${counts[1]} teeth${other}`,
        edit: inTurn(
          remade(first.id, { teeth: counts[0], module }),
          remade(second.id, { teeth: counts[1], module }),
          remeshed(mesh.id, { azimuth: towards }),
        ),
        how: `${first.teeth} and ${second.teeth} teeth${other === "" ? "" : ` at ${toothSizeWords(first.module)}`} until now; ${name} stands ${quantity(radius, "mm", 6)} away.`,
      });
      if (proposals.length > 2) break;
    }
  }
  return [...proposals, ...idlersTo(link, 2 * (radius / first.module), towards)];
}

/** Teeth whose centre distance is `radius` mm, in the ratio of the old ones or within 2 % of it; null where the sum is not whole. */
function countsFor(radius: number, module: number, z1: number, z2: number): readonly [number, number] | null {
  const sum = (2 * radius) / module;
  const whole = Math.round(sum);
  if (Math.abs(sum - whole) > WHOLE || whole > 2000) return null;
  const parts = (z1 + z2) / gcdNumber(z1, z2);
  const first = whole % parts === 0 ? (whole / parts) * (z1 / gcdNumber(z1, z2)) : Math.round((whole * z1) / (z1 + z2));
  const second = whole - first;
  if (Math.min(first, second) < Math.min(LEAST, z1, z2)) return null;
  return Math.abs(first / second / (z1 / z2) - 1) <= NEAR_ENOUGH ? [first, second] : null;
}

/** One idler, or two (which keep the way round), so that the gears reach `across` (in teeth: twice the distance over the module). */
function idlersTo({ joint }: Placing, across: number, azimuth: number): Proposal[] {
  const { gears, from } = joint;
  if (from === null || !areToothed(gears) || gears.some((gear) => isRing(gear) || gear.shift !== 0)) return [];
  const [z1, z2] = [gears[from].teeth, gears[from === 0 ? 1 : 0].teeth];
  const gap = across - z1 - z2;
  if (gap < AIR_TEETH) return [];
  const names = `between ${nameText(gears[0].id)} and ${nameText(gears[1].id)}`;
  const one = Math.max(LEAST, Math.ceil(gap / 2));
  const single = triangle(z1 + one, z2 + one, across);
  const two = Math.max(LEAST, Math.ceil(gap / 4));
  // The first straight on, the second aside as far as it must.
  const left = across - z1 - two;
  const pair = triangle(2 * two, z2 + two, left);
  const isReached = left > Math.abs(two - z2) && left < 3 * two + z2;
  return [
    {
      means: "idler",
      title: `Put an idler ${names}`,
      edit: withIdlers(
        joint,
        from,
        [{ teeth: one, towards: tidyDegrees(azimuth + single.towards) }],
        tidyDegrees(azimuth + single.onward),
      ),
      how: `An idler of ${one} teeth bridges the gap; one idler turns the shaft the other way.`,
    },
    ...(isReached
      ? [
          {
            means: "idler" as const,
            title: `Put two idlers ${names}`,
            edit: withIdlers(
              joint,
              from,
              [
                { teeth: two, towards: azimuth },
                { teeth: two, towards: tidyDegrees(azimuth + pair.towards) },
              ],
              tidyDegrees(azimuth + pair.onward),
            ),
            how: `Two idlers of ${two} teeth bridge the gap; two keep the way round.`,
          },
        ]
      : []),
  ];
}

/** mm: a line this near to a point goes through it. */
export const THROUGH = 1e-5;

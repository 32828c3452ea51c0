/** An idler between two gears on parallel shafts: it turns the second the other way and leaves the ratio as it is. */
import { type Edit, inTurn } from "../drive/commands/edit";
import { freshGearId, freshMeshId, freshShaftId } from "../drive/commands/ids";
import { makeGear, makeMesh, makeShaft } from "../drive/defaults";
import { hasTeeth, type ToothedGear } from "../drive/types";
import { gcdNumber } from "../motion/rational";
import type { Drive, Gear, Solved } from "../solved";
import { DEGREE } from "../vector";
import { gearSize, nameText, quantity, shaftName } from "../wording";
import type { Proposal } from "./change";
import { areToothed, isAlone, isRing, type Joint, remeshed, setTeeth, tidyDegrees } from "./parts";

/** Fewest teeth of a new gear: at 20 degrees no rack undercuts them from 18 on (17.1 by the usual rule). */
export const LEAST = 18;
/** Fewest teeth where there is little room: an undercut pinion, with its warning. */
const FEWEST = 12;
/** Teeth (half modules of distance) between the pitch circles of two gears that must not touch: both addenda, and a little air. */
export const AIR_TEETH = 5;

/** An idler as it stands: its size, and the azimuth in which it lies from the gear before it. */
export interface IdlerPlace {
  readonly teeth?: number;
  readonly diameter?: number;
  readonly towards: number;
}

/** Puts idlers into a mesh, the first beside the gear that places; the mesh that was there goes on from the last, at azimuth `onward`. */
export const withIdlers =
  (joint: Joint, from: 0 | 1, places: readonly IdlerPlace[], onward: number): Edit =>
  (drive: Drive) => {
    const [own, mate] = [joint.gears[from], joint.gears[from === 0 ? 1 : 0]];
    const { phase: _, bore: __, ...like } = isRing(own) ? mate : own;
    const { id: ___, gears: ____, ...rest } = joint.mesh;
    let next: Drive = drive;
    let last = own.id;
    for (const place of places) {
      const id = freshShaftId(next);
      const frame = drive.shafts.find((shaft) => shaft.id === own.shaft)?.frame;
      next = { ...next, shafts: [...next.shafts, makeShaft({ id, name: `Idler ${id}`, frame })] };
      const gear = makeGear({
        ...like,
        id: freshGearId(next, id),
        shaft: id,
        at: 0,
        ...("teeth" in like ? { teeth: place.teeth ?? like.teeth } : { diameter: place.diameter ?? like.diameter }),
      } as Gear);
      const mesh = makeMesh({ ...rest, id: freshMeshId(next), gears: [last, gear.id], azimuth: place.towards });
      next = {
        ...next,
        gears: [...next.gears, gear],
        // Before the mesh that goes on from it, so that the passes of placing stay as they were.
        meshes: next.meshes.flatMap((one) => (one.id === joint.mesh.id ? [mesh, one] : [one])),
      };
      last = gear.id;
    }
    const gears: [string, string] = from === 0 ? [last, mate.id] : [mate.id, last];
    return remeshed(joint.mesh.id, { gears, azimuth: onward })(next);
  };

const hasShift = (gears: readonly Gear[]): boolean => gears.some(({ shift }) => shift !== 0);

/** The ways to put an idler into one mesh: the further shaft moves out, or both gears are made smaller and the shafts stay. */
export function idlers(solved: Solved, joint: Joint): Proposal[] {
  const { gears, kind, from } = joint;
  if (from === null || kind.needsShaftAngle || hasShift(gears)) return [];
  const names = `between ${nameText(gears[0].id)} and ${nameText(gears[1].id)}`;
  if (gears.some(isRing)) return ringIdler(joint, from, names);
  return [...outerIdler(solved, joint, from, names), ...innerIdler(solved, joint, from, names)];
}

function outerIdler(solved: Solved, joint: Joint, from: 0 | 1, names: string): Proposal[] {
  const { gears, mesh, shafts } = joint;
  const smaller = Math.min(...gears.map((gear) => (hasTeeth(gear) ? gear.teeth : gear.diameter)));
  const isToothed = areToothed(gears);
  const size = isToothed ? { teeth: Math.max(LEAST, smaller) } : { diameter: smaller };
  const across = isToothed ? (gears[0] as ToothedGear).module * (size.teeth ?? 0) : smaller;
  const text = gearSize({ ...gears[0], ...size } as Gear);
  return [
    {
      means: "idler",
      title: `Put an idler ${names}`,
      edit: withIdlers(joint, from, [{ ...size, towards: mesh.azimuth }], mesh.azimuth),
      how: `An idler of ${text} comes between them, and ${shaftName(solved.drive, shafts[1 - from] ?? 0)} stands ${quantity(across, "mm")} further away; an idler's teeth change nothing but the way round.`,
    },
  ];
}

/** A pinion, an idler and the ring round both, as near to one line as whole teeth allow. */
function ringIdler(joint: Joint, from: 0 | 1, names: string): Proposal[] {
  const { gears, mesh } = joint;
  if (!areToothed(gears)) return [];
  const [ring, pinion] = isRing(gears[0]) ? gears : [gears[1], gears[0]];
  const teeth = Math.floor((ring.teeth - pinion.teeth) / 2);
  if (teeth < FEWEST) return [];
  const isFromRing = gears[from] === ring;
  return [
    {
      means: "idler",
      title: `Put an idler ${names}`,
      // A ring placed from inside has its centre along the azimuth; the pinion beyond the idler lies back towards the middle.
      edit: withIdlers(joint, from, [{ teeth, towards: mesh.azimuth }], tidyDegrees(mesh.azimuth + 180)),
      how: `An idler of ${teeth} teeth stands ${isFromRing ? "in the ring" : "beside the pinion"}, and the two shafts ${ring.teeth - pinion.teeth === 2 * teeth ? "come to stand on one line" : "stand half a tooth off one line"}.`,
    },
  ];
}

/** Both gears smaller in the same ratio, with an idler in the room between, so that both shafts stay where they are. */
function innerIdler(solved: Solved, joint: Joint, from: 0 | 1, names: string): Proposal[] {
  const { gears, mesh } = joint;
  if (!areToothed(gears) || !gears.every((gear) => isAlone(solved, gear))) return [];
  const [z1, z2] = [gears[from].teeth, gears[from === 0 ? 1 : 0].teeth];
  const common = gcdNumber(z1, z2);
  const [a, b] = [z1 / common, z2 / common];
  const sum = z1 + z2;
  for (const least of [LEAST, FEWEST]) {
    for (let k = common - 1; k > 0; k--) {
      const [first, second] = [k * a, k * b];
      const room = sum - first - second;
      if (Math.min(first, second) < least) break;
      if (room < AIR_TEETH) continue;
      const teeth = Math.max(least, Math.ceil(room / 2));
      const { towards, onward } = triangle(first + teeth, second + teeth, sum);
      return [
        {
          means: "idler",
          title: `Put an idler ${names} and leave both shafts where they are`,
          edit: inTurn(
            setTeeth(gears[from].id, first),
            setTeeth(gears[from === 0 ? 1 : 0].id, second),
            withIdlers(
              joint,
              from,
              [{ teeth, towards: tidyDegrees(mesh.azimuth + towards) }],
              tidyDegrees(mesh.azimuth + onward),
            ),
          ),
          how: `They become ${first} and ${second} teeth in place of ${z1} and ${z2}, which is the same ratio, and an idler of ${teeth} teeth fills the gap.`,
        },
      ];
    }
  }
  return [];
}

/** Degrees from the line of two shafts `sum` apart: to a third at `first` from the one, and from there on to the other, `second` away. */
export function triangle(
  first: number,
  second: number,
  sum: number,
): { readonly towards: number; readonly onward: number } {
  const cosine = Math.min(1, (first * first + sum * sum - second * second) / (2 * first * sum));
  const angle = Math.acos(cosine);
  const [x, y] = [first * Math.cos(angle), first * Math.sin(angle)];
  return { towards: angle / DEGREE, onward: Math.atan2(-y, sum - x) / DEGREE };
}

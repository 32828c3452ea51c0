/** The equation of motion of each mesh, in the frame that its two shafts share (format.md, Motion). */
import type { Drive, Gear, Mesh } from "../drive/types";
import { hasTeeth } from "../drive/types";
import type { Finding } from "../findings";
import type { DriveIndex, MeshRow, PlacedMesh, PlacedShaft, Placement } from "../solved";
import { ON_AXIS } from "../tolerances";
import { cross, dot, length, square, sub } from "../vector";
import { shaftName } from "../wording";
import { fromDecimal, fromNumber, type Rational } from "./rational";

/** What the ratio is reckoned from, exactly: teeth, or diameters as the file's decimals. */
export function exactSize(gear: Gear): Rational {
  if (hasTeeth(gear)) return { n: BigInt(gear.teeth), d: 1n };
  return gear.diameterDigits === undefined ? fromNumber(gear.diameter) : fromDecimal(gear.diameterDigits);
}

/** Whether `shaft` turns on the axis of `carrier`, and if so whether their positive axes agree. */
function onAxis(shaft: PlacedShaft, carrier: PlacedShaft): 1 | -1 | null {
  if (length(cross(shaft.axis, carrier.axis)) > ON_AXIS) return null;
  if (length(square(sub(shaft.origin, carrier.origin), carrier.axis)) > ON_AXIS) return null;
  return dot(shaft.axis, carrier.axis) > 0 ? 1 : -1;
}

interface Frames {
  readonly carrier: readonly [number, number];
  readonly carrierSign: readonly [1 | -1, 1 | -1];
}

const SAME_FRAME: Frames = { carrier: [-1, -1], carrierSign: [1, 1] };

/** The frame in which two shafts roll on one another: the same for both, or one's carrier on whose axis the other turns. */
function sharedFrame(index: DriveIndex, placement: Placement, ends: readonly [number, number]): Frames | null {
  const frames = [index.frameOfShaft[ends[0]] as number, index.frameOfShaft[ends[1]] as number] as const;
  if (frames[0] === frames[1]) return SAME_FRAME;
  for (const carried of [0, 1] as const) {
    const other = (1 - carried) as 0 | 1;
    const carrier = frames[carried];
    if (carrier === -1 || index.frameOfShaft[carrier] !== frames[other]) continue;
    const [shaft, pose] = [placement.shafts[ends[other]], placement.shafts[carrier]];
    const sign = shaft && pose ? onAxis(shaft, pose) : null;
    if (sign === null) continue;
    return carried === 0
      ? { carrier: [-1, carrier], carrierSign: [1, sign] }
      : { carrier: [carrier, -1], carrierSign: [sign, 1] };
  }
  return null;
}

const noSharedFrame = (drive: Drive, mesh: Mesh, ends: readonly [number, number]): Finding => {
  const [a, b] = ends.map((end) => shaftName(drive, end));
  return {
    severity: "error",
    code: "no-shared-frame",
    at: [mesh.id, ...mesh.gears],
    message: `Mesh ${mesh.id} joins ${a} and ${b}, which turn in different frames: let both be carried by the same shaft, or let one of them turn on the axis of the other's carrier.`,
  };
};

/** Signed sizes over the common denominator of both: whole numbers. */
function coefficients([a, b]: readonly [Gear, Gear], [s1, s2]: readonly [1 | -1, 1 | -1]): readonly [bigint, bigint] {
  if (hasTeeth(a) && hasTeeth(b)) return [BigInt(s1 * a.teeth), BigInt(s2 * b.teeth)];
  const [n1, n2] = [exactSize(a), exactSize(b)];
  return [BigInt(s1) * n1.n * n2.d, BigInt(s2) * n2.n * n1.d];
}

/** The row of each placed mesh that has no error of its own; null for the others. */
export function meshRows(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
): { readonly rows: (MeshRow | null)[]; readonly findings: Finding[] } {
  const findings: Finding[] = [];
  const rows = placement.meshes.map((placed: PlacedMesh | null, i): MeshRow | null => {
    if (!placed?.holds) return null;
    const mesh = drive.meshes[i] as Mesh;
    const ends = index.shaftsOfMesh[i] as readonly [number, number];
    const frames = sharedFrame(index, placement, ends);
    if (!frames) {
      findings.push(noSharedFrame(drive, mesh, ends));
      return null;
    }
    const [g1, g2] = index.gearsOfMesh[i] as readonly [number, number];
    const gears = [drive.gears[g1] as Gear, drive.gears[g2] as Gear] as const;
    const shafts = [placement.shafts[ends[0]] as PlacedShaft, placement.shafts[ends[1]] as PlacedShaft] as const;
    const signs = placed.kind.signs({ mesh, gears, shape: placed.shape }, shafts);
    return {
      mesh: i,
      coefficients: coefficients(gears, signs),
      carrier: frames.carrier,
      carrierSign: frames.carrierSign,
    };
  });
  return { rows, findings };
}

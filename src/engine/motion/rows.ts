/** The equation of motion of each mesh, in the frame that its two shafts share (format.md, Motion). */
import type { Drive, Gear, Mesh } from "../drive/types";
import { hasTeeth } from "../drive/types";
import type { Finding } from "../findings";
import type { DriveIndex, MeshRow, PlacedShaft, Placement } from "../solved";
import { ON_AXIS } from "../tolerances";
import { cross, dot, length, square, sub } from "../vector";
import { nameText, shaftName } from "../wording";
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

type Frames = Pick<MeshRow, "carrier" | "carrierSign">;

const SAME_FRAME: Frames = { carrier: [-1, -1], carrierSign: [1, 1] };

/** The frame in which two shafts roll on one another: the same for both, or one's carrier on whose axis the other turns. */
function sharedFrame(index: DriveIndex, placement: Placement, first: number, second: number): Frames | null {
  const [frame1, frame2] = [index.frameOfShaft[first] as number, index.frameOfShaft[second] as number];
  if (frame1 === frame2) return SAME_FRAME;
  for (const carried of [0, 1] as const) {
    const [carrier, frame, other] = carried === 0 ? [frame1, frame2, second] : [frame2, frame1, first];
    if (carrier === -1 || index.frameOfShaft[carrier] !== frame) continue;
    const [shaft, pose] = [placement.shafts[other], placement.shafts[carrier]];
    const sign = shaft && pose ? onAxis(shaft, pose) : null;
    if (sign === null) continue;
    return carried === 0
      ? { carrier: [-1, carrier], carrierSign: [1, sign] }
      : { carrier: [carrier, -1], carrierSign: [sign, 1] };
  }
  return null;
}

const noSharedFrame = (drive: Drive, mesh: Mesh, first: number, second: number): Finding => {
  const [a, b] = [shaftName(drive, first), shaftName(drive, second)];
  return {
    severity: "error",
    code: "no-shared-frame",
    at: [mesh.id, ...mesh.gears],
    message: `Mesh ${nameText(mesh.id)} joins ${a} and ${b}, which turn in different frames: let both be carried by the same shaft, or let one of them turn on the axis of the other's carrier.`,
  };
};

/** Numbers of teeth are their own coefficients; diameters are brought to whole numbers over the denominators of both. */
class SpeedRow implements MeshRow {
  readonly first: number;
  readonly second: number;
  private exact: readonly [bigint, bigint] | undefined = undefined;

  constructor(
    readonly mesh: number,
    [a, b]: readonly [Gear, Gear],
    [s1, s2]: readonly [1 | -1, 1 | -1],
    private readonly frames: Frames,
  ) {
    if (hasTeeth(a) && hasTeeth(b)) {
      this.first = s1 * a.teeth;
      this.second = s2 * b.teeth;
      return;
    }
    const [n1, n2] = [exactSize(a), exactSize(b)];
    this.exact = [BigInt(s1) * n1.n * n2.d, BigInt(s2) * n2.n * n1.d];
    const [first, second] = [Number(this.exact[0]), Number(this.exact[1])];
    const isSmall = Number.isSafeInteger(first) && Number.isSafeInteger(second);
    this.first = isSmall ? first : Number.NaN;
    this.second = isSmall ? second : Number.NaN;
  }

  get coefficients(): readonly [bigint, bigint] {
    this.exact ??= [BigInt(this.first), BigInt(this.second)];
    return this.exact;
  }

  get carrier(): readonly [number, number] {
    return this.frames.carrier;
  }

  get carrierSign(): readonly [1 | -1, 1 | -1] {
    return this.frames.carrierSign;
  }
}

/** The row of each placed mesh that has no error of its own; null for the others. */
export function meshRows(
  drive: Drive,
  index: DriveIndex,
  placement: Placement,
): { readonly rows: (MeshRow | null)[]; readonly findings: Finding[] } {
  const findings: Finding[] = [];
  const rows: (MeshRow | null)[] = new Array(placement.meshes.length).fill(null);
  for (let i = 0; i < rows.length; i++) {
    const placed = placement.meshes[i];
    if (!placed?.holds) continue;
    const [first, second] = [index.shaftAt[2 * i] as number, index.shaftAt[2 * i + 1] as number];
    const frames = sharedFrame(index, placement, first, second);
    if (!frames) {
      findings.push(noSharedFrame(drive, placed.pair.mesh, first, second));
      continue;
    }
    const shafts = [placement.shafts[first] as PlacedShaft, placement.shafts[second] as PlacedShaft] as const;
    rows[i] = new SpeedRow(i, placed.pair.gears, placed.kind.signs(placed.pair, shafts), frames);
  }
  return { rows, findings };
}

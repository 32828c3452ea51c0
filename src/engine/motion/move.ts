/** Motion: exact speeds and ratios, mobility and status of a placed drive (format.md, Motion). */
import type { Drive, Port, Vec3 } from "../drive/types";
import type { Finding } from "../findings";
import type { DriveIndex, Motion, Placement, Status } from "../solved";
import { along } from "../vector";
import { CONSTANT, type Sum } from "./elimination";
import { contradiction, free, lockedPart, outOfRange, ratioLong } from "./motion-findings";
import { joinedParts } from "./parts";
import {
  divide,
  equals,
  fromDecimal,
  fromNumber,
  isZero,
  multiply,
  negate,
  ONE,
  type Rational,
  toNumber,
  ZERO,
} from "./rational";
import { meshRows } from "./rows";
import { addSpeed, reduce, type System } from "./system";

/** rev/min to rad/s. */
export const RADIANS_PER_SECOND = (2 * Math.PI) / 60;

/** Longest fraction that is written out, digits a side. format.md */
const LONGEST_DIGITS = 1000;
const LONGEST = 10n ** BigInt(LONGEST_DIGITS);

const exactSpeed = (port: Port): Rational => {
  if (port.role === "held") return ZERO;
  return port.speedDigits === undefined ? fromNumber(port.speed ?? 0) : fromDecimal(port.speedDigits);
};

const isLong = (a: bigint): boolean => a >= LONGEST || a <= -LONGEST;

interface Ports {
  /** Values of roots once inputs and held ports are put in. */
  readonly value: (shaft: number) => Rational | null;
  readonly disagreeing: Port | null;
  readonly taken: number;
}

/** Puts inputs and held ports into the system. */
function driveSystem(drive: Drive, index: DriveIndex, placement: Placement, system: System): Ports {
  const driven = system.carriers.fork();
  let disagreeing: Port | null = null;
  let taken = 0;
  for (const port of drive.ports) {
    const shaft = index.shafts.get(port.shaft) as number;
    if (port.role === "output" || !placement.shafts[shaft]) continue;
    const sum: Sum = new Map();
    addSpeed(sum, system.root, system.factor, shaft, ONE);
    const speed = exactSpeed(port);
    if (!isZero(speed)) sum.set(CONSTANT, negate(speed));
    const outcome = driven.take(sum);
    if (outcome === "contradiction") disagreeing ??= port;
    if (outcome === "independent") taken++;
  }
  const known = new Map<number, Rational | null>();
  const rootValue = (root: number): Rational | null => {
    let value = known.get(root);
    if (value === undefined) {
      const sum = driven.resolve(new Map([[root, ONE]]));
      const isFixed = sum.size === 0 || (sum.size === 1 && sum.has(CONSTANT));
      value = isFixed ? (sum.get(CONSTANT) ?? ZERO) : null;
      known.set(root, value);
    }
    return value;
  };
  const value = (shaft: number): Rational | null => {
    const factor = system.factor[shaft] as Rational;
    if (isZero(factor)) return ZERO;
    const root = rootValue(system.root[shaft] as number);
    return root && (equals(factor, ONE) ? root : multiply(factor, root));
  };
  return { value, disagreeing, taken };
}

/** Absolute angular velocities, rad/s: each shaft's own about its axis, on top of its carrier's. */
function angularVelocities(
  index: DriveIndex,
  placement: Placement,
  speed: readonly (number | null)[],
): (Vec3 | null)[] {
  const result: (Vec3 | null | undefined)[] = speed.map(() => undefined);
  const chain: number[] = [];
  for (let shaft = 0; shaft < speed.length; shaft++) {
    for (let at = shaft; at !== -1 && result[at] === undefined; at = index.frameOfShaft[at] as number) chain.push(at);
    for (let at = chain.pop(); at !== undefined; at = chain.pop()) {
      const frame = index.frameOfShaft[at] as number;
      const carried = frame === -1 ? ([0, 0, 0] as const) : result[frame];
      const [own, placed] = [speed[at], placement.shafts[at]];
      result[at] =
        own === null || own === undefined || !placed || !carried
          ? null
          : along(carried, placed.axis, own * RADIANS_PER_SECOND);
    }
  }
  return result.map((v) => v ?? null);
}

/** Solves the motion of a placed drive. Pure, never throws. Linear for open chains. */
export function move(drive: Drive, index: DriveIndex, placement: Placement): Motion {
  const { rows, findings: rowFindings } = meshRows(drive, index, placement);
  const findings: Finding[] = [...rowFindings];
  const part = joinedParts(index, drive.shafts.length);
  const system = reduce(drive, index, placement, rows);
  const mobility = system.placed - system.rank;

  const rootIsLocked = new Map<number, boolean>();
  const locked = drive.shafts.map((_, shaft) => {
    const root = system.root[shaft] as number;
    if (root === -1) return false;
    if (isZero(system.factor[shaft] as Rational)) return true;
    let stuck = rootIsLocked.get(root);
    if (stuck === undefined) {
      stuck = system.carriers.isFixed(root) && system.carriers.resolve(new Map([[root, ONE]])).size === 0;
      rootIsLocked.set(root, stuck);
    }
    return stuck;
  });

  // A mesh with an error of its own makes what is joined to it unknown.
  const broken = new Set<number>();
  rows.forEach((row, mesh) => {
    if (!row && placement.meshes[mesh])
      broken.add(part[(index.shaftsOfMesh[mesh] as readonly number[])[0] as number] as number);
  });

  const ports = driveSystem(drive, index, placement, system);
  const isPlaced = (shaft: number): boolean => system.root[shaft] !== -1;
  const found = drive.shafts.map((_, shaft) => (isPlaced(shaft) ? ports.value(shaft) : null));
  const status: Status =
    mobility === 0
      ? "locked"
      : ports.disagreeing
        ? "conflict"
        : found.some((speed, shaft) => speed === null && isPlaced(shaft))
          ? "free"
          : "determined";

  const speeds = found.map((speed, shaft): Rational | null => {
    if (!isPlaced(shaft) || status === "conflict" || broken.has(part[shaft] as number)) return null;
    return status === "locked" ? ZERO : speed;
  });

  const turning = drive.ports.filter((port) => port.role === "input" && !isZero(exactSpeed(port)));
  const only = turning.length === 1 && turning[0] ? turning[0] : null;
  const over = only ? speeds[index.shafts.get(only.shaft) as number] : null;
  const tooLong: number[] = [];
  const ratios = speeds.map((speed, shaft): Rational | null => {
    if (!speed || !over || isZero(over) || status === "locked") return null;
    // The group that begins at the input has the ratios as its factors already.
    const isOwn = only !== null && system.root[shaft] === index.shafts.get(only.shaft);
    const ratio = isOwn ? (system.factor[shaft] as Rational) : divide(speed, over);
    if (!isLong(ratio.n) && !isLong(ratio.d)) return ratio;
    tooLong.push(shaft);
    return null;
  });

  const unheld: number[] = [];
  const speed = speeds.map((exact, shaft): number | null => {
    if (!exact) return null;
    const double = toNumber(exact);
    if (Number.isFinite(double) && (double !== 0 || isZero(exact))) return double;
    unheld.push(shaft);
    return null;
  });

  let velocities: (Vec3 | null)[] | undefined;
  const missingInputs = status === "free" ? mobility - ports.taken : 0;
  if (locked.some(Boolean)) findings.push(...lockedPart(drive, index, part, locked));
  if (status === "conflict" && ports.disagreeing) findings.push(contradiction(drive, index, part, ports.disagreeing));
  if (status === "free") findings.push(free(drive, index, system, rows, speeds, missingInputs));
  if (tooLong.length > 0) findings.push(ratioLong(drive, tooLong, LONGEST_DIGITS));
  if (unheld.length > 0) findings.push(outOfRange(drive, unheld));

  return {
    status,
    mobility,
    missingInputs,
    rows,
    speeds,
    ratios,
    speed,
    get angularVelocity() {
      velocities ??= angularVelocities(index, placement, speed);
      return velocities;
    },
    part,
    locked,
    system,
    findings,
  };
}

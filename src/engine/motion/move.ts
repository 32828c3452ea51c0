/** Motion: exact speeds and ratios, mobility and status of a placed drive (format.md, Motion). */
import type { Drive, Port, Vec3 } from "../drive/types";
import type { DriveIndex, MeshRow, Motion, Placement, Solved, Status } from "../solved";
import { along } from "../vector";
import { CONSTANT, type Sum } from "./elimination";
import { Fractions } from "./fractions";
import { contradiction, free, lockedPart, outOfRange, ratioLong } from "./motion-findings";
import { joinedParts } from "./parts";
import { divide, fromDecimal, fromNumber, isZero, multiply, negate, ONE, type Rational, ZERO } from "./rational";
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
  /** Speeds of roots once inputs and held ports are put in; null where they aren't fixed. */
  readonly rootSpeed: (root: number) => Rational | null;
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
  const rootSpeed = (root: number): Rational | null => {
    let value = known.get(root);
    if (value === undefined) {
      const sum = driven.resolve(new Map([[root, ONE]]));
      const isFixed = sum.size === 0 || (sum.size === 1 && sum.has(CONSTANT));
      value = isFixed ? (sum.get(CONSTANT) ?? ZERO) : null;
      known.set(root, value);
    }
    return value;
  };
  return { rootSpeed, disagreeing, taken };
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

/** For each shaft whether the meshes alone hold it still. */
function lockedShafts({ root, factor, carriers }: System, shafts: number): boolean[] {
  const rootIsLocked = new Map<number, boolean>();
  const isStuck = (at: number): boolean => {
    let stuck = rootIsLocked.get(at);
    if (stuck === undefined) {
      stuck = carriers.isFixed(at) && carriers.resolve(new Map([[at, ONE]])).size === 0;
      rootIsLocked.set(at, stuck);
    }
    return stuck;
  };
  const locked: boolean[] = new Array(shafts).fill(false);
  for (let shaft = 0; shaft < shafts; shaft++) {
    const at = root[shaft] as number;
    if (at !== -1) locked[shaft] = factor.isZero(shaft) || (carriers.rank > 0 && isStuck(at));
  }
  return locked;
}

/** The parts with a mesh whose own error makes what is joined to it unknown. */
function brokenParts(
  index: DriveIndex,
  placement: Placement,
  rows: readonly (MeshRow | null)[],
  part: Int32Array,
): ReadonlySet<number> {
  const broken = new Set<number>();
  for (let mesh = 0; mesh < rows.length; mesh++) {
    if (!rows[mesh] && placement.meshes[mesh]) broken.add(part[index.shaftAt[2 * mesh] as number] as number);
  }
  return broken;
}

/** Each shaft's speed: that of its root times its factor. `isFixed` tells which of them are fixed; the others stay 0. */
function shaftSpeeds(system: System, ports: Ports, shafts: number): { speeds: Fractions; isFixed: Uint8Array } {
  const { root, factor } = system;
  const speeds = new Fractions(shafts);
  const isFixed = new Uint8Array(shafts);
  // Shafts of one group mostly follow each other.
  let last = -1;
  let speed: Rational | null = null;
  let [over, under] = [0, 1];
  for (let shaft = 0; shaft < shafts; shaft++) {
    const at = root[shaft] as number;
    if (at === -1) continue;
    if (factor.isZero(shaft)) {
      isFixed[shaft] = 1;
      continue;
    }
    if (at !== last) {
      last = at;
      speed = ports.rootSpeed(at);
      [over, under] = speed ? [Number(speed.n), Number(speed.d)] : [0, 1];
    }
    if (!speed) continue;
    isFixed[shaft] = 1;
    if (Number.isSafeInteger(over) && Number.isSafeInteger(under)) speeds.setProduct(shaft, factor, shaft, over, under);
    else speeds.set(shaft, multiply(factor.at(shaft), speed));
  }
  return { speeds, isFixed };
}

/**
 * Exact speeds, rev/min, that other equations of the meshes would give: what a slip in one of them leads to. Null where they
 * don't fix a speed; all null where they let nothing turn or go against the inputs.
 */
export function speedsWith(
  { drive, index, placement }: Pick<Solved, "drive" | "index" | "placement">,
  rows: readonly (MeshRow | null)[],
): (Rational | null)[] {
  const count = drive.shafts.length;
  const system = reduce(drive, index, placement, rows);
  const ports = driveSystem(drive, index, placement, system);
  const canTurn = system.placed > system.rank && ports.disagreeing === null;
  const { speeds, isFixed } = shaftSpeeds(system, ports, count);
  return Array.from(isFixed, (fixed, shaft) => (canTurn && fixed === 1 ? speeds.at(shaft) : null));
}

/** Solves the motion of a placed drive. Pure, never throws. Linear for open chains. */
export function move(drive: Drive, index: DriveIndex, placement: Placement): Motion {
  const count = drive.shafts.length;
  const { rows, findings } = meshRows(drive, index, placement);
  const part = joinedParts(index, count);
  const system = reduce(drive, index, placement, rows);
  const mobility = system.placed - system.rank;
  const locked = lockedShafts(system, count);
  const ports = driveSystem(drive, index, placement, system);
  const { speeds, isFixed } = shaftSpeeds(system, ports, count);
  const isOpen = isFixed.some((fixed, shaft) => fixed === 0 && system.root[shaft] !== -1);
  const status: Status = mobility === 0 ? "locked" : ports.disagreeing ? "conflict" : isOpen ? "free" : "determined";

  const broken = brokenParts(index, placement, rows, part);
  for (let shaft = 0; shaft < count; shaft++) {
    const isKnown = system.root[shaft] !== -1 && status !== "conflict" && !broken.has(part[shaft] as number);
    if (!isKnown) isFixed[shaft] = 0;
    else if (status === "locked") {
      isFixed[shaft] = 1;
      speeds.set(shaft, ZERO);
    }
  }

  const turning = drive.ports.filter((port) => port.role === "input" && !isZero(exactSpeed(port)));
  const only = turning.length === 1 && turning[0] ? (index.shafts.get(turning[0].shaft) as number) : -1;
  const hasRatios = only !== -1 && isFixed[only] === 1 && !speeds.isZero(only) && status !== "locked";
  /** The speed of a shaft over that of the only turning input. */
  const ratioOf = (shaft: number): Rational =>
    // The group that begins at the input has the ratios as its factors already.
    system.root[shaft] === only ? system.factor.at(shaft) : divide(speeds.at(shaft), speeds.at(only));
  const tooLong: number[] = [];
  const unheld: number[] = [];
  const speed: (number | null)[] = new Array(count).fill(null);
  const way = new Int8Array(count);
  for (let shaft = 0; shaft < count; shaft++) {
    if (isFixed[shaft] === 0) continue;
    const double = speeds.toNumber(shaft);
    if (Number.isFinite(double) && (double !== 0 || speeds.isZero(shaft))) speed[shaft] = double;
    else unheld.push(shaft);
    way[shaft] = speeds.sign(shaft);
    if (!hasRatios || (system.root[shaft] === only && !system.factor.isLong(shaft))) continue;
    const ratio = ratioOf(shaft);
    if (isLong(ratio.n) || isLong(ratio.d)) tooLong.push(shaft);
  }

  const missingInputs = status === "free" ? mobility - ports.taken : 0;
  let exact: (Rational | null)[] | undefined;
  let ratios: (Rational | null)[] | undefined;
  let velocities: (Vec3 | null)[] | undefined;
  const motion: Motion = {
    status,
    mobility,
    missingInputs,
    rows,
    get speeds() {
      exact ??= Array.from(isFixed, (fixed, shaft) => (fixed === 1 ? speeds.at(shaft) : null));
      return exact;
    },
    get ratios() {
      if (ratios) return ratios;
      ratios = Array.from(isFixed, (fixed, shaft) => (hasRatios && fixed === 1 ? ratioOf(shaft) : null));
      for (const shaft of tooLong) ratios[shaft] = null;
      return ratios;
    },
    speed,
    way,
    isFixed,
    get angularVelocity() {
      velocities ??= angularVelocities(index, placement, speed);
      return velocities;
    },
    part,
    locked,
    system,
    findings,
  };
  if (locked.includes(true)) findings.push(...lockedPart(drive, index, part, locked));
  if (status === "conflict" && ports.disagreeing) findings.push(contradiction(drive, index, part, ports.disagreeing));
  if (status === "free") findings.push(free(drive, index, system, rows, motion.speeds, missingInputs));
  if (tooLong.length > 0) findings.push(ratioLong(drive, tooLong, LONGEST_DIGITS));
  if (unheld.length > 0) findings.push(outOfRange(drive, unheld));
  return motion;
}

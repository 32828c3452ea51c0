/** Turning by hand: how all shafts move when one of them is turned, the inputs let go and held ports held. */
import type { Solved } from "../solved";
import type { Sum } from "./elimination";
import { isZero, ONE, type Rational, toNumber } from "./rational";
import { addSpeed, speedOver } from "./system";

const known = new WeakMap<Solved, Map<number, Float64Array | null>>();

/**
 * Speeds of all shafts, each in its own frame, when `shaft` turns at 1 and everything else that could still move stands
 * still. Null where `shaft` can't turn. The same array for the same question.
 */
export function crankMode(solved: Solved, shaft: number): Float64Array | null {
  const answers = known.get(solved) ?? new Map<number, Float64Array | null>();
  known.set(solved, answers);
  const had = answers.get(shaft);
  if (had !== undefined) return had;
  const mode = findMode(solved, shaft);
  answers.set(shaft, mode);
  return mode;
}

function findMode({ drive, index, motion }: Solved, shaft: number): Float64Array | null {
  const { system } = motion;
  if (system.root[shaft] === -1) return null;
  const held = system.carriers.fork();
  for (const port of drive.ports) {
    const at = index.shafts.get(port.shaft) as number;
    if (port.role !== "held" || system.root[at] === -1) continue;
    const sum: Sum = new Map();
    addSpeed(sum, system.root, system.factor, at, ONE);
    held.take(sum);
  }
  const own = speedOver(system, held, shaft);
  const chosen = [...own].find(([, value]) => !isZero(value));
  if (!chosen) return null;
  const [unknown, unit] = chosen;
  const scale = toNumber(unit);
  // With all other free unknowns at rest, every speed is its own part of the chosen one.
  return Float64Array.from(drive.shafts, (_, i) => {
    if (system.root[i] === -1) return 0;
    const part: Rational | undefined = speedOver(system, held, i).get(unknown);
    return part ? toNumber(part) / scale : 0;
  });
}

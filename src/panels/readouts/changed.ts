/** What an edit changed: the words of before beside the words of now, where they differ. */
import { HIDDEN, NOT_FIXED, turning } from "../../engine/explain/directions";
import { shown } from "../../engine/explain/numbers";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { figuresIn } from "../../engine/wording";

export interface ShaftWords {
  readonly direction: string;
  readonly speed: string;
  readonly torque: string | null;
  readonly power: string | null;
  /** "torque × 5, no losses", where no load is given; null where there are figures, or nothing can be said. */
  readonly gain: string | null;
}

/** rev/min; null where it isn't fixed, or hidden. */
export const speedSize = ({ motion, veil }: Solved, shaft: number): number | null =>
  size(motion.speed[shaft] ?? veil?.speedSize(shaft) ?? null);

/** What is said in the place of a speed. */
export const noSpeed = ({ veil }: Solved, shaft: number): string => (veil?.hides(shaft, "speed") ? HIDDEN : NOT_FIXED);

const size = (value: number | null): number | null => (value === null ? null : Math.abs(value));

interface Told {
  readonly units: UnitChoice;
  readonly words: (ShaftWords | undefined)[];
}
const told = new WeakMap<Solved, Told>();

/** All that a card says of one shaft, as sizes: which way it turns stands in words. The drive before a drag is asked at each step of it. */
export function shaftWords(solved: Solved, shaft: number, units: UnitChoice): ShaftWords {
  const had = told.get(solved);
  const known = had?.units === units ? had : { units, words: [] };
  if (known !== had) told.set(solved, known);
  known.words[shaft] ??= wordsOf(solved, shaft, units);
  return known.words[shaft];
}

function wordsOf(solved: Solved, shaft: number, units: UnitChoice): ShaftWords {
  const { load, drive, veil } = solved;
  const { torque = null, power = null } = load.shafts[shaft] ?? {};
  const gain = load.gain[shaft] ?? null;
  const bySize = drive.ports.some((port) => port.torque !== undefined || port.power !== undefined);
  const hasFigures = torque !== null && bySize;
  return {
    direction: turning(solved, shaft),
    speed: shown(speedSize(solved, shaft), "rev/min", units, noSpeed(solved, shaft)),
    torque: bySize && veil?.hides(shaft, "torque") ? HIDDEN : hasFigures ? shown(size(torque), "N·m", units) : null,
    power: hasFigures && power !== null ? shown(size(power), "W", units) : null,
    gain: hasFigures || gain === null ? null : gainWords(solved, gain, units),
  };
}

function gainWords({ drive }: Solved, gain: number, units: UnitChoice): string {
  const losses = drive.meshes.some((mesh) => mesh.efficiency < 1);
  return `torque × ${figuresIn(Math.abs(gain), units)}, ${losses ? "losses counted" : "no losses"}`;
}

/** What one line said before the last edit; null where it says the same, or the shaft wasn't there. */
export function wasWords(was: Solved | null, id: string, now: ShaftWords, units: UnitChoice): Partial<ShaftWords> {
  const shaft = was?.index.shafts.get(id);
  if (!was || shaft === undefined) return {};
  const before = shaftWords(was, shaft, units);
  const changed: { -readonly [K in keyof ShaftWords]?: ShaftWords[K] } = {};
  for (const key of ["direction", "speed", "torque", "power", "gain"] as const) {
    const words = before[key];
    if (words !== null && now[key] !== null && words !== now[key]) Object.assign(changed, { [key]: words });
  }
  return changed;
}

/** A crank that is left on a train which a motor drives turns with it, and strikes whoever stands by. */
import { isZero } from "../../engine/motion/rational";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";

/** The file doesn't say what turns a shaft: a crank is told by its name. */
const CRANK = /\b(hand[- ]?)?(crank|handle)s?\b/i;
/** rev/min: faster than anybody turns a crank by hand. Our own limit; a size in W or N·m tells a motor as well. */
const BY_HAND = 100;

/** The caution as one sentence; null where no crank turns along with a motor. Linear. */
export function crankCaution({ drive, index, motion }: Solved): string | null {
  for (const [crank, shaft] of drive.shafts.entries()) {
    const speed = motion.speeds[crank];
    if (!CRANK.test(shaft.name) || (speed && isZero(speed))) continue;
    const motor = drive.ports.find((port) => {
      const at = index.shafts.get(port.shaft) ?? -1;
      if (port.role !== "input" || at === crank || motion.part[at] !== motion.part[crank]) return false;
      const isSized = port.power !== undefined || port.torque !== undefined;
      return isSized ? port.speed !== 0 : Math.abs(port.speed ?? 0) > BY_HAND;
    });
    if (!motor) continue;
    const name = (i: number): string => shaftName(drive, i);
    return (
      `${name(crank)} turns along while ${name(index.shafts.get(motor.shaft) ?? crank)} drives: take the crank off before ` +
      "the power goes on, and put a guard over the gears; a model driven by power needs a supply of low torque."
    );
  }
  return null;
}

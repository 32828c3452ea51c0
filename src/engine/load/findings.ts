/** What the load layer has to say of a part, a sentence each. */
import type { Finding } from "../findings";
import { RADIANS_PER_SECOND } from "../motion/move";
import type { Drive, DriveIndex, Motion } from "../solved";
import { ZERO_RELATIVE } from "../tolerances";
import { listNames, nameText, quantity, shaftName } from "../wording";
import type { PartLoads } from "./ports";
import type { Balance } from "./solve-balance";

const idsOf = (drive: Drive, meshes: readonly number[]): string[] => meshes.map((mesh) => drive.meshes[mesh]?.id ?? "");

/** The note `equal-sharing` for meshes whose forces balance alone doesn't fix. */
export function equalSharing(drive: Drive, meshes: readonly number[]): Finding {
  const ids = idsOf(drive, meshes);
  const subject =
    ids.length === 1
      ? `mesh ${nameText(ids[0] ?? "")} carries`
      : `the meshes ${listNames(ids.map(nameText))} each carry`;
  return {
    severity: "note",
    code: "equal-sharing",
    at: ids,
    message:
      `How much ${subject} can't be told from balance alone, for the load has more than one way through; the figures ` +
      "assume that it is shared as evenly as it can be (least sum of squares of the tooth forces), so allow for an " +
      "uneven share in a real drive.",
  };
}

/** The error `self-locking` of a part. `lossy`: meshes whose losses stop it. `isUndecided`: too many ways were left to try. */
export function selfLocking(
  drive: Drive,
  ports: PartLoads,
  part: number,
  lossy: readonly number[],
  isUndecided: boolean,
): Finding {
  const [inputs, outputs] = [ports.inputs[part] ?? [], ports.outputs[part] ?? []];
  const names = (shafts: readonly number[]) => listNames(shafts.map((s) => shaftName(drive, s)));
  const ids = idsOf(drive, lossy);
  const where = ids.length > 0 ? ` in ${ids.length === 1 ? "mesh" : "the meshes"} ${listNames(ids.map(nameText))}` : "";
  const at = [...inputs, ...outputs].map((s) => drive.shafts[s]?.id ?? "").concat(ids);
  const train =
    inputs.length === 0 ? `The train to ${names(outputs)}` : `The train from ${names(inputs)} to ${names(outputs)}`;
  const message = isUndecided
    ? `${train} has no set of driving gears that was found to agree with its own torques, with the losses${where}, so it ` +
      "may lock itself; raise the efficiencies or take meshes out of the loop."
    : `${train} locks itself: the losses${where} take more than the drive passes on, so however hard one turns there it ` +
      "does not move its load; drive it from the other side, raise the efficiencies, or choose tooth counts with less " +
      "power going round in the train.";
  return { severity: "error", code: "self-locking", at, message };
}

/** The inputs can't give what the loads given take, so that nothing is left for the outputs whose load was left out. */
export const overloaded = (drive: Drive, left: readonly number[], given: number, taken: number): Finding => ({
  severity: "warning",
  code: "input-short",
  at: left.map((s) => drive.shafts[s]?.id ?? ""),
  message: `Nothing is left for ${listNames(left.map((s) => shaftName(drive, s)))}: the inputs give ${quantity(given, "W")}, and the loads given take ${quantity(taken, "W")}, losses apart; raise an input or lower a load.`,
});

/** The warnings `input-short` of a part: inputs that can give less than balance asks of them. */
export function inputShort(
  drive: Drive,
  index: DriveIndex,
  motion: Motion,
  ports: PartLoads,
  balance: Balance,
  part: number,
): Finding[] {
  const findings: Finding[] = [];
  for (const s of ports.inputs[part] ?? []) {
    const port = drive.ports[index.portOfShaft[s] ?? -1];
    const way = motion.way[s] ?? 0;
    const torque = balance.port[s] ?? Number.NaN;
    if (!port || !motion.isFixed[s] || !ports.free[s]) continue;
    // An input that holds its load back is not short of torque.
    const needed = way === 0 ? Math.abs(torque) : torque * way;
    const power = needed * Math.abs(motion.speed[s] ?? Number.NaN) * RADIANS_PER_SECOND;
    const isShort =
      port.torque !== undefined
        ? needed > port.torque * (1 + ZERO_RELATIVE)
        : port.power !== undefined && power > port.power * (1 + ZERO_RELATIVE);
    if (!isShort) continue;
    const [need, has] =
      port.torque !== undefined
        ? [quantity(needed, "N·m"), quantity(port.torque, "N·m")]
        : [quantity(power, "W"), quantity(port.power ?? 0, "W")];
    findings.push({
      severity: "warning",
      code: "input-short",
      at: [drive.shafts[s]?.id ?? ""],
      message:
        `The input at ${shaftName(drive, s)} can give ${has} but the load needs ${need} of it: choose a stronger input, ` +
        "gear down further, or lower the load.",
    });
  }
  return findings;
}

/** The note `out-of-range` of a part. */
export function outOfRange(drive: Drive, meshes: readonly number[]): Finding {
  const ids = idsOf(drive, meshes);
  return {
    severity: "note",
    code: "out-of-range",
    at: ids,
    message:
      `The torques at ${ids.length === 1 ? "mesh" : "the meshes"} ${listNames(ids.map(nameText))} are too large or too small ` +
      "for a number of double precision, so they are left out; take stages out of the train.",
  };
}

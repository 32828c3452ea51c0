/** Why a number isn't known, in a student's words. */
import type { Solved } from "../solved";
import { shaftName } from "../wording";

/** Why a shaft has no speed; null where it has one. */
export function missingSpeed(solved: Solved, shaft: number): string | null {
  const { motion, placement, drive } = solved;
  if (!placement.shafts[shaft]) return `nothing says where ${shaftName(drive, shaft)} stands`;
  if (motion.speeds[shaft]) {
    return motion.speed[shaft] === null ? "the number is out of range" : null;
  }
  if (motion.status === "conflict") return "the inputs disagree";
  if (solved.index.meshesOfShaft[shaft]?.some((mesh) => !motion.rows[mesh])) return "a mesh that it needs has an error";
  const [count, word] = [motion.missingInputs, motion.missingInputs === 1 ? "input" : "inputs"];
  return count > 0
    ? `the drive needs ${count === 1 ? "one" : count} more ${word}`
    : "its part of the drive has an error";
}

/** Why a shaft or a mesh carries no known torque. */
export function missingTorque(solved: Solved): string {
  const { motion, drive, load } = solved;
  if (motion.status === "locked") return "the drive is jammed, so balance alone doesn't tell";
  if (motion.status === "conflict") return "the inputs disagree";
  if (motion.status === "free") return "the speeds aren't all fixed yet";
  if (load.findings.some((finding) => finding.code === "self-locking")) return "the drive locks itself";
  if (!drive.ports.some((port) => port.role === "output")) return "no shaft is an output, so nothing is carried";
  return "no load is given: give an output, or the input, a torque or a power";
}

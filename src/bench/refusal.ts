/** Why a shaft can't be cranked: the sentence of the finding that says so, or a plain one. */
import type { Solved } from "../engine/solved";
import { shaftName } from "../engine/wording";

export function whyStuck(solved: Solved, shaft: number): string {
  const { motion, findings, drive, index } = solved;
  if (solved.veil) return "How the drive turns is hidden by the question: reveal it first.";
  const code = motion.status === "conflict" ? "contradiction" : "locked";
  const id = drive.shafts[shaft]?.id ?? "";
  const finding =
    findings.find((one) => one.code === code && one.at.includes(id)) ?? findings.find((one) => one.code === code);
  if (finding && (motion.status !== "determined" || motion.locked[shaft])) return finding.message;
  const name = shaftName(drive, shaft);
  const port = drive.ports[index.portOfShaft[shaft] ?? -1];
  if (port?.role === "held")
    return `${name} is held, so it can't be cranked: take its hold away in the parts list first.`;
  return `${name} can't be cranked: it is joined to something that is held or can't turn.`;
}

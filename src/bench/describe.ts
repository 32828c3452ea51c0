/** The drive in words, for who can't see the picture: how many shafts, and what turns how. */
import { turning } from "../engine/explain/directions";
import type { Solved } from "../engine/solved";
import { shaftName } from "../engine/wording";

/** More shafts than these are counted, not told one by one; the readouts have them all. */
const TOLD = 6;

export function describeDrive(solved: Solved): string {
  const { drive } = solved;
  const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? "" : "s"}`;
  const told = drive.shafts.slice(0, TOLD).map((_, i) => {
    const words = turning(solved, i);
    return `${shaftName(drive, i)} ${/^(counter)?clockwise/.test(words) ? "turns " : ""}${words}`;
  });
  const rest = drive.shafts.length - told.length;
  return [
    `${count(drive.shafts.length, "shaft")} with ${count(drive.gears.length, "gear")}.`,
    ...told.map(
      (sentence) => `${sentence.replace(/(not fixed yet|hidden by the question)$/, "turns in a way that is $1")}.`,
    ),
    ...(rest > 0 ? [`And ${rest} more, in the readouts.`] : []),
  ].join(" ");
}

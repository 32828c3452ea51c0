/** A stage that would be, in words: how many turns give how many, which way the new shaft turns, how fast. */
import { sameWay, turning } from "../../engine/explain/directions";
import { shown } from "../../engine/explain/numbers";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { shaftName, turnsWords } from "../../engine/wording";
import { type Candidate, ratioOf } from "./candidate";

/** "5 turns of Motor give 2 of B" */
export const stageTurns = (solved: Solved, candidate: Candidate, newName: string, units: UnitChoice): string =>
  turnsWords(shaftName(solved.drive, candidate.shaft), newName, ratioOf(candidate), units);

/** "C turns clockwise seen from the motor end, at 30 rev/min" */
export function turningWords(next: Solved, shaft: number, units: UnitChoice): string {
  const name = shaftName(next.drive, shaft);
  const speed = next.motion.speed[shaft] ?? null;
  const way = turning(next, shaft);
  if (speed === null) return `which way ${name} turns is ${way}`;
  return speed === 0 ? `${name} ${way}` : `${name} turns ${way}, at ${shown(Math.abs(speed), "rev/min", units)}`;
}

/** "turns the other way", "turns the same way"; null where that means nothing. */
export function wayWords(next: Solved, from: number, shaft: number): string | null {
  const way = sameWay(next, from, shaft);
  return way && `turns ${way}`;
}

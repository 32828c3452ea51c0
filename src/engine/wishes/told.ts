/** What a change does to the shafts, in sentences: was -> now. */

import { NOT_FIXED, STANDS_STILL, sense, tellingEnd, turning } from "../explain/directions";
import { endNames } from "../explain/ends";
import type { Finding } from "../findings";
import { absolute, equals, sign } from "../motion/rational";
import type { Solved } from "../solved";
import { dot } from "../vector";
import { listNames, quantity, shaftName } from "../wording";
import type { Difference } from "./cost";

/** The index in `after` of a shaft of `before`; -1 where it went. */
export const follow = (before: Solved, after: Solved, shaft: number): number =>
  after.index.shafts.get(before.drive.shafts[shaft]?.id ?? "") ?? -1;

/** "290 rev/min": the size of a speed. */
const size = (solved: Solved, shaft: number): string => {
  const speed = solved.motion.speed[shaft] ?? null;
  return speed === null ? NOT_FIXED : speed === 0 ? STANDS_STILL : quantity(Math.abs(speed), "rev/min");
};

/** How a shaft turns, seen from an end chosen before: "clockwise seen from the motor end at 290 rev/min". */
function turnsAs(solved: Solved, shaft: number, plus: boolean): string {
  const way = sense(solved, shaft, plus ? "plus" : "minus");
  if (way === null) return turning(solved, shaft);
  return `${turning(solved, shaft, plus ? "plus" : "minus")} at ${size(solved, shaft)}`;
}

/** "it turns clockwise seen from the motor end", "it stands still", "how it turns is not fixed yet". */
export function turnsNow(solved: Solved, shaft: number, it = "it"): string {
  const speed = solved.motion.speeds[shaft] ?? null;
  if (speed === null) return `how ${it} turns is ${NOT_FIXED}`;
  return sign(speed) === 0 ? `${it} ${STANDS_STILL}` : `${it} turns ${turning(solved, shaft)}`;
}

/** "Mixer was clockwise seen from its right end at 290 rev/min, now counterclockwise at 100 rev/min." */
export function tellTurning(before: Solved, after: Solved, shaft: number): string {
  const name = shaftName(before.drive, shaft);
  const now = follow(before, after, shaft);
  const plus = tellingEnd(before, shaft) === "plus";
  const [was, is] = [turnsAs(before, shaft, plus), turnsAs(after, now, plus)];
  const [wasEnd, isEnd] = [before, after].map((solved, i) => endNames(solved, i === 0 ? shaft : now));
  const end = plus ? "plus" : "minus";
  const said = wasEnd?.[end] === isEnd?.[end] ? is.replace(` seen from the ${isEnd?.[end]}`, "") : is;
  return `${name} was ${was}, now ${said === was ? "as before" : said}.`;
}

type Turn = "way" | "speed" | "both" | null;

/** How the turning of a shaft differs: its way round (seen from the same end), its speed, or both. */
function turnOf(before: Solved, after: Solved, shaft: number, now: number): Turn {
  const [was, is] = [before.motion.speeds[shaft] ?? null, after.motion.speeds[now] ?? null];
  // Of one that was or is not fixed nobody can say that it is reversed.
  if (was === null || is === null) return was === is ? null : "speed";
  const [axisWas, axisIs] = [before.placement.shafts[shaft]?.axis, after.placement.shafts[now]?.axis];
  const flip = axisWas && axisIs && dot(axisWas, axisIs) < 0 ? -1 : 1;
  const isOtherWay = sign(was) * flip !== sign(is);
  const isOtherSpeed = !equals(absolute(was), absolute(is));
  return isOtherWay ? (isOtherSpeed ? "both" : "way") : isOtherSpeed ? "speed" : null;
}

/** How many shafts are told with both their speeds. */
const MOST_TOLD = 6;

function othersTurning(before: Solved, after: Solved, asked: number): string[] {
  const reversed: number[] = [];
  const told: string[] = [];
  let more = 0;
  before.drive.shafts.forEach((_, shaft) => {
    const now = follow(before, after, shaft);
    if (shaft === asked || now < 0) return;
    const turn = turnOf(before, after, shaft, now);
    if (turn === null) return;
    if (turn === "way") {
      reversed.push(shaft);
      return;
    }
    if (told.length >= MOST_TOLD) {
      more++;
      return;
    }
    const stood = [size(before, shaft), size(after, now)].includes(STANDS_STILL);
    const other = turn === "both" && !stood ? " the other way round" : "";
    told.push(`${shaftName(before.drive, shaft)} ${size(before, shaft)} → ${size(after, now)}${other}`);
  });
  const names = listNames(reversed.map((shaft) => shaftName(before.drive, shaft)));
  return [
    ...(reversed.length > 0 ? [`${names} ${reversed.length === 1 ? "turns" : "turn"} the other way too.`] : []),
    ...(told.length > 0 ? [`Other speeds: ${told.join("; ")}${more > 0 ? `; and ${more} more` : ""}.`] : []),
  ];
}

/** One sentence for each code, and how many more of it there are. */
function warningWords(warnings: readonly Finding[]): string[] {
  const byCode = new Map<string, Finding[]>();
  for (const warning of warnings) byCode.set(warning.code, [...(byCode.get(warning.code) ?? []), warning]);
  return [...byCode.values()].map(
    ([first, ...more]) => `New warning: ${first?.message}${more.length > 0 ? ` And ${more.length} more like it.` : ""}`,
  );
}

/** What the inputs have to give, where that is known before and after and not the same. */
function inputTorques(before: Solved, after: Solved, asked: number): string[] {
  return after.drive.ports.flatMap((port) => {
    const now = after.index.shafts.get(port.shaft) ?? -1;
    const was = before.index.shafts.get(port.shaft) ?? -1;
    const [old, torque] = [before.load.shafts[was]?.torque ?? null, after.load.shafts[now]?.torque ?? null];
    if (port.role !== "input" || was === asked || old === null || torque === null) return [];
    const [from, to] = [Math.abs(old), Math.abs(torque)];
    if (Math.abs(from - to) <= 1e-6 * Math.max(from, to)) return [];
    return [`${shaftName(after.drive, now)} has to give ${quantity(from, "N·m")} → ${quantity(to, "N·m")}.`];
  });
}

/** Everything that a change does besides what was asked for. */
export function alsoChanged(
  before: Solved,
  after: Solved,
  difference: Difference,
  asked: number,
  warnings: readonly Finding[],
): string[] {
  const name = (id: string): string => shaftName(after.drive, after.index.shafts.get(id) ?? 0);
  const { moved, newShafts, furthest } = difference;
  const newTurning = newShafts.map((id) => {
    const shaft = after.index.shafts.get(id) ?? -1;
    return `New: ${name(id)}, ${turning(after, shaft)} at ${size(after, shaft)}.`;
  });
  const far = furthest > 0.005 ? `, by up to ${quantity(furthest, "mm", 3)}` : "";
  return [
    ...othersTurning(before, after, asked),
    ...inputTorques(before, after, asked).slice(0, MOST_TOLD),
    ...newTurning.slice(0, MOST_TOLD),
    ...(moved.length > 0 ? [`${listNames(moved.map(name))} ${moved.length === 1 ? "moves" : "move"}${far}.`] : []),
    ...warningWords(warnings),
  ];
}

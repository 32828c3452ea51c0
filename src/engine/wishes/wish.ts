/**
 * Wishes: what somebody wants a shaft to do, answered with the smallest changes that do it, each tried out and found
 * true, or with the reason why it can't be.
 */
import type { Vec3 } from "../drive/types";
import { FIRST_EYE, sense } from "../explain/directions";
import { isZero, type Rational, sign, toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import { angleBetween, DEGREE, dot, length, unit } from "../vector";
import { quantity, shaftName } from "../wording";
import { otherSide } from "./bevels";
import { type Answer, type Asked, type Change, type Proposal, smallest } from "./change";
import { comeOut, missOfLine, THROUGH } from "./come-out";
import { idlers } from "./idlers";
import { jointsTo } from "./parts";
import { leans } from "./places";
import { otherMembers, reversals, timesOf } from "./settings";
import { speedChanges } from "./speeds";
import { follow, tellTurning, turnsNow } from "./told";
import { NEAR_ENOUGH } from "./tooth-counts";
import { torqueChanges } from "./torques";

export type Way = "clockwise" | "counterclockwise";

export type Wish =
  | { readonly kind: "other-way"; readonly shaft: string }
  /** `toEye`: from the drive towards the eye, in the world. */
  | { readonly kind: "this-way"; readonly shaft: string; readonly way: Way; readonly toEye: Vec3 }
  /** rev/min, above 0, in the shaft's own frame; the way round stays. */
  | { readonly kind: "speed"; readonly shaft: string; readonly speed: Rational }
  /** N·m, above 0. */
  | { readonly kind: "torque"; readonly shaft: string; readonly torque: number }
  /** Degrees to another shaft's line: 0 to 90 between the lines, beyond 90 between the positive axes. */
  | { readonly kind: "angle"; readonly shaft: string; readonly to: string; readonly degrees: number }
  /** Degrees from the level, 0 to 90. */
  | { readonly kind: "lean"; readonly shaft: string; readonly degrees: number }
  /** A point in the world, mm, that the shaft's line should go through. */
  | { readonly kind: "here"; readonly shaft: string; readonly point: Vec3 };

/** Degrees: an axis that the eye sees this nearly from the side turns neither way round. */
const SIDEWAYS = 5;
/** Degrees: an angle that is met. */
const SAME_ANGLE = 1e-5;
const UP: Vec3 = [0, 0, 1];

const cannot = (sentence: string): Answer => ({ cannot: sentence });

/** Up to three changes that do what is wished, the smallest first; or one sentence that says why it can't be. */
export function wishAnswers(solved: Solved, wish: Wish): Answer {
  const shaft = solved.index.shafts.get(wish.shaft);
  if (shaft === undefined) return cannot("This shaft is not in the drive any more; choose another.");
  const name = shaftName(solved.drive, shaft);
  if (!solved.placement.shafts[shaft]) {
    return cannot(`${name} has no place yet: mesh one of its gears with a placed one, or give it a pose.`);
  }
  switch (wish.kind) {
    case "other-way":
      return otherWay(solved, shaft);
    case "this-way":
      return thisWay(solved, shaft, wish.way, wish.toEye);
    case "speed":
      return thisFast(solved, shaft, wish.speed);
    case "torque":
      return thisMuch(solved, shaft, wish.torque);
    case "angle":
      return atAngle(solved, shaft, wish.to, wish.degrees);
    case "lean":
      return leaning(solved, shaft, wish.degrees);
    case "here":
      return here(solved, shaft, wish.point);
  }
}

/** Why a shaft's turning can't be asked for; null where it turns. */
function notTurning(solved: Solved, shaft: number): string | null {
  const name = shaftName(solved.drive, shaft);
  const { motion, drive } = solved;
  if (motion.locked[shaft]) {
    return `${name} is locked: its meshes ask for ways or speeds that can't both be. Take one mesh out of the loop first.`;
  }
  if (motion.status === "conflict") {
    return "The inputs disagree, so nothing turns: let one of them go free first.";
  }
  const speed = motion.speeds[shaft] ?? null;
  if (speed === null) {
    return `The speed of ${name} is not fixed yet: drive or hold as many more shafts as the findings say first.`;
  }
  if (!isZero(speed)) return null;
  const port = drive.ports[solved.index.portOfShaft[shaft] ?? -1];
  if (port?.role === "held") return `${name} is held still: let it go, or make it an output, first.`;
  if (port?.role === "input") return `${name} is an input of ${quantity(0, "rev/min")}: give it a speed first.`;
  const turns = motion.speeds.some((other) => other !== null && !isZero(other));
  return turns
    ? `${name} stands still: nothing that turns drives it. Mesh one of its gears with one that does.`
    : `${name} stands still, for no input turns: give one a speed first.`;
}

const answer = (changes: readonly Change[], why: string): Answer => (changes.length > 0 ? { changes } : cannot(why));

/** The sign of a shaft's speed about the direction its axis had before. */
function signedAs(before: Solved, after: Solved, shaft: number): number {
  const now = follow(before, after, shaft);
  const speed = after.motion.speeds[now] ?? null;
  const [was, is] = [before.placement.shafts[shaft]?.axis, after.placement.shafts[now]?.axis];
  if (speed === null || !was || !is) return 0;
  return sign(speed) * (dot(was, is) < 0 ? -1 : 1);
}

function otherWay(solved: Solved, shaft: number): Answer {
  const why = notTurning(solved, shaft);
  if (why) return cannot(why);
  const name = shaftName(solved.drive, shaft);
  const was = solved.motion.speeds[shaft] as Rational;
  const asked: Asked = {
    shaft,
    isMet: (after) => signedAs(solved, after, shaft) === -sign(was),
    tell: (after) => tellTurning(solved, after, shaft),
  };
  return answer(
    smallest(solved, turningRound(solved, shaft), asked),
    `No single change turns ${name} the other way: its way round is fixed by meshes that close loops, by gears that several mates share, or there is no room for an idler. Reverse what drives it, or open a loop first.`,
  );
}

function turningRound(solved: Solved, shaft: number): Proposal[] {
  return [
    ...reversals(solved),
    ...otherMembers(solved, shaft),
    ...jointsTo(solved, shaft).flatMap((joint) => [
      ...([0, 1] as const).flatMap((side) => otherSide(solved, joint, side) ?? []),
      ...idlers(solved, joint),
    ]),
  ];
}

function thisWay(solved: Solved, shaft: number, way: Way, toEye: Vec3): Answer {
  const why = notTurning(solved, shaft);
  if (why) return cannot(why);
  const name = shaftName(solved.drive, shaft);
  const axis = solved.placement.shafts[shaft]?.axis ?? UP;
  const eye = length(toEye) > 0 ? unit(toEye) : FIRST_EYE;
  if (Math.abs(dot(axis, eye)) < Math.sin(SIDEWAYS * DEGREE)) {
    return cannot(
      `From here ${name} is seen from the side, where it turns neither clockwise nor counterclockwise: look at it from nearer one of its ends.`,
    );
  }
  const end = dot(axis, eye) > 0 ? "plus" : "minus";
  if (sense(solved, shaft, end) === way) {
    return cannot(`${name} turns ${way} seen from here already: nothing need be changed.`);
  }
  return otherWay(solved, shaft);
}

/** "exactly", "0.3 % fast": by how much a size misses the wanted one. */
function missWords(now: number, wanted: number, words: readonly [more: string, less: string]): string {
  const miss = now / wanted - 1;
  if (Math.abs(miss) < 1e-9) return "That is exactly what was asked for.";
  // Of smooth wheels, whose diameters are cut to so many digits.
  if (Math.abs(miss) < 1e-6) return "That is what was asked for, to within a millionth.";
  return `That is ${quantity(Math.abs(miss) * 100, "", 2)} % ${miss > 0 ? words[0] : words[1]}.`;
}

function thisFast(solved: Solved, shaft: number, speed: Rational): Answer {
  const why = notTurning(solved, shaft);
  if (why) return cannot(why);
  const name = shaftName(solved.drive, shaft);
  const wanted = toNumber(speed);
  const times = timesOf(speed, solved.motion.speeds[shaft]);
  if (!times || sign(speed) <= 0 || !Number.isFinite(wanted)) {
    return cannot(`A wanted speed must be a number above ${quantity(0, "rev/min")}; to stop a shaft, hold it.`);
  }
  if (times.n === times.d) return cannot(`${name} turns at ${quantity(wanted, "rev/min", 6)} already.`);
  const was = solved.motion.speeds[shaft] as Rational;
  const sizeOf = (after: Solved): number =>
    Math.abs(after.motion.speed[follow(solved, after, shaft)] ?? Number.POSITIVE_INFINITY);
  const asked: Asked = {
    shaft,
    isMet: (after) =>
      signedAs(solved, after, shaft) === sign(was) && Math.abs(sizeOf(after) / wanted - 1) <= NEAR_ENOUGH,
    missedBy: (after) => sizeOf(after) / wanted - 1,
    tell: (after) => `${tellTurning(solved, after, shaft)} ${missWords(sizeOf(after), wanted, ["fast", "slow"])}`,
  };
  return answer(
    smallest(solved, speedChanges(solved, shaft, times), asked),
    `No one change of tooth counts brings ${name} within ${NEAR_ENOUGH * 100} % of ${quantity(wanted, "rev/min", 6)}: its ratio is fixed by rings, loops or gears that several mates share, or it asks for more than one stage can do. Add a stage.`,
  );
}

function thisMuch(solved: Solved, shaft: number, torque: number): Answer {
  const why = notTurning(solved, shaft);
  if (why) return cannot(why);
  const name = shaftName(solved.drive, shaft);
  if (!(torque > 0 && Number.isFinite(torque)))
    return cannot(`A wanted torque must be a number above ${quantity(0, "N·m")}.`);
  const sizeOf = (after: Solved): number =>
    Math.abs(after.load.shafts[follow(solved, after, shaft)]?.torque ?? Number.NaN);
  if (Math.abs(sizeOf(solved) / torque - 1) < 1e-9)
    return cannot(`There are ${quantity(torque, "N·m")} at ${name} already.`);
  const known = sizeOf(solved);
  const was = solved.load.shafts[shaft]?.torque ?? null;
  const asked: Asked = {
    shaft,
    isMet: (after) => Math.abs(sizeOf(after) / torque - 1) <= NEAR_ENOUGH,
    missedBy: (after) => sizeOf(after) / torque - 1,
    tell: (after) =>
      `${name} had ${was === null ? "no torque that is known" : quantity(known, "N·m")}, now ${quantity(sizeOf(after), "N·m")}. ${missWords(sizeOf(after), torque, ["more", "less"])} ${tellTurning(solved, after, shaft)}`,
  };
  return answer(
    smallest(solved, torqueChanges(solved, shaft, torque), asked),
    `No one change gives ${quantity(torque, "N·m")} at ${name}: say what the input can give or what load stands at the output, so that torque has a size, or add a stage.`,
  );
}

const axisOf = (solved: Solved, shaft: number): Vec3 => solved.placement.shafts[shaft]?.axis ?? UP;

function atAngle(solved: Solved, shaft: number, to: string, degrees: number): Answer {
  const other = solved.index.shafts.get(to);
  if (other === undefined || other === shaft || !solved.placement.shafts[other]) {
    return cannot("Choose another shaft that has a place, to measure the angle from.");
  }
  if (!(degrees >= 0 && degrees <= 180)) return cannot("An angle between two shafts is 0 to 180 degrees.");
  const between = (after: Solved): number => {
    const angle =
      angleBetween(axisOf(after, follow(solved, after, shaft)), axisOf(after, follow(solved, after, other))) / DEGREE;
    return degrees <= 90 ? Math.min(angle, 180 - angle) : angle;
  };
  const cosine = Math.cos(degrees * DEGREE);
  const what = `at ${quantity(degrees, "°", 6)} to ${shaftName(solved.drive, other)}`;
  return standing(
    solved,
    shaft,
    other,
    axisOf(solved, other),
    degrees <= 90 ? [cosine, -cosine] : [cosine],
    between,
    degrees,
    what,
  );
}

function leaning(solved: Solved, shaft: number, degrees: number): Answer {
  if (!(degrees >= 0 && degrees <= 90)) return cannot("A shaft leans by 0 (level) to 90 degrees (upright).");
  const lean = (after: Solved): number => {
    const angle = angleBetween(axisOf(after, follow(solved, after, shaft)), UP) / DEGREE;
    return Math.abs(90 - angle);
  };
  const sine = Math.sin(degrees * DEGREE);
  return standing(
    solved,
    shaft,
    null,
    UP,
    [sine, -sine],
    lean,
    degrees,
    `leaning ${quantity(degrees, "°", 6)} from the level`,
  );
}

function standing(
  solved: Solved,
  shaft: number,
  other: number | null,
  target: Vec3,
  cosines: readonly number[],
  measure: (after: Solved) => number,
  degrees: number,
  what: string,
): Answer {
  const name = shaftName(solved.drive, shaft);
  if (Math.abs(measure(solved) - degrees) < SAME_ANGLE) return cannot(`${name} stands ${what} already.`);
  const asked: Asked = {
    shaft,
    isMet: (after) => Math.abs(measure(after) - degrees) < SAME_ANGLE,
    tell: (after) =>
      `${name} stood at ${quantity(measure(solved), "°")}, now at ${quantity(measure(after), "°")}; ${turnsNow(after, follow(solved, after, shaft))}.`,
  };
  const proposals = leans(solved, shaft, other, target, [...new Set(cosines)]);
  return answer(
    smallest(solved, proposals, asked),
    proposals.length === 0
      ? `No mesh on the way to ${name} can bring it to stand ${what}: parallel shafts stay parallel, and neither a lean nor a swing of any mesh reaches that angle.`
      : `What would bring ${name} to stand ${what} breaks a loop, or lets gears stand in one another.`,
  );
}

function here(solved: Solved, shaft: number, point: Vec3): Answer {
  const name = shaftName(solved.drive, shaft);
  if (!point.every(Number.isFinite)) return cannot("A place needs three numbers.");
  const miss = (after: Solved): number => {
    const placed = after.placement.shafts[follow(solved, after, shaft)];
    return placed ? missOfLine(placed, point) : Number.POSITIVE_INFINITY;
  };
  if (miss(solved) < THROUGH) return cannot(`The line of ${name} goes through that point already.`);
  const asked: Asked = {
    shaft,
    isMet: (after) => miss(after) < THROUGH,
    tell: (after) => {
      const now = follow(solved, after, shaft);
      return `The line of ${name} missed the point by ${quantity(miss(solved), "mm", 3)} and goes through it now; ${turnsNow(after, now)}.`;
    },
  };
  return answer(
    smallest(solved, comeOut(solved, shaft, point), asked),
    `No slide, swing, tooth count, idler or move brings the line of ${name} through that point without breaking a loop or letting gears stand in one another.`,
  );
}

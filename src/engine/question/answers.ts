/** Answers to a question: the right one, and those that usual slips lead to; in words, and as choices for a show of hands. */
import type { Figure } from "../drive/question";
import { tellingEnd, wayWords } from "../explain/directions";
import { absolute, divide, isZero, multiply, type Rational, sign, toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { figuresIn, quantityIn, shaftName, turnsWords } from "../wording";
import { type SlipKind, slipsOf } from "./slips";

/** One answer to all that may be asked of a shaft; null where the drive doesn't fix it. */
export interface Answer {
  /** About the shaft's positive axis. */
  readonly way: -1 | 0 | 1;
  /** Its speed over the input's, a size. */
  readonly ratio: Rational | null;
  /** rev/min, a size. */
  readonly speed: Rational;
  /** N·m, a size. */
  readonly torque: number | null;
  /** What leads to it, and in which mesh; null for the right answer. */
  readonly slip: { readonly kind: SlipKind | "torque-as-speed"; readonly mesh: number } | null;
}

/** The shaft whose turns the ratio counts: the only input that turns; null where there is none or several. */
export function countedInput({ drive, index }: Solved): number | null {
  const turning = drive.ports.filter(({ role, speed = 0 }) => role === "input" && speed !== 0);
  return turning.length === 1 ? (index.shafts.get(turning[0]?.shaft ?? "") ?? null) : null;
}

/** The right answer; null where the shaft's speed isn't fixed. `truth` is a solution with nothing hidden. */
export function rightAnswer(truth: Solved, shaft: number): Answer | null {
  const speed = truth.motion.speeds[shaft] ?? null;
  if (speed === null) return null;
  const ratio = truth.motion.ratios[shaft] ?? null;
  const torque = truth.load.shafts[shaft]?.torque ?? null;
  return {
    way: sign(speed),
    ratio: ratio && absolute(ratio),
    speed: absolute(speed),
    torque: torque && Math.abs(torque),
    slip: null,
  };
}

/** The answers that slips lead to, in the order of the way from the input; not all need differ in what is asked. */
export function wrongAnswers(truth: Solved, shaft: number): readonly Answer[] {
  const right = rightAnswer(truth, shaft);
  if (!right || isZero(right.speed)) return [];
  const slipped = slipsOf(truth, shaft).map(({ kind, mesh, speed }): Answer => {
    const factor = divide(absolute(speed), right.speed);
    return {
      way: sign(speed),
      ratio: right.ratio && multiply(right.ratio, factor),
      speed: absolute(speed),
      // Torque and speed trade places: what makes the one larger makes the other smaller.
      torque: right.torque && right.torque / toNumber(factor),
      slip: { kind, mesh },
    };
  });
  const [first] = slipped;
  if (!right.ratio || !right.torque || !first?.slip || isOne(right.ratio)) return slipped;
  const torque = right.torque * toNumber(right.ratio) ** 2;
  return [...slipped, { ...right, torque, slip: { kind: "torque-as-speed", mesh: first.slip.mesh } }];
}

const isOne = ({ n, d }: Rational): boolean => n === d;

/** "5 turns of Motor give 1 of Mixer, 290 rev/min, clockwise seen from the mixer end": what is asked, and no more. */
export function answerWords(
  truth: Solved,
  shaft: number,
  answer: Answer,
  asked: ReadonlySet<Figure>,
  units: UnitChoice,
): string {
  const input = countedInput(truth);
  const [name, words] = [shaftName(truth.drive, shaft), [] as string[]];
  if (asked.has("ratio") && answer.ratio) {
    words.push(
      input === null
        ? `ratio ${figuresIn(toNumber(answer.ratio), units)}`
        : turnsWords(shaftName(truth.drive, input), name, answer.ratio, units),
    );
  }
  if (asked.has("speed")) words.push(quantityIn(toNumber(answer.speed), "rev/min", units));
  if (asked.has("direction")) words.push(wayWords(truth, shaft, answer.way, tellingEnd(truth, shaft)));
  if (asked.has("torque")) {
    words.push(answer.torque === null ? "torque not known" : quantityIn(answer.torque, "N·m", units));
  }
  return words.join(", ");
}

/** Choices in all: A to D. */
const MOST_CHOICES = 4;

/**
 * Up to four answers that read differently, one of them right: those of different slips first. They stand by size of speed, then of torque,
 * then by way, so that their order tells nothing. Fewer than two where no slip changes what is asked.
 */
export function choicesFor(
  truth: Solved,
  shaft: number,
  asked: ReadonlySet<Figure>,
  units: UnitChoice,
): readonly Answer[] {
  const right = rightAnswer(truth, shaft);
  if (!right) return [];
  const wordsOf = (answer: Answer): string => answerWords(truth, shaft, answer, asked, units);
  const taken = new Map([[wordsOf(right), right]]);
  const wrong = wrongAnswers(truth, shaft);
  const kinds = new Set<string>();
  const isNewKind = ({ slip }: Answer): boolean =>
    slip !== null && !kinds.has(slip.kind) && kinds.add(slip.kind).size > 0;
  for (const answer of [...wrong.filter(isNewKind), ...wrong]) {
    if (taken.size < MOST_CHOICES && !taken.has(wordsOf(answer))) taken.set(wordsOf(answer), answer);
  }
  return [...taken.values()].sort(
    (a, b) => toNumber(a.speed) - toNumber(b.speed) || (a.torque ?? 0) - (b.torque ?? 0) || a.way - b.way,
  );
}

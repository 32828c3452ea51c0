/** A guess held against the drive: what is right, and the first mesh at which it went another way. */
import type { Figure } from "../drive/question";
import { driveWords } from "../explain/pair-words";
import { routeOf } from "../explain/route";
import { toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { nameText } from "../wording";
import { type Answer, answerWords, rightAnswer, wrongAnswers } from "./answers";
import { type Guessed, isRough, LEAST_FIGURES, says } from "./guess";
import { meshesOnWay, type SlipKind } from "./slips";

/** What a learner said of a shaft; only what was asked of them. */
export interface Guess {
  /** About the shaft's positive axis. */
  readonly direction?: 1 | -1;
  readonly ratio?: Guessed;
  readonly speed?: Guessed;
  readonly torque?: Guessed;
}

export interface Verdict {
  readonly isRight: boolean;
  /** What was guessed wrong. */
  readonly wrong: ReadonlySet<Figure>;
  /** Index of the first mesh at which the guess went another way; null where it is right, or nothing can be said. */
  readonly mesh: number | null;
  readonly slip: SlipKind | "torque-as-speed" | null;
  /** One or two sentences. */
  readonly sentence: string;
}

type Part = Exclude<keyof Guess, never>;

/** Whether an answer is what was guessed, in one figure. Right where nothing was guessed of it. */
function agrees(guess: Guess, answer: Answer, part: Part): boolean {
  if (part === "direction") return guess.direction === undefined || guess.direction === answer.way;
  const guessed = guess[part];
  const size = sizeOf(answer, part);
  return guessed === undefined || (size !== null && says(guessed, size));
}

const sizeOf = (answer: Answer, part: Exclude<Part, "direction">): number | null =>
  part === "torque"
    ? answer.torque
    : part === "speed"
      ? toNumber(answer.speed)
      : answer.ratio && toNumber(answer.ratio);

const PARTS = ["direction", "ratio", "speed", "torque"] as const;

/** @param truth a solution with nothing hidden */
export function judge(truth: Solved, shaft: number, guess: Guess, units: UnitChoice): Verdict {
  const right = rightAnswer(truth, shaft);
  const guessed = PARTS.filter((part) => guess[part] !== undefined);
  if (!right) {
    const sentence =
      "The drive doesn't fix how this shaft turns, so a guess can't be judged: turn or hold one more shaft.";
    return { isRight: false, wrong: new Set(guessed), mesh: null, slip: null, sentence };
  }
  const told = answerWords(truth, shaft, right, new Set(guessed), units);
  const wrong = new Set(guessed.filter((part) => !agrees(guess, right, part)));
  if (wrong.size === 0) return { isRight: true, wrong, mesh: null, slip: null, sentence: `Right: ${told}.` };

  const rough = [...wrong].some((part) => {
    const [number, size] = part === "direction" ? [undefined, null] : [guess[part], sizeOf(right, part)];
    return number !== undefined && size !== null && isRough(number, size);
  });
  if (rough && wrong.size === 1) {
    const sentence = `Close, but rounded too far to tell: give at least ${LEAST_FIGURES} figures; in truth ${told}.`;
    return { isRight: false, wrong, mesh: null, slip: null, sentence };
  }
  const answer = slipOf(guess, wrong, wrongAnswers(truth, shaft));
  if (answer?.slip) {
    const { kind, mesh } = answer.slip;
    const sentence = `Not so; in truth ${told}. The guess went another way at ${meshWords(truth, mesh, units)}: ${SLIP_WORDS[kind]}.`;
    return { isRight: false, wrong, mesh, slip: kind, sentence };
  }
  const [first] = meshesOnWay(truth, shaft);
  const where =
    first === undefined ? "" : ` No single slip gives this guess; begin at ${meshWords(truth, first, units)}.`;
  return { isRight: false, wrong, mesh: first ?? null, slip: null, sentence: `Not so; in truth ${told}.${where}` };
}

/** A direction alone tells little: rings, bevels and idlers are mistaken more often than a plain pair (our own judgement). */
const LATER: readonly string[] = ["way-kept", "inverted"];

/** The slip that gives the guess whole; else the first that gives one wrong part of it. */
function slipOf(guess: Guess, wrong: ReadonlySet<Part>, slips: readonly Answer[]): Answer | undefined {
  const whole = slips.filter((answer) => PARTS.every((part) => agrees(guess, answer, part)));
  const isWayAlone = wrong.size === 1 && wrong.has("direction");
  const found = isWayAlone ? whole.find(({ slip }) => slip && !LATER.includes(slip.kind)) : undefined;
  return found ?? whole[0] ?? slips.find((answer) => [...wrong].some((part) => agrees(guess, answer, part)));
}

const SLIP_WORDS: Readonly<Record<SlipKind | "torque-as-speed", string>> = {
  "idler-twice": "it comes out where the idler is counted twice, but an idler changes nothing except the way round",
  "ring-outside":
    "it comes out where the ring is taken for an outside gear, but a ring turns the same way as its pinion",
  "bevel-other-side": "it comes out where one bevel gear is mounted on the other side of the apex",
  inverted: "it comes out where the ratio of this mesh is inverted, but the smaller of the two makes more turns",
  "way-kept": "it comes out where both are taken to turn the same way, but outside gears turn opposite ways",
  "torque-as-speed": "it comes out where torque is taken to follow speed, but the slower shaft has the larger torque",
};

/** "mesh m1, 20 drives 50": in the order of the way from the input. */
function meshWords(solved: Solved, mesh: number, units: UnitChoice): string {
  const { drive, index } = solved;
  const pair = index.gearsOfMesh[mesh] ?? [-1, -1];
  const shafts = index.shaftsOfMesh[mesh] ?? [-1, -1];
  const { order } = routeOf(solved);
  const isBackwards = order.indexOf(shafts[0]) > order.indexOf(shafts[1]);
  const [from, to] = [drive.gears[pair[isBackwards ? 1 : 0]], drive.gears[pair[isBackwards ? 0 : 1]]];
  const words = from && to ? `, ${driveWords(from, to, units)}` : "";
  return `mesh ${nameText(drive.meshes[mesh]?.id ?? "")}${words}`;
}

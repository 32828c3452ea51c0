/** What is being guessed: on this page alone, never in the drive or in the browser's storage, and gone with the drive. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Figure } from "../../engine/drive/question";
import { tellingEnd, wayWords } from "../../engine/explain/directions";
import { countedInput, rightAnswer } from "../../engine/question/answers";
import {
  isComplaint,
  type ReadGuess,
  readRatioGuess,
  readTurnsGuess,
  readValueGuess,
} from "../../engine/question/guess";
import { type Guess, judge, type Verdict } from "../../engine/question/judge";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { shownUnit } from "../../engine/units/convert";
import { shaftName, turnsWords } from "../../engine/wording";
import { documentStore } from "../../store/document";

/** What stands in the fields for one shaft. */
export interface Typed {
  /** About the shaft's positive axis; null for no guess. */
  readonly way: 1 | -1 | null;
  readonly turnsIn: string;
  readonly turnsOut: string;
  readonly ratio: string;
  readonly speed: string;
  readonly torque: string;
}

export const NOTHING: Typed = { way: null, turnsIn: "", turnsOut: "", ratio: "", speed: "", torque: "" };

interface Guesses {
  /** By the shaft's id. */
  readonly typed: ReadonlyMap<string, Typed>;
  /** A count for each choice, A to D, by the shaft's id. */
  readonly hands: ReadonlyMap<string, readonly number[]>;
}

const NONE: Guesses = { typed: new Map(), hands: new Map() };
export const guessStore = createStore<Guesses>()(() => NONE);
export const useGuesses = <T>(selector: (state: Guesses) => T): T => useStore(guessStore, selector);

documentStore.subscribe(({ opened, asked }, before) => {
  if (opened !== before.opened || asked !== before.asked) guessStore.setState(NONE);
});

export const setTyped = (shaft: string, patch: Partial<Typed>): void =>
  guessStore.setState(({ typed }) => ({
    typed: new Map(typed).set(shaft, { ...(typed.get(shaft) ?? NOTHING), ...patch }),
  }));

export const setHands = (shaft: string, counts: readonly number[]): void =>
  guessStore.setState(({ hands }) => ({ hands: new Map(hands).set(shaft, counts) }));

export type Field = "ratio" | "speed" | "torque";

/** What a field's text says; null where nothing is typed. */
export function readField(field: Field, typed: Typed, units: UnitChoice): ReadGuess | null {
  if (field === "ratio") {
    if (typed.ratio.trim() !== "") return readRatioGuess(typed.ratio, units);
    if (typed.turnsIn.trim() === "" && typed.turnsOut.trim() === "") return null;
    return readTurnsGuess(typed.turnsIn, typed.turnsOut, units);
  }
  const text = typed[field];
  return text.trim() === "" ? null : readValueGuess(text, field === "speed" ? "rev/min" : "N·m", units);
}

/** A shaft of which something is hidden, and what is asked of it: nothing where none of that can be guessed. */
export interface Asked {
  readonly shaft: number;
  readonly id: string;
  readonly name: string;
  readonly figures: ReadonlySet<Figure>;
  /** Why something that is hidden of it is not asked: a sentence for each. */
  readonly notes: readonly string[];
}

/** What is guessed of a shaft, as far as it can be read. */
export function guessOf({ figures }: Asked, typed: Typed, units: UnitChoice): Guess {
  const guess: { -readonly [K in keyof Guess]: Guess[K] } = {};
  if (figures.has("direction") && typed.way !== null) guess.direction = typed.way;
  for (const field of ["ratio", "speed", "torque"] as const) {
    const read = figures.has(field) ? readField(field, typed, units) : null;
    if (read && !isComplaint(read)) guess[field] = read;
  }
  return guess;
}

/** Null where nothing was guessed. */
export function verdictOf(truth: Solved, asked: Asked, typed: Typed, units: UnitChoice): Verdict | null {
  const guess = guessOf(asked, typed, units);
  return Object.keys(guess).length === 0 ? null : judge(truth, asked.shaft, guess, units);
}

/**
 * What is asked of a shaft of which these figures are hidden: a ratio only where one input turns, a torque only where a load or a supply is
 * given and fixes it.
 */
export function askedOf(truth: Solved, shaft: number, hidden: ReadonlySet<Figure>): Asked {
  const why = new Map([...hidden].map((figure) => [figure, whyNotAsked(truth, shaft, figure)]));
  return {
    shaft,
    id: truth.drive.shafts[shaft]?.id ?? "",
    name: shaftName(truth.drive, shaft),
    figures: new Set([...hidden].filter((figure) => why.get(figure) === null)),
    notes: [...why].flatMap(([figure, why]) => (why === null ? [] : `Its ${figure} is hidden but not asked: ${why}.`)),
  };
}

function whyNotAsked(truth: Solved, shaft: number, figure: Figure): string | null {
  if (figure === "ratio") return countedInput(truth) === null ? "a ratio needs one input that turns" : null;
  if (figure !== "torque") return null;
  const isLoaded = truth.drive.ports.some((port) => port.torque !== undefined || port.power !== undefined);
  if (!isLoaded) return "neither a load nor a supply is given";
  return rightAnswer(truth, shaft)?.torque === null ? "the drive doesn't fix it" : null;
}

/** A guess as a line of text: "5 turns of Motor give 2 of Mixer; clockwise seen from the mixer end". */
export function guessText(truth: Solved, asked: Asked, typed: Typed, units: UnitChoice): string {
  const { figures, shaft, name } = asked;
  const words: string[] = [];
  const input = countedInput(truth);
  const ratio = figures.has("ratio") ? readField("ratio", typed, units) : null;
  if (ratio && !isComplaint(ratio) && input !== null) {
    words.push(turnsWords(shaftName(truth.drive, input), name, ratio.value, units));
  }
  for (const [field, unit] of [
    ["speed", "rev/min"],
    ["torque", "N·m"],
  ] as const) {
    const text = typed[field].trim();
    if (!figures.has(field) || text === "") continue;
    words.push(/^[\d.,\s/]+$/.test(text) ? `${text} ${shownUnit(unit, units)}` : text);
  }
  if (figures.has("direction") && typed.way !== null) {
    words.push(wayWords(truth, shaft, typed.way, tellingEnd(truth, shaft)));
  }
  return words.length === 0 ? "no guess" : words.join("; ");
}

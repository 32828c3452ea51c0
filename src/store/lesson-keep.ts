/** What is on screen as a step of a lesson, and in words what of it is kept. */
import type { LessonStep } from "../engine/drive/lesson-read";
import { questionOf } from "../engine/drive/question";
import type { Drive } from "../engine/drive/types";
import { listNames, nameText, shaftName } from "../engine/wording";
import { clockStore } from "./clock";
import { closeStore } from "./close-look";
import { DEMO_TITLES, demoStore } from "./demo";
import { documentStore } from "./document";
import { wholeEye } from "./eye";
import { panelsOnPage } from "./lesson-step";
import { viewStore } from "./view";

/** Digits after the point of a direction, and of a length in mm: finer than a hand can turn. */
const FINE = 4;
const rounded = (numbers: readonly number[], digits: number): number[] => numbers.map((x) => Number(x.toFixed(digits)));

/** All of the screen that a step holds, under the words that are said of it. */
export function stepOnScreen(text: string): LessonStep {
  const { drive, solved, asked } = documentStore.getState();
  const { selection, aside } = viewStore.getState();
  const { kind, mesh } = demoStore.getState();
  const { towards, near } = wholeEye();
  const close = closeStore.getState().mesh;
  const question = solved.veil ? (asked ?? questionOf(drive)) : null;
  const hide = question && [...question].map(([shaft, figures]) => ({ shaft, figures: [...figures] }));
  return {
    text,
    eye: {
      towards: rounded(towards, FINE),
      ...(near ? { target: rounded(near.target, 2), distance: Number(near.distance.toFixed(2)) } : {}),
    },
    ...(selection ? { lit: { [selection.kind]: selection.id } } : {}),
    panels: panelsOnPage(viewStore.getState()),
    ...(aside === "demos" && mesh !== null ? { demonstration: { kind, mesh } } : {}),
    ...(close === null ? {} : { close }),
    ...(hide ? { hide } : {}),
    turns: clockStore.getState().playing,
  };
}

const PANEL_WORDS: Readonly<Record<NonNullable<LessonStep["panels"]>[number], string>> = {
  parts: "parts list",
  workings: "workings",
  findings: "findings",
  measure: "measures",
  structure: "structure",
  question: "question",
  demonstrations: "demonstrations",
  drawings: "drawings",
};
/** What of the screen a step keeps, each as a few words. */
export function keptWords(step: LessonStep, { shafts }: Pick<Drive, "shafts">): readonly string[] {
  const { eye, lit, panels = [], demonstration, close, hide = [] } = step;
  const [part] = Object.entries(lit ?? {});
  return [
    ...(eye ? [eye.distance === undefined ? "the whole drive, seen from here" : "the eye where it is"] : []),
    panels.length === 0 ? "no panel open" : `open: ${listNames(panels.map((panel) => PANEL_WORDS[panel]))}`,
    ...(part ? [`lit: ${part[0]} ${nameText(String(part[1]))}`] : []),
    ...(demonstration
      ? [`shown: ${DEMO_TITLES[demonstration.kind].toLowerCase()}, on mesh ${nameText(demonstration.mesh)}`]
      : []),
    ...(close === undefined ? [] : [`close look at mesh ${nameText(close)}`]),
    ...hide.map(({ shaft, figures }) => {
      const at = shafts.findIndex(({ id }) => id === shaft);
      return `hidden: ${listNames(figures)} of ${at < 0 ? nameText(shaft) : shaftName({ shafts }, at)}`;
    }),
    step.turns ? "turning" : "standing still",
  ];
}

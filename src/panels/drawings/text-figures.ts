/** Workings and readouts as sheets of text. */
import type { NoDrawing } from "../../engine/drawing/sheet";
import { type Block, type TextLine, textSheet } from "../../engine/drawing/text-sheet";
import type { Drawing } from "../../engine/drawing/types";
import { formulaText } from "../../engine/explain/formula";
import { runOfDrive } from "../../engine/explain/readouts";
import { statusWords } from "../../engine/explain/statuses";
import { type WorkingStep, workingText } from "../../engine/explain/working-lines";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { shaftName } from "../../engine/wording";
import type { Part } from "../../store/view";
import { CAUTIONS } from "../caution-words";
import { shaftWords } from "../readouts/changed";
import { carriesTorque, ratioOf } from "../readouts/headline";
import { allNodes, outputShafts } from "../readouts/readouts";
import { inForm, type ShownState } from "../workings/shown";
import { MOST_STEPS, stepsOf, subjectOf, titleOf } from "../workings/subject";

/** Shafts that a sheet of readouts has room for. */
const MOST_SHAFTS = 200;

const line = (text: string, level = 0, isHead = false): TextLine => ({ text, level, isHead });

/** Whoever sees torques or forces sees these too: that it is no rating, that gears draw in, who rates. */
const cautions = (shows: boolean): TextLine[] =>
  shows ? [CAUTIONS[0], CAUTIONS[1], CAUTIONS[5]].map((text, i) => line(text, 0, i === 0)) : [];

const NO_SHAFT: NoDrawing = { trouble: "The drive has no shaft to tell of: add a shaft and a gear first." };

const LOADS: readonly string[] = ["N", "N·m", "W"];
const showsLoads = (steps: readonly WorkingStep[]): boolean =>
  steps.some(({ lines }) => lines.some(({ unit, result }) => result !== null && LOADS.includes(unit)));

/** The workings of what is selected, as the panel shows them. */
export function workingsSheet(
  solved: Solved,
  selection: Part | null,
  ratio: ShownState["ratio"],
  units: UnitChoice,
): Drawing | NoDrawing {
  const subject = subjectOf(solved, selection);
  if (subject.shaft < 0 && subject.mesh === null) return NO_SHAFT;
  const all = stepsOf(solved, subject, units);
  const steps = all.slice(0, MOST_STEPS).map((step) => inForm(step, ratio));
  const blocks = steps.flatMap((step): Block[] => [
    line(step.title, 0, true),
    ...step.lines.map((one) => line(workingText(one, units), 1)),
    ...(step.tables ?? []).flatMap((table): Block[] => [
      line(table.caption, 1),
      {
        head: table.head,
        rows: table.rows.map(({ words, cells }) => [words, ...cells.map((cell) => formulaText(cell, units))]),
      },
    ]),
  ]);
  if (all.length > MOST_STEPS)
    blocks.push(line(`These are the first ${MOST_STEPS} of ${all.length} steps; the rest are worked in the same way.`));
  const label = titleOf(solved, subject);
  return textSheet(solved.drive.title, { name: "workings", label }, [...blocks, ...cautions(showsLoads(steps))]);
}

/** Status, ratios, and a row for each shaft as the drive runs. */
export function readoutsSheet(solved: Solved, units: UnitChoice): Drawing | NoDrawing {
  const { drive } = solved;
  if (drive.shafts.length === 0) return NO_SHAFT;
  const ratios = outputShafts(solved).flatMap((shaft) => {
    const words = ratioOf(solved, shaft, units);
    if (!words) return [];
    const fraction = words.fraction === null || words.fraction === words.decimal ? "" : `${words.fraction} = `;
    return line(`${words.turns}; ratio ${fraction}${words.decimal} (${words.convention})`);
  });
  const nodes = allNodes(runOfDrive(solved, units));
  const rows = nodes.slice(0, MOST_SHAFTS).map(({ index, via }) => {
    const { direction, speed, torque, power, gain } = shaftWords(solved, index, units);
    return [shaftName(drive, index), via?.words ?? "", direction, speed, torque ?? gain ?? "", power ?? ""];
  });
  const head = ["Shaft", "reached by", "turns", "speed", "torque", "power"];
  const used = head.map((_, column) => column < 2 || rows.some((row) => row[column] !== ""));
  const kept = (row: readonly string[]): string[] => row.filter((_, column) => used[column]);
  const blocks: Block[] = [line(statusWords(solved).sentence), ...ratios, { head: kept(head), rows: rows.map(kept) }];
  if (nodes.length > rows.length) blocks.push(line(`${rows.length} of ${nodes.length} shafts.`));
  return textSheet(drive.title, { name: "readouts", label: "Readouts" }, [
    ...blocks,
    ...cautions(carriesTorque(solved)),
  ]);
}

/** The regions that the layout composes, each from its own layer; what the first screen does without comes when it is shown. */
import type { ComponentType } from "react";
import type { Aside } from "../store/view";
import { OnDemand } from "./on-demand";

export { Transport } from "../bench/transport";
export { Views } from "../bench/views";
export { PartsList } from "../panels/parts-list/parts-list";
export { Readouts } from "../panels/readouts/readouts";

const loadBench = async () => (await import("../bench/bench")).Bench;
const loadWorkings = async () => (await import("../panels/workings/workings")).Workings;
const loadFindings = async () => (await import("../panels/findings")).Findings;
const loadAnswers = async () => (await import("../panels/answers/answers")).Answers;
const loadGrow = async () => (await import("../panels/grow/grow-panel")).Grow;
const loadAddStage = async () => (await import("../panels/add-stage/add-stage")).AddStage;

const loadMeasure = async () => (await import("../panels/measure/measure-panel")).MeasurePanel;
const loadStructure = async () => (await import("../panels/structure/structure-panel")).StructurePanel;
const loadQuestion = async () => (await import("../panels/question/question-panel")).QuestionPanel;
const loadDemos = async () => (await import("../panels/demos/demos-panel")).DemosPanel;

const loadDrawings = async () => (await import("./drawings-aside")).DrawingsAside;

const BENCH_WORDS = {
  waiting: "The bench is on its way; the panels work already.",
  failed: "The bench could not be loaded. The panels work without it.",
  again: "Load the bench again",
};
const WORKINGS_WORDS = {
  waiting: "The workings are on their way.",
  failed: "The workings could not be loaded. Everything else works without them.",
  again: "Load the workings again",
};
const FINDINGS_WORDS = {
  waiting: "The findings are on their way.",
  failed: "The findings could not be loaded. Everything else works without them.",
  again: "Load the findings again",
};
const ADD_STAGE_WORDS = {
  waiting: "The choices are on their way.",
  failed: "The choices for a stage could not be loaded. Your drive is as it was.",
  again: "Load the choices again",
};

const ANSWERS_WORDS = {
  waiting: "The changes are on their way.",
  failed: "What looks for changes could not be loaded. Your drive is as it was.",
  again: "Load it again",
};
const MEASURE_WORDS = {
  waiting: "The measures are on their way.",
  failed: "The measures could not be loaded. Everything else works without them.",
  again: "Load the measures again",
};
const STRUCTURE_WORDS = {
  waiting: "The structure is on its way.",
  failed: "The structure could not be loaded. Everything else works without it.",
  again: "Load the structure again",
};
const DRAWINGS_WORDS = {
  waiting: "The drawings are on their way.",
  failed: "The drawings could not be loaded. Everything else works without them.",
  again: "Load the drawings again",
};
const QUESTION_WORDS = {
  waiting: "The question is on its way.",
  failed: "The question could not be loaded. Everything else works without it.",
  again: "Load the question again",
};
const DEMOS_WORDS = {
  waiting: "The demonstrations are on their way.",
  failed: "The demonstrations could not be loaded. Everything else works without them.",
  again: "Load the demonstrations again",
};

/** The bench brings three with it, so it comes apart from the page: the panels are there first. */
export const Bench = () => <OnDemand load={loadBench} words={BENCH_WORDS} />;
export const Workings = () => <OnDemand load={loadWorkings} words={WORKINGS_WORDS} />;
export const Findings = () => <OnDemand load={loadFindings} words={FINDINGS_WORDS} />;
/** What grows at a `+` on the bench. */
export const Grow = () => <OnDemand load={loadGrow} words={ADD_STAGE_WORDS} />;
export const AddStage = () => <OnDemand load={loadAddStage} words={ADD_STAGE_WORDS} />;
export const Answers = () => <OnDemand load={loadAnswers} words={ANSWERS_WORDS} />;

const Measure = () => <OnDemand load={loadMeasure} words={MEASURE_WORDS} />;
const Structure = () => <OnDemand load={loadStructure} words={STRUCTURE_WORDS} />;
const Drawings = () => <OnDemand load={loadDrawings} words={DRAWINGS_WORDS} />;
const Question = () => <OnDemand load={loadQuestion} words={QUESTION_WORDS} />;
const Demos = () => <OnDemand load={loadDemos} words={DEMOS_WORDS} />;

/** What stands beside the bench for a while, and what its region is called. */
export const ASIDES: Readonly<Record<Aside, { readonly title: string; readonly Panel: ComponentType }>> = {
  measure: { title: "Measure and notes", Panel: Measure },
  structure: { title: "Structure", Panel: Structure },
  drawings: { title: "Drawings", Panel: Drawings },
  question: { title: "Question", Panel: Question },
  demos: { title: "Demonstrations", Panel: Demos },
};

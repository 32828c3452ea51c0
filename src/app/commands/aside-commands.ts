/** Panels that come beside the bench for a while: measuring with notes, the structure of the drive, what it asks, demonstrations, drawings. */
import { DraftingCompass, ListTree, MessageCircleQuestion, Ruler, Spline } from "lucide-react";
import { type Aside, setView, viewStore } from "../../store/view";
import type { Command } from "./command";

const toggle = (aside: Aside): void => setView({ aside: viewStore.getState().aside === aside ? null : aside });
const isFree = (): boolean => viewStore.getState().adding === null;

export const structureCommand: Command = {
  id: "structure",
  words: "Structure",
  hint: "The drive as a tree to walk through, each part told in words",
  keys: ["T"],
  icon: ListTree,
  guard: isFree,
  perform: () => toggle("structure"),
};

export const measureCommand: Command = {
  id: "measure",
  words: "Measure",
  hint: "Distance and angle between two shafts or gears, and notes pinned to parts",
  keys: ["M"],
  icon: Ruler,
  guard: isFree,
  perform: () => toggle("measure"),
};

export const drawingsCommand: Command = {
  id: "drawings",
  words: "Drawings",
  hint: "Front, top and side view, a section and the schematic, as a drawing office has them",
  keys: ["V"],
  icon: DraftingCompass,
  guard: isFree,
  perform: () => toggle("drawings"),
};
export const questionCommand: Command = {
  id: "question",
  words: "Question",
  hint: "Hide directions, speeds, ratios or torques, let them be guessed, and reveal them",
  keys: ["Q"],
  icon: MessageCircleQuestion,
  guard: isFree,
  perform: () => toggle("question"),
};

export const demosCommand: Command = {
  id: "demos",
  words: "Demonstrations",
  hint: "One pair of the drive: friction and teeth, a rolling cup, any shaft angle, surface speed, taper, either driving",
  keys: ["K"],
  icon: Spline,
  guard: isFree,
  perform: () => toggle("demos"),
};

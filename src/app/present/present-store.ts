/** What a presentation shows: which panel, whether the screen is black, and what has been drawn over the bench. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { QUESTION_KEY } from "../../engine/drive/question";
import { setShown, shownStore } from "../../panels/workings/shown";
import { documentStore } from "../../store/document";
import { lessonStore } from "../../store/lesson-state";
import { goTo } from "../../store/lesson-step";
import { type Aside, announce, setView, viewStore } from "../../store/view";

export type PanelName = "bench" | "lesson" | "readouts" | "workings" | "findings" | "aside";

export interface PresentState {
  readonly panels: readonly PanelName[];
  readonly panel: PanelName;
  /** What stood beside the bench, or the drive's question: shown as the last of the panels. */
  readonly aside: Aside | null;
  readonly isBlack: boolean;
  readonly isInking: boolean;
  /** Lines drawn, as path data in px of the screen. */
  readonly strokes: readonly string[];
  /** Those of the step before, on their way out. */
  readonly fading: readonly string[];
}

/** ms in which ink fades; present.module.css has the same. */
const FADE = 900;
/** How much of a page one step scrolls: what stood last is seen again at the top. */
const PAGE = 0.85;

const BARE: PresentState = {
  panels: ["bench", "readouts", "workings", "findings"],
  panel: "bench",
  aside: null,
  isBlack: false,
  isInking: false,
  strokes: [],
  fading: [],
};

export const presentStore = createStore<PresentState>()(() => BARE);
export const usePresent = <T>(selector: (state: PresentState) => T): T => useStore(presentStore, selector);
const set = (patch: Partial<PresentState>): void => presentStore.setState(patch);

/** Begins with the bench alone. */
export function begin(): void {
  const { aside: open } = viewStore.getState();
  const { drive, asked } = documentStore.getState();
  const asks = asked ? asked.size > 0 : drive[QUESTION_KEY] !== undefined;
  const aside = presentable(open) ?? (asks ? "question" : null);
  const { lesson } = lessonStore.getState();
  presentStore.setState({ ...BARE, aside, panels: panelsWith(aside, lesson !== null) });
}

/** Measuring writes notes into the drive; a presentation leaves it as it is. */
const presentable = (aside: Aside | null): Aside | null => (aside === "measure" ? null : aside);

const panelsWith = (aside: Aside | null, isLesson: boolean): readonly PanelName[] => [
  "bench",
  ...(isLesson ? (["lesson"] as const) : []),
  ...BARE.panels.slice(1),
  ...(aside === null ? [] : (["aside"] as const)),
];

/** A step of a lesson brings its own panel beside the bench, or none; the panel that is shown stays. */
export function followLesson(): void {
  const { lesson } = lessonStore.getState();
  const aside = presentable(viewStore.getState().aside);
  const panels = panelsWith(aside, lesson !== null);
  const { panel } = presentStore.getState();
  set({ aside, panels, panel: panels.includes(panel) ? panel : "bench" });
}

/** What is scrolled when the panel has more than fits. */
let scroller: () => Element | null = () => null;
export const scrollWith = (find: () => Element | null): void => {
  scroller = find;
};

/** Goes to a panel, and says so. */
export function show(panel: PanelName, title: string): void {
  const { panels, aside } = presentStore.getState();
  fadeInk();
  set({ panel, isBlack: false });
  if (panel === "workings") setShown({ lines: 1 });
  if (panel === "aside" && aside !== null) setView({ aside });
  announce(`${title}, ${panels.indexOf(panel) + 1} of ${panels.length}.`);
}

/** One step on (1) or back (-1): a line of the workings, else a page of a long panel, else the next panel. */
export function step(by: 1 | -1, titleOf: (panel: PanelName) => string): void {
  const { panels, panel, isBlack } = presentStore.getState();
  if (isBlack) {
    blackOut(false);
    return;
  }
  if (stepLine(by) || scrollOn(by) || stepLesson(by)) {
    fadeInk();
    return;
  }
  const next = panels[panels.indexOf(panel) + by];
  if (next) show(next, titleOf(next));
  else announce(by === 1 ? "This is the last panel." : "This is the first panel.");
}

/** While the lesson is shown, its steps; before the first and after the last the other panels. */
function stepLesson(by: 1 | -1): boolean {
  const { lesson, at } = lessonStore.getState();
  if (presentStore.getState().panel !== "lesson" || !lesson?.steps[at + by]) return false;
  goTo(at + by);
  return true;
}

function stepLine(by: 1 | -1): boolean {
  if (presentStore.getState().panel !== "workings") return false;
  const { lines, count } = shownStore.getState();
  const to = (lines ?? 0) + by;
  if (lines === null || to < 1 || to > count) return false;
  setShown({ lines: to });
  return true;
}

function scrollOn(by: 1 | -1): boolean {
  const { panel } = presentStore.getState();
  const scrolled = panel === "workings" ? null : scroller();
  if (!scrolled) return false;
  const { scrollTop, clientHeight, scrollHeight } = scrolled;
  const left = by === 1 ? scrollHeight - clientHeight - scrollTop : scrollTop;
  // A sliver is no page.
  if (left < 8) return false;
  scrolled.scrollBy({ top: by * PAGE * clientHeight, behavior: "smooth" });
  return true;
}

export function blackOut(isBlack: boolean): void {
  set({ isBlack });
  announce(isBlack ? "The screen is black. B brings it back." : "The screen is back.");
}

export function setInking(isInking: boolean): void {
  set({ isInking });
  announce(isInking ? "Ink is on." : "Ink is off.");
}

export const addStroke = (stroke: string): void => set({ strokes: [...presentStore.getState().strokes, stroke] });

export function clearInk(): void {
  set({ strokes: [], fading: [] });
  announce("The ink is cleared.");
}

function fadeInk(): void {
  const { strokes } = presentStore.getState();
  if (strokes.length === 0) return;
  set({ strokes: [], fading: strokes });
  setTimeout(() => presentStore.getState().fading === strokes && set({ fading: [] }), FADE);
}

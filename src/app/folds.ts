/** Whether the workings and findings stand open: as the person left them; folded at first, for the bench has the most room. */
import { setView, viewStore } from "../store/view";
import { MEDIUM } from "./media";

const KEY = "turnwise.side";

const wasOpen = (): boolean => {
  try {
    return localStorage.getItem(KEY) === "open";
  } catch {
    return false;
  }
};

/** Folds the panels as they were, and remembers from now on. */
export const followFolds = (): void => {
  // Where there is hardly room for two panels the parts list has it at first.
  const side = wasOpen() && !window.matchMedia(MEDIUM).matches;
  setView({ panels: { parts: true, side } });
  viewStore.subscribe((state, before) => {
    if (state.panels.side === before.panels.side) return;
    try {
      localStorage.setItem(KEY, state.panels.side ? "open" : "folded");
    } catch {
      // Storage is forbidden: the choice lasts as long as the page.
    }
  });
};

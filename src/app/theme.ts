/** Light or dark: as the person chose, else as the system has it. */
import { setView, type Theme, viewStore } from "../store/view";

const KEY = "turnwise.theme";
const DARK = "(prefers-color-scheme: dark)";

const systemIsDark = (): boolean => window.matchMedia?.(DARK).matches ?? false;

export const shownTheme = (theme: Theme = viewStore.getState().theme): "light" | "dark" =>
  theme === "system" ? (systemIsDark() ? "dark" : "light") : theme;

const paint = (): void => {
  document.documentElement.dataset.theme = shownTheme();
};

const remembered = (): Theme => {
  try {
    const theme = localStorage.getItem(KEY);
    return theme === "light" || theme === "dark" ? theme : "system";
  } catch {
    return "system";
  }
};

/** Chooses a theme and remembers it; choosing what the system has follows the system again. */
export const chooseTheme = (theme: "light" | "dark"): void => {
  const chosen: Theme = theme === (systemIsDark() ? "dark" : "light") ? "system" : theme;
  setView({ theme: chosen });
  try {
    localStorage.setItem(KEY, chosen);
  } catch {
    // Storage is forbidden: the choice lasts as long as the page.
  }
};

/** Paints the page in its theme from now on. */
export const followTheme = (): void => {
  setView({ theme: remembered() });
  paint();
  viewStore.subscribe((state, before) => {
    if (state.theme !== before.theme) paint();
  });
  window.matchMedia?.(DARK).addEventListener("change", () => {
    paint();
    // The bench picks its colours by the theme that stands on the page: tell it that "system" now means another.
    if (viewStore.getState().theme === "system") setView({ theme: "system" });
  });
};

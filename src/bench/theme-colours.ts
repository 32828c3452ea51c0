/** Colours of the page for scenes that can't read style sheets, followed as the theme changes. */
import { useEffect, useSyncExternalStore } from "react";
import { shaftColour } from "../store/colours";

export interface BenchColours {
  readonly isDark: boolean;
  readonly ground: string;
  readonly surface: string;
  readonly ink: string;
  readonly inkSoft: string;
  readonly line: string;
  readonly accent: string;
  readonly focus: string;
  readonly warning: string;
  readonly shaft: (index: number) => string;
}

/** What stands in where there is no style sheet (a test without a page). */
const LIGHT = {
  ground: "#f2f4f5",
  surface: "#ffffff",
  ink: "#16232e",
  "ink-soft": "#4b5a67",
  line: "#c4ced5",
  accent: "#9a5b00",
  focus: "#005fcc",
  warning: "#855000",
};

/** `#rrggbb`, also from `#rgb`, to which builds shorten it; null for anything else. */
export function sixDigits(colour: string): string | null {
  if (/^#[0-9a-f]{6}$/i.test(colour)) return colour;
  return /^#[0-9a-f]{3}$/i.test(colour) ? colour.replace(/[0-9a-f]/gi, "$&$&") : null;
}

function read(): BenchColours {
  const style = getComputedStyle(document.documentElement);
  const isDark = document.documentElement.dataset.theme === "dark";
  const token = (name: keyof typeof LIGHT): string =>
    sixDigits(style.getPropertyValue(`--${name}`).trim()) ?? LIGHT[name];
  return {
    isDark,
    ground: token("ground"),
    surface: token("surface"),
    ink: token("ink"),
    inkSoft: token("ink-soft"),
    line: token("line"),
    accent: token("accent"),
    focus: token("focus"),
    warning: token("warning"),
    shaft: (index) => shaftColour(index)[isDark ? "dark" : "light"],
  };
}

let known: BenchColours | null = null;
const listeners = new Set<() => void>();
let observer: MutationObserver | null = null;

const follow = (changed: () => void): (() => void) => {
  listeners.add(changed);
  observer ??= new MutationObserver(() => {
    known = read();
    for (const listener of listeners) listener();
  });
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme", "style", "class"] });
  return () => {
    listeners.delete(changed);
    if (listeners.size > 0) return;
    observer?.disconnect();
    observer = null;
  };
};

const now = (): BenchColours => {
  known ??= read();
  return known;
};

export function useColours(): BenchColours {
  const colours = useSyncExternalStore(follow, now);
  // The style sheet may have come, or the theme been set, before anybody followed.
  useEffect(() => {
    const fresh = read();
    if (known && (fresh.isDark !== known.isDark || fresh.ground !== known.ground)) {
      known = fresh;
      for (const listener of listeners) listener();
    }
  }, []);
  return colours;
}

/** Between two `#rrggbb` colours, `part` of the second. */
export function mix(a: string, b: string, part: number): string {
  const at = (colour: string, k: number): number => Number.parseInt(colour.slice(1 + 2 * k, 3 + 2 * k), 16);
  const channel = (k: number): string =>
    Math.round(at(a, k) * (1 - part) + at(b, k) * part)
      .toString(16)
      .padStart(2, "0");
  return `#${channel(0)}${channel(1)}${channel(2)}`;
}

/**
 * Keys that are no commands, since they need a place: what each does there. A test presses every key in every place, and
 * holds what is taken against this list.
 */

export interface KeyLine {
  /** As `pressName` names them; any one of them does it. */
  readonly presses: readonly string[];
  readonly words: string;
  /** When alone it does so; always where left out. */
  readonly during?: "a drag" | "typing";
}

export interface KeyPlace {
  readonly title: string;
  readonly lines: readonly KeyLine[];
}

const UP_DOWN = ["ArrowUp", "ArrowDown"] as const;
const LEFT_RIGHT = ["ArrowLeft", "ArrowRight"] as const;

export const BENCH_KEYS: KeyPlace = {
  title: "On the bench",
  lines: [
    { presses: LEFT_RIGHT, words: "Turn the view left or right" },
    { presses: UP_DOWN, words: "Turn the view up or down" },
    { presses: ["+", "="], words: "Nearer" },
    { presses: ["-"], words: "Further away" },
    { presses: ["0"], words: "The whole drive" },
    { presses: ["Home"], words: "The view from the corner" },
  ],
};

export const LEAN_KEYS: KeyPlace = {
  title: "On the lean handle between two shafts",
  lines: [
    { presses: ["ArrowRight", "ArrowUp"], words: "1 degree more; with Shift 10 degrees" },
    { presses: ["ArrowLeft", "ArrowDown"], words: "1 degree less; with Shift 10 degrees" },
    { presses: ["PageUp", "PageDown"], words: "10 degrees more or less" },
    { presses: ["Home", "End"], words: "The smallest or the largest angle" },
    { presses: ["Escape"], during: "a drag", words: "as it was before" },
    { presses: ["Alt"], during: "a drag", words: "no snapping, as long as it is held" },
  ],
};

export const DIAL_KEYS: KeyPlace = {
  title: "On a dial of directions",
  lines: [
    { presses: ["ArrowRight", "ArrowDown"], words: "The next hour clockwise" },
    { presses: ["ArrowLeft", "ArrowUp"], words: "The next hour counterclockwise" },
    { presses: ["Escape"], during: "a drag", words: "as it was before" },
  ],
};

export const NUMBER_KEYS: KeyPlace = {
  title: "In a number field",
  lines: [
    { presses: UP_DOWN, words: "One step more or less; with Shift ten" },
    { presses: ["PageUp", "PageDown"], words: "Ten steps more or less" },
    { presses: ["Enter"], during: "typing", words: "keep what was typed" },
    { presses: ["Escape", "Mod+Z"], during: "typing", words: "take it back" },
  ],
};

export const PLACES: readonly KeyPlace[] = [
  BENCH_KEYS,
  LEAN_KEYS,
  DIAL_KEYS,
  NUMBER_KEYS,
  {
    title: "Everywhere",
    lines: [
      { presses: ["Tab", "Shift+Tab"], words: "To the next control, or to the one before" },
      { presses: ["Enter", "Space"], words: "Press the button that has the focus" },
      { presses: [...LEFT_RIGHT, ...UP_DOWN], words: "On a slider, a tab, a menu or a choice: the one beside it" },
      { presses: ["Escape"], words: "Close a menu or a dialog; leave the close look" },
    ],
  },
];

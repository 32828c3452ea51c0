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

export const HANDLE_KEYS: KeyPlace = {
  title: "On a handle: lean, swing, slide, size or place of what is selected",
  lines: [
    { presses: ["ArrowRight", "ArrowUp"], words: "One step more (1°, 1 mm or 1/16 in, one tooth); with Shift ten" },
    { presses: ["ArrowLeft", "ArrowDown"], words: "One step less; with Shift ten" },
    { presses: ["PageUp", "PageDown"], words: "Ten steps more or less" },
    { presses: ["Home", "End"], words: "The smallest or the largest value" },
    { presses: ["Escape"], during: "a drag", words: "as it was before" },
    { presses: ["Alt"], during: "a drag", words: "no snapping, as long as it is held" },
  ],
};

export const GROW_KEYS: KeyPlace = {
  title: "On what can grow at a part",
  lines: [
    { presses: ["S"], words: "Beside it" },
    { presses: ["R"], words: "Inside a ring" },
    { presses: ["B"], words: "At an angle" },
    { presses: ["I"], words: "Between two that mesh" },
    { presses: ["W"], words: "A gear alone" },
    { presses: ["P"], words: "Motor or load" },
    { presses: ["G"], words: "The next place from which something can grow" },
    { presses: ["ArrowRight", "ArrowDown"], words: "On the place round the shaft: the next free one clockwise" },
    { presses: ["ArrowLeft", "ArrowUp"], words: "The next free one counterclockwise" },
    { presses: ["Escape"], words: "Leave" },
  ],
};

export const DIAL_KEYS: KeyPlace = {
  title: "On a dial of directions",
  lines: [
    { presses: ["ArrowRight", "ArrowDown"], words: "The next hour clockwise; with Shift a quarter turn" },
    { presses: ["ArrowLeft", "ArrowUp"], words: "The next hour counterclockwise; with Shift a quarter turn" },
    { presses: ["PageDown", "PageUp"], words: "A quarter turn clockwise or counterclockwise" },
    { presses: ["Home", "End"], words: "Twelve or eleven o'clock" },
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

/** Stands for every printed sign but those that another line tells. */
export const ANY_SIGN = "a letter or figure";

export const TREE_KEYS: KeyPlace = {
  title: "In the structure",
  lines: [
    { presses: UP_DOWN, words: "The part before or after" },
    { presses: ["ArrowRight"], words: "Unfold; then the first part under it" },
    { presses: ["ArrowLeft"], words: "Fold; then the part above it" },
    { presses: ["Home", "End"], words: "The first or the last part" },
    { presses: ["*"], words: "Unfold all beside it" },
    { presses: ["Enter"], words: "Select it and go to it in the parts list" },
    { presses: ["Space"], words: "Select it" },
    { presses: [ANY_SIGN], words: "The next part whose name begins so (A alone adds a stage)" },
  ],
};

export const PRESENT_KEYS: KeyPlace = {
  title: "While presenting",
  lines: [
    { presses: ["PageDown", "ArrowRight"], words: "The next line of the workings, page of a long panel, or panel" },
    { presses: ["PageUp", "ArrowLeft"], words: "The one before" },
    {
      presses: ["1", "2", "3", "4", "5", "6"],
      words:
        "The bench alone, the lesson where there is one, readouts, workings, findings, what stood beside the bench",
    },
    { presses: ["B", "."], words: "Black the screen out, and bring it back" },
    { presses: ["I"], words: "Ink, to draw over the bench; arrow keys, Space and Enter draw as well" },
    { presses: ["C"], words: "Clear the ink" },
    { presses: ["D"], words: "Light or dark, for as long as it lasts" },
    { presses: ["P", "Escape"], words: "Leave; the page is as it was" },
  ],
};

export const PLACES: readonly KeyPlace[] = [
  BENCH_KEYS,
  HANDLE_KEYS,
  GROW_KEYS,
  DIAL_KEYS,
  NUMBER_KEYS,
  TREE_KEYS,
  PRESENT_KEYS,
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

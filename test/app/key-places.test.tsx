/** The list of keys tells what is so: every key is pressed in every place, and what is taken is held against the list. */
import { act, createEvent, fireEvent, render, screen, within } from "@testing-library/react";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { keyWords } from "../../src/app/commands/keys";
import { COMMAND_GROUPS, COMMANDS } from "../../src/app/commands/list";
import {
  ANY_SIGN,
  BENCH_KEYS,
  DIAL_KEYS,
  GROW_KEYS,
  HANDLE_KEYS,
  type KeyPlace,
  NUMBER_KEYS,
  PLACES,
  TREE_KEYS,
} from "../../src/app/dialogs/key-places";
import { KeysDialog } from "../../src/app/dialogs/keys-dialog";
import { openingDrive } from "../../src/app/opening-drive";
import { keyAction } from "../../src/bench/gestures";
import { Handles } from "../../src/bench/handles/handles";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { DirectionDial } from "../../src/panels/fields/direction-dial";
import { NumberField } from "../../src/panels/fields/number-field";
import { Grow } from "../../src/panels/grow/grow-panel";
import { StructureTree } from "../../src/panels/structure/structure-tree";
import { openDrive } from "../../src/store/document";
import { growFrom } from "../../src/store/growing";
import { setView } from "../../src/store/view";
import mixer from "../support/mixer.drive.json";

const NAMED = [
  "ArrowUp",
  "ArrowDown",
  "ArrowLeft",
  "ArrowRight",
  "PageUp",
  "PageDown",
  "Home",
  "End",
  "Insert",
  "Delete",
];
const SIGNS = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i));
const ALL = [...NAMED, ...SIGNS, "Backspace", "Enter", "Escape", "Tab", "F1", "F2", "ContextMenu"];

/** What the list says of a place when nothing is being dragged or typed. */
const told = ({ lines }: KeyPlace): string[] => lines.flatMap(({ presses, during }) => (during ? [] : presses)).sort();

/** The keys that an element takes for itself. */
const taken = (element: HTMLElement): string[] =>
  ALL.filter((key) => {
    const press = createEvent.keyDown(element, { key });
    act(() => {
      fireEvent(element, press);
      fireEvent.keyUp(element, { key });
    });
    return press.defaultPrevented;
  }).sort();

beforeEach(() => {
  act(() => {
    openDrive(openingDrive());
    setView({ selection: null });
  });
});

describe("the list of keys is what the keys do", () => {
  it("on the bench", () => expect(ALL.filter((key) => keyAction(key) !== null).sort()).toEqual(told(BENCH_KEYS)));

  it.each([
    ["gear", "a1", "Teeth of a1"],
    ["gear", "a1", "Slide: place of a1 along its shaft"],
    ["mesh", "m1", "Lean: angle between the two shafts"],
    ["mesh", "m1", /^Swing: /],
    ["shaft", "A", /^Place x of /],
    ["shaft", "A", /^Place y of /],
    ["shaft", "A", /^Place z of /],
  ] as const)("on the handle of %s %s: %s", (kind, id, name) => {
    act(() => setView({ selection: { kind, id } }));
    render(<Handles />);
    // Out of sight here: this page has no picture.
    expect(taken(screen.getByRole("slider", { name, hidden: true }))).toEqual(told(HANDLE_KEYS));
  });

  it("on what can grow", () => {
    // An idler stands at a gear with a mate, a gear alone at an end: no part is selected, so that G finds no other place.
    act(() => openDrive(readDrive(mixer).drive as Drive));
    const at = [{ shaft: "A", gear: "a1" }, { shaft: "A", side: 1 } as const].flatMap((spot) => {
      act(() => growFrom(spot));
      const { unmount } = render(<Grow />);
      const keys = taken(screen.getByRole("slider", { name: /^Place round/ }));
      // Some choices have no place round the shaft: the slider went with them.
      act(() => growFrom(spot));
      keys.push(...taken(screen.getAllByRole("radio")[0] as HTMLElement));
      unmount();
      return keys;
    });
    const named = new Set(at.map((key) => (key.length === 1 ? key.toUpperCase() : key)));
    expect([...named].sort()).toEqual(told(GROW_KEYS));
  });

  it("on a dial", () => {
    render(<DirectionDial label="Place" clockwise={90} words="right" onChange={() => null} />);
    expect(taken(screen.getByRole("slider", { name: "Place" }))).toEqual(told(DIAL_KEYS));
  });

  it("in a number field", () => {
    render(<NumberField label="Teeth" value={20} step={1} onChange={() => null} />);
    expect(taken(screen.getByRole("spinbutton", { name: "Teeth" }))).toEqual(told(NUMBER_KEYS));
  });

  it("in the structure", () => {
    render(<StructureTree />);
    // A is a command of its own, and part of a word where one is being typed; a test of the tree has both.
    const but = (presses: readonly string[]): string[] => presses.filter((press) => !/^a$/i.test(press));
    const lines = but(told(TREE_KEYS)).map((press) => (press === "Space" ? " " : press));
    const signs = SIGNS.filter((sign) => lines.includes(ANY_SIGN) && !lines.includes(sign));
    const expected = [...lines.filter((press) => press !== ANY_SIGN), ...but(signs)];
    expect(but(taken(screen.getByRole("tree")))).toEqual(expected.sort());
  });
});

describe("the dialog", () => {
  beforeEach(() => {
    HTMLDialogElement.prototype.showModal = vi.fn(function (this: HTMLDialogElement) {
      this.open = true;
    });
    HTMLDialogElement.prototype.close = vi.fn();
  });

  it("has every command with each of its keys, in groups", () => {
    render(<KeysDialog />);
    for (const { words, keys } of COMMANDS) {
      const line = screen.getByText(words.replace("…", ""), { selector: "dd" }).parentElement as HTMLElement;
      for (const key of keys) expect(within(line).getByText(keyWords(key), { selector: "kbd" })).toBeInTheDocument();
    }
    const groups = screen.getAllByRole("region");
    expect(groups.length).toBe(COMMAND_GROUPS.length + PLACES.length);
    for (const group of groups) expect(within(group).getByRole("heading", { level: 3 })).toBeInTheDocument();
  });

  it("writes keys as people do", () => {
    expect(["+", "PageUp", "Shift+Tab", "Mod+Z", "ArrowLeft"].map(keyWords)).toEqual([
      "+",
      "Page Up",
      "Shift + Tab",
      "Ctrl + Z",
      "Left",
    ]);
  });
});

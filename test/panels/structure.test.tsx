/** The structure as a tree: walked by keys, read by a screen reader, with the commands of the page on its rows. */
import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { removeShaft } from "../../src/engine/drive/commands/remove";
import { treeOf } from "../../src/engine/explain/tree";
import { solve } from "../../src/engine/solve";
import { revealStore } from "../../src/panels/reveal";
import { StructurePanel } from "../../src/panels/structure/structure-panel";
import { rowsOf, stepFor, typedTo } from "../../src/panels/structure/walk";
import { perform } from "../../src/store/document";
import { setView, viewStore } from "../../src/store/view";
import { planetary } from "../support/random-drives";
import { MIXER, open, violations } from "./support";

const now = (): string => document.activeElement?.querySelector("b")?.textContent ?? "";

beforeEach(() => {
  open(MIXER);
  setView({ aside: "structure" });
});
afterEach(() => setView({ aside: null }));

describe("by keys", () => {
  it("goes up and down, in and out, to both ends, and folds", async () => {
    const user = userEvent.setup();
    render(<StructurePanel />);
    expect(now()).toBe("Motor");
    await user.keyboard("{ArrowDown}");
    expect(now()).toBe("a1, 20 teeth");
    await user.keyboard("{ArrowRight}");
    expect(now()).toBe("with b1, 50 teeth, on Cross shaft");
    await user.keyboard("{ArrowRight}");
    expect(now()).toBe("with b1, 50 teeth, on Cross shaft");
    await user.keyboard("{ArrowLeft}{ArrowLeft}");
    expect(screen.getByRole("treeitem", { expanded: false })).toHaveFocus();
    expect(screen.queryByText("with b1, 50 teeth, on Cross shaft")).toBeNull();
    await user.keyboard("{ArrowRight}");
    expect(screen.getByText("with b1, 50 teeth, on Cross shaft")).toBeInTheDocument();
    await user.keyboard("{End}");
    expect(now()).toBe("with b2, 16 teeth, on Cross shaft");
    await user.keyboard("{ArrowDown}");
    expect(now()).toBe("with b2, 16 teeth, on Cross shaft");
    await user.keyboard("{Home}{ArrowUp}");
    expect(now()).toBe("Motor");
  });

  it("goes to what is typed, a letter again to the next; several letters are one word", async () => {
    const user = userEvent.setup();
    render(<StructurePanel />);
    await user.keyboard("mi");
    expect(now()).toBe("Mixer");
    await user.keyboard("{Home}");
    await new Promise((settle) => setTimeout(settle, 750));
    await user.keyboard("b");
    expect(now()).toBe("b1, 50 teeth");
    await user.keyboard("b");
    expect(now()).toBe("b2, 16 teeth");
    await new Promise((settle) => setTimeout(settle, 750));
    // A within a word is a letter of it, and selects nothing.
    setView({ selection: null });
    await user.keyboard("ba");
    expect(viewStore.getState().selection).toBeNull();
  });

  it("Enter leads to the part in the parts list; Space only selects", async () => {
    const user = userEvent.setup();
    render(<StructurePanel />);
    const { count } = revealStore.getState();
    await user.keyboard("{ArrowDown} ");
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "a1" });
    expect(screen.getByRole("treeitem", { selected: true })).toHaveFocus();
    expect(revealStore.getState().count).toBe(count);
    await user.keyboard("{ArrowDown}{Enter}");
    expect(revealStore.getState()).toEqual({ part: { kind: "mesh", id: "m1" }, count: count + 1 });
    expect(viewStore.getState().selection).toEqual({ kind: "mesh", id: "m1" });
  });

  it("A and Delete go on to the page's commands with the row selected; a stage goes to the gear of a mesh", async () => {
    const user = userEvent.setup();
    const passed: string[] = [];
    const hear = (event: KeyboardEvent): void => {
      if (!event.defaultPrevented) passed.push(`${event.key} ${JSON.stringify(viewStore.getState().selection)}`);
    };
    document.addEventListener("keydown", hear);
    render(<StructurePanel />);
    await user.keyboard("{End}a{Delete}q");
    document.removeEventListener("keydown", hear);
    expect(passed).toEqual(['a {"kind":"gear","id":"c1"}', 'Delete {"kind":"mesh","id":"m2"}']);
  });

  it("a row that is removed leaves the focus to the one in its place", async () => {
    const user = userEvent.setup();
    render(<StructurePanel />);
    await user.keyboard("{End}");
    act(() => {
      perform(removeShaft("C"), "removing C");
    });
    expect(screen.queryByText("Mixer")).toBeNull();
    expect(document.activeElement).toHaveAttribute("role", "treeitem");
    expect(now()).toBe("b2, 16 teeth");
  });
});

describe("told", () => {
  it("each row says level, place among its sisters, and its words", () => {
    render(<StructurePanel />);
    const rows = screen.getAllByRole("treeitem");
    expect(rows).toHaveLength(11);
    const cross = rows.find((row) => row.querySelector("b")?.textContent === "Cross shaft") as HTMLElement;
    expect(cross).toHaveAttribute("aria-level", "1");
    expect(cross).toHaveAttribute("aria-posinset", "2");
    expect(cross).toHaveAttribute("aria-setsize", "3");
    expect(cross).toHaveAttribute("aria-expanded", "true");
    expect(
      within(cross).getByText(
        /70 mm above Motor.*seen from.*right thumb towards the.*580 rev\/min.*5 turns of Motor give 2/,
      ),
    ).toBeInTheDocument();
    expect(rows.filter((row) => row.tabIndex === 0)).toHaveLength(1);
  });

  it("lights on the bench what the focus is on", async () => {
    const user = userEvent.setup();
    render(<StructurePanel />);
    await user.keyboard("{ArrowDown}");
    expect(viewStore.getState().hover).toEqual({ kind: "gear", id: "a1" });
  });

  it("axe finds nothing", async () => {
    const { container } = render(<StructurePanel />);
    expect(await violations(container)).toEqual([]);
  });
});

describe("the walk", () => {
  const tree = treeOf(solve(planetary(24, 18, 60, 3)));

  it("every row can be reached from the top by one key, and every key leads to a row", () => {
    const rows = rowsOf(tree, () => true);
    for (let at = 0; at < rows.length; at++) {
      const down = stepFor("ArrowDown", rows, at);
      expect(down).toEqual({ do: "go", row: Math.min(at + 1, rows.length - 1) });
      const parent = rows[at]?.parent ?? -1;
      if (parent >= 0) expect(rows[parent]?.level).toBe((rows[at]?.level ?? 0) - 1);
    }
    expect(rowsOf(tree, () => false).map(({ level }) => level)).toEqual(tree.map(() => 1));
  });

  it("goes round for what is typed, and says where nothing begins so", () => {
    const names = ["Motor", "Mixer", "cross shaft", "Mill"];
    expect([typedTo("m", names, 0), typedTo("m", names, 3), typedTo("mm", names, 1)]).toEqual([1, 0, 3]);
    expect([typedTo("mi", names, 1), typedTo("C", names, 3), typedTo("x", names, 0)]).toEqual([1, 2, -1]);
  });
});

/** The drawings beside the bench: what is drawn, what a press selects, what is lit, where the eye goes, and what is said where nothing can be drawn. */
import "../support/draft-here";
import { act, fireEvent, render, screen, waitFor, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { solve } from "../../src/engine/solve";
import { DrawingsPanel } from "../../src/panels/drawings/drawings-panel";
import { documentStore, openDrive } from "../../src/store/document";
import { setDrawings } from "../../src/store/drawings";
import { settle } from "../../src/store/settled";
import { select, setView, viewStore } from "../../src/store/view";
import { drive, MIXER, open, violations } from "./support";

const drawn = (name: string): Promise<HTMLElement> => screen.findByRole("region", { name: `${name}, drawn` });
const marks = (within: Element, part: string): Element[] => [...within.querySelectorAll(part)];

beforeEach(() => {
  open(MIXER);
  setView({ aside: "drawings" });
  setDrawings({ angle: "first", gears: "simplified", mesh: null, size: "small" });
});
afterEach(() => act(() => setView({ aside: null })));

describe("drawings", () => {
  it("show three views, a section and the schematic, each told in words, without anything that hinders", async () => {
    const { container } = render(<DrawingsPanel />);
    const three = await drawn("Three views");
    expect([...three.querySelectorAll("[data-view]")].map((view) => view.getAttribute("data-view"))).toEqual([
      "front",
      "top",
      "side",
    ]);
    await drawn("Section");
    await drawn("Schematic");
    const names = screen.getAllByRole("img").map((one) => one.getAttribute("aria-label"));
    expect(names).toContainEqual(expect.stringMatching(/^Front view, from the front.*Top view, from above/));
    expect(names).toContainEqual(expect.stringMatching(/^Section through both axes of m1/));
    expect(screen.getByRole("img", { name: "Symbol of first angle" })).toBeVisible();
    expect(await violations(container)).toEqual([]);
  });

  it("tell the turn of each shaft as it is seen in the view", async () => {
    render(<DrawingsPanel />);
    const { solved } = documentStore.getState();
    await drawn("Schematic");
    const told = screen
      .getAllByRole("img")
      .map((one) => one.getAttribute("aria-label") ?? "")
      .join(". ");
    // By the definition of a positive speed: counterclockwise for an eye on the side to which the angular velocity points.
    const omega = solved.motion.angularVelocity[solved.index.shafts.get("A") ?? -1];
    const side = told.slice(told.indexOf("Side view, from the left"));
    const along = -(omega?.[0] ?? 0);
    expect(Math.abs(along)).toBeGreaterThan(1);
    expect(side).toContain(`Motor turns ${along > 0 ? "counterclockwise" : "clockwise"}`);
  });

  it("select what is pressed, and light what is selected in every drawing", async () => {
    const user = userEvent.setup();
    render(<DrawingsPanel />);
    const three = await drawn("Three views");
    await drawn("Schematic");
    const [mark] = marks(three, '[data-layer="visible"] [data-gear="b1"]');
    if (!mark) throw new Error("no gear b1");
    fireEvent.click(mark);
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "b1" });
    for (const name of ["Three views", "Section", "Schematic"]) {
      const place = await drawn(name);
      const own = marks(place, '[data-gear="b1"]');
      expect(own.length).toBeGreaterThan(0);
      expect(marks(place, "[data-lit]")).toEqual(own);
    }
    act(() => select({ kind: "mesh", id: "m1" }));
    expect(marks(three, "[data-lit]")).toEqual(marks(three, '[data-gear="a1"], [data-gear="b1"]'));
    await user.selectOptions(screen.getByRole("combobox", { name: "Selected" }), "Shaft Motor");
    expect(viewStore.getState().selection).toEqual({ kind: "shaft", id: "A" });
    expect(marks(three, "[data-lit]")).toEqual(marks(three, '[data-shaft="A"]'));
  });

  it("lead the bench's eye to where each view is seen from", async () => {
    const user = userEvent.setup();
    render(<DrawingsPanel />);
    await user.click(await screen.findByRole("button", { name: /^Side view, from the left/ }));
    expect(viewStore.getState().camera.view).toEqual({ name: "towards", towards: [-1, 0, 0] });
    act(() => setDrawings({ angle: "third" }));
    await user.click(await screen.findByRole("button", { name: /^Side view, from the right/ }));
    expect(viewStore.getState().camera.view).toEqual({ name: "towards", towards: [1, 0, 0] });
    await user.click(screen.getByRole("button", { name: /^Top view/ }));
    expect(viewStore.getState().camera.view).toEqual({ name: "towards", towards: [0, 0, 1] });
  });

  it("cut through the selected mesh, or the one that is chosen; one that is gone is told, and the last section stays", async () => {
    const user = userEvent.setup();
    render(<DrawingsPanel />);
    await screen.findByRole("button", { name: /^Section through both axes of m1/ });
    act(() => select({ kind: "mesh", id: "m2" }));
    await screen.findByRole("button", { name: /^Section through both axes of m2/ });
    await user.click(screen.getByText("How they are drawn"));
    await user.selectOptions(screen.getByRole("combobox", { name: "Section through" }), "m1");
    await screen.findByRole("button", { name: /^Section through both axes of m1/ });
    act(() => setDrawings({ mesh: "m9" }));
    const section = screen.getByRole("region", { name: "Section" });
    expect(await within(section).findByRole("alert")).toHaveTextContent(
      'The drive has no mesh "m9": name one that it has. Below stands the last drawing that could be made.',
    );
    expect(within(section).getByRole("button", { name: /^Section through both axes of m1/ })).toBeVisible();
    expect(screen.getByRole("option", { name: "Mesh m9, which is gone" })).toBeInTheDocument();
  });

  it("say of an empty drive that there is nothing to draw, and show no other drive's drawing", async () => {
    render(<DrawingsPanel />);
    await drawn("Three views");
    act(() => openDrive({ ...drive(), shafts: [], gears: [], meshes: [], ports: [] }));
    await waitFor(() => expect(screen.getAllByRole("alert")).toHaveLength(3));
    expect(screen.getAllByRole("alert")[0]).toHaveTextContent(
      "The drive has nothing to draw: add a shaft and a gear first.",
    );
    expect(screen.queryByRole("region", { name: "Three views, drawn" })).toBeNull();
  });

  it("follow an edit, and true teeth when they are asked for", async () => {
    render(<DrawingsPanel />);
    const three = await drawn("Three views");
    const length = (): number =>
      marks(three, '[data-layer="visible"] [data-gear="a1"]').reduce(
        (sum, mark) => sum + (mark.getAttribute("d")?.length ?? 0),
        0,
      );
    const before = length();
    act(() => setDrawings({ gears: "teeth" }));
    await waitFor(() => expect(length()).toBeGreaterThan(3 * before));
    const fewer = { ...drive(), gears: drive().gears.filter(({ id }) => id !== "b1"), meshes: [] };
    act(() => {
      documentStore.setState({ drive: fewer, solved: solve(fewer) });
      settle();
    });
    await waitFor(() => expect(marks(three, `[data-gear="b1"]`).length).toBe(0));
  });
});

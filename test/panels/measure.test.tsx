/** Measuring between two parts, and notes: chosen by list, picked on the bench, kept, changed, removed. */
import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { notesOf } from "../../src/engine/drive/notes";
import { MeasurePanel } from "../../src/panels/measure/measure-panel";
import { documentStore, undo } from "../../src/store/document";
import { measuringStore } from "../../src/store/measuring";
import { select, setView, viewStore } from "../../src/store/view";
import { drive, MIXER, open, violations } from "./support";

const figures = (): string[] => screen.getAllByRole("definition").map((one) => one.textContent ?? "");
const pinned = (): unknown[] => notesOf(drive()).map(({ text, at }) => ({ text, at }));

beforeEach(() => {
  open(MIXER);
  setView({ aside: "measure" });
});
afterEach(() => {
  act(() => setView({ aside: null }));
  vi.restoreAllMocks();
});

describe("measuring", () => {
  it("by two lists: names, figures with units, told once", async () => {
    const user = userEvent.setup();
    render(<MeasurePanel />);
    expect(screen.getByRole("combobox", { name: "From" })).toHaveFocus();
    await user.selectOptions(screen.getByRole("combobox", { name: "From" }), "Shaft Motor");
    await user.selectOptions(screen.getByRole("combobox", { name: "To" }), "Shaft Cross shaft");
    expect(figures()).toEqual(["parallel", "70 mm", "0°"]);
    expect(viewStore.getState().announcement).toBe(
      "Motor to Cross shaft; Axes: parallel; Between the axes: 70 mm; Angle: 0°",
    );
  });

  it("by picking: the selected one first, then the next, then a first again; meshes and the ground are left alone", () => {
    act(() => select({ kind: "gear", id: "b1" }));
    render(<MeasurePanel />);
    act(() => select({ kind: "mesh", id: "m1" }));
    act(() => select(null));
    act(() => select({ kind: "gear", id: "b2" }));
    expect(figures()).toEqual(["on one line", "0°", "60 mm", "60 mm"]);
    act(() => select({ kind: "shaft", id: "C" }));
    expect(measuringStore.getState()).toMatchObject({ first: { kind: "shaft", id: "C" }, second: null });
    expect(screen.queryByRole("definition")).toBeNull();
  });

  it("picks nothing when the panel is closed", () => {
    act(() => setView({ aside: null }));
    act(() => select({ kind: "gear", id: "b1" }));
    expect(measuringStore.getState().first).toBeNull();
  });

  it("copies the figures as text; where the browser forbids it, offers them to be copied by hand", async () => {
    const user = userEvent.setup();
    act(() => measuringStore.setState({ first: { kind: "shaft", id: "B" }, second: { kind: "shaft", id: "C" } }));
    render(<MeasurePanel />);
    const write = vi.spyOn(navigator.clipboard, "writeText");
    await user.click(screen.getByRole("button", { name: "Copy as text" }));
    expect(write).toHaveBeenCalledWith(
      "Cross shaft to Mixer\nAxes: meeting in a point\nBetween the axes: 0 mm\nAngle: 90°",
    );
    expect(await screen.findByText("Copied.")).toBeInTheDocument();
    write.mockRejectedValue(new Error("no"));
    await user.click(screen.getByRole("button", { name: "Copy as text" }));
    expect(await screen.findByRole("textbox", { name: /copy it by hand/ })).toHaveValue(write.mock.calls[0]?.[0] ?? "");
  });

  it("says why a part that has gone can't be measured", async () => {
    act(() => measuringStore.setState({ first: { kind: "shaft", id: "B" }, second: { kind: "shaft", id: "Z" } }));
    render(<MeasurePanel />);
    expect(screen.getByText(/There is no shaft Z in this drive/)).toBeInTheDocument();
  });
});

describe("notes", () => {
  it("are pinned to what is selected, changed, removed, each in one undo step", async () => {
    const user = userEvent.setup();
    render(<MeasurePanel />);
    act(() => select({ kind: "gear", id: "b2" }));
    await user.type(screen.getByRole("textbox", { name: "New note" }), "Oil here");
    await user.click(screen.getByRole("button", { name: "Pin the note" }));
    expect(pinned()).toEqual([{ text: "Oil here", at: { part: "gear", id: "b2" } }]);
    expect(screen.getByRole("textbox", { name: "New note" })).toHaveValue("");
    expect(viewStore.getState().announcement).toBe("Pinned a note on b2 (16 teeth, on Cross shaft).");

    await user.click(screen.getByRole("button", { name: "Change note 1" }));
    await user.type(screen.getByRole("textbox", { name: "Words of note 1" }), ", daily");
    await user.click(screen.getByRole("button", { name: "Keep" }));
    expect(pinned()).toEqual([{ text: "Oil here, daily", at: { part: "gear", id: "b2" } }]);
    act(undo);
    expect(pinned()).toEqual([{ text: "Oil here", at: { part: "gear", id: "b2" } }]);

    await user.click(screen.getByRole("button", { name: "Remove note 1" }));
    expect(pinned()).toEqual([]);
    act(undo);
    expect(pinned()).toHaveLength(1);
  });

  it("go to a point of the room too, and are refused without words", async () => {
    const user = userEvent.setup();
    render(<MeasurePanel />);
    await user.selectOptions(screen.getByRole("combobox", { name: "Pinned to" }), "A point of the room");
    const z = screen.getByRole("spinbutton", { name: /^z of the point/ });
    await user.clear(z);
    await user.type(z, "120{Enter}");
    await user.click(screen.getByRole("button", { name: "Pin the note" }));
    expect(screen.getByText(/^A note needs words/)).toHaveAttribute("role", "alert");
    await user.type(screen.getByRole("textbox", { name: "New note" }), "The wall");
    await user.click(screen.getByRole("button", { name: "Pin the note" }));
    expect(pinned()).toEqual([{ text: "The wall", at: { part: "point", point: [0, 0, 120] } }]);
    expect(screen.getByText("at the point 0, 0, 120 mm")).toBeInTheDocument();
  });

  it("show where they are pinned without taking the place of what is measured", async () => {
    const user = userEvent.setup();
    open({ ...MIXER, "x-notes": [{ text: "Oil", at: { gear: "b1" } }] });
    act(() => measuringStore.setState({ first: { kind: "shaft", id: "B" }, second: { kind: "shaft", id: "C" } }));
    render(<MeasurePanel />);
    await user.click(screen.getByRole("button", { name: "Show note 1" }));
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "b1" });
    expect(measuringStore.getState()).toEqual({
      first: { kind: "shaft", id: "B" },
      second: { kind: "shaft", id: "C" },
      note: 0,
    });
  });

  it("a note on a part that isn't there says so; entries of another form are not shown and not lost", () => {
    open({ ...MIXER, "x-notes": [{ text: "lost", at: { gear: "z9" } }, { other: true }] });
    render(<MeasurePanel />);
    const items = within(screen.getByRole("list", { name: "Notes" })).getAllByRole("listitem");
    expect(items).toHaveLength(1);
    expect(items[0]).toHaveTextContent("on gear z9, which is not in the drive any more");
    expect(documentStore.getState().drive["x-notes"]).toHaveLength(2);
  });

  it("axe finds nothing", async () => {
    open({ ...MIXER, "x-notes": [{ text: "Oil", at: { gear: "b1" } }] });
    act(() => measuringStore.setState({ first: { kind: "shaft", id: "B" }, second: { kind: "gear", id: "c1" } }));
    const { container } = render(<MeasurePanel />);
    expect(await violations(container)).toEqual([]);
  });
});

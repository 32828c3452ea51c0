import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { setShown } from "../../src/panels/workings/shown";
import { Workings } from "../../src/panels/workings/workings";
import { hover, select, viewStore } from "../../src/store/view";
import { MIXER, open, violations } from "./support";

beforeEach(() => {
  open(MIXER);
  setShown({ ratio: "teeth", copy: "text", lines: null });
  render(<Workings />);
});
afterEach(() => act(() => hover(null)));

/** The mathematics of a line, its tokens in a row. */
const formulas = () => [...document.querySelectorAll("math")].map((math) => math.textContent);
const line = (words: string) => screen.getByText(words).closest("[data-about]");
const pick = async (label: string, choice: string) =>
  userEvent.setup().selectOptions(screen.getByRole("combobox", { name: label }), choice);

describe("the workings", () => {
  it("work out the output where nothing is selected", () => {
    expect(screen.getByRole("heading", { name: "How Mixer turns" })).toBeVisible();
    expect(
      screen.getByRole("heading", { name: /^Mesh m1: a1 \(20 teeth, on Motor\) drives b1 \(50 teeth/ }),
    ).toBeVisible();
    expect(screen.getByRole("heading", { name: /^Mesh m2/ })).toBeVisible();
  });

  it("set each line as words, formula, numbers and result with its unit", () => {
    expect(screen.getByText("Pitch diameter of a1")).toBeVisible();
    expect(formulas()).toEqual(expect.arrayContaining(["da1=m×za1", "=2mm×20", "=40mm"]));
    expect(document.querySelector("mfrac")).not.toBeNull();
  });

  it("name each piece of mathematics in words, for a screen reader without MathML", () => {
    const names = [...document.querySelectorAll("math")].map((math) => math.getAttribute("aria-label"));
    expect(names).toEqual(
      expect.arrayContaining([
        "d of a1 equals m times z of a1",
        "equals 2 millimetres times 20",
        "equals 40 millimetres",
      ]),
    );
    expect(names).toContain("equals 2.5, exactly 5 over 2");
    expect(names).not.toContain("");
  });

  it("follow what is selected", () => {
    act(() => select({ kind: "gear", id: "b1" }));
    expect(screen.getByRole("heading", { name: "How Cross shaft turns" })).toBeVisible();
    expect(screen.queryByRole("heading", { name: /^Mesh m2/ })).toBeNull();
  });

  it("light up what a line speaks of", async () => {
    const user = userEvent.setup();
    await user.hover(screen.getByText("Pitch diameter of a1"));
    expect(viewStore.getState().hover).toEqual({ kind: "gear", id: "a1" });
    await user.unhover(screen.getByText("Pitch diameter of a1"));
    expect(viewStore.getState().hover).toBeNull();
  });

  it("are lit by what is pointed at on the bench, and marked by a gear that is selected", () => {
    act(() => hover({ kind: "gear", id: "b1" }));
    expect(line("Pitch diameter of b1")).toHaveAttribute("data-lit", "pointed");
    expect(line("Pitch diameter of a1")).not.toHaveAttribute("data-lit");
    act(() => hover({ kind: "mesh", id: "m1" }));
    expect(line("5 turns of Motor give 2 of Cross shaft")).toHaveAttribute("data-lit", "pointed");
    expect(line("Pitch diameter of b1")).not.toHaveAttribute("data-lit");
    act(() => select({ kind: "gear", id: "b1" }));
    expect(line("Pitch diameter of b1")).toHaveAttribute("data-lit", "selected");
    // A part that another drive had lights nothing.
    act(() => hover({ kind: "gear", id: "gone" }));
    expect(document.querySelector("[data-lit=pointed]")).toBeNull();
  });

  it("work a mesh by itself: its ratio, and why the height of its cones does not matter", async () => {
    await userEvent.setup().click(screen.getByRole("button", { name: "More of mesh m2" }));
    expect(viewStore.getState().selection).toEqual({ kind: "mesh", id: "m2" });
    expect(screen.getByRole("heading", { name: "How b2 and c1 mesh" })).toBeVisible();
    expect(screen.getByRole("heading", { name: "Why height does not matter: b2 and c1" })).toBeVisible();
    const table = screen.getByRole("table", { name: /^20 teeth drive 30/ });
    const row = within(table).getByText("60°").closest("tr");
    expect(row?.textContent).toContain("8:7");
    expect(row?.textContent).toContain("3:2");
    expect(await violations(document.body)).toEqual([]);
  });

  it("give the ratio in the way chosen, all ways with one fraction", async () => {
    act(() => select({ kind: "mesh", id: "m2" }));
    expect(screen.queryByText(/by the pitch angles/)).toBeNull();
    await pick("Ratio by", "sines of pitch angles");
    expect(screen.getByText(/by the pitch angles/)).toBeVisible();
    expect(screen.queryByText(/^Ratio of the mesh/)).toBeNull();
    await pick("Ratio by", "every way");
    expect(screen.getByText(/^Ratio of the mesh, output teeth over input teeth/)).toBeVisible();
    expect(screen.getByText(/circumferences of the bases of the pitch cones/)).toBeVisible();
    // A spur pair has no pitch angles: it is worked by its teeth all the same.
    await pick("Ratio by", "sines of pitch angles");
    act(() => select({ kind: "mesh", id: "m1" }));
    expect(screen.getByText(/^Ratio of the mesh, output teeth over input teeth/)).toBeVisible();
  });

  it("show one line at a time by key, lit and read out", async () => {
    const user = userEvent.setup();
    await user.click(screen.getByRole("button", { name: "Line by line" }));
    expect(screen.getByText(/^Line 1 of \d+$/)).toBeVisible();
    expect(document.querySelectorAll("[data-current]")).toHaveLength(1);
    expect(viewStore.getState().hover).toEqual({ kind: "shaft", id: "A" });
    expect(viewStore.getState().announcement).toBe("Speed of Motor, given: n of A equals 1450 revolutions per minute");
    expect(screen.queryByText("Pitch diameter of a1")).toBeNull();
    await user.keyboard("{PageDown}{ArrowDown}");
    expect(screen.getByText(/^Line 3 of/)).toBeVisible();
    await user.keyboard("{PageUp}");
    expect(screen.getByText(/^Line 2 of/)).toBeVisible();
    await user.keyboard("{End}{PageDown}");
    const [, at, count] = /Line (\d+) of (\d+)/.exec(screen.getByText(/^Line \d/).textContent ?? "") ?? [];
    expect(at).toBe(count);
    await user.keyboard("{Home}{PageUp}");
    expect(screen.getByText(/^Line 1 of/)).toBeVisible();
    await user.click(screen.getByRole("button", { name: "Next line" }));
    expect(screen.getByText(/^Line 2 of/)).toBeVisible();
    act(() => select({ kind: "gear", id: "b1" }));
    expect(screen.getByText(/^Line 1 of/)).toBeVisible();
    await user.click(screen.getByRole("button", { name: "Next line" }));
    await user.keyboard("{Escape}");
    expect(screen.queryByText(/^Line 1 of/)).toBeNull();
    expect(screen.getByText("Pitch diameter of a1")).toBeVisible();
  });

  it("copy a line, or all of them, as text, LaTeX or MathML", async () => {
    const user = userEvent.setup();
    const copy = screen.getByRole("button", { name: "Copy this line: Pitch diameter of a1" });
    await user.click(copy);
    expect(await navigator.clipboard.readText()).toBe("Pitch diameter of a1: d_a1 = m × z_a1 = 2 mm × 20 = 40 mm");
    expect(viewStore.getState().announcement).toBe("The line copied.");
    await user.selectOptions(screen.getByRole("combobox", { name: "Copy as" }), "LaTeX");
    await user.click(copy);
    expect(await navigator.clipboard.readText()).toBe(
      "Pitch diameter of a1:\n\\[ d_{\\text{a1}} = m \\times z_{\\text{a1}} = 2\\,\\mathrm{mm} \\times 20 = 40\\,\\mathrm{mm} \\]",
    );
    await user.selectOptions(screen.getByRole("combobox", { name: "Copy as" }), "MathML");
    await user.click(screen.getByRole("button", { name: "Copy all lines" }));
    const copied = await navigator.clipboard.readText();
    const parsed = new DOMParser().parseFromString(`<all>${copied}</all>`, "application/xml");
    expect(parsed.querySelector("parsererror")).toBeNull();
    // What is copied is what is shown.
    expect(parsed.querySelectorAll("math").length).toBe(document.querySelectorAll("[data-about] > div").length);
  });

  it("give the forces at the meshes, gear by gear", () => {
    // m2: 40 N·m at the mean radius of c1: r = 48 - 7 sin 63.435° = 41.739 mm, over 0.97 as power is taken from the driver.
    const row = screen.getByRole("row", { name: /^c1/ });
    expect(row).toHaveTextContent("988 N");
    expect(row).toHaveTextContent("160.8 N");
    expect(row).toHaveTextContent("321.6 N");
    expect(screen.getByText(/at the mean pitch radius/)).toBeVisible();
  });

  it("have nothing that axe objects to", async () => {
    expect(await violations(document.body)).toEqual([]);
  });
});

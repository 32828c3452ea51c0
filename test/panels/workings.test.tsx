import { act, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { beforeEach, describe, expect, it } from "vitest";
import { Workings } from "../../src/panels/workings";
import { select, viewStore } from "../../src/store/view";
import { MIXER, open, violations } from "./support";

beforeEach(() => {
  open(MIXER);
  render(<Workings />);
});

/** The mathematics of a line, its tokens in a row. */
const formulas = () => [...document.querySelectorAll("math")].map((math) => math.textContent);

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

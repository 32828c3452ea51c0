/** Demonstrations at the ends of what a pair can be: nearly flat crowns, and cones just short of them. */
import { act, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { DemosPanel } from "../../src/panels/demos/demos-panel";
import { demoStore } from "../../src/store/demo";
import { setView } from "../../src/store/view";
import { MIXER, open } from "./support";

/** The mixer with its bevel pair of these teeth at this angle. */
const leaning = (teeth: readonly [number, number], shaftAngle: number): void => {
  let next = 0;
  const gears = MIXER.gears.map((gear) => (gear.kind === "bevel" ? { ...gear, teeth: teeth[next++] } : gear));
  const meshes = MIXER.meshes.map((mesh) => ("shaftAngle" in mesh ? { ...mesh, shaftAngle } : mesh));
  open({ ...MIXER, gears, meshes });
  demoStore.setState({ kind: "cup", mesh: "m2" });
};

beforeEach(() => setView({ aside: "demos" }));
afterEach(() =>
  act(() => {
    setView({ aside: null });
    demoStore.setState({ kind: "sweep" });
  }),
);

describe("rolling cup", () => {
  it("of a pair of nearly flat crowns says that they are too flat, not that they don't touch", () => {
    // Equal sizes share the shaft angle: 88 degrees each.
    leaning([30, 30], 176);
    render(<DemosPanel />);
    expect(screen.getByRole("alert")).toHaveTextContent(
      "Both gears of this pair are so nearly flat that neither is a cup to roll: lean the shafts less, or choose another pair.",
    );
    expect(screen.queryByText(/no part in common/)).toBeNull();
  });

  it.each([160, 168, 169.9])("of equal cones at %d degrees has all its sizes within their sliders", (angle) => {
    leaning([30, 30], angle);
    render(<DemosPanel />);
    for (const slider of screen.getAllByRole<HTMLInputElement>("slider")) {
      // What is shown beside the slider is where its knob stands, to half a step: a range input moves a value that is out of bounds.
      const [shown, name] = [slider.getAttribute("aria-valuetext") ?? "", slider.getAttribute("aria-label") ?? ""];
      const step = Number(slider.step);
      expect(Math.abs(slider.valueAsNumber - Number.parseFloat(shown)), name).toBeLessThanOrEqual(step / 2 + 0.01);
    }
  });
});

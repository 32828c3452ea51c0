/**
 * Everything that is put into words follows the units that the reader chose: findings, the space, the structure, measures, answers to
 * wishes. Numbers are worked out here anew, from 1 in = 25.4 mm and 1 rev = 2π rad.
 */
import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, describe, expect, it } from "vitest";
import { roomTaken } from "../../src/engine/collisions/extents";
import { spaceOf } from "../../src/engine/drive/space";
import { Answers } from "../../src/panels/answers/answers";
import { Findings } from "../../src/panels/findings";
import { MeasurePanel } from "../../src/panels/measure/measure-panel";
import { SpacePanel } from "../../src/panels/space/space-panel";
import { StructurePanel } from "../../src/panels/structure/structure-panel";
import { documentStore } from "../../src/store/document";
import { measuringStore } from "../../src/store/measuring";
import { chooseUnits, type UnitSettings, unitsStore } from "../../src/store/units";
import { setView, viewStore } from "../../src/store/view";
import { drive, MIXER, open } from "./support";

const INCH: Partial<UnitSettings> = {
  length: "in",
  tooth: "pitch",
  speed: "rad/s",
  torque: "lbf·ft",
  power: "hp",
  force: "lbf",
  figures: 4,
  decimal: ".",
};
const METRIC_UNITS = /\d[^\S\n]*(mm|rev\/min|N·m|kW|W|N|m\/s)(?![\p{L}·/])|module \d/u;

const before = unitsStore.getState().settings;
afterEach(() => {
  act(() => {
    chooseUnits(before);
    setView({ aside: null, asking: null, ghost: null });
    measuringStore.setState({ first: null, second: null });
  });
});

const steps = (): number => documentStore.temporal.getState().pastStates.length;
/** Chooses inches while the surface stands: an open panel has to say its numbers anew, with no edit and no step to undo. */
function choose(patch: Partial<UnitSettings> = INCH): void {
  const [was, past] = [drive(), steps()];
  act(() => chooseUnits(patch));
  expect(drive()).toBe(was);
  expect(steps()).toBe(past);
}
const page = (): string => document.body.textContent ?? "";

/** The mixer with mates that differ in module, a bevel gear as wide as three quarters of its cone, and a bore wider than its gear. */
const FAULTY = {
  ...MIXER,
  gears: MIXER.gears.map((gear) => {
    if (gear.id === "b1") return { ...gear, module: 3 };
    return gear.id === "c1" ? { ...gear, face: 40 } : gear.id === "a1" ? { ...gear, bore: 38.1 } : gear;
  }),
};

describe("in inches and rad/s", () => {
  it("findings, each of whose limits still holds", async () => {
    open(FAULTY);
    render(<Findings />);
    expect(page()).toMatch(/module 2 mm.*module 3 mm/);
    choose();
    // Findings follow a moment later, as after an edit.
    await screen.findByText(/diametral pitch/);
    // 25.4 / 2 and 25.4 / 3 teeth for each inch; 38.1 mm = 1.5 in.
    expect(page()).toMatch(/diametral pitch 12\.7 \/in.*diametral pitch 8\.46666667 \/in/);
    expect(page()).toMatch(/The bore of gear a1 \(20 teeth, on Motor\), 1\.5 in, leaves/);
    expect(page()).not.toMatch(METRIC_UNITS);
    // A third of the cone distance: half of √((16 · 3)² + (32 · 3)²) mm.
    const third = Math.hypot(48, 96) / 2 / 3 / 25.4;
    const told = Number(/make it at most ([\d.]+) in/.exec(page())?.[1]);
    expect(told).toBeLessThanOrEqual(third);
    expect(told).toBeGreaterThan(third * 0.99);
  });

  it("the room taken and the space, whose fields read other units too", async () => {
    open(MIXER);
    render(<SpacePanel />);
    choose();
    const taken = roomTaken(documentStore.getState().solved);
    const room = within(screen.getByRole("region", { name: "Room that the drive takes" }));
    const sizes = room.getAllByText(/^[\d.]+ in$/).map(({ textContent }) => Number.parseFloat(textContent ?? ""));
    expect(sizes).toHaveLength(3);
    for (const k of [0, 1, 2] as const) {
      const inches = ((taken?.high[k] ?? 0) - (taken?.low[k] ?? 0)) / 25.4;
      // Rounded up at the fourth figure: the drive is never told smaller than it is.
      expect(sizes[k]).toBeGreaterThanOrEqual(inches);
      expect(sizes[k]).toBeLessThan(inches * 1.001);
    }
    const user = userEvent.setup();
    const side = (name: string): HTMLElement => screen.getByRole("spinbutton", { name });
    await user.type(side("Width, left to right"), "900 mm{Enter}");
    await user.type(side("Depth, near to far"), "40{Enter}");
    expect(spaceOf(drive())?.size).toEqual([900, 1016, null]);
    expect(screen.getByText("Fits.")).toBeVisible();
    await user.type(side("Height, bottom to top"), "0,5 in{Enter}");
    expect(spaceOf(drive())?.size).toEqual([900, 1016, 12.7]);
    // 900 / 25.4 = 35.433…, rounded up at the fourth figure.
    expect(page()).toMatch(/the space is 35\.44 × 40 × 0\.5 in/);
    expect(page()).toMatch(/ in at the bottom/);
    expect(page()).toMatch(/[\d.]+ in clear|within one another|in mesh/);
    expect(page()).not.toMatch(METRIC_UNITS);
  });

  it("the structure", () => {
    open(MIXER);
    setView({ aside: "structure" });
    render(<StructurePanel />);
    expect(page()).toMatch(/70 mm above Motor.*580 rev\/min/);
    choose();
    // 70 / 25.4 in; 1450 × 2π / 60 = 151.84 rad/s; 60 / 25.4 in.
    expect(page()).toMatch(/151\.8 rad\/s/);
    expect(page()).toMatch(/2\.756 in above Motor/);
    expect(page()).toMatch(/2\.362 in along Cross shaft/);
    expect(page()).toMatch(/at 0 in along Motor/);
    expect(page()).not.toMatch(METRIC_UNITS);
    choose({ figures: 6, decimal: "," });
    expect(page()).toMatch(/151,844 rad\/s.*2,75591 in above Motor/);
  });

  it("measures, as shown and as announced", () => {
    open(MIXER);
    setView({ aside: "measure" });
    render(<MeasurePanel />);
    act(() => measuringStore.setState({ first: { kind: "gear", id: "a1" }, second: { kind: "gear", id: "b2" } }));
    choose();
    // √(60² + 70²) / 25.4 in.
    expect(page()).toMatch(/2\.75591 in.*3\.62974 in/);
    expect(viewStore.getState().announcement).toMatch(/2\.75591 in/);
    expect(page()).not.toMatch(METRIC_UNITS);
  });

  it("answers to wishes, and what they are asked for", async () => {
    open(MIXER);
    setView({ asking: { kind: "wish", shaft: "C" } });
    render(<Answers />);
    choose();
    await userEvent.click(screen.getByRole("radio", { name: "turn this fast" }));
    // 290 × 2π / 60 = 30.36873 rad/s.
    expect(await screen.findByText("Mixer turns at 30.3687 rad/s already.")).toBeVisible();
    const field = screen.getByRole("spinbutton", { name: "Wanted speed of Mixer" });
    await userEvent.clear(field);
    await userEvent.type(field, "300 rpm");
    const list = await screen.findByRole("list", { name: "Changes that do it" });
    // 300 × 2π / 60 = 31.416 rad/s.
    expect(list.textContent).toMatch(/31\.42 rad\/s/);
    expect(list.textContent).not.toMatch(METRIC_UNITS);
    await userEvent.click(screen.getByRole("radio", { name: "have this much torque" }));
    // 40 N·m / 1.3558179 = 29.50 lbf·ft.
    expect(await screen.findByText(/There are 29\.5 lbf·ft at Mixer already/)).toBeVisible();
    await userEvent.click(screen.getByRole("radio", { name: "come out here" }));
    expect(page()).not.toMatch(METRIC_UNITS);
  });
});

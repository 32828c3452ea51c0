/** The demonstrations: entered and left without a trace, their figures, what they put on the bench, and what they say where something is missing. */
import { act, fireEvent, render, screen, waitFor, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { removeMesh } from "../../src/engine/drive/commands/remove";
import { DemosPanel } from "../../src/panels/demos/demos-panel";
import { closeStore } from "../../src/store/close-look";
import { demoStore, setDemo } from "../../src/store/demo";
import { documentStore, perform, undo } from "../../src/store/document";
import { select, setView, viewStore } from "../../src/store/view";
import { drive, MIXER, open, sample, violations } from "./support";

const figure = (name: string | RegExp): string => {
  const term = screen.getAllByRole("term").find((one) => new RegExp(name).test(one.textContent ?? ""));
  return term?.nextElementSibling?.textContent ?? `no figure ${name}`;
};
const slide = (name: string, value: number): void => {
  fireEvent.change(screen.getByRole("slider", { name }), { target: { value: String(value) } });
};
const steps = (): number => documentStore.temporal.getState().pastStates.length;
const onBench = async () => {
  await waitFor(() => expect(demoStore.getState().shown).not.toBeNull());
  return demoStore.getState().shown;
};

beforeEach(() => {
  open(MIXER);
  setView({ aside: "demos" });
});
afterEach(() => act(() => setView({ aside: null })));

describe("the panel", () => {
  it("begins with the pair that is selected, follows another that is picked, and is left without a trace", async () => {
    act(() => select({ kind: "gear", id: "c1" }));
    const before = drive();
    const { container, unmount } = render(<DemosPanel />);
    expect(screen.getByRole("combobox", { name: "Pair" })).toHaveFocus();
    expect(screen.getByRole("combobox", { name: "Pair" })).toHaveDisplayValue(/^Cross shaft with Mixer/);
    expect(screen.getByText("2 turns of Cross shaft give 1 of Mixer.")).toBeInTheDocument();
    act(() => select({ kind: "mesh", id: "m1" }));
    expect(screen.getByText("5 turns of Motor give 2 of Cross shaft.")).toBeInTheDocument();
    await onBench();
    expect(await violations(container)).toEqual([]);
    unmount();
    expect(demoStore.getState().shown).toBeNull();
    expect(drive()).toBe(before);
    expect(steps()).toBe(0);
  });

  it("takes nothing over into the drive while it is presented", () => {
    act(() => select({ kind: "mesh", id: "m2" }));
    render(<DemosPanel />);
    expect(screen.getByRole("button", { name: /^Set my drive to/ })).toBeInTheDocument();
    act(() => setView({ presenting: true }));
    expect(screen.queryByRole("button", { name: /^Set my drive to/ })).toBeNull();
    act(() => setView({ presenting: false }));
  });

  it("says where there is no pair, where it is gone, and what is missing for it to turn", () => {
    render(<DemosPanel />);
    act(() => void perform(removeMesh("m1"), "take away"));
    expect(screen.getByRole("alert")).toHaveTextContent("That pair is no longer in the drive: choose another.");
    act(() => void perform(removeMesh("m2"), "take away"));
    expect(screen.getByText(/There is no pair in this drive yet/)).toBeInTheDocument();
    expect(screen.queryByRole("alert")).toBeNull();
    act(() => undo());
    act(() => undo());
    expect(screen.queryByRole("alert")).toBeNull();
    act(() => open({ ...MIXER, ports: [] }));
    expect(screen.getByText(/It stands still on the bench: the drive needs one more input\./)).toBeInTheDocument();
    act(() => open(sample("three-jam-four-turn")));
    expect(screen.getByText(/It stands still on the bench: its meshes lock one another/)).toBeInTheDocument();
    act(() => setDemo({ kind: "speeds" }));
    expect(screen.getByRole("alert")).toHaveTextContent(
      "This needs a pair that turns: its meshes lock one another (see the findings).",
    );
    const [input] = MIXER.ports;
    act(() => open({ ...MIXER, ports: [{ ...input, speed: 1e308 }] }));
    act(() => setDemo({ kind: "speeds" }));
    expect(screen.getByRole("alert")).toHaveTextContent(
      "This needs a pair that turns: its speeds are too large to show; give its input a smaller one.",
    );
    act(() => open({ ...MIXER, meshes: [] }));
    expect(screen.getByText(/There is no pair in this drive yet/)).toBeInTheDocument();
  });
});

describe("any shaft angle", () => {
  beforeEach(() => select({ kind: "mesh", id: "m2" }));

  it("shows the pair at each, in figures and on the bench, and leaves the drive", async () => {
    const before = drive();
    render(<DemosPanel />);
    // tan δ1 = 16/32 at a right angle.
    expect(figure("Pitch angle, Cross shaft")).toBe("26.57°");
    expect(figure("Pitch angle, Mixer")).toBe("63.43°");
    expect(figure("Cone distance")).toBe("53.67 mm");
    slide("Shaft angle", 120);
    // cos 120 = -16/32: the larger is a flat crown, δ1 the other 30, and R its radius of 48 mm.
    expect(figure("Pitch angle, Cross shaft")).toBe("30°");
    expect(figure("Pitch angle, Mixer")).toBe("90°");
    expect(figure("Cone distance")).toBe("48 mm");
    await waitFor(() => expect(demoStore.getState().shown?.words).toMatch(/at 120°/));
    const shown = demoStore.getState().shown?.solved;
    expect(shown?.drive.meshes[0]?.shaftAngle).toBe(120);
    fireEvent.pointerUp(screen.getByRole("slider", { name: "Shaft angle" }));
    expect(viewStore.getState().announcement).toBe("120°: a cone on a flat crown. Pitch angles 30° and 90°.");
    expect(
      screen.getByRole("img", { name: /Marked: parallel at 0°, right angle at 90°, crown at 120°, ring at 180°/ }),
    );
    expect(drive()).toBe(before);
  });

  it("goes from parallel to a ring", async () => {
    const user = userEvent.setup();
    render(<DemosPanel />);
    await user.click(screen.getByRole("button", { name: "0° parallel" }));
    expect(screen.getByText(/^At 0°: two cylinders/)).toBeInTheDocument();
    expect(figure("Cone distance")).toBe("infinite");
    await waitFor(() => expect(demoStore.getState().shown?.solved.drive.gears[1]?.kind).toBe("spur"));
    await user.click(screen.getByRole("button", { name: "180° ring" }));
    expect(figure("Pitch angle, Mixer")).toBe("180°");
    await waitFor(() => expect(demoStore.getState().shown?.solved.drive.gears[1]?.kind).toBe("internal"));
  });

  it("is taken over with one click, as one step to undo", async () => {
    const user = userEvent.setup();
    const before = drive();
    render(<DemosPanel />);
    slide("Shaft angle", 60);
    await user.click(screen.getByRole("button", { name: "Set my drive to 60°" }));
    expect(drive().meshes[1]?.shaftAngle).toBe(60);
    expect(steps()).toBe(1);
    expect(viewStore.getState().announcement).toBe("The shafts of your drive stand at 60° now.");
    act(() => undo());
    expect(drive()).toBe(before);
  });

  it("says why it can't be taken over", async () => {
    const user = userEvent.setup();
    act(() => select({ kind: "mesh", id: "m1" }));
    open({
      ...MIXER,
      shafts: [...MIXER.shafts, { id: "D", name: "Fan" }],
      gears: [...MIXER.gears, { id: "d1", shaft: "D", kind: "spur", teeth: 25, module: 2 }],
      meshes: [...MIXER.meshes, { id: "m3", gears: ["b1", "d1"], azimuth: 90 }],
    });
    act(() => select({ kind: "mesh", id: "m1" }));
    render(<DemosPanel />);
    slide("Shaft angle", 30);
    await user.click(screen.getByRole("button", { name: "Set my drive to 30°" }));
    expect(screen.getByRole("alert")).toHaveTextContent(/mesh m3 needs b1/);
    expect(steps()).toBe(0);
    slide("Shaft angle", 31);
    expect(screen.queryByRole("alert")).toBeNull();
  });
});

describe("either drives", () => {
  const cells = (name: string): string[] => {
    const row = screen.getByRole("row", { name: new RegExp(`^${name}`) });
    return [...row.querySelectorAll("td")].map((cell) => cell.textContent ?? "");
  };
  beforeEach(() => {
    select({ kind: "mesh", id: "m2" });
    demoStore.setState({ kind: "either" });
  });
  afterEach(() => demoStore.setState({ kind: "sweep" }));

  it("swapped, speed and torque trade places and power stays; the bench shows it, the drive stays", async () => {
    const user = userEvent.setup();
    const before = drive();
    const { container } = render(<DemosPanel />);
    // 40 N·m at the mixer: 40 · 16/32 / 0.97 = 20.62 N·m at 580 rev/min; P = T · 2π n/60 = 1252 W, of which 97 % come out.
    expect(cells("Speed")).toEqual(["580 rev/min", "290 rev/min"]);
    expect(cells("Torque")).toEqual(["20.62 N·m", "40 N·m"]);
    expect(cells("Power")).toEqual(["1252 W", "1215 W"]);
    await user.click(screen.getByRole("button", { name: "Mixer" }));
    expect(cells("Speed")).toEqual(["1160 rev/min", "580 rev/min"]);
    // 20.62 · 16/32 · 0.97 = 10 N·m
    expect(cells("Torque")).toEqual(["10 N·m", "20.62 N·m"]);
    expect(cells("Power")).toEqual(["1215 W", "1252 W"]);
    expect(viewStore.getState().announcement).toMatch(
      /^Mixer drives\. Mixer 580 rev\/min and 20\.62 N·m; Cross shaft 1160/,
    );
    await waitFor(() => expect(demoStore.getState().shown?.words).toMatch(/Mixer drives/));
    const shown = demoStore.getState().shown?.solved;
    expect(shown?.motion.speed.slice(1).map((x) => Math.round(Math.abs(x ?? 0)))).toEqual([1160, 580]);
    expect(screen.getByRole("button", { name: "Cautions" })).toBeInTheDocument();
    expect(await violations(container)).toEqual([]);
    expect(drive()).toBe(before);
  });

  it("says of each side what it gains and what it gives for it, and of equal gears that nothing is traded", async () => {
    const user = userEvent.setup();
    const { unmount } = render(<DemosPanel />);
    expect(screen.getByText(/^Driven by Cross shaft, Mixer gains torque and gives speed for it\./)).toBeInTheDocument();
    await user.click(screen.getByRole("button", { name: "Mixer" }));
    expect(screen.getByText(/^Driven by Mixer, Cross shaft gains speed and gives torque for it\./)).toBeInTheDocument();
    unmount();
    const equal = MIXER.gears.map((gear) => (gear.kind === "bevel" ? { ...gear, teeth: 20 } : gear));
    open({ ...MIXER, gears: equal });
    act(() => setDemo({ kind: "either", mesh: "m2" }));
    render(<DemosPanel />);
    expect(screen.getByText(/^Equal sizes: .* whichever drives\./)).toBeInTheDocument();
    expect(screen.queryByText(/gains/)).toBeNull();
  });

  it("is taken over as one step", async () => {
    const user = userEvent.setup();
    const before = drive();
    render(<DemosPanel />);
    await user.click(screen.getByRole("button", { name: "Mixer" }));
    await user.click(screen.getByRole("button", { name: "Drive mine from Mixer" }));
    expect(drive().ports.find(({ role }) => role === "input")).toMatchObject({ shaft: "C" });
    expect(steps()).toBe(1);
    expect(screen.queryByRole("button", { name: /^Drive mine/ })).toBeNull();
    act(() => undo());
    expect(drive()).toBe(before);
  });

  it("says what is missing where nothing turns", () => {
    open({ ...MIXER, ports: [] });
    demoStore.setState({ kind: "either" });
    render(<DemosPanel />);
    expect(screen.getByRole("alert")).toHaveTextContent(
      "This needs a pair that turns: the drive needs one more input.",
    );
  });
});

describe("rolling cup", () => {
  beforeEach(() => {
    select({ kind: "mesh", id: "m2" });
    demoStore.setState({ kind: "cup" });
  });
  afterEach(() => demoStore.setState({ kind: "sweep" }));

  it("has the circles of the gear's own cone, and its turns with their frame", async () => {
    const user = userEvent.setup();
    const before = drive();
    const { container } = render(<DemosPanel />);
    // R = sqrt(24² + 48²) = 53.67 and the face 14 less; R/r = 53.67/24 = 2.236, less its inverse from the ground.
    expect(figure("Radius of the circle of the wider end")).toBe("53.67 mm");
    expect(figure("Radius of the circle of the narrower end")).toBe("39.67 mm");
    expect(figure("an eye that goes round")).toBe("2.236");
    expect(figure("an eye on the ground")).toBe("1.789");
    expect(screen.getByRole("img", { name: /^The cup on the table seen from above/ })).toBeInTheDocument();
    await user.click(screen.getByRole("button", { name: "Mixer" }));
    // The larger one's: 53.67/48.
    expect(figure("an eye that goes round")).toBe("1.118");
    expect(await violations(container)).toEqual([]);
    expect(drive()).toBe(before);
  });

  it("runs straight when its radii are made equal, and comes back", async () => {
    const user = userEvent.setup();
    render(<DemosPanel />);
    await user.click(screen.getByRole("button", { name: "Make the radii equal" }));
    expect(figure("Its way")).toBe("straight on");
    slide("Its own turn", 360);
    // 2π · 24 mm
    expect(figure("Rolled off")).toBe("150.8 mm");
    expect(figure("Turns of its own")).toBe("1");
    slide("Radius of the narrower end", 12);
    // R = r s/(r - r') = 24 · 14/12
    expect(figure("Radius of the circle of the wider end")).toBe("28 mm");
    await user.click(screen.getByRole("button", { name: "As in my drive" }));
    expect(figure("Radius of the circle of the wider end")).toBe("53.67 mm");
  });

  it("of a pair on parallel shafts runs straight at once", () => {
    act(() => select({ kind: "mesh", id: "m1" }));
    render(<DemosPanel />);
    expect(screen.getByText(/Both ends are alike/)).toBeInTheDocument();
  });
});

describe("taper", () => {
  beforeEach(() => {
    select({ kind: "mesh", id: "m2" });
    demoStore.setState({ kind: "taper" });
  });
  afterEach(() => demoStore.setState({ kind: "sweep" }));

  it("has all sizes of a tooth in the ratio of the distance from the apex", async () => {
    const before = drive();
    const { container } = render(<DemosPanel />);
    // Module 3: π 3/2 = 4.712 thick and 2.25 · 3 = 6.75 deep at the heel, 53.67 mm from the apex.
    expect(figure("Distance from the apex")).toBe("53.67 mm");
    expect(figure("Thickness of the tooth")).toBe("4.712 mm");
    expect(figure("Depth of the tooth")).toBe("6.75 mm");
    const quotients = ["Radius over", "Thickness over", "Depth over"].map(figure);
    slide("Section, heel to toe", 1);
    // The face is 14: 39.67/53.67 = 0.7391 of all.
    expect(figure("Of that at the heel")).toBe("0.7391");
    expect(figure("Radius$")).toBe("17.74 mm");
    expect(figure("Thickness of the tooth")).toBe("3.483 mm");
    expect(figure("Depth of the tooth")).toBe("4.989 mm");
    expect(["Radius over", "Thickness over", "Depth over"].map(figure)).toEqual(quotients);
    expect(screen.getByRole("img", { name: /^The outline of a tooth at the toe/ })).toBeInTheDocument();
    expect(await violations(container)).toEqual([]);
    expect(drive()).toBe(before);
  });

  it("is seen on the bench in a close look, whose section follows and which goes with it", async () => {
    const user = userEvent.setup();
    const { unmount } = render(<DemosPanel />);
    await user.click(screen.getByRole("button", { name: "See the section on the bench" }));
    slide("Section, heel to toe", 0.5);
    expect(closeStore.getState()).toMatchObject({ mesh: "m2", section: 0.5 });
    unmount();
    expect(closeStore.getState().mesh).toBeNull();
  });

  it("on parallel shafts there is none, and where there are no teeth it says so", () => {
    act(() => select({ kind: "mesh", id: "m1" }));
    const { unmount } = render(<DemosPanel />);
    slide("Section, one end to the other", 0.8);
    expect(figure("Distance from the apex")).toBe("infinite");
    expect(figure("Thickness of the tooth")).toBe("3.142 mm");
    unmount();
    const wheels = MIXER.gears.map((gear) =>
      gear.kind === "spur" ? { id: gear.id, shaft: gear.shaft, at: 0, face: 20, kind: "wheel", diameter: 40 } : gear,
    );
    open({ ...MIXER, gears: wheels });
    demoStore.setState({ kind: "taper", mesh: "m1" });
    render(<DemosPanel />);
    expect(screen.getByRole("alert")).toHaveTextContent("has no teeth to taper");
  });
});

describe("surface speed", () => {
  const cells = (name: string): string[] => {
    const row = screen.getByRole("row", { name: new RegExp(`^${name}`) });
    return [...row.querySelectorAll("td")].map((cell) => cell.textContent ?? "");
  };
  beforeEach(() => {
    select({ kind: "mesh", id: "m2" });
    demoStore.setState({ kind: "speeds" });
  });
  afterEach(() => demoStore.setState({ kind: "sweep" }));

  it("is alike on both, at the heel and at the toe, and slides where a pitch angle is spoiled", async () => {
    const user = userEvent.setup();
    const before = drive();
    const { container } = render(<DemosPanel />);
    // v = ω r: 580 rev/min on 24 mm is 1.4577 m/s; at the toe 39.67/53.67 of it.
    expect(cells("Heel")).toEqual(["1.458 m/s", "1.458 m/s", "none"]);
    expect(cells("Toe")).toEqual(["1.077 m/s", "1.077 m/s", "none"]);
    await user.click(screen.getByRole("button", { name: "Make it a cylinder" }));
    // Then 24 mm there too: 1.458; the other's angle is 90, so its radius 48 - 14 = 34 and its speed 1.458 · 34/48.
    expect(cells("Heel")).toEqual(["1.458 m/s", "1.458 m/s", "none"]);
    expect(cells("Toe")).toEqual(["1.458 m/s", "1.033 m/s", "0.4252 m/s"]);
    expect(screen.getByText(/the rest scrubs/)).toBeInTheDocument();
    expect(await violations(container)).toEqual([]);
    await user.click(screen.getByRole("button", { name: "As it should be" }));
    expect(cells("Toe")[2]).toBe("none");
    expect(drive()).toBe(before);
  });

  it("says which other angle is spoiled with it, and at which end both agree", () => {
    render(<DemosPanel />);
    // tan δ = 16/32: 26.57 and 63.43 degrees, together 90 at every setting.
    slide("Pitch angle of Cross shaft", 10);
    expect(
      screen.getByText(/That of Mixer is then 53\.43°, not 63\.43°: the shafts stay where they are/),
    ).toBeInTheDocument();
    expect(screen.getByText(/the surfaces still agree at the heel, and nowhere else/)).toBeInTheDocument();
  });

  it("has no sliding made of rounding in a fast drive, and all of it in a slow one", () => {
    const ports = (speed: number) => MIXER.ports.map((port) => (port.role === "input" ? { ...port, speed } : port));
    const sliding = (row: string) =>
      within(screen.getByRole("row", { name: new RegExp(`^${row}`) }))
        .getAllByRole("cell")
        .at(-1);
    // Rolling pairs slide nowhere at any speed (v = ω r on both).
    const gears = MIXER.gears.map((gear) => (gear.id === "c1" ? { ...gear, teeth: 31 } : gear));
    open({ ...MIXER, gears, ports: ports(1e15) });
    act(() => setDemo({ kind: "speeds", mesh: "m2" }));
    const { unmount } = render(<DemosPanel />);
    for (const row of ["Heel", "Middle", "Toe"]) expect(sliding(row)).toHaveTextContent("none");
    unmount();
    // A share of the surface speed that no speed of the drive changes: sin 10° sin 90° / sin 63.43° of ω times the face of 14 mm.
    open({ ...MIXER, ports: ports(1e-9) });
    act(() => setDemo({ kind: "speeds", mesh: "m2" }));
    render(<DemosPanel />);
    slide("Pitch angle of Cross shaft", 10);
    expect(sliding("Heel")).toHaveTextContent("none");
    expect(sliding("Toe")).not.toHaveTextContent("none");
  });

  it("is alike all along on parallel shafts, and needs a pair that turns", () => {
    act(() => select({ kind: "mesh", id: "m1" }));
    const { unmount } = render(<DemosPanel />);
    // 1450 rev/min on 20 mm.
    expect(cells("One end")).toEqual(["3.037 m/s", "3.037 m/s", "none"]);
    expect(cells("Other end")).toEqual(["3.037 m/s", "3.037 m/s", "none"]);
    unmount();
    open({ ...MIXER, ports: [] });
    demoStore.setState({ kind: "speeds" });
    render(<DemosPanel />);
    expect(screen.getByRole("alert")).toHaveTextContent("the drive needs one more input");
  });
});

describe("friction to teeth", () => {
  beforeEach(() => {
    select({ kind: "mesh", id: "m1" });
    demoStore.setState({ kind: "friction" });
  });
  afterEach(() => demoStore.setState({ kind: "sweep" }));

  it("slips where it is pressed too little, holds when pressed harder, and with teeth carries all", async () => {
    const user = userEvent.setup();
    const before = drive();
    const { container } = render(<DemosPanel />);
    // 40 N·m at the mixer ask 40/0.97/2 = 20.62 N·m of the cross shaft, and 20.62/(0.62 · 0.05 m) = 665.1 N: half of 666 N slips.
    expect(figure("Torque asked")).toBe("20.62 N·m");
    expect(figure("Most that friction holds")).toBe("10.32 N·m");
    // 0.48 · 333 N · 0.05 m once it slides.
    expect(figure("Torque carried")).toBe("7.992 N·m");
    // 580 rev/min are 3480 degrees in a second.
    expect(figure("Cross shaft is behind")).toBe("3480°");
    await onBench();
    const speeds = () => demoStore.getState().shown?.solved.motion.speed;
    expect(speeds()).toEqual([1450, 0]);
    expect(demoStore.getState().shown?.growth).toBe(0);
    slide("Force that presses them together", 700);
    expect(figure("Torque carried")).toBe("20.62 N·m");
    expect(figure("Cross shaft is behind")).toBe("0°");
    await waitFor(() => expect(speeds()).toEqual([1450, -580]));
    await user.selectOptions(screen.getByRole("combobox", { name: "Rims" }), "PTFE on steel");
    // 0.04 · 700 N · 0.05 m
    expect(figure("Torque carried")).toBe("1.4 N·m");
    expect(screen.getByText(/Marks' Standard Handbook.*from memory/)).toBeInTheDocument();
    slide("Teeth", 1);
    expect(figure("Torque carried")).toBe("20.62 N·m");
    expect(figure("Cross shaft is behind")).toBe("0°");
    await waitFor(() => expect(demoStore.getState().shown?.growth).toBe(1));
    expect(speeds()).toEqual([1450, -580]);
    expect(await violations(container)).toEqual([]);
    expect(drive()).toBe(before);
    expect(screen.queryByRole("button", { name: "Press mine so" })).toBeNull();
  });

  it("says of the readouts, while it slips, that they are of the drive without slip", () => {
    const words = /The readouts and your drive's other figures are of the drive without slip/;
    render(<DemosPanel />);
    expect(screen.getByText(words)).toBeInTheDocument();
    slide("Force that presses them together", 700);
    expect(screen.queryByText(words)).toBeNull();
    slide("Force that presses them together", 0);
    expect(screen.getByText(words)).toBeInTheDocument();
    slide("Teeth", 1);
    expect(screen.queryByText(words)).toBeNull();
  });

  it("of friction wheels is taken over as one step: the solver then slips from the same torque on", async () => {
    const user = userEvent.setup();
    const wheels = MIXER.gears.map((gear) =>
      gear.kind === "spur"
        ? { id: gear.id, shaft: gear.shaft, at: 0, face: 20, kind: "wheel", diameter: gear.teeth * 2 }
        : gear,
    );
    open({ ...MIXER, gears: wheels });
    act(() => demoStore.setState({ kind: "friction", mesh: "m1" }));
    render(<DemosPanel />);
    slide("Force that presses them together", 400);
    const most = figure("Most that friction holds");
    await user.click(screen.getByRole("button", { name: "Press mine so" }));
    expect(drive().meshes[0]).toMatchObject({ normalForce: 400, friction: 0.62 });
    expect(documentStore.getState().solved.load.meshes[0]?.slipTorque).toBeCloseTo(12.4, 9);
    expect(most).toBe("12.4 N·m");
    expect(steps()).toBe(1);
    expect(screen.queryByRole("slider", { name: "Teeth" })).toBeNull();
  });

  it("says what is missing where nothing turns", () => {
    open({ ...MIXER, ports: [] });
    demoStore.setState({ kind: "friction" });
    render(<DemosPanel />);
    expect(screen.getByRole("alert")).toHaveTextContent("the drive needs one more input");
  });
});

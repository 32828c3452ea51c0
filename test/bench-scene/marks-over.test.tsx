/** Pins and dimension lines over the picture: they stand where their parts are seen, ride with carriers, and show their words. */
import { act, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { currentOrbit, setScreenSize } from "../../src/bench/camera";
import { dimensions } from "../../src/bench/dimension";
import { Marks } from "../../src/bench/marks";
import { project } from "../../src/bench/orbit";
import { placeOverlay } from "../../src/bench/overlay";
import { pinPoint } from "../../src/bench/pins";
import { shownDrive } from "../../src/bench/shown-drive";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive, Vec3 } from "../../src/engine/drive/types";
import { isMeasured, measure } from "../../src/engine/measure/measure";
import { crank, reset, setPlaying } from "../../src/store/clock";
import { openDrive } from "../../src/store/document";
import { measuringStore, setMeasuring } from "../../src/store/measuring";
import { setView, viewStore } from "../../src/store/view";
import MIXER from "../support/mixer.drive.json";
import { planetary } from "../support/random-drives";

const WIDTH = 800;
const HEIGHT = 600;
const NOTES = [
  { text: "Oil here", at: { gear: "b1" } },
  { text: "and here", at: { gear: "b1" } },
  { text: "The wall", at: { point: [10, 20, 30] } },
  { text: "of another drive", at: { gear: "z9" } },
];

const mixer = (): Drive => {
  const { drive } = readDrive({ ...MIXER, "x-notes": NOTES });
  if (!drive) throw new Error("no drive");
  return drive;
};

beforeEach(() => {
  vi.stubGlobal("matchMedia", () => ({ matches: false }));
  act(() => {
    setPlaying(false);
    reset();
    openDrive(mixer());
    setView({ selection: null, hover: null, aside: null });
    setScreenSize(WIDTH, HEIGHT);
  });
});

/** Pixels from the corner of the picture. */
const seen = (point: Vec3): readonly [number, number] => {
  const { x, y } = project(currentOrbit(), point, HEIGHT);
  return [WIDTH / 2 + x, HEIGHT / 2 - y];
};
const placeOf = (element: Element | null): readonly [number, number] => {
  const [x = Number.NaN, y = Number.NaN] = (
    /translate\(([-\d.]+)px, ([-\d.]+)px\)/.exec((element as HTMLElement).style.transform) ?? []
  )
    .slice(1)
    .map(Number);
  return [x, y];
};
const ends = (): number[][] =>
  [...document.querySelectorAll("path[data-line]")].map((path) =>
    (path.getAttribute("d") ?? "").split(/[ML ]/).filter(Boolean).map(Number),
  );

describe("pins", () => {
  it("stand where their places are seen, beside one another where there are two, and none for a part that isn't there", () => {
    render(<Marks />);
    const pins = screen.getAllByRole("button", { hidden: true });
    expect(pins.map((pin) => pin.getAttribute("aria-label"))).toEqual([
      "Note 1 on b1 (50 teeth, on Cross shaft): Oil here",
      "Note 2 on b1 (50 teeth, on Cross shaft): and here",
      "Note 3 at the point 10, 20, 30 mm: The wall",
    ]);
    // b1 stands on the cross shaft's own origin, 70 mm above the motor's.
    const [x, y] = seen([0, 0, 70]);
    expect(placeOf(pins[0]?.parentElement ?? null)[0]).toBeCloseTo(x, 0);
    expect(placeOf(pins[0]?.parentElement ?? null)[1]).toBeCloseTo(y, 0);
    expect(placeOf(pins[1]?.parentElement ?? null)[0]).toBeCloseTo(x + 26, 0);
    expect(placeOf(pins[2]?.parentElement ?? null)[1]).toBeCloseTo(seen([10, 20, 30])[1], 0);
  });

  it("select their part and keep their words open when pressed, and close them when pressed again", async () => {
    const user = userEvent.setup();
    render(<Marks />);
    const pin = screen.getByRole("button", { name: /^Note 1/, hidden: true });
    await user.click(pin);
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "b1" });
    expect(pin).toHaveAttribute("aria-pressed", "true");
    expect(pin).toHaveAttribute("data-open");
    act(() => setView({ selection: null }));
    await user.click(pin);
    expect(pin).not.toHaveAttribute("data-open");
    act(() => setView({ selection: { kind: "gear", id: "b1" } }));
    expect(pin).toHaveAttribute("data-open");
  });

  it("ride with a carrier", () => {
    act(() => openDrive(planetary(24, 18, 60, 3)));
    const { layout, turning } = shownDrive();
    const planet = layout.solved.drive.shafts.findIndex(({ frame }) => frame !== undefined);
    const gear =
      layout.solved.drive.gears.find(({ shaft }) => shaft === layout.solved.drive.shafts[planet]?.id)?.id ?? "";
    const point = pinPoint(layout, { part: "gear", id: gear });
    expect(point?.carrier).toBe(layout.solved.index.frameOfShaft[planet]);
    expect(turning.solved).toBe(layout.solved);
  });
});

describe("dimension lines", () => {
  const found = (a: string, b: string) => {
    const { layout } = shownDrive();
    const kind = (id: string) => (/\d/.test(id) ? ("gear" as const) : ("shaft" as const));
    const result = measure(layout.solved, { kind: kind(a), id: a }, { kind: kind(b), id: b });
    if (!isMeasured(result)) throw new Error(result.reason);
    return dimensions(result, layout);
  };

  it("run between the axes, and between the centres where that is another; an arc where the axes meet", () => {
    expect(found("A", "B").map(({ words }) => words)).toEqual(["70 mm"]);
    expect(found("a1", "b1").map(({ words }) => words)).toEqual(["70 mm"]);
    expect(found("a1", "b2").map(({ words }) => words)).toEqual(["70 mm", "92.1954 mm"]);
    expect(found("B", "C").map(({ words }) => words)).toEqual(["90°"]);
    const arc = found("B", "C")[0]?.points ?? [];
    expect(arc).toHaveLength(25);
    // The apex lies beyond b2, to the right of both gears: the arc begins on their side, and ends along the mixer's axis.
    const [begin, end] = [arc[0]?.at, arc[24]?.at];
    const apex = shownDrive().layout.solved.placement.gears[2]?.apexPoint;
    if (!begin || !end || !apex) throw new Error("no arc");
    expect(begin[0]).toBeLessThan(apex[0] - 1);
    expect([begin[1], begin[2]]).toEqual([apex[1], apex[2]].map((x) => expect.closeTo(x, 6)));
    expect(end[0]).toBeCloseTo(apex[0], 6);
  });

  it("are drawn from foot to foot as the eye sees them, only while the panel is open", () => {
    act(() => {
      setView({ aside: "measure" });
      setMeasuring({ first: { kind: "gear", id: "a1" }, second: { kind: "gear", id: "b1" } });
    });
    render(<Marks />);
    const expected = [...seen([0, 0, 0]), ...seen([0, 0, 70])];
    for (const line of ends()) for (const [i, x] of line.entries()) expect(x).toBeCloseTo(expected[i] ?? 0, 0);
    expect(ends()).toHaveLength(2);
    expect(screen.getByText("70 mm")).toBeInTheDocument();
    act(() => setView({ aside: null }));
    expect(ends()).toHaveLength(0);
  });

  it("follow a planet as its carrier turns", () => {
    act(() => openDrive(planetary(24, 18, 60, 3)));
    const { drive, index } = shownDrive().layout.solved;
    const planet = drive.shafts.findIndex(({ frame }) => frame !== undefined);
    const sun = drive.shafts.findIndex(({ pose }) => pose !== undefined);
    act(() => {
      setView({ aside: "measure" });
      setMeasuring({
        first: { kind: "shaft", id: drive.shafts[sun]?.id ?? "" },
        second: { kind: "shaft", id: drive.shafts[planet]?.id ?? "" },
      });
    });
    render(<Marks />);
    const before = ends()[0] ?? [];
    expect(crank(index.frameOfShaft[planet] ?? -1, 1)).toBe(true);
    shownDrive().turning.update();
    act(placeOverlay);
    const after = ends()[0] ?? [];
    // The sun's foot stays, the planet's goes round.
    expect(after.slice(0, 2)).toEqual(before.slice(0, 2));
    expect(Math.hypot((after[2] ?? 0) - (before[2] ?? 0), (after[3] ?? 0) - (before[3] ?? 0))).toBeGreaterThan(5);
    expect(measuringStore.getState().second).not.toBeNull();
  });
});

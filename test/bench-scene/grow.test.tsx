/** The `+` on the bench and the pointer that swings what grows there, in a page without a graphics card. */
import { act, fireEvent, render, screen } from "@testing-library/react";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { Bench } from "../../src/bench/bench";
import { currentOrbit, currentRoom, glideOn, setOrbit, setScreenSize } from "../../src/bench/camera";
import { azimuthUnder, growCentre } from "../../src/bench/grow-aim";
import { FRONT, project, sightThrough } from "../../src/bench/orbit";
import { shownDrive } from "../../src/bench/shown-drive";
import { newDrive } from "../../src/engine/drive/defaults";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { along, DEGREE, turn } from "../../src/engine/vector";
import { setPlaying } from "../../src/store/clock";
import { openDrive } from "../../src/store/document";
import { coverBench, growFrom, growStore, onGrowPress } from "../../src/store/growing";
import { look, setView, viewStore } from "../../src/store/view";
import { standInForLayout } from "../support/bench-page";
import mixer from "../support/mixer.drive.json";

const WIDTH = 800;
const HEIGHT = 600;

beforeEach(() => {
  standInForLayout(WIDTH, HEIGHT);
  act(() => {
    openDrive(newDrive());
    setView({ selection: null, hover: null, adding: null, ghost: null, drawing: "flat", drawingChosen: true });
    setPlaying(false);
  });
});

function open(): HTMLElement {
  render(<Bench />);
  act(() => setScreenSize(WIDTH, HEIGHT));
  return screen.getByRole("application");
}

const pluses = () => screen.queryAllByRole("button", { name: /^Grow/, hidden: true }).map((one) => one.textContent);

describe("the +", () => {
  it("stands where something is selected: at the gear and the free end, not at the motor's end", () => {
    open();
    expect(pluses()).toEqual([]);
    act(() => setView({ selection: { kind: "shaft", id: "A" } }));
    expect(pluses()).toEqual(["Grow at the right end of Motor"]);
    act(() => setView({ selection: { kind: "gear", id: "a1" } }));
    expect(pluses()).toEqual(["Grow from gear a1", "Grow at the right end of Motor"]);
  });

  it("opens its choices there, and the eye leaves room for them", () => {
    open();
    act(() => setView({ selection: { kind: "gear", id: "a1" } }));
    fireEvent.click(screen.getByRole("button", { name: "Grow from gear a1", hidden: true }));
    expect(viewStore.getState().adding).toEqual({ shaft: "A", gear: "a1", grow: { side: undefined } });
    const middle = () => project(currentOrbit(), currentRoom().centre, HEIGHT).x;
    act(() => look({ name: "fit" }));
    act(() => void glideOn(performance.now() + 10_000));
    expect(Math.abs(middle())).toBeLessThan(60);
    coverBench(300);
    act(() => look({ name: "fit" }));
    act(() => void glideOn(performance.now() + 10_000));
    // Half of what is covered, to the left; the middle of what is seen is not quite that of the room.
    expect(Math.abs(middle() + 150)).toBeLessThan(60);
    coverBench(0);
  });
});

const drive = readDrive(mixer).drive as Drive;

describe("the azimuth under the pointer", () => {
  const eyes = { corner: [0.6, 0.4], end: [0, 0], above: [0.3, 1.2] } as const;

  // The point at a known azimuth, projected by the bench's own eye, has to come back as that azimuth.
  for (const [name, [azimuth, elevation]] of Object.entries(eyes)) {
    it(`is that of the point that it covers, seen from the ${name}`, () => {
      act(() => openDrive(drive));
      setOrbit({ ...currentOrbit(), azimuth, elevation });
      const { layout } = shownDrive();
      let tried = 0;
      layout.solved.placement.shafts.forEach((placed, shaft) => {
        const centre = growCentre(layout, { shaft: drive.shafts[shaft]?.id ?? "", side: 1 });
        if (!placed || !centre) return;
        for (const angle of [0, 35, 90, 145, 200, 300]) {
          const point = along(centre, turn(placed.ref, placed.axis, angle * DEGREE), 60);
          const at = project(currentOrbit(), point, HEIGHT);
          const sight = sightThrough(currentOrbit(), at.x, at.y, HEIGHT);
          // Edge on only two sides can be told apart.
          const down = Math.abs(sight.direction.reduce((sum, part, k) => sum + part * (placed.axis[k] ?? 0), 0));
          if (down < 0.2) continue;
          tried++;
          expect(azimuthUnder(layout.solved, shaft, centre, sight)).toBe(angle);
        }
      });
      expect(tried).toBeGreaterThan(5);
    });
  }
});

it("tells above from below where the shaft is seen edge on", () => {
  act(() => openDrive(drive));
  setOrbit({ ...currentOrbit(), ...FRONT });
  const { layout } = shownDrive();
  const centre = growCentre(layout, { shaft: "A", gear: "a1" });
  if (!centre) throw new Error("The gear stands nowhere.");
  const under = (up: number): number | null => {
    const at = project(currentOrbit(), along(centre, [0, 0, 1], up), HEIGHT);
    return azimuthUnder(layout.solved, 0, centre, sightThrough(currentOrbit(), at.x, at.y, HEIGHT));
  };
  // The eye looks a little from above or below there, so that its "above" leans; which side is meant must be sure.
  const off = (angle: number | null, from: number): number =>
    Math.abs((((angle ?? Number.NaN) - from + 540) % 360) - 180);
  expect(off(under(50), 0)).toBeLessThan(45);
  expect(off(under(-50), 180)).toBeLessThan(45);
});

describe("a pointer on the bench while something grows", () => {
  const at = (x: number, y: number, type = "mouse") => ({
    clientX: x,
    clientY: y,
    pointerId: 1,
    button: 0,
    pointerType: type,
  });

  it("swings it, puts it down with a press, and lets the place go where it leaves", () => {
    const bench = open();
    act(() => setView({ selection: { kind: "gear", id: "a1" } }));
    act(() => growFrom({ shaft: "A", gear: "a1" }));
    const put = vi.fn();
    const stop = onGrowPress(put);
    const { layout } = shownDrive();
    const centre = growCentre(layout, { shaft: "A", gear: "a1" }) ?? [0, 0, 0];
    const middle = project(currentOrbit(), centre, HEIGHT);
    const [x, y] = [WIDTH / 2 + middle.x, HEIGHT / 2 - middle.y];
    fireEvent.pointerMove(bench, at(x, y - 150));
    const above = growStore.getState().pointed;
    expect(above).not.toBeNull();
    fireEvent.pointerDown(bench, at(x, y + 150));
    fireEvent.pointerUp(bench, at(x, y + 150));
    const below = growStore.getState().pointed ?? 0;
    expect(Math.abs(((below - (above ?? 0) + 540) % 360) - 180)).toBeGreaterThan(120);
    expect(put).toHaveBeenCalledOnce();
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "a1" });
    fireEvent.pointerLeave(bench, at(0, 0));
    expect(growStore.getState().pointed).toBeNull();
    stop();
  });

  it("turns the view as ever where it is dragged", () => {
    const bench = open();
    act(() => growFrom({ shaft: "A", side: 1 }));
    const put = vi.fn();
    const stop = onGrowPress(put);
    const before = currentOrbit().azimuth;
    fireEvent.pointerDown(bench, at(30, 560));
    fireEvent.pointerMove(bench, at(90, 560));
    fireEvent.pointerUp(bench, at(90, 560));
    expect(currentOrbit().azimuth).not.toBe(before);
    expect(put).not.toHaveBeenCalled();
    stop();
  });

  it("of a finger swings it first: the button in the sheet puts it down", () => {
    const bench = open();
    act(() => growFrom({ shaft: "A", gear: "a1" }));
    const put = vi.fn();
    const stop = onGrowPress(put);
    fireEvent.pointerDown(bench, at(400, 40, "touch"));
    fireEvent.pointerUp(bench, at(400, 40, "touch"));
    expect(put).not.toHaveBeenCalled();
    expect(growStore.getState().settings.azimuth).toBeTypeOf("number");
    stop();
  });
});

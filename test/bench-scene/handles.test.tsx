/** What hands do on the bench, in a page without a graphics card: the lean handle, cranking, selecting, keys, the flat drawing. */
import { act, fireEvent, render, screen } from "@testing-library/react";
import { beforeEach, describe, expect, it } from "vitest";
import { Bench } from "../../src/bench/bench";
import { currentOrbit, setOrbit, setScreenSize } from "../../src/bench/camera";
import type { Handle } from "../../src/bench/handles/handle";
import { leanHandle } from "../../src/bench/handles/lean-handle";
import { project } from "../../src/bench/orbit";
import { shownDrive } from "../../src/bench/shown-drive";
import { pointAt } from "../../src/bench/turning";
import type { Drive, Vec3 } from "../../src/engine/drive/types";
import { clockStore, reset, setPlaying, shaftAngle } from "../../src/store/clock";
import { documentStore, openDrive, undo } from "../../src/store/document";
import { setView, viewStore } from "../../src/store/view";
import { standInForLayout } from "../support/bench-page";
import { mesh, root, toothed } from "../support/random-drives";

const WIDTH = 800;
const HEIGHT = 600;

const bevels: Drive = {
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }],
  gears: [toothed("a", "A", "bevel", 20, 3, { face: 12 }), toothed("b", "B", "bevel", 40, 3, { apex: "-", face: 12 })],
  meshes: [mesh("m", "a", "b", { shaftAngle: 90 })],
  ports: [{ shaft: "A", role: "input", speed: 60 }],
};

beforeEach(() => {
  standInForLayout(WIDTH, HEIGHT);
  act(() => {
    openDrive(bevels);
    setView({
      selection: null,
      hover: null,
      drawing: "full",
      drawingReason: null,
      drawingChosen: false,
      announcement: "",
    });
    setPlaying(false);
    reset();
  });
});

function open(): HTMLElement {
  render(<Bench />);
  setScreenSize(WIDTH, HEIGHT);
  return screen.getByRole("application");
}

const angleNow = (): number | undefined => documentStore.getState().drive.meshes[0]?.shaftAngle;

/** A point of the world in pixels of the page. */
function onScreen(point: Vec3): { clientX: number; clientY: number } {
  const at = project(currentOrbit(), point, HEIGHT);
  return { clientX: WIDTH / 2 + at.x, clientY: HEIGHT / 2 - at.y };
}

/** A point on gear b's face, well outside of its rod. */
const onGear = (angle: number): { clientX: number; clientY: number } => {
  const { layout, turning } = shownDrive();
  turning.update();
  const b = layout.gears[1];
  if (!b) throw new Error("no gear");
  const r = b.pitchRadius * 0.8;
  return onScreen(pointAt(turning.poses.still, 1, [r * Math.cos(angle), r * Math.sin(angle), b.at]));
};

describe("the bench", () => {
  it("draws flat, with one sentence of why, where there is no 3D", () => {
    open();
    expect(viewStore.getState().drawing).toBe("flat");
    expect(screen.getByText(/^This is a flat drawing, because this browser offers no 3D graphics/)).toBeInTheDocument();
  });

  it("tells in words what the picture shows", () => {
    const region = open();
    const words = document.getElementById(region.getAttribute("aria-describedby") ?? "");
    expect(words).toHaveTextContent(
      /^2 shafts with 2 gears\. A turns (counter)?clockwise seen from the .+ end\. B turns/,
    );
  });

  it("turns the view by arrow keys, zooms by plus and minus", () => {
    const region = open();
    const before = currentOrbit();
    fireEvent.keyDown(region, { key: "ArrowRight" });
    expect(currentOrbit().azimuth).toBeGreaterThan(before.azimuth);
    fireEvent.keyDown(region, { key: "ArrowUp" });
    expect(currentOrbit().elevation).toBeGreaterThan(before.elevation);
    fireEvent.keyDown(region, { key: "+" });
    expect(currentOrbit().distance).toBeLessThan(before.distance);
    act(() => setOrbit(before));
  });

  it("selects what is clicked, and nothing on the ground", () => {
    const region = open();
    const spot = onGear(0.4);
    fireEvent.pointerDown(region, { pointerId: 1, button: 0, ...spot });
    fireEvent.pointerUp(region, { pointerId: 1, button: 0, ...spot });
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "b" });
    expect(shaftAngle(1)).toBe(0);
    fireEvent.pointerDown(region, { pointerId: 1, button: 0, clientX: 3, clientY: 3 });
    fireEvent.pointerUp(region, { pointerId: 1, button: 0, clientX: 3, clientY: 3 });
    expect(viewStore.getState().selection).toBeNull();
  });

  it("cranks the whole drive by a drag on a gear, both ways, with the clock paused meanwhile", () => {
    const region = open();
    act(() => setPlaying(true));
    const steps = [0.4, 0.5, 0.6, 0.7, 0.8];
    fireEvent.pointerDown(region, { pointerId: 1, button: 0, ...onGear(0.4) });
    for (const angle of steps) fireEvent.pointerMove(region, { pointerId: 1, buttons: 1, ...onGear(angle) });
    expect(clockStore.getState().playing).toBe(false);
    // The grabbed point lies nearer the eye than the plane of the marks above, so the pointer leads it by a little less.
    expect(shaftAngle(1)).toBeGreaterThan(0.3);
    expect(shaftAngle(1)).toBeLessThan(0.5);
    const [first = 0, second = 1] = documentStore.getState().solved.motion.speed.map((speed) => speed ?? 0);
    expect(shaftAngle(0) / shaftAngle(1)).toBeCloseTo(first / second, 9);
    for (const angle of [...steps].reverse())
      fireEvent.pointerMove(region, { pointerId: 1, buttons: 1, ...onGear(angle) });
    expect(shaftAngle(1)).toBeCloseTo(0, 2);
    fireEvent.pointerUp(region, { pointerId: 1, button: 0, ...onGear(0.4) });
    expect(clockStore.getState().playing).toBe(true);
    expect(viewStore.getState().selection).toBeNull();
    act(() => setPlaying(false));
  });

  it("turns the view, not the drive, by a drag on the ground", () => {
    const region = open();
    const before = currentOrbit();
    fireEvent.pointerDown(region, { pointerId: 1, button: 0, clientX: 5, clientY: 5 });
    fireEvent.pointerMove(region, { pointerId: 1, buttons: 1, clientX: 45, clientY: 25 });
    fireEvent.pointerUp(region, { pointerId: 1, button: 0, clientX: 45, clientY: 25 });
    expect(currentOrbit().azimuth).toBeLessThan(before.azimuth);
    expect(shaftAngle(0)).toBe(0);
    act(() => setOrbit(before));
  });

  it("says why a locked drive refuses", () => {
    act(() =>
      openDrive({
        ...bevels,
        shafts: [root("A"), { id: "B", name: "B" }, { id: "C", name: "C" }],
        gears: ["A", "B", "C"].map((id) => toothed(id.toLowerCase(), id, "spur", 30, 2)),
        meshes: [mesh("m1", "a", "b", { azimuth: 0 }), mesh("m2", "a", "c", { azimuth: 60 }), mesh("m3", "b", "c")],
      }),
    );
    const region = open();
    const spot = onGear(0.4);
    fireEvent.pointerDown(region, { pointerId: 1, button: 0, ...spot });
    fireEvent.pointerMove(region, { pointerId: 1, buttons: 1, clientX: spot.clientX + 30, clientY: spot.clientY });
    fireEvent.pointerUp(region, { pointerId: 1, button: 0, clientX: spot.clientX + 30, clientY: spot.clientY });
    const { findings } = documentStore.getState().solved;
    const message = findings.find(({ code }) => code === "locked")?.message ?? "none";
    expect(screen.getByText(message)).toBeInTheDocument();
    expect(viewStore.getState().announcement).toBe(message);
    expect(shaftAngle(0)).toBe(0);
  });
});

/** The edits of pointer moves come with the next frame. */
const nextFrame = (): Promise<void> => act(() => new Promise<void>((done) => void requestAnimationFrame(() => done())));

describe("the lean handle", () => {
  async function knob(): Promise<HTMLElement> {
    open();
    act(() => setView({ selection: { kind: "gear", id: "b" } }));
    return screen.findByRole("slider", { name: /^Lean/ }, { timeout: 20_000 });
  }
  /** The handle as it is now. */
  function lean(): Handle {
    const handle = leanHandle(documentStore.getState().solved, 0);
    if (!handle) throw new Error("no handle");
    return handle;
  }

  it("is a slider that says its angle, moved by keys", async () => {
    const handle = await knob();
    expect(handle).toHaveAttribute("aria-valuetext", "90 degrees");
    fireEvent.keyDown(handle, { key: "ArrowLeft" });
    expect(angleNow()).toBe(89);
    fireEvent.keyDown(handle, { key: "ArrowUp", shiftKey: true });
    expect(angleNow()).toBe(99);
    act(() => setView({ selection: { kind: "mesh", id: "m" } }));
    const same = screen.getByRole("slider", { name: /^Lean/ });
    fireEvent.keyDown(same, { key: "Home" });
    // A spur pair: it has no angle any more, and the handle is still there.
    expect(documentStore.getState().drive.gears.map(({ kind }) => kind)).toEqual(["spur", "spur"]);
    expect(angleNow()).toBeUndefined();
    expect(same).toHaveAttribute("aria-valuenow", "0");
    fireEvent.keyDown(same, { key: "ArrowRight", shiftKey: true });
    expect(angleNow()).toBe(10);
    fireEvent.keyDown(same, { key: "End" });
    expect(documentStore.getState().drive.gears.map(({ kind }) => kind)).toEqual(["spur", "internal"]);
    expect(same).toHaveAttribute("aria-valuenow", "180");
    fireEvent.keyUp(same, { key: "End" });
    expect(viewStore.getState().announcement).toBe("Shaft angle 180°: parallel shafts, a pinion in a ring");
  });

  it("leans the pair to the pointer: one drag is one step back", async () => {
    const handle = await knob();
    const held = lean();
    const ratio = documentStore.getState().solved.motion.ratios[1];
    fireEvent.pointerDown(handle, { pointerId: 2, button: 0, ...onScreen(held.point(90)) });
    for (const angle of [80, 70, 60]) {
      fireEvent.pointerMove(handle, { pointerId: 2, buttons: 1, ...onScreen(held.point(angle)) });
    }
    await nextFrame();
    expect(angleNow()).toBe(60);
    fireEvent.pointerUp(handle, { pointerId: 2, button: 0, ...onScreen(held.point(60)) });
    expect(viewStore.getState().announcement).toBe("Shaft angle 60°");
    // The cones change, the ratio does not.
    expect(documentStore.getState().solved.motion.ratios[1]).toEqual(ratio);
    act(() => undo());
    expect(angleNow()).toBe(90);
  });

  it("goes back by Escape", async () => {
    const handle = await knob();
    const held = lean();
    fireEvent.pointerDown(handle, { pointerId: 2, button: 0, ...onScreen(held.point(90)) });
    fireEvent.pointerMove(handle, { pointerId: 2, buttons: 1, ...onScreen(held.point(45)) });
    await nextFrame();
    expect(angleNow()).toBe(45);
    fireEvent.keyDown(handle, { key: "Escape" });
    expect(angleNow()).toBe(90);
  });

  it("snaps to steps of 15, and not with Alt", async () => {
    const handle = await knob();
    const held = lean();
    const [from, at] = [onScreen(held.point(90)), onScreen(held.point(61.3))];
    fireEvent.pointerDown(handle, { pointerId: 2, button: 0, ...from });
    fireEvent.pointerMove(handle, { pointerId: 2, buttons: 1, ...at });
    await nextFrame();
    expect(angleNow()).toBe(60);
    fireEvent.pointerMove(handle, { pointerId: 2, buttons: 1, ...from });
    fireEvent.pointerMove(handle, { pointerId: 2, buttons: 1, altKey: true, ...at });
    await nextFrame();
    expect(angleNow()).toBe(61.3);
    fireEvent.pointerUp(handle, { pointerId: 2, button: 0, ...at });
    expect(angleNow()).toBe(61.3);
  });
});

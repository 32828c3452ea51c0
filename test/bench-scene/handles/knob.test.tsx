/** What a hand on a knob does, and what it can't do: several pointers at once, a pointer that is lost, undo in the middle, bad places. */
import { act, fireEvent, render, screen } from "@testing-library/react";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { currentOrbit, setOrbit, setScreenSize } from "../../../src/bench/camera";
import { APART } from "../../../src/bench/handles/apart";
import type { Handle } from "../../../src/bench/handles/handle";
import { Handles } from "../../../src/bench/handles/handles";
import { handlesFor } from "../../../src/bench/handles/handles-for";
import { HOME, project } from "../../../src/bench/orbit";
import type { Drive } from "../../../src/engine/drive/types";
import { documentStore, isDragging, openDrive, undo } from "../../../src/store/document";
import { type Part, setView, viewStore } from "../../../src/store/view";
import { mesh, root, toothed } from "../../support/random-drives";

const WIDTH = 800;
const HEIGHT = 600;

const drive: Drive = {
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }, { id: "C", name: "C" }],
  gears: [
    toothed("a", "A", "spur", 20, 2),
    toothed("b", "B", "spur", 30, 2, { at: 3 }),
    toothed("b2", "B", "spur", 24, 2, { at: 40 }),
    toothed("c", "C", "internal", 60, 2, { at: 7 }),
  ],
  meshes: [mesh("m1", "a", "b", { azimuth: 25 }), mesh("m2", "b2", "c", { azimuth: 70 })],
  ports: [{ shaft: "A", role: "input", speed: 60 }],
};

beforeEach(() => {
  vi.spyOn(Element.prototype, "getBoundingClientRect").mockReturnValue(new DOMRect(0, 0, WIDTH, HEIGHT));
  HTMLElement.prototype.setPointerCapture = () => {};
  setScreenSize(WIDTH, HEIGHT);
  act(() => {
    openDrive(drive);
    setView({ selection: null, announcement: "" });
    setOrbit({ target: [0, 0, 30], ...HOME, distance: 900 });
  });
});

const now = (): Drive => documentStore.getState().drive;

function grab(part: Part, name: RegExp): { readonly knob: HTMLElement; readonly handle: Handle } {
  act(() => setView({ selection: part }));
  render(<Handles />);
  const knob = screen.getByRole("slider", { name });
  const handle = handlesFor(documentStore.getState().solved, part, "teeth").find((one) => name.test(one.name));
  if (!handle) throw new Error("no handle");
  return { knob, handle };
}

/** Where a value is seen, in pixels of the page. */
const at = (handle: Handle, value: number, dx = 0): { clientX: number; clientY: number } => {
  const seen = project(currentOrbit(), handle.point(value), HEIGHT);
  return { clientX: WIDTH / 2 + seen.x + dx, clientY: HEIGHT / 2 - seen.y };
};

const frame = (): Promise<void> => act(() => new Promise<void>((done) => void requestAnimationFrame(() => done())));

const CASES: readonly (readonly [Part, RegExp, number, (drive: Drive) => unknown])[] = [
  [{ kind: "shaft", id: "B" }, /^Lean/, 60, ({ meshes }) => meshes[0]?.shaftAngle],
  [{ kind: "mesh", id: "m1" }, /^Swing/, 90, ({ meshes }) => meshes[0]?.azimuth],
  [{ kind: "gear", id: "b2" }, /^Slide/, 55, ({ gears }) => gears[2]?.at],
  [{ kind: "gear", id: "b" }, /^Teeth/, 36, ({ gears }) => (gears[1] && "teeth" in gears[1] ? gears[1].teeth : 0)],
  [{ kind: "shaft", id: "A" }, /^Place x/, 25, ({ shafts }) => shafts[0]?.pose?.origin[0]],
  [{ kind: "shaft", id: "A" }, /^Place y/, 25, ({ shafts }) => shafts[0]?.pose?.origin[1]],
  [{ kind: "shaft", id: "A" }, /^Place z/, 25, ({ shafts }) => shafts[0]?.pose?.origin[2]],
];

describe("a drag", () => {
  it.each(CASES)(
    "of %o %s follows the pointer from wherever it is grabbed, in one step",
    async (part, name, value, read) => {
      const { knob, handle } = grab(part, name);
      const before = now();
      // Grabbed 9 pixels beside its middle: nothing moves for that.
      fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, handle.value, 9) });
      fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, handle.value + 0.01, 9) });
      await frame();
      expect(now()).toBe(before);
      fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, (handle.value + value) / 2, 9) });
      await frame();
      fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, value, 9) });
      // Not waited for: the last move counts at once when it is let go.
      fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, value, 9) });
      expect(read(now())).toBe(value);
      expect(viewStore.getState().announcement).toContain(String(value));
      expect(isDragging()).toBe(false);
      act(() => undo());
      expect(now()).toBe(before);
    },
  );

  it.each(CASES)("of %o %s is taken back by Escape", async (part, name, value) => {
    const { knob, handle } = grab(part, name);
    const before = now();
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, handle.value) });
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, value) });
    await frame();
    expect(now()).not.toBe(before);
    fireEvent.keyDown(knob, { key: "Escape" });
    expect(now()).toBe(before);
    // What the finger still does means nothing.
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, value) });
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, value) });
    await frame();
    expect(now()).toBe(before);
    expect(viewStore.getState().announcement).toMatch(/^Taken back: /);
  });

  it("through a ring and back is as if it had never been", async () => {
    const { knob, handle } = grab({ kind: "shaft", id: "B" }, /^Lean/);
    const before = now();
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    for (const value of [30, 90, 180, 150, 30]) {
      fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, value) });
      await frame();
      expect(now().gears[0]?.kind).toBe(value === 180 ? "spur" : "bevel");
    }
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 0) });
    await frame();
    expect(now()).toBe(before);
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    expect(documentStore.temporal.getState().pastStates).toHaveLength(0);
  });

  it("makes one edit a frame, however many moves there are", async () => {
    const { knob, handle } = grab({ kind: "shaft", id: "A" }, /^Place z/);
    let edits = 0;
    const stop = documentStore.subscribe((state, before) => {
      if (state.drive !== before.drive) edits++;
    });
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    for (let z = 1; z <= 40; z++) fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, z) });
    await frame();
    stop();
    expect(edits).toBe(1);
    expect(now().shafts[0]?.pose?.origin[2]).toBe(40);
    fireEvent.pointerCancel(knob, { pointerId: 1 });
    expect(now()).toBe(drive);
  });

  it("belongs to the pointer that began it", async () => {
    const { knob, handle } = grab({ kind: "shaft", id: "A" }, /^Place z/);
    const other = screen.getByRole("slider", { name: /^Place x/ });
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    fireEvent.pointerDown(knob, { pointerId: 2, button: 0, ...at(handle, 0) });
    fireEvent.pointerMove(knob, { pointerId: 2, buttons: 1, ...at(handle, 80) });
    fireEvent.pointerDown(other, { pointerId: 3, button: 0, clientX: 10, clientY: 10 });
    fireEvent.pointerMove(other, { pointerId: 3, buttons: 1, clientX: 300, clientY: 10 });
    fireEvent.pointerUp(other, { pointerId: 3, button: 0, clientX: 300, clientY: 10 });
    await frame();
    expect(now()).toBe(drive);
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 30) });
    fireEvent.pointerUp(knob, { pointerId: 2, button: 0, ...at(handle, 80) });
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, 30) });
    expect(now().shafts[0]?.pose?.origin).toEqual([0, 0, 30]);
  });

  it("ends where it stands when its capture is lost or its part goes, and can be undone", async () => {
    const { knob, handle } = grab({ kind: "shaft", id: "A" }, /^Place z/);
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 20) });
    fireEvent.lostPointerCapture(knob, { pointerId: 1 });
    expect(now().shafts[0]?.pose?.origin[2]).toBe(20);
    expect(isDragging()).toBe(false);
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 20) });
    act(() => setView({ selection: null }));
    expect(isDragging()).toBe(false);
    act(() => undo());
    expect(now()).toBe(drive);
  });

  it("is taken back by an undo in its middle, and the pointer must press anew", async () => {
    const { knob, handle } = grab({ kind: "shaft", id: "A" }, /^Place z/);
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 20) });
    await frame();
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 50) });
    act(() => undo());
    await frame();
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 60) });
    await frame();
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, 60) });
    expect(now()).toBe(drive);
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 0) });
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, 15) });
    expect(now().shafts[0]?.pose?.origin[2]).toBe(15);
  });

  it("into what can't be keeps the last good place, and says why", async () => {
    const { knob, handle } = grab({ kind: "gear", id: "c" }, /^Teeth/);
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...at(handle, 60) });
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 40) });
    await frame();
    const good = now();
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 15) });
    await frame();
    expect(now()).toBe(good);
    expect(viewStore.getState().announcement).toMatch(/^Ring c .*can't hold b2/);
    // Beyond the end of the range, however far the pointer goes.
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, clientX: -1e5, clientY: 1e6 });
    await frame();
    expect(isDragging()).toBe(true);
    fireEvent.pointerMove(knob, { pointerId: 1, buttons: 1, ...at(handle, 50) });
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, ...at(handle, 50) });
    expect(now().gears[3]).toMatchObject({ teeth: 50 });
  });

  it("goes by pixels where the eye looks along the line", async () => {
    act(() => setOrbit({ target: [0, 0, 0], azimuth: -Math.PI / 2, elevation: Math.PI / 2, distance: 900 }));
    const { knob, handle } = grab({ kind: "shaft", id: "A" }, /^Place z/);
    const from = at(handle, 0);
    fireEvent.pointerDown(knob, { pointerId: 1, button: 0, ...from });
    fireEvent.pointerUp(knob, { pointerId: 1, button: 0, clientX: from.clientX + 40, clientY: from.clientY });
    expect(now().shafts[0]?.pose?.origin).toEqual([0, 0, 20]);
  });
});

describe("keys", () => {
  it.each(CASES)("on %o %s go by steps, to the ends, and say what came of it once", (part, name, _, read) => {
    const { knob, handle } = grab(part, name);
    const press = (key: string, shiftKey = false): void => {
      fireEvent.keyDown(knob, { key, shiftKey });
      fireEvent.keyUp(knob, { key, shiftKey });
    };
    press("ArrowRight");
    expect(knob.getAttribute("aria-valuenow")).toBe(String(handle.stepped(handle.value, 1)));
    press("ArrowLeft");
    press("PageUp");
    expect(knob.getAttribute("aria-valuenow")).toBe(String(handle.stepped(handle.value, 10)));
    const told = viewStore.getState().announcement;
    expect(told).not.toBe("");
    press("Shift", true);
    expect(viewStore.getState().announcement).toBe(told);
    press("ArrowDown", true);
    expect(read(now())).toBe(read(drive) ?? undefined);
    act(() => undo());
    expect(knob.getAttribute("aria-valuenow")).toBe(String(handle.stepped(handle.value, 10)));
  });

  it("say why a value can't be", () => {
    const { knob } = grab({ kind: "gear", id: "c" }, /^Teeth/);
    fireEvent.keyDown(knob, { key: "Home" });
    expect(now()).toBe(drive);
    expect(viewStore.getState().announcement).toMatch(/^Ring c .*can't hold b2/);
  });
});

describe("the knobs", () => {
  const places = (): { x: number; y: number }[] =>
    screen.getAllByRole("slider").map(({ style }) => {
      const [, x, y] = /translate\((.+)px, (.+)px\)/.exec(style.transform) ?? [];
      return { x: Number(x), y: Number(y) };
    });

  it.each([
    ["home", HOME],
    ["top", { azimuth: -Math.PI / 2, elevation: Math.PI / 2 }],
    ["front", { azimuth: -Math.PI / 2, elevation: 0 }],
    ["end", { azimuth: 0, elevation: 0 }],
  ] as const)("never lie on one another, nor outside of the picture: %s", (_, direction) => {
    for (const part of [
      { kind: "shaft", id: "A" },
      { kind: "gear", id: "b2" },
      { kind: "mesh", id: "m2" },
    ] as const) {
      for (const distance of [300, 900, 9000]) {
        act(() => {
          setOrbit({ target: [0, 0, 30], ...direction, distance });
          setView({ selection: part });
        });
        const { unmount } = render(<Handles />);
        const spots = places();
        spots.forEach((one, i) => {
          expect(one.x).toBeGreaterThan(20);
          expect(one.x).toBeLessThan(WIDTH - 20);
          for (const other of spots.slice(0, i))
            expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(APART - 1);
        });
        unmount();
      }
    }
  });

  const choose = async (words: RegExp): Promise<HTMLElement> => {
    const { knob } = grab({ kind: "gear", id: "a" }, /^Teeth/);
    expect(knob).toHaveAttribute("aria-valuetext", "20 teeth");
    fireEvent.keyDown(screen.getByRole("button", { name: /^What the size handle changes/ }), { key: "Enter" });
    fireEvent.click(await screen.findByRole("menuitemradio", { name: words }, { timeout: 10_000 }));
    return knob;
  };

  it("change both counts, where that is chosen", async () => {
    fireEvent.keyDown(await choose(/ratio is kept/), { key: "ArrowRight" });
    expect(now().gears.slice(0, 2)).toMatchObject([{ teeth: 22 }, { teeth: 33 }]);
  });

  it("change the module of all that are joined, where that is chosen", async () => {
    const knob = await choose(/Same teeth, other size/);
    expect(knob).toHaveAccessibleName("Size: module of a and its mates");
    fireEvent.keyDown(knob, { key: "ArrowRight" });
    expect(now().gears).toMatchObject([{ module: 2.5 }, { module: 2.5 }, { module: 2 }, { module: 2 }]);
  });
});

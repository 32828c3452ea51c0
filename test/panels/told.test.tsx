/** What stands beside the bench follows a drag by hand when the hand pauses, now and then, and at its end; everything else at once. */
import { act, renderHook } from "@testing-library/react";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { setGear } from "../../src/engine/drive/commands/gear";
import { beginDrag, cancelDrag, endDrag, openDrive, perform, undo, useDocument } from "../../src/store/document";
import { chain } from "../support/random-drives";

const teeth = (count: number): void => {
  perform(setGear("g1a", { teeth: count }), "teeth of g1a");
};
const told = () =>
  renderHook(() =>
    useDocument(({ drive }) => {
      const gear = drive.gears.find(({ id }) => id === "g1a");
      return gear && "teeth" in gear ? gear.teeth : undefined;
    }),
  ).result;
const wait = (ms: number): void => {
  act(() => {
    vi.advanceTimersByTime(ms);
  });
};

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "performance"] });
  openDrive(chain(3));
});
afterEach(() => {
  endDrag();
  vi.useRealTimers();
});

it("follows an edit, an undo and a drag by key at once", () => {
  const shown = told();
  const before = shown.current;
  act(() => teeth(31));
  expect(shown.current).toBe(31);
  act(undo);
  expect(shown.current).toBe(before);
  act(() => {
    beginDrag();
    teeth(32);
  });
  expect(shown.current).toBe(32);
});

it("follows a drag by hand when the hand pauses", () => {
  const shown = told();
  const before = shown.current;
  act(() => {
    beginDrag(true);
    teeth(41);
  });
  expect(shown.current).toBe(before);
  wait(150);
  expect(shown.current).toBe(before);
  wait(150);
  expect(shown.current).toBe(41);
});

it("follows a hand that never pauses within half a second", () => {
  const shown = told();
  act(() => beginDrag(true));
  let behind = 0;
  for (let count = 20; count < 120; count++) {
    act(() => teeth(count));
    wait(16);
    behind = Math.max(behind, count - (shown.current ?? 0));
  }
  expect(behind * 16).toBeLessThanOrEqual(520);
});

it("has the last state as soon as the hand lets go, or takes all back", () => {
  const shown = told();
  act(() => {
    beginDrag(true);
    teeth(50);
    endDrag();
  });
  expect(shown.current).toBe(50);
  act(() => {
    beginDrag(true);
    teeth(60);
    cancelDrag();
  });
  expect(shown.current).toBe(50);
});

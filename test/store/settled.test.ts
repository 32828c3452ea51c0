/** The settled solution: it follows edits when they pause, and a drag by hand when it ends. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { setGear } from "../../src/engine/drive/commands/gear";
import { beginDrag, documentStore, endDrag, openDrive, perform, undo } from "../../src/store/document";
import { settledStore } from "../../src/store/settled";
import { chain } from "../support/random-drives";

const settled = () => settledStore.getState().solved;
const now = () => documentStore.getState().solved;
const edit = (teeth: number): boolean => perform(setGear("g1a", { teeth }), "teeth of g1a");

beforeEach(() => {
  vi.useFakeTimers();
  endDrag();
  openDrive(chain(3));
});
afterEach(() => {
  endDrag();
  vi.runOnlyPendingTimers();
  vi.useRealTimers();
});

describe("the settled solution", () => {
  it("is another drive's at once", () => {
    expect(settled()).toBe(now());
    openDrive(chain(4));
    expect(settled()).toBe(now());
    expect(settled().drive.shafts).toHaveLength(5);
  });

  it("follows an edit, an undo and a number that is being typed when they pause, not before", () => {
    const before = now();
    for (const act of [() => edit(31), undo, () => beginDrag(), () => edit(32)]) {
      act();
      vi.advanceTimersByTime(100);
    }
    expect(settled()).not.toBe(before);
    expect(settled()).not.toBe(now());
    vi.advanceTimersByTime(300);
    expect(settled()).toBe(now());
  });

  it("is not looked for at any step of a held key", () => {
    const before = settled();
    for (let teeth = 20; teeth < 60; teeth++) {
      edit(teeth);
      vi.advanceTimersByTime(33);
      expect(settled()).toBe(before);
    }
    vi.advanceTimersByTime(300);
    expect(settled()).toBe(now());
  });

  it("waits for the end of a drag by hand, however long the hand rests", () => {
    const before = settled();
    beginDrag(true);
    edit(40);
    vi.advanceTimersByTime(10_000);
    expect(settled()).toBe(before);
    endDrag();
    vi.advanceTimersByTime(300);
    expect(settled()).toBe(now());
    expect(settled()).not.toBe(before);
  });

  it("keeps findings from being worked out in a drag", () => {
    let asked = 0;
    const stop = settledStore.subscribe(({ solved }) => {
      asked += solved.findings.length >= 0 ? 1 : 0;
    });
    beginDrag(true);
    for (let teeth = 20; teeth < 60; teeth++) {
      edit(teeth);
      vi.advanceTimersByTime(200);
    }
    expect(asked).toBe(0);
    endDrag();
    vi.advanceTimersByTime(300);
    expect(asked).toBe(1);
    stop();
  });
});

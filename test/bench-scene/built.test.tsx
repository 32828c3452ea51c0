/** Things that take long to build come one after the other, a little in each turn of the page's thread. */
import { act, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { sharedCounts, useBuilt, workshop } from "../../src/bench/shared";

class Thing {
  isGone = false;
  constructor(readonly name: string) {}
  dispose(): void {
    this.isGone = true;
  }
}
const made: Thing[] = [];
/** In how many pieces each is built. */
let pieces = 1;
/** Pieces that were worked on. */
let run = 0;

const Shown = ({ name }: { readonly name: string }) => {
  const thing = useBuilt(`slow ${name}`, function* () {
    for (let piece = 1; piece < pieces; piece++) {
      run++;
      yield;
    }
    run++;
    const built = new Thing(name);
    made.push(built);
    return built;
  });
  return <li>{thing ? `${thing.name}${thing.isGone ? " gone" : ""}` : "…"}</li>;
};
const PLACES = ["first", "second", "third", "fourth"];
const List = ({ names }: { readonly names: readonly string[] }) =>
  PLACES.slice(0, names.length).map((place, i) => <Shown key={place} name={names[i] ?? ""} />);
const seen = (): string[] => screen.getAllByRole("listitem").map((item) => item.textContent ?? "");
const pass = (time: number): Promise<void> => act(async () => void vi.advanceTimersByTime(time));

beforeEach(() => {
  vi.useFakeTimers();
  made.length = 0;
  pieces = 1;
  run = 0;
  // Any work at all uses a turn up: one thing a turn.
  workshop.budget = 1e-9;
});
afterEach(() => {
  vi.runAllTimers();
  vi.useRealTimers();
  workshop.budget = Infinity;
});

describe("what is built a little at a time", () => {
  it("comes one in a turn, and each is built once", async () => {
    render(<List names={["a", "b", "c", "a"]} />);
    expect(seen()).toEqual(["a", "…", "…", "a"]);
    await pass(5);
    expect(seen()).toEqual(["a", "b", "c", "a"]);
    expect(made.map(({ name }) => name)).toEqual(["a", "b", "c"]);
  });

  it("shows what was there until the new thing comes, and then gives the old one back", async () => {
    const { rerender, unmount } = render(<List names={["x", "y"]} />);
    await pass(5);
    expect(seen()).toEqual(["x", "y"]);
    rerender(<List names={["p", "q"]} />);
    expect(seen()).toEqual(["p", "y"]);
    await pass(5);
    expect(seen()).toEqual(["p", "q"]);
    await pass(2000);
    expect(made.filter(({ isGone }) => isGone).map(({ name }) => name)).toEqual(["x", "y"]);
    const held = sharedCounts.held();
    unmount();
    await pass(2000);
    expect(sharedCounts.held()).toBe(held - 2);
    expect(made.every(({ isGone }) => isGone)).toBe(true);
  });

  it("is gone on with in a later turn where it was left lying, one piece a turn", async () => {
    pieces = 3;
    render(<List names={["e", "f"]} />);
    expect(seen()).toEqual(["…", "…"]);
    expect(run).toBe(1);
    while (made.length < 2) {
      const before = run;
      await act(async () => void vi.advanceTimersToNextTimer());
      expect(run - before).toBeLessThanOrEqual(1);
    }
    expect(run).toBe(2 * pieces);
    expect(seen()).toEqual(["e", "f"]);
  });

  it("is not built where nobody waits any more", async () => {
    const { rerender } = render(<List names={["k", "l", "m"]} />);
    rerender(<List names={["k"]} />);
    await pass(2000);
    expect(made.map(({ name }) => name)).toEqual(["k"]);
  });
});

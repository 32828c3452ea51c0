import { describe, expect, it } from "vitest";
import { benchLayout } from "../../src/bench/bench-layout";
import { drawnFolds } from "../../src/bench/drawn-folds";
import type { Port } from "../../src/engine/drive/types";
import { foldsOf } from "../../src/engine/motion/loop";
import { solve } from "../../src/engine/solve";
import { planetary } from "../support/random-drives";

/** Folds of sun, ring, carrier and planet, by id. */
const folds = (ports: Port[], name = "Sun", hasMarks = true): Record<string, number> => {
  const drive = planetary(20, 20, 60, 1, ports);
  const named = { ...drive, shafts: drive.shafts.map((shaft) => (shaft.id === "S" ? { ...shaft, name } : shaft)) };
  const layout = benchLayout(solve(named));
  const all = foldsOf(layout.solved, false, (shaft) => drawnFolds(layout, shaft, hasMarks));
  return Object.fromEntries(named.shafts.map((shaft, i) => [shaft.id, all[i] ?? -1]));
};
const input: Port = { shaft: "S", role: "input", speed: 10 };

describe("what is drawn on a shaft decides when it looks alike", () => {
  it("a motor stands still, and leaves the teeth to count; three spokes and 60 teeth have 3 folds; a carrier has one", () => {
    expect(folds([input])).toEqual({ S: 20, R: 3, C: 1, P1: 20 });
  });

  it("a crank, and the bar on an output's disc, come round after whole turns only", () => {
    expect(folds([input], "Crank").S).toBe(1);
    expect(folds([input, { shaft: "R", role: "output" }]).R).toBe(1);
  });

  it("where marks are hidden neither is drawn: teeth and spokes count", () => {
    const all = folds([input, { shaft: "R", role: "output" }], "Crank", false);
    expect([all.S, all.R]).toEqual([20, 3]);
  });
});

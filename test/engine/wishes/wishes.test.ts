/** Wishes on small drives: what is offered, in which order, in which words, and why where nothing is. */
import { fraction, type MathType, multiply as times } from "mathjs";
import { describe, expect, test } from "vitest";
import { rational, toNumber } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { type Wish, wishAnswers } from "../../../src/engine/wishes/wish";
import { planetary } from "../../support/random-drives";
import { bevels, mixer, numberOf, POSE, pairOf, reference, solveFile, spurs } from "../explain/build";
import { applied, changesOf, degreesBetween, dotOf, expectSound, missOf, revs, shaftAt, spin, whyNot } from "./judge";

const titles = (solved: Solved, wish: Wish): string[] => changesOf(wishAnswers(solved, wish)).map(({ title }) => title);
const rev = (n: number, d = 1) => rational(BigInt(n), BigInt(d));

describe("the other way", () => {
  test("mixer: the input, the bevel on the other side, an idler", () => {
    const solved = mixer();
    const answer = wishAnswers(solved, { kind: "other-way", shaft: "C" });
    expectSound(solved, answer);
    const changes = changesOf(answer);
    expect(changes.map(({ title }) => title)).toEqual([
      "Reverse the input at Motor",
      "Put b2 on the other side of c1",
      "Put an idler between a1 and b1",
    ]);
    for (const change of changes) {
      expect(dotOf(spin(applied(solved, change), "C"), spin(solved, "C"))).toBeLessThan(0);
      expect(revs(applied(solved, change), "C")).toBeCloseTo(revs(solved, "C"), 9);
    }
    expect(changes.map(({ cost }) => cost.kind)).toEqual(["setting", "place", "parts"]);
    expect(changes[0]?.sentence).toContain(
      "was clockwise seen from the mixer end at 290 rev/min, now counterclockwise",
    );
    expect(changes[0]?.also).toEqual(["Motor and Cross shaft turn the other way too."]);
  });

  test("bevel pair at 60 degrees: the line stays only as a new pair for 120, and says so", () => {
    const solved = bevels(20, 40, 60);
    const change = changesOf(wishAnswers(solved, { kind: "other-way", shaft: "B" })).find(({ title }) =>
      title.includes("side"),
    );
    if (!change) throw new Error("not offered");
    const after = applied(solved, change);
    expect(change.sentence).toContain("only as a new pair for the supplementary angle, 120° in place of 60°");
    expect(after.drive.meshes[0]?.shaftAngle).toBe(120);
    expect(dotOf(spin(after, "B"), spin(solved, "B"))).toBeLessThan(0);
    const [was, now] = [solved, after].map((one) => one.placement.shafts[shaftAt(one, "B")]);
    expect(now?.axis.every((x, i) => Math.abs(x - (was?.axis[i] ?? 0)) < 1e-12)).toBe(true);
    expect(missOf(after, "B", was?.origin ?? [0, 0, 0])).toBeLessThan(1e-9);
    // The crossing of the axes, by both gears' apexes.
    for (const gear of after.placement.gears) {
      gear?.apexPoint?.forEach((x, k) => {
        expect(x).toBeCloseTo(solved.placement.gears[0]?.apexPoint?.[k] ?? 0, 9);
      });
    }
  });

  test("an idler that leaves both shafts where they are keeps ratio and lines", () => {
    const solved = spurs(40, 80);
    const found = changesOf(wishAnswers(solved, { kind: "other-way", shaft: "B" }));
    const stays = found.find(({ title }) => title.includes("leave both shafts"));
    if (!stays) throw new Error(found.map(({ title }) => title).join());
    const after = applied(solved, stays);
    expect(after.placement.shafts[1]?.origin.map((x) => Math.round(x * 1e9) / 1e9)).toEqual([0, 0, 120]);
    expect(revs(after, "B")).toBeCloseTo(50, 9);
    expect(dotOf(spin(after, "B"), spin(solved, "B"))).toBeLessThan(0);
    const [first, second] = after.drive.gears;
    expect([first, second].map((gear) => gear && "teeth" in gear && gear.teeth)).toEqual([38, 76]);
  });

  test("a ring: an idler within it, coaxial where whole teeth allow", () => {
    const solved = pairOf(["spur", "internal"], { teeth: 20 }, { teeth: 80 });
    const change = changesOf(wishAnswers(solved, { kind: "other-way", shaft: "B" })).find(({ title }) =>
      title.includes("idler"),
    );
    if (!change) throw new Error("no idler");
    const after = applied(solved, change);
    expect(dotOf(spin(after, "B"), spin(solved, "B"))).toBeLessThan(0);
    expect(missOf(after, "B", [0, 0, 0])).toBeLessThan(1e-9);
  });

  test("a planetary set with its carrier held, by holding another member", () => {
    const file = planetary(24, 18, 60, 3, [
      { shaft: "S", role: "input", speed: 100 },
      { shaft: "C", role: "held" },
      { shaft: "R", role: "output" },
    ]);
    const solved = solve(file);
    const change = changesOf(wishAnswers(solved, { kind: "other-way", shaft: "R" })).find(({ title }) =>
      title.startsWith("Hold"),
    );
    // Sun held, carrier at 100: the ring turns (60 + 24)/60 times as fast, the way of the carrier (Willis).
    expect(revs(solved, "R")).toBeCloseTo(40, 9);
    expect(change && revs(applied(solved, change), "R")).toBeCloseTo(140, 9);
  });
});

describe("seen from here", () => {
  const solved = mixer();
  test.each([
    ["clockwise", [0, 0, 1]],
    ["counterclockwise", [0, 0, 1]],
    ["clockwise", [0, 0, -1]],
    ["counterclockwise", [0.3, -0.5, -0.6]],
  ] as const)("%s from %j", (way, toEye) => {
    const answer = wishAnswers(solved, { kind: "this-way", shaft: "C", way, toEye });
    // Counterclockwise for an eye towards which the angular velocity points.
    const isSo = dotOf(spin(solved, "C"), toEye) > 0 === (way === "counterclockwise");
    if (isSo) expect(whyNot(answer)).toContain("already");
    for (const change of changesOf(answer)) {
      expect(dotOf(spin(applied(solved, change), "C"), toEye) > 0).toBe(way === "counterclockwise");
    }
    expect(changesOf(answer).length > 0).toBe(!isSo);
  });

  test("from the side a shaft turns neither way round", () => {
    const answer = wishAnswers(solved, { kind: "this-way", shaft: "C", way: "clockwise", toEye: [1, 0, 0] });
    expect(whyNot(answer)).toContain("seen from the side");
  });
});

describe("this fast", () => {
  test("exact where whole teeth allow, and the error told where they don't", () => {
    const solved = mixer();
    for (const [n, d] of [
      [300, 1],
      [100, 1],
      [1000, 7],
      [611, 2],
    ] as const) {
      const answer = wishAnswers(solved, { kind: "speed", shaft: "C", speed: rev(n, d) });
      expectSound(solved, answer);
      for (const change of changesOf(answer)) {
        const after = applied(solved, change);
        // Outside judge: mathjs's own fractions on the tooth counts as they stand in the drive.
        const teeth = after.drive.gears.map((gear) => ("teeth" in gear ? gear.teeth : 0));
        const input = fraction(after.drive.ports[0]?.speed ?? 0);
        const first = times(input, fraction(teeth[0] ?? 0, teeth[1] ?? 1)) as MathType;
        const out = times(first as never, fraction(teeth[2] ?? 0, teeth[3] ?? 1) as never) as unknown as {
          valueOf(): number;
        };
        expect(revs(after, "C")).toBeCloseTo(Number(out.valueOf()), 6);
        const miss = Number(out.valueOf()) / (n / d) - 1;
        expect(Math.abs(miss)).toBeLessThanOrEqual(0.02);
        const told =
          Math.abs(miss) < 1e-9
            ? "exactly"
            : `${Number((Math.abs(miss) * 100).toPrecision(2))} % ${miss > 0 ? "fast" : "slow"}`;
        expect(change.sentence).toContain(told);
      }
    }
  });

  test.each([
    [20, 40, 100, 45],
    [24, 36, 100, 80],
    [19, 57, 100, 30],
    [18, 60, 100, 33],
  ])(
    "%i and %i teeth at %i rev/min, wanted %i: no pair of the same sum comes nearer (all tried)",
    (z1, z2, input, wanted) => {
      const solved = spurs(z1, z2);
      const found = changesOf(wishAnswers(solved, { kind: "speed", shaft: "B", speed: rev(wanted) }));
      const sum = z1 + z2;
      let best = Number.POSITIVE_INFINITY;
      for (let a = 18; a <= sum - 18; a++) best = Math.min(best, Math.abs((input * a) / (sum - a) / wanted - 1));
      const same = found.filter(({ solved: { drive } }) => {
        const [a, b] = drive.gears.map((gear) => ("teeth" in gear ? gear.teeth : 0));
        return (
          (a ?? 0) + (b ?? 0) === sum && a !== z1 && drive.gears.every((gear) => "module" in gear && gear.module === 2)
        );
      });
      for (const change of same)
        expect(Math.abs(revs(applied(solved, change), "B") / wanted - 1)).toBeCloseTo(best, 12);
      // The best of all pairs from 18 to 60 teeth is no better than what is offered, by more than the smallness of a change is worth.
      const offered = Math.min(
        ...found
          .filter(({ cost }) => cost.kind === "teeth")
          .map((change) => Math.abs(revs(applied(solved, change), "B") / wanted - 1)),
      );
      expect(offered).toBeLessThanOrEqual(Math.min(best, 0.02) + 1e-12);
    },
  );

  test("swapped pinion and wheel: 20 and 40 give 200 as well as 50", () => {
    expect(titles(spurs(20, 40), { kind: "speed", shaft: "B", speed: rev(200) })).toContain("Swap a and b");
  });

  test("the exact ratio at the same distance, with another module of ISO 54", () => {
    // 60 teeth of 2 mm are 120 mm: 96 of 1.25 mm hold 3 + 5 parts, 36 and 60.
    const solved = spurs(25, 35);
    const found = changesOf(wishAnswers(solved, { kind: "speed", shaft: "B", speed: rev(60) }));
    const exact = found.filter((change) => Math.abs(revs(applied(solved, change), "B") - 60) < 1e-9);
    expect(exact.length).toBeGreaterThan(0);
  });

  test("planets: other counts that give the speed, which fit and go together", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const answer = wishAnswers(solved, { kind: "speed", shaft: "C", speed: rev(25) });
    expectSound(solved, answer);
    const planets = changesOf(answer).filter(({ title }) => title.includes("sun"));
    expect(planets.length).toBeGreaterThan(0);
    for (const change of planets) {
      const after = applied(solved, change);
      const teeth = (id: string): number =>
        Number((after.drive.gears.find((gear) => gear.id === id) as { teeth: number }).teeth);
      expect(teeth("r")).toBe(teeth("s") + 2 * teeth("p1"));
      expect((teeth("s") + teeth("r")) % 3).toBe(0);
      // Willis: sun in, ring held.
      expect(after.motion.speed[shaftAt(after, "C")]).toBeCloseTo((100 * teeth("s")) / (teeth("s") + teeth("r")), 9);
    }
  });

  test("published planetary: Shigley's 20, 30 and 80 give a fifth of the sun's speed", () => {
    const { given, expect: expected } = reference("epi-shigley-13-planet");
    const solved = solve(
      planetary(numberOf(given, "z_sun"), numberOf(given, "z_planet"), numberOf(given, "z_ring_fixed"), 4),
    );
    const speed = Math.abs(numberOf(expected, "n_arm_rpm"));
    expect(solved.motion.speed[shaftAt(solved, "C")]).toBeCloseTo(speed, 9);
    expect(whyNot(wishAnswers(solved, { kind: "speed", shaft: "C", speed: rev(speed) }))).toContain("already");
  });
});

describe("this much torque", () => {
  test("a given load is asked for; the input gives what it takes", () => {
    const solved = mixer();
    const [change] = changesOf(wishAnswers(solved, { kind: "torque", shaft: "C", torque: 80 }));
    expect(change?.title).toBe("Load Mixer with 80 N·m");
    expect(change?.also.join(" ")).toContain("Motor has to give 8.247 N·m → 16.49 N·m");
  });

  test("a motor of 10 N·m: a slower output has more", () => {
    const solved = pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, [
      { shaft: "A", role: "input", speed: 100, torque: 10 },
      { shaft: "B", role: "output" },
    ]);
    const answer = wishAnswers(solved, { kind: "torque", shaft: "B", torque: 30 });
    expectSound(solved, answer);
    expect(changesOf(answer).length).toBeGreaterThan(1);
    for (const change of changesOf(answer)) {
      const after = applied(solved, change);
      const load = Math.abs(after.load.shafts[1]?.torque ?? 0);
      expect(Math.abs(load / 30 - 1)).toBeLessThanOrEqual(0.02);
      // Without losses power in is power out.
      const input = after.drive.ports[0]?.torque ?? 0;
      expect(load * revs(after, "B")).toBeCloseTo(input * revs(after, "A"), 6);
    }
  });

  test("without any size, the load or the motor", () => {
    const solved = spurs(20, 60);
    const found = changesOf(wishAnswers(solved, { kind: "torque", shaft: "B", torque: 12 }));
    expect(found.map(({ title }) => title)).toContain("Load B with 12 N·m".replace("B", "Wheel"));
  });
});

describe("stand at this angle", () => {
  test.each([15, 30, 45, 60, 89, 120])("mixer and motor at %i degrees", (degrees) => {
    const solved = mixer();
    const answer = wishAnswers(solved, { kind: "angle", shaft: "C", to: "A", degrees });
    expectSound(solved, answer);
    expect(changesOf(answer).length).toBeGreaterThan(0);
    for (const change of changesOf(answer)) {
      const { shafts } = applied(solved, change).placement;
      const angle = degreesBetween(shafts[0]?.axis ?? [1, 0, 0], shafts[2]?.axis ?? [1, 0, 0]);
      expect(angle).toBeCloseTo(degrees > 90 ? 180 - degrees : degrees, 5);
    }
  });

  test("beside the shaft that drives it: the bevel pair becomes one on parallel shafts", () => {
    const solved = mixer();
    const answer = wishAnswers(solved, { kind: "angle", shaft: "C", to: "B", degrees: 0 });
    expectSound(solved, answer);
    const [change] = changesOf(answer);
    if (!change) throw new Error("Nothing was found.");
    const { drive, placement } = applied(solved, change);
    expect(degreesBetween(placement.shafts[1]?.axis ?? [1, 0, 0], placement.shafts[2]?.axis ?? [0, 1, 0])).toBeCloseTo(
      0,
      6,
    );
    expect(drive.gears.every(({ kind }) => kind === "spur" || kind === "internal")).toBe(true);
  });

  test("leaning from the level", () => {
    const solved = mixer();
    for (const change of changesOf(wishAnswers(solved, { kind: "lean", shaft: "C", degrees: 25 }))) {
      const axis = applied(solved, change).placement.shafts[2]?.axis ?? [0, 0, 0];
      expect(degreesBetween(axis, [0, 0, 1])).toBeCloseTo(65, 5);
    }
  });

  test("a ring pair can't lean, and it says why", () => {
    const solved = pairOf(["spur", "internal"], { teeth: 20 }, { teeth: 80 });
    expect(whyNot(wishAnswers(solved, { kind: "angle", shaft: "B", to: "A", degrees: 40 }))).toContain(
      "parallel shafts stay parallel",
    );
  });
});

describe("come out here", () => {
  test.each([
    ["C", [100, 20, 30]],
    ["C", [60, 50, 70]],
    ["B", [0, 100, 0]],
    ["B", [0, 0, 140]],
    ["B", [5, 60, 60]],
    ["A", [0, 10, 0]],
  ] as const)("%s through %j", (shaft, point) => {
    const solved = mixer();
    const answer = wishAnswers(solved, { kind: "here", shaft, point });
    expectSound(solved, answer);
    expect(changesOf(answer).length).toBeGreaterThan(0);
    for (const change of changesOf(answer)) expect(missOf(applied(solved, change), shaft, point)).toBeLessThan(1e-5);
  });

  test("a gap is bridged by an idler", () => {
    expect(titles(spurs(20, 40), { kind: "here", shaft: "B", point: [0, 0, 120] }).join()).toContain("idler");
  });
});

describe("why not", () => {
  test.each([
    [
      "locked",
      {
        meshes: [
          { id: "m", gears: ["a", "b"] },
          { id: "n", gears: ["b", "c"] },
          { id: "o", gears: ["a", "c"] },
        ],
      },
      "is locked",
    ],
    ["free", { ports: [] }, "is not fixed yet"],
    ["at rest", { ports: [{ shaft: "A", role: "input", speed: 0 }] }, "no input turns"],
    [
      "disagreeing",
      {
        ports: [
          { shaft: "A", role: "input", speed: 5 },
          { shaft: "B", role: "input", speed: 9 },
        ],
      },
      "inputs disagree",
    ],
  ])("%s", (_, parts, words) => {
    const gear = (id: string, shaft: string) => ({ id, shaft, kind: "spur", teeth: 20, module: 2 });
    const side = 40;
    const solved = solveFile({
      shafts: [
        { id: "A", pose: POSE },
        { id: "B", pose: { ...POSE, origin: [0, side, 0] } },
        { id: "C", pose: { ...POSE, origin: [0, side / 2, side * Math.sin(Math.PI / 3)] } },
      ],
      gears: [gear("a", "A"), gear("b", "B"), gear("c", "C")],
      meshes: [{ id: "m", gears: ["a", "b"] }],
      ports: [{ shaft: "A", role: "input", speed: 10 }],
      ...parts,
    });
    expect(whyNot(wishAnswers(solved, { kind: "other-way", shaft: "B" }))).toContain(words);
  });

  test("a shaft that nothing drives, one that is held, one without a place, one that is gone", () => {
    const held = solve(planetary(24, 18, 60, 3));
    expect(whyNot(wishAnswers(held, { kind: "other-way", shaft: "R" }))).toContain("held still");
    const parts = {
      shafts: [{ id: "A", pose: POSE }, { id: "B" }],
      gears: [{ id: "b", shaft: "B", kind: "spur", teeth: 20, module: 2 }],
    };
    expect(whyNot(wishAnswers(solveFile(parts), { kind: "other-way", shaft: "B" }))).toContain("has no place yet");
    expect(whyNot(wishAnswers(solveFile(parts), { kind: "other-way", shaft: "Q" }))).toContain(
      "not in the drive any more",
    );
  });

  test("numbers that are none", () => {
    const solved = mixer();
    expect(whyNot(wishAnswers(solved, { kind: "speed", shaft: "C", speed: rev(0) }))).toContain("above 0");
    expect(whyNot(wishAnswers(solved, { kind: "torque", shaft: "C", torque: Number.NaN }))).toContain("above 0");
    expect(whyNot(wishAnswers(solved, { kind: "here", shaft: "C", point: [Number.NaN, 0, 0] }))).toContain(
      "three numbers",
    );
    expect(whyNot(wishAnswers(solved, { kind: "lean", shaft: "C", degrees: 91 }))).toContain("0 (level) to 90");
    expect(toNumber(rev(1, 2))).toBe(0.5);
  });
});

/**
 * What slips lead to, against closed forms: a train's ratio is the product of tooth counts, driving over driven; a planetary set obeys
 * Willis' equation (ωr − ωc) / (ωs − ωc) = −zs/zr (Norton, Design of Machinery; from memory).
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hasTeeth } from "../../../src/engine/drive/types";
import {
  divide,
  equals,
  multiply,
  negate,
  type Rational,
  rational,
  toNumber,
} from "../../../src/engine/motion/rational";
import { answerWords, choicesFor, rightAnswer, wrongAnswers } from "../../../src/engine/question/answers";
import { type Guess, judge } from "../../../src/engine/question/judge";
import { meshesOnWay, slipsOf } from "../../../src/engine/question/slips";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { FILE_UNITS } from "../../../src/engine/units/choice";
import { chain, differential, planetary, TOOTHED_PAIRS } from "../../support/random-drives";
import { POSE, solveFile } from "../explain/build";

const seeds = fc.integer({ min: 1, max: 1e6 });
const trains = fc
  .tuple(fc.integer({ min: 1, max: 5 }), seeds)
  .map(([stages, seed]) => solve(chain(stages, seed, { pairs: TOOTHED_PAIRS })));

/** Of mesh k of a chain: teeth on the driving shaft over teeth on the driven one. */
const driving = ({ drive }: Solved, mesh: number): Rational => {
  const pair = drive.meshes[mesh]?.gears.map((id) => drive.gears.find((gear) => gear.id === id)) ?? [];
  const [from, to] = [pair.find((g) => g?.shaft === `s${mesh}`), pair.find((g) => g?.shaft === `s${mesh + 1}`)];
  if (!from || !to || !hasTeeth(from) || !hasTeeth(to)) throw new Error("no chain");
  return rational(BigInt(from.teeth), BigInt(to.teeth));
};

describe("slips in a train", () => {
  test("the way leads through its meshes in order", () => {
    fc.assert(
      fc.property(trains, (solved) => {
        const last = solved.drive.shafts.length - 1;
        expect(meshesOnWay(solved, last)).toEqual(solved.drive.meshes.map((_, i) => i));
      }),
    );
  });

  test("an inverted ratio divides twice by its mesh's; a turned way only turns", () => {
    fc.assert(
      fc.property(trains, (solved) => {
        const last = solved.drive.shafts.length - 1;
        const right = solved.motion.speeds[last] as Rational;
        for (const { kind, mesh, speed } of slipsOf(solved, last)) {
          const f = driving(solved, mesh);
          const expected = kind === "inverted" ? divide(right, multiply(f, f)) : negate(right);
          expect(equals(speed, expected)).toBe(true);
        }
      }),
    );
  });

  test("each mesh has the slips that its kind allows", () => {
    fc.assert(
      fc.property(trains, (solved) => {
        const last = solved.drive.shafts.length - 1;
        const slips = slipsOf(solved, last);
        solved.drive.meshes.forEach(({ gears }, i) => {
          const forms = gears.map((id) => solved.drive.gears.find((gear) => gear.id === id)?.kind);
          const turned = forms.includes("bevel")
            ? "bevel-other-side"
            : forms.includes("internal")
              ? "ring-outside"
              : "way-kept";
          const isEqual = equals(driving(solved, i), rational(1n));
          const own = slips.filter(({ mesh }) => mesh === i).map(({ kind }) => kind);
          expect(own.sort()).toEqual([...(isEqual ? [] : ["inverted"]), turned].sort());
        });
      }),
    );
  });
});

/** A (20) - idler B (40) - C (50), all outside. */
const withIdler = (z1 = 20, zi = 40, z3 = 50): Solved =>
  solveFile({
    shafts: [
      { id: "A", name: "Motor", pose: POSE },
      { id: "B", name: "Idler" },
      { id: "C", name: "Winch" },
    ],
    gears: [
      { id: "a", shaft: "A", kind: "spur", module: 2, teeth: z1 },
      { id: "b", shaft: "B", kind: "spur", module: 2, teeth: zi },
      { id: "c", shaft: "C", kind: "spur", module: 2, teeth: z3 },
    ],
    meshes: [
      { id: "m1", gears: ["a", "b"] },
      { id: "m2", gears: ["b", "c"] },
    ],
    ports: [
      { shaft: "A", role: "input", speed: 100, torque: 3 },
      { shaft: "C", role: "output" },
    ],
  });

describe("an idler counted twice", () => {
  test("puts its first mesh's ratio and reversal in once more", () => {
    const slip = slipsOf(withIdler(), 2).find(({ kind }) => kind === "idler-twice");
    // 100 · 20/40 · 40/50 · 20/40, and three reversals.
    expect(slip?.mesh).toBe(0);
    expect(toNumber(slip?.speed ?? rational(0n))).toBe(-20);
  });

  test("is named and pointed at", () => {
    const ratio = { value: rational(1n, 5n), figures: null };
    const verdict = judge(withIdler(), 2, { direction: -1, ratio }, FILE_UNITS);
    expect(verdict).toMatchObject({ isRight: false, mesh: 0, slip: "idler-twice" });
    expect(verdict.sentence).toContain("mesh m1, 20 drives 40");
  });
});

describe("slips in a planetary set", () => {
  const sets = fc.tuple(
    fc.integer({ min: 17, max: 40 }),
    fc.integer({ min: 17, max: 40 }),
    fc.integer({ min: 1, max: 3 }),
  );

  test("a ring taken for an outside gear, by Willis' equation with its sign turned", () => {
    fc.assert(
      fc.property(sets, ([zs, zp, planets]) => {
        const zr = zs + 2 * zp;
        const slips = slipsOf(solve(planetary(zs, zp, zr, planets)), 1);
        const ring = slips.find(({ kind }) => kind === "ring-outside");
        expect(toNumber(ring?.speed ?? rational(0n))).toBeCloseTo((100 * zs) / (zs - zr), 9);
      }),
    );
  });

  test("a differential of two inputs has no ratio, and its slips are solved all the same", () => {
    const solved = solve(differential(20, 12));
    expect(rightAnswer(solved, 2)?.ratio).toBeNull();
    // One side's ratio inverted: its part of C is weighed by 12/20, the other's by 20/12.
    const [a, b] = [12 / 20, 20 / 12];
    const slipped = wrongAnswers(solved, 2).map(({ speed }) => toNumber(speed));
    expect(slipped).toContainEqual(expect.closeTo((a * 100 + b * 50) / (a + b), 9));
    expect(slipped).toContainEqual(expect.closeTo((b * 100 + a * 50) / (a + b), 9));
  });
});

describe("a guess", () => {
  const all = ["direction", "ratio", "speed"] as const;
  test("made with one slip is wrong, and comes out where the first slip that gives it is", () => {
    fc.assert(
      fc.property(trains, (solved) => {
        const last = solved.drive.shafts.length - 1;
        const slips = wrongAnswers(solved, last);
        for (const answer of slips) {
          if (!answer.ratio || answer.way === 0 || !answer.slip) throw new Error("not a slip of a train");
          const guess: Guess = {
            direction: answer.way,
            ratio: { value: answer.ratio, figures: null },
            speed: { value: answer.speed, figures: null },
          };
          const verdict = judge(solved, last, guess, FILE_UNITS);
          expect(verdict.isRight).toBe(false);
          const first = slips.find(
            (one) =>
              answerWords(solved, last, one, new Set(all), FILE_UNITS) ===
              answerWords(solved, last, answer, new Set(all), FILE_UNITS),
          );
          // Turned ways look alike from the far end; a ring, bevel or idler goes before a plain pair.
          if (verdict.slip === "inverted") expect(verdict.mesh).toBe(first?.slip?.mesh);
          expect(verdict.slip).not.toBeNull();
          expect(solved.drive.meshes[verdict.mesh ?? -1]).toBeDefined();
        }
      }),
    );
  });

  test("that is right is right, by any of its figures", () => {
    fc.assert(
      fc.property(trains, (solved) => {
        const last = solved.drive.shafts.length - 1;
        const right = rightAnswer(solved, last);
        if (!right?.ratio || right.way === 0) throw new Error("a train turns");
        const whole = { ratio: { value: right.ratio, figures: null }, speed: { value: right.speed, figures: null } };
        expect(judge(solved, last, { direction: right.way, ...whole }, FILE_UNITS).isRight).toBe(true);
        expect(judge(solved, last, { direction: right.way === 1 ? -1 : 1 }, FILE_UNITS).isRight).toBe(false);
      }),
    );
  });

  test("of a torque that follows the speed is told so", () => {
    const loaded = solve({
      ...withIdler().drive,
      ports: [
        { shaft: "A", role: "input", speed: 100, torque: 3 },
        { shaft: "C", role: "output" },
      ],
    });
    // 3 N·m · 50/20 is right; 3 N·m · 20/50 follows the speed.
    const torque = (n: bigint, d: bigint) =>
      judge(loaded, 2, { torque: { value: rational(n, d), figures: null } }, FILE_UNITS);
    expect(torque(15n, 2n).isRight).toBe(true);
    expect(torque(6n, 5n)).toMatchObject({ isRight: false, slip: "torque-as-speed", mesh: 0 });
  });

  test("of friction wheels is not told about teeth", () => {
    // Diameters 40 and 100: 5 turns give 2; inverted, 5/2.
    const wheel = (id: string, shaft: string, diameter: number) => ({
      id,
      shaft,
      at: 0,
      face: 20,
      kind: "wheel",
      diameter,
    });
    const solved = solveFile({
      shafts: [{ id: "A", pose: POSE }, { id: "B" }],
      gears: [wheel("a", "A", 40), wheel("b", "B", 100)],
      meshes: [{ id: "m", gears: ["a", "b"] }],
      ports: [{ shaft: "A", role: "input", speed: 100 }],
    });
    const verdict = judge(solved, 1, { ratio: { value: rational(5n, 2n), figures: null } }, FILE_UNITS);
    expect(verdict).toMatchObject({ isRight: false, slip: "inverted", mesh: 0 });
    expect(verdict.sentence).toMatch(/the smaller of the two makes more turns/);
    expect(verdict.sentence).not.toMatch(/teeth|tooth/);
  });

  test("of a shaft that isn't fixed is not judged", () => {
    const open = solve({ ...withIdler().drive, ports: [] });
    const verdict = judge(open, 2, { direction: 1 }, FILE_UNITS);
    expect(verdict).toMatchObject({ isRight: false, mesh: null });
    expect(verdict.sentence).toContain("doesn't fix");
    expect(choicesFor(open, 2, new Set(["direction"]), FILE_UNITS)).toEqual([]);
  });
});

describe("choices", () => {
  test("are two to four that read differently, one of them right, whatever is asked", () => {
    fc.assert(
      fc.property(trains, fc.subarray(["direction", "ratio", "speed"] as const, { minLength: 1 }), (solved, asked) => {
        const last = solved.drive.shafts.length - 1;
        const figures = new Set(asked);
        const choices = choicesFor(solved, last, figures, FILE_UNITS);
        const words = choices.map((choice) => answerWords(solved, last, choice, figures, FILE_UNITS));
        expect(new Set(words).size).toBe(words.length);
        expect(words.length).toBeLessThanOrEqual(4);
        if (asked.includes("direction")) expect(words.length).toBeGreaterThanOrEqual(2);
        expect(choices.filter(({ slip }) => slip === null)).toHaveLength(1);
      }),
    );
  });
});

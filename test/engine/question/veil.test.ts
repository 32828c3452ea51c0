/** What is hidden can't be read off the solution that is shown, nor off any sentence made of it. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inTurn, isRefused } from "../../../src/engine/drive/commands/edit";
import { endQuestion, setHidden } from "../../../src/engine/drive/commands/question";
import { removeShaft } from "../../../src/engine/drive/commands/remove";
import { readDrive } from "../../../src/engine/drive/parse";
import { FIGURES, type Figure, questionOf } from "../../../src/engine/drive/question";
import { writeDrive } from "../../../src/engine/drive/write";
import { sameWay, sense, thumbWords, turning } from "../../../src/engine/explain/directions";
import { itemWords, type TreeItem, treeOf } from "../../../src/engine/explain/tree";
import { asksAnything, hiddenFigures, veiled } from "../../../src/engine/question/veil";
import { solve } from "../../../src/engine/solve";
import type { Drive, Solved } from "../../../src/engine/solved";
import { quantity } from "../../../src/engine/wording";
import { ALL_PAIRS, chain, planetary, randomTree } from "../../support/random-drives";

const hidden = (drive: Drive, shaft: string, figures: readonly Figure[]): Drive => {
  const next = inTurn(...figures.map((figure) => setHidden(shaft, figure, true)))(drive);
  if (isRefused(next)) throw new Error(next.refused);
  return next;
};

/** A number of any layer, by its path, in what a page may read. */
const words = (solved: Solved): string => {
  const told: string[] = [];
  const walk = (items: readonly TreeItem[]): void => {
    for (const item of items) {
      const { name, facts } = itemWords(solved, item);
      told.push(name, ...facts);
      walk(item.children);
    }
  };
  walk(treeOf(solved));
  solved.drive.shafts.forEach((_, shaft) => {
    told.push(turning(solved, shaft), thumbWords(solved, shaft) ?? "", sense(solved, shaft, "plus") ?? "");
    told.push(...solved.drive.shafts.map((__, other) => sameWay(solved, shaft, other) ?? ""));
  });
  return [...told, ...solved.findings.map(({ message }) => message)].join("\n");
};

const drives = fc.oneof(
  fc.tuple(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 2, max: 7 })).map(([seed, shafts]) =>
    randomTree(seed, shafts, Math.max(1, shafts - 2), {
      pairs: ALL_PAIRS,
      losses: true,
      ports: [
        { shaft: "s0", role: "input", speed: 137, torque: 7 },
        { shaft: `s${shafts - 1}`, role: "output" },
      ],
    }),
  ),
  fc.integer({ min: 1, max: 4 }).map((planets) => planetary(20, 17, 54, planets)),
);
const someFigures = fc.subarray([...FIGURES], { minLength: 1 });

describe("hidden figures", () => {
  test("are null in what is shown; what is not hidden stays", () => {
    fc.assert(
      fc.property(drives, fc.nat(), someFigures, (drive, pick, figures) => {
        const shaft = 1 + (pick % (drive.shafts.length - 1));
        const id = drive.shafts[shaft]?.id ?? "";
        const truth = solve(hidden(drive, id, figures));
        const shown = veiled(truth);
        const asked = hiddenFigures(truth.drive, id);
        if (asked.size === 0) {
          expect(shown).toBe(truth);
          return;
        }
        const signed = asked.has("direction") || asked.has("speed") || asked.has("ratio");
        if (signed) {
          expect([shown.motion.speeds[shaft], shown.motion.speed[shaft], shown.motion.ratios[shaft]]).toEqual([
            null,
            null,
            null,
          ]);
          expect(shown.motion.angularVelocity[shaft]).toBeNull();
        }
        if (asked.has("direction")) expect(shown.motion.way[shaft]).toBe(0);
        else expect(shown.motion.way[shaft]).toBe(truth.motion.way[shaft]);
        if (asked.has("torque")) {
          expect(shown.load.shafts[shaft]?.torque).toBeNull();
          for (const mesh of truth.index.meshesOfShaft[shaft] ?? []) {
            const { torques, tangentialForce, radialForces, axialForces } = shown.load.meshes[mesh] ?? {};
            expect([torques, tangentialForce, radialForces, axialForces]).toEqual([null, null, null, null]);
          }
        }
        if (asked.has("speed") || asked.has("ratio")) {
          expect([shown.load.shafts[shaft]?.power, shown.load.gain[shaft], shown.veil?.speedSize(shaft)]).toEqual([
            null,
            null,
            null,
          ]);
        } else if (asked.has("direction")) {
          expect(shown.veil?.speedSize(shaft)).toBe(Math.abs(truth.motion.speed[shaft] ?? 0));
        }
        drive.shafts.forEach((_, other) => {
          if (other === shaft) return;
          expect(shown.motion.speed[other]).toBe(truth.motion.speed[other]);
          expect(shown.motion.ratios[other]).toEqual(truth.motion.ratios[other]);
        });
      }),
    );
  });

  test("stand in no sentence: neither the speed nor the way", () => {
    fc.assert(
      fc.property(drives, fc.nat(), (drive, pick) => {
        const shaft = 1 + (pick % (drive.shafts.length - 1));
        const id = drive.shafts[shaft]?.id ?? "";
        const truth = solve(hidden(drive, id, FIGURES));
        const shown = veiled(truth);
        if (!shown.veil) return;
        const own = quantity(Math.abs(truth.motion.speed[shaft] ?? 0), "rev/min");
        // Where another shaft turns as fast, its own figure may stand.
        const others = truth.motion.speed.some(
          (speed, i) => i !== shaft && quantity(Math.abs(speed ?? 0), "rev/min") === own,
        );
        if (!others && truth.motion.speed[shaft] !== null) expect(words(shown)).not.toContain(` ${own}`);
        expect(turning(shown, shaft)).toBe(
          truth.drive.ports.some((p) => p.shaft === id && p.role !== "output")
            ? turning(truth, shaft)
            : "hidden by the question",
        );
        expect(drive.shafts.flatMap((_, other) => sameWay(shown, shaft, other) ?? [])).toEqual([]);
      }),
    );
  });

  test("leave out what the drive gives", () => {
    const drive = planetary(20, 17, 54, 3, [
      { shaft: "S", role: "input", speed: 100, torque: 5 },
      { shaft: "R", role: "held" },
      { shaft: "C", role: "output", torque: 9 },
    ]);
    expect([...hiddenFigures(hidden(drive, "S", FIGURES), "S")]).toEqual(["torque"]);
    expect([...hiddenFigures(hidden(drive, "C", FIGURES), "C")]).toEqual(["direction", "speed", "ratio"]);
    expect(asksAnything(hidden(drive, "C", ["torque"]))).toBe(false);
  });
});

describe("the question in the file", () => {
  test("comes back from the text of the drive; taking all back leaves no trace", () => {
    const drive = chain(3, 5);
    const asked = hidden(hidden(drive, "s3", ["torque", "direction"]), "s1", ["ratio"]);
    const read = readDrive(JSON.parse(writeDrive(asked)));
    if (!("drive" in read) || !read.drive) throw new Error("not read");
    expect(questionOf(read.drive)).toEqual(
      new Map([
        ["s1", new Set(["ratio"])],
        ["s3", new Set(["direction", "torque"])],
      ]),
    );
    expect(endQuestion(asked)).toEqual(drive);
    const back = inTurn(
      setHidden("s3", "torque", false),
      setHidden("s3", "direction", false),
      setHidden("s1", "ratio", false),
    )(asked);
    expect(back).toEqual(drive);
  });

  test("of another form is kept and not read", () => {
    for (const form of [
      7,
      "C",
      null,
      { hide: 3 },
      { hide: [{ shaft: 3, figures: ["speed"] }, { shaft: "s1", figures: ["weight"] }, null] },
    ]) {
      expect(asksAnything({ ...chain(2, 1), "x-question": form })).toBe(false);
    }
    const own = { ...chain(2, 1), "x-question": { mark: "mine" } };
    expect(hidden(own, "s1", ["speed"])["x-question"]).toEqual({
      mark: "mine",
      hide: [{ shaft: "s1", figures: ["speed"] }],
    });
  });

  test("keeps entries of another form through every edit, and loses those of a shaft that is removed", () => {
    const foreign = { shaft: "s1", figure: "speed" };
    const drive = { ...chain(2, 1), "x-question": { hide: [foreign] } };
    const asked = hidden(hidden(drive, "s2", ["speed"]), "s1", ["torque"]);
    const removed = removeShaft("s2")(asked);
    if (isRefused(removed)) throw new Error(removed.refused);
    expect(removed["x-question"]).toEqual({ hide: [foreign, { shaft: "s1", figures: ["torque"] }] });
    expect(setHidden("s1", "torque", false)(removed)).toMatchObject({ "x-question": { hide: [foreign] } });
  });

  test("names shafts that are not there: nothing is hidden, and an edit of them is refused", () => {
    const drive = { ...chain(2, 1), "x-question": { hide: [{ shaft: "gone", figures: ["speed"] }] } };
    expect(veiled(solve(drive)).veil).toBeUndefined();
    expect(isRefused(setHidden("gone", "speed", true)(drive))).toBe(true);
  });
});

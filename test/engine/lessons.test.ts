/**
 * The lessons that lie beside the page: every figure in them is known, every step can be shown, and what they call right is what the
 * solver, or a rule worked out here by itself, says.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Lesson, type LessonStep, parseLesson, questionOfStep } from "../../src/engine/drive/lesson-read";
import { textWithFigures } from "../../src/engine/explain/figures-in-text";
import { hiddenFigures } from "../../src/engine/question/veil";
import { solve } from "../../src/engine/solve";
import type { Solved } from "../../src/engine/solved";
import { FILE_UNITS } from "../../src/engine/units/choice";
import { LESSONS } from "../../src/exchange/lessons";

const files = readdirSync("public/lessons");
const lessonIn = (name: string): Lesson => {
  const { lesson, faults } = parseLesson(readFileSync(`public/lessons/${name}`, "utf8"));
  if (!lesson) throw new Error(faults.map(({ message }) => message).join("\n"));
  return lesson;
};

interface Shown {
  readonly step: LessonStep;
  readonly solved: Solved;
}
/** Each step with the drive that it stands on. */
const walk = ({ steps, drives }: Lesson): readonly Shown[] => {
  let name = "";
  return steps.map((step) => {
    name = step.drive ?? name;
    const drive = drives.get(name);
    if (!drive) throw new Error(`no drive ${name}`);
    return { step, solved: solve(drive) };
  });
};

it("are those that the page offers, by title and sentence", () => {
  expect(files).toEqual(LESSONS.map(({ file }) => `${file}.lesson.json`));
  expect(files.map(lessonIn).map(({ title, about }) => ({ title, about }))).toEqual(
    LESSONS.map(({ title, about }) => ({ title, about })),
  );
});

describe.each(files)("%s", (file) => {
  const lesson = lessonIn(file);
  const steps = walk(lesson);

  it("knows every figure that its texts name", () => {
    for (const { step, solved } of steps) {
      const texts = [step.text, step.ask?.text ?? "", ...(step.ask?.choices ?? []).flatMap((c) => [c.text, c.because])];
      for (const text of texts) {
        const { unknown, text: filled } = textWithFigures(text, solved, FILE_UNITS);
        expect(unknown).toEqual([]);
        expect(filled).not.toMatch(/not (known|fixed)|no cone/);
      }
    }
  });

  it("stands on drives that turn, of which nothing is to be found fault with", () => {
    for (const { solved } of steps) {
      expect(solved.motion.status).toBe("determined");
      expect(solved.findings.map(({ message }) => message)).toEqual([]);
    }
  });

  it("asks one thing in each step, and what it hides is no secret given away by the drive", () => {
    for (const { step, solved } of steps) {
      expect([step.title === "", step.ask === undefined, step.hide === undefined]).toEqual([
        false,
        step.hide !== undefined,
        step.ask !== undefined,
      ]);
      const asked = questionOfStep(step);
      for (const [shaft, figures] of asked) expect(hiddenFigures(solved.drive, shaft, asked)).toEqual(figures);
    }
  });
});

describe("from two wheels to bevel gears", () => {
  const steps = walk(lessonIn("two-wheels-to-bevels.lesson.json"));
  const named = (title: string): Shown => {
    const found = steps.find(({ step }) => step.title === title);
    if (!found) throw new Error(title);
    return found;
  };
  const right = (title: string): string | undefined =>
    named(title).step.ask?.choices.find((choice) => choice.right)?.text;
  const speeds = ({ drive }: Solved, teeth: number): number => {
    const gears = drive.gears.map((gear) => (gear.id === "b1" && "teeth" in gear ? { ...gear, teeth } : gear));
    const { motion } = solve({ ...drive, gears } as typeof drive);
    return Math.abs((motion.speed[1] ?? 0) / (motion.speed[0] ?? 1));
  };

  it("says of 50 teeth on the stone what the solver says: 2/5 of a turn", () => {
    expect(right("So they get teeth")).toBe("2/5 of a turn");
    expect(speeds(named("So they get teeth").solved, 50)).toBeCloseTo(2 / 5, 12);
  });

  it("turns a wheel three times as wide once for three turns: circumferences π d", () => {
    expect(right("The rims run alike")).toBe("One turn of the grindstone");
    expect((3 * Math.PI * 60) / (Math.PI * 3 * 60)).toBe(1);
  });

  it("has cones of other heights at 60 and 120 degrees, 8:7 and 4:1, with the same ratio", () => {
    const { solved } = named("What sets the ratio");
    const heights = solved.placement.meshes.map((placed) => {
      const { coneDistances, pitchAngles } = placed?.shape ?? { coneDistances: [0, 0], pitchAngles: [0, 0] };
      return (coneDistances[0] * Math.cos(pitchAngles[0])) / (coneDistances[1] * Math.cos(pitchAngles[1]));
    });
    expect(heights[0]).toBeCloseTo(8 / 7, 9);
    expect(heights[1]).toBeCloseTo(4, 9);
    expect(Math.abs(solved.motion.speed[1] ?? 0)).toBeCloseTo(Math.abs(solved.motion.speed[2] ?? 1), 12);
  });

  it("tapers in the ratio of the distance from the apex: half way, half as thick and deep", () => {
    // Similar triangles (Euclid, Elements VI.4): every line to the apex shrinks with its distance.
    expect(right("Why the teeth taper")).toBe("Half as thick and half as deep");
  });

  it("keeps the power while speed goes for torque", () => {
    const { solved } = named("Speed for torque");
    const [crank, stone] = solved.load.shafts;
    expect(Math.abs(crank?.power ?? 0)).toBeCloseTo(Math.abs(stone?.power ?? 1), 9);
    expect(Math.abs((stone?.torque ?? 0) / (crank?.torque ?? 1))).toBeCloseTo(2, 9);
  });

  it("lets its friction pair hold the load that it is given: 3 N·m of 3.6", () => {
    const { solved } = named("Two wheels touch");
    expect(solved.load.meshes[0]?.slipTorque).toBeCloseTo(0.3 * 200 * 0.06, 9);
  });
});

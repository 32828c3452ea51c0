/** What the panel shows of a stage: gears that stand in one another, the place along the shaft, sizes from a ratio, the crank's caution. */

import { describe, expect, it } from "vitest";
import { openingDrive } from "../../src/app/opening-drive";
import { type Body, bodiesOf, standIn } from "../../src/engine/checks/bodies";
import { makeDrive, makeGear, makeMesh, makePort, makeShaft, newDrive } from "../../src/engine/drive/defaults";
import type { Drive, Gear, Vec3 } from "../../src/engine/drive/types";
import { MESH_KINDS } from "../../src/engine/mesh-kinds/list";
import { solve } from "../../src/engine/solve";
import type { Solved } from "../../src/engine/solved";
import { FILE_UNITS } from "../../src/engine/units/choice";
import { crankCaution } from "../../src/panels/add-stage/crank-caution";
import { freePlace } from "../../src/store/stage/along";
import { type Choice, candidateOf, tryStage } from "../../src/store/stage/candidate";
import { type Plan, planStage } from "../../src/store/stage/plan";
import { sidesOf } from "../../src/store/stage/sides";
import { STAGE_KINDS } from "../../src/store/stage/stage-kinds";
import { sizesForRatio } from "../../src/store/stage/typed-ratio";
import { seeded } from "../support/random-drives";

const kind = (id: string) => {
  const found = MESH_KINDS.find((mesh) => mesh.id === id);
  if (!found) throw new Error(id);
  return found;
};
const planOf = (drive: Drive, shaft: number, choice: Choice, wanted?: string): Plan => {
  const plan = planStage(solve(drive), shaft, choice, wanted);
  if (typeof plan === "string") throw new Error(plan);
  return plan;
};
const drawn = (plan: Plan): Solved => {
  if (!plan.chosen?.solved) throw new Error("No place is free.");
  return plan.chosen.solved;
};

/** Two gears on shafts of their own, each with a pose. */
const pair = (a: Partial<Gear>, b: Partial<Gear>, origin: Vec3, axis: Vec3 = [1, 0, 0]): readonly [Body, Body] => {
  const ref: Vec3 = Math.abs(axis[2]) > 0.9 ? [1, 0, 0] : [0, 0, 1];
  const drive = makeDrive({
    shafts: [
      makeShaft({ id: "A", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }),
      makeShaft({ id: "B", pose: { origin, axis, ref } }),
    ],
    gears: [
      makeGear({ id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2, ...a } as Gear),
      makeGear({ id: "b", shaft: "B", kind: "spur", teeth: 20, module: 2, ...b } as Gear),
    ],
  });
  const [first, second] = bodiesOf(solve(drive));
  if (!first || !second) throw new Error("no bodies");
  return [first, second];
};

describe("gears on other shafts", () => {
  // Tip radius of 20 teeth of module 2: 20 + 2 = 22 mm. Face 10: 5 mm to each side. Reckoned by hand.
  it.each([
    ["nearer than both tip radii", {}, {}, [0, 0, 43], true],
    ["just as far apart as both tip radii", {}, {}, [0, 0, 44], false],
    ["near, but faces that only touch", {}, { at: 10 }, [0, 0, 30], false],
    ["near, with faces that overlap by 1 mm", {}, { at: 9 }, [0, 0, 30], true],
    ["a pinion free in the middle of a ring", {}, { kind: "internal", teeth: 60 }, [0, 0, 0], false],
    // Ring of 60, module 2: tips at 58 mm; 22 + 37 = 59 reaches past them, 22 + 35 = 57 does not.
    ["a pinion that reaches into the ring's teeth", {}, { kind: "internal", teeth: 60 }, [0, 0, 37], true],
    ["a pinion that stops short of the ring's teeth", {}, { kind: "internal", teeth: 60 }, [0, 0, 35], false],
  ] as const)("%s: %s", (_, a, b, origin, meets) => {
    const [first, second] = pair(a, b, origin);
    expect(standIn(first, second)).toBe(meets);
    expect(standIn(second, first)).toBe(meets);
  });

  it("crossing ones agree with points thrown at random into both", () => {
    // Another road: a point lies in a spur gear where it is within 5 mm of its middle plane and within the tip radius of its axis.
    const random = seeded(7);
    const between = (least: number, most: number): number => least + (most - least) * random();
    const inSpur = (p: Vec3, centre: Vec3, axis: Vec3): boolean => {
      const d = p.map((x, i) => x - (centre[i] ?? 0)) as unknown as Vec3;
      const z = d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
      return Math.abs(z) < 5 && Math.hypot(...d.map((x, i) => x - z * (axis[i] ?? 0))) < 22;
    };
    let met = 0;
    let shallow = 0;
    for (let n = 0; n < 60; n++) {
      const at = (): number => between(-40, 40);
      const origin: Vec3 = [at(), at(), at()];
      const angle = between(0.2, 3);
      const axis: Vec3 = [Math.cos(angle), Math.sin(angle), 0];
      let found = false;
      for (let k = 0; k < 20_000 && !found; k++) {
        const r = 22 * Math.sqrt(between(0, 1));
        const a = between(0, 2 * Math.PI);
        found = inSpur([between(-5, 5), r * Math.cos(a), r * Math.sin(a)], origin, axis);
      }
      const [first, second] = pair({}, {}, origin, axis);
      const stands = standIn(first, second);
      expect(stands || !found, `${origin} ${axis}`).toBe(true);
      if (found) met++;
      else if (stands) shallow++;
    }
    expect(met).toBeGreaterThan(15);
    // 20,000 points in 15 cm³ miss only what is less than a few mm³.
    expect(shallow).toBeLessThan(3);
  });

  it("leave out mates and neighbours on one shaft", () => {
    const plan = planOf(newDrive(), 0, { kind: kind("bevel-pair") });
    expect(plan.places.map(({ blocked }) => blocked)).toEqual([null, null, null, null]);
  });

  it("an error of the drive that would be blocks too, in its own words", () => {
    const solved = solve(newDrive());
    const { blocked } = tryStage(solved, { shaft: "A", kind: "spur-pair", at: 3 });
    expect(blocked).toMatch(/Gears a1 and a2 stand in one another on Motor/);
    expect(tryStage(solved, { shaft: "A", gear: "a1", kind: "bevel-pair" }).blocked).toMatch(/does not take/);
  });
});

describe("the place along the shaft", () => {
  it("is the next one beyond what stands there, so that no faces overlap, for every kind on every shaft", () => {
    let drive = newDrive();
    for (const id of ["spur-pair", "bevel-pair", "spur-pair"]) {
      drive = drawn(planOf(drive, drive.shafts.length - 1, { kind: kind(id) })).drive;
    }
    for (const shaft of drive.shafts.keys()) {
      for (const { mesh } of STAGE_KINDS) {
        const plan = planOf(drive, shaft, { kind: mesh, gear: null });
        expect(plan.chosen, `${shaft} ${mesh.id}`).not.toBeNull();
        expect(drawn(plan).findings.filter(({ severity }) => severity === "error")).toEqual([]);
      }
    }
  });

  it("goes on from a motor, on to a load, and not past an apex", () => {
    expect(sidesOf(solve(newDrive()), 0)[0]).toBe(1);
    const opening = solve(openingDrive());
    // The crank's bevel gear has its apex on the side away from the crank.
    expect(sidesOf(opening, 0)[0]).toBe(-1);
    expect(sidesOf(opening, 1)[0]).toBe(1);
  });

  it("is 0 on a bare shaft", () => {
    const solved = solve({ ...newDrive(), gears: [] });
    const candidate = candidateOf(solved, 0, { kind: kind("spur-pair") });
    expect(freePlace(solved, 0, 1, candidate.firstForm)).toBe(0);
  });

  it("says why there is none for a shaft that stands nowhere", () => {
    const drive = { ...newDrive(), shafts: [...newDrive().shafts, makeShaft({ id: "B", name: "Fan" })] };
    expect(planStage(solve(drive), 1, { kind: kind("spur-pair") })).toMatch(/^Fan stands nowhere yet: join it/);
  });
});

describe("a gear that is there", () => {
  it("that meshes already is used where it was selected, else left", () => {
    const drive = drawn(planOf(newDrive(), 0, { kind: kind("spur-pair") })).drive;
    expect(planOf(drive, 0, { kind: kind("spur-pair") }).candidate.gear).toBeNull();
    expect(planOf(drive, 0, { kind: kind("spur-pair") }, "a1").candidate.gear?.id).toBe("a1");
  });

  it("that is a bevel gear with a mate asks for a further mate of the same cone", () => {
    const plan = planOf(openingDrive(), 0, { kind: kind("bevel-pair") }, "a1");
    expect(plan.candidate).toMatchObject({ sizes: [20, 40], shaftAngle: 90 });
    expect(plan.places.find(({ words }) => words === "below")?.blocked).toBeNull();
    expect(plan.places.find(({ words }) => words === "above")?.blocked).toMatch(/would stand in b1/);
  });

  it("that is a ring gets a pinion", () => {
    const ring = makeGear({ id: "a1", shaft: "A", kind: "internal", teeth: 80, module: 2 });
    const plan = planOf({ ...newDrive(), gears: [ring] }, 0, { kind: kind("ring-pair") });
    expect(plan.candidate).toMatchObject({ kinds: ["internal", "spur"], sizes: [80, 20] });
    expect(plan.chosen).not.toBeNull();
  });
});

describe("the usual stage of each kind", () => {
  it.each(STAGE_KINDS.map(({ mesh }) => [mesh.id, mesh] as const))("%s has no error and no warning", (_, mesh) => {
    expect(drawn(planOf(newDrive(), 0, { kind: mesh })).findings.filter(({ severity }) => severity !== "note")).toEqual(
      [],
    );
  });

  it("stands in the list once for each kind that the engine has", () => {
    expect(STAGE_KINDS.map(({ mesh }) => mesh.id).sort()).toEqual(MESH_KINDS.map(({ id }) => id).sort());
  });
});

describe("a ratio for friction wheels", () => {
  const candidate = candidateOf(solve(newDrive()), 0, { kind: kind("wheel-pair") });
  it.each([
    ["1/2", [60, 120]],
    ["3/1", [60, 20]],
    ["0.7", [63, 90]],
    ["7:3", [60, 140]],
  ] as const)("%s gives whole millimetres %s", (text, sizes) => {
    expect(sizesForRatio(text, candidate, FILE_UNITS)).toMatchObject({ ok: true, sizes });
  });
});

describe("a ratio for teeth", () => {
  it("that one stage is too little for names two", () => {
    const candidate = candidateOf(solve(newDrive()), 0, { kind: kind("spur-pair") });
    const read = sizesForRatio("1/12", candidate, FILE_UNITS);
    expect(read.ok).toBe(false);
    const [a, b, c, d] = (/use two, (\d+) to (\d+), then (\d+) to (\d+)\./.exec(read.words) ?? []).slice(1).map(Number);
    expect(((a ?? 0) * (c ?? 0)) / ((b ?? 1) * (d ?? 1))).toBeCloseTo(1 / 12, 12);
  });

  it("keeps the first gear's teeth where they give it exactly with no fewer than usual, else finds others", () => {
    const candidate = candidateOf(solve(newDrive()), 0, { kind: kind("spur-pair"), gear: null });
    expect(sizesForRatio("1/2", candidate, FILE_UNITS)).toMatchObject({ sizes: [20, 40] });
    expect(sizesForRatio("2", candidate, FILE_UNITS)).toMatchObject({ sizes: [36, 18] });
    expect(sizesForRatio("3/7", candidate, FILE_UNITS)).toMatchObject({ sizes: [18, 42] });
  });

  it("that no whole numbers give beside the gear that is there comes as near as can be, and says so", () => {
    const candidate = candidateOf(solve(newDrive()), 0, { kind: kind("spur-pair") });
    expect(candidate.gear?.id).toBe("a1");
    expect(sizesForRatio("3/7", candidate, FILE_UNITS)).toMatchObject({ ok: true, sizes: [20, 47] });
    expect(sizesForRatio("3/7", candidate, FILE_UNITS).words).toMatch(
      /The nearest: 20 to 47 teeth, 47 turns of the input give 20/,
    );
  });
});

describe("the crank's caution", () => {
  const train = (ports: Drive["ports"], name = "Crank"): Solved =>
    solve(
      makeDrive({
        shafts: [
          makeShaft({ id: "A", name, pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }),
          makeShaft({ id: "B", name: "Motor" }),
        ],
        gears: [
          makeGear({ id: "a1", shaft: "A", kind: "spur", teeth: 20, module: 2 }),
          makeGear({ id: "b1", shaft: "B", kind: "spur", teeth: 40, module: 2 }),
        ],
        meshes: [makeMesh({ id: "m1", gears: ["a1", "b1"] })],
        ports,
      }),
    );

  it("is given where a motor drives a train with a crank left on", () => {
    const fast = train([makePort({ shaft: "B", role: "input", speed: 300 })]);
    expect(crankCaution(fast)).toBe(
      "Crank turns along while Motor drives: take the crank off before the power goes on, and put a guard over the gears; " +
        "a model driven by power needs a supply of low torque.",
    );
    const sized = train([makePort({ shaft: "B", role: "input", speed: 30, power: 40 })], "Hand crank");
    expect(crankCaution(sized)).toMatch(/^Hand crank turns along/);
  });

  it.each([
    ["the crank itself drives", [makePort({ shaft: "A", role: "input", speed: 300 })], "Crank"],
    ["all is turned slowly, by hand", [makePort({ shaft: "B", role: "input", speed: 30 })], "Crank"],
    ["the motor stands", [makePort({ shaft: "B", role: "input", speed: 0, power: 40 })], "Crank"],
    ["there is no crank", [makePort({ shaft: "B", role: "input", speed: 300 })], "Crankshaft"],
  ])("is not given where %s", (_, ports, name) => {
    expect(crankCaution(train(ports, name))).toBeNull();
  });
});

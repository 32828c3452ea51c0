import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bodiesOf } from "../../../src/engine/collisions/bodies";
import { clearance } from "../../../src/engine/collisions/clearance";
import { type Collision, collisionsOf } from "../../../src/engine/collisions/find";
import { effort } from "../../../src/engine/collisions/minimise";
import { nearPairs } from "../../../src/engine/collisions/near-pairs";
import { makeDrive, makeGear, makeMesh, makeShaft } from "../../../src/engine/drive/defaults";
import { readDrive } from "../../../src/engine/drive/parse";
import type { Drive, Vec3 } from "../../../src/engine/drive/types";
import { solve } from "../../../src/engine/solve";
import type { Solved } from "../../../src/engine/solved";
import { chain, differential, mesh, planetary, randomTree, toothed, toothless } from "../../support/random-drives";
import { judge } from "./judge";

const upright = (id: string, x: number, y: number, z = 0) =>
  makeShaft({ id, pose: { origin: [x, y, z], axis: [0, 0, 1], ref: [1, 0, 0] } });
const lying = (id: string, x: number, y: number, z: number) =>
  makeShaft({ id, pose: { origin: [x, y, z], axis: [0, 1, 0], ref: [1, 0, 0] } });

const named = ({ drive }: Solved, { bodies }: Collision): string =>
  bodies.map(({ kind, index }) => `${kind} ${(kind === "gear" ? drive.gears : drive.shafts)[index]?.id}`).join(", ");
const collisions = (drive: Drive): string[] => {
  const solved = solve(drive);
  return collisionsOf(solved).list.map((one) => named(solved, one));
};
const overlap = (drive: Drive): number => collisionsOf(solve(drive)).list[0]?.overlap ?? 0;

describe("what stands in one another at rest", () => {
  /** Two spurs of 20 teeth, module 2: tip diameter 44 (ISO 53: addendum one module). */
  const two = (apart: number, at = 0): Drive =>
    makeDrive({
      shafts: [upright("A", 0, 0), upright("B", apart, 0)],
      gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 20, 2, { at })],
    });

  it("counts gears up to the tips of their teeth", () => {
    expect(collisions(two(44.1))).toEqual([]);
    expect(collisions(two(43))).toEqual(["gear a, gear b"]);
    expect(overlap(two(43))).toBeCloseTo(1, 2);
    expect(collisions(two(43, 10.1))).toEqual([]);
    expect(overlap(two(40, 8))).toBeCloseTo(2, 2);
  });

  it("lets gears in mesh, gears on one shaft and a shaft with its own gears be", () => {
    const drive = makeDrive({
      shafts: [upright("A", 0, 0), makeShaft({ id: "B" })],
      gears: [toothed("a", "A", "spur", 20, 2, { bore: 8 }), toothed("b", "B", "spur", 40, 2)],
      meshes: [mesh("m", "a", "b")],
    });
    expect(collisions(drive)).toEqual([]);
  });

  it("finds a shaft that runs through another's gear, and lets it through a bore with room", () => {
    const through = (bore: number): Drive =>
      makeDrive({
        shafts: [upright("A", 0, 0), upright("B", 12, 0)],
        gears: [toothed("a", "A", "spur", 40, 2, { bore }), toothed("b", "B", "spur", 10, 1, { at: 60 })],
      });
    const long = makeDrive({
      ...through(0),
      gears: [...through(0).gears, toothed("c", "B", "spur", 10, 1, { at: -60 })],
    });
    const rodOf = (drive: Drive) => bodiesOf(solve(drive)).find(({ kind, shaft }) => kind === "shaft" && shaft === 1);
    const radius = rodOf(long)?.profile.reach ?? 0;
    expect(rodOf(through(0))?.profile.low).toBeGreaterThan(5);
    expect(collisions(through(0))).toEqual([]);
    expect(collisions(long)).toEqual(["gear a, shaft B"]);
    // The rod is the thinner of the two: all of it is in the disc.
    expect(overlap(long)).toBeCloseTo(2 * radius, 2);
    const bored = (bore: number) =>
      makeDrive({ ...long, gears: [{ ...long.gears[0], bore } as (typeof long.gears)[0], ...long.gears.slice(1)] });
    expect(collisions(bored(2 * (12 + radius) + 0.1))).toEqual([]);
    expect(overlap(bored(2 * (12 + radius) - 1))).toBeCloseTo(0.5, 2);
    const [finding] = solve(long).findings.filter(({ code }) => code === "collision");
    expect(finding?.at).toEqual(["a", "B"]);
    expect(finding?.severity).toBe("warning");
    const told = Number(/bore of more than ([\d.]+) mm/.exec(finding?.message ?? "")?.[1]);
    expect(collisions(bored(told))).toEqual([]);
  });

  it("lets sleeves and carriers on one line be, and finds gears of theirs that meet", () => {
    const drive = (at: number): Drive =>
      makeDrive({
        shafts: [upright("A", 0, 0), makeShaft({ id: "B", coaxial: "A" })],
        gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 30, 2, { at })],
      });
    expect(collisions(drive(12))).toEqual([]);
    expect(collisions(drive(9))).toEqual(["gear a, gear b"]);
    expect(overlap(drive(9))).toBeCloseTo(1, 2);
  });

  it("lets a pinion stand within a ring that it doesn't mesh with, as long as it has room", () => {
    // Ring of 60, module 2: tips at radius 58; pinion of 20: tips at 22.
    const within = (x: number): Drive =>
      makeDrive({
        shafts: [upright("A", 0, 0), upright("B", x, 0)],
        gears: [toothed("r", "A", "internal", 60, 2), toothed("p", "B", "spur", 20, 2)],
      });
    expect(collisions(within(35))).not.toContain("gear r, gear p");
    expect(collisions(within(37))).toContain("gear r, gear p");
  });

  it("finds cones: two bevel gears on crossing shafts", () => {
    const drive = (at: number): Drive =>
      makeDrive({
        shafts: [upright("A", 0, 0), makeShaft({ id: "B" }), lying("C", 0, 0, at)],
        gears: [
          toothed("a", "A", "bevel", 20, 3, { apex: "+", at: 0 }),
          toothed("b", "B", "bevel", 20, 3, { apex: "+" }),
          toothed("c", "C", "spur", 10, 1, { at: 0, face: 4 }),
        ],
        meshes: [mesh("m", "a", "b", { shaftAngle: 90 })],
      });
    expect(collisions(drive(0)).some((name) => name.startsWith("gear a, gear c"))).toBe(true);
    expect(collisions(drive(-200))).toEqual([]);
  });

  it("finds nothing wrong with the samples, planetary sets and differentials", () => {
    for (const file of readdirSync("public/samples")) {
      const { drive } = readDrive(JSON.parse(readFileSync(`public/samples/${file}`, "utf8")));
      expect(drive && collisions(drive), file).toEqual([]);
    }
    expect(collisions(planetary(20, 20, 60, 3))).toEqual([]);
    expect(collisions(planetary(24, 18, 60, 4))).toEqual([]);
    expect(collisions(differential(30, 16, 4))).toEqual([]);
    expect(collisions(chain(12))).toEqual([]);
  });

  it("finds planets that are too many for their circle", () => {
    // Centres at radius 40 mm, tips at 22: eight of them stand 2 · 40 · sin(22.5°) = 30.6 mm apart.
    const found = collisions(planetary(20, 20, 60, 8));
    expect(found.length).toBe(8);
    expect(found).toContain("gear p1, gear p8");
    // 44 - 30.6 = 13.4 mm along the line of centres, the faces being 10 mm wide.
    expect(overlap(planetary(20, 20, 60, 8))).toBeCloseTo(10, 2);
    expect(overlap(planetary(20, 20, 60, 6))).toBeCloseTo(4, 2);
    expect(solve(planetary(20, 20, 60, 8)).findings.some(({ message }) => message.includes("fewer planets"))).toBe(
      true,
    );
  });
});

/** A carrier C about z with a wheel P of radius 10 on it, 50 mm from its axis, driven by a sun wheel of radius 40. */
const carried = (post: Vec3): Drive =>
  makeDrive({
    shafts: [
      upright("S", 0, 0),
      makeShaft({ id: "C", name: "Arm", coaxial: "S" }),
      makeShaft({ id: "P", frame: "C" }),
      makeShaft({ id: "Q", name: "Post", pose: { origin: post, axis: [0, 0, 1], ref: [1, 0, 0] } }),
    ],
    gears: [toothless("s", "S", "wheel", 80), toothless("p", "P", "wheel", 20), toothless("q", "Q", "wheel", 8)],
    meshes: [makeMesh({ id: "m", gears: ["s", "p"], azimuth: 0 })],
  });

describe("what stands in one another as carriers turn", () => {
  const at = (radius: number, degrees: number): Vec3 => {
    const a = (degrees * Math.PI) / 180;
    return [radius * Math.cos(a), radius * Math.sin(a), 0];
  };

  it.each([33, 180, 271.5, 340])("finds what a planet runs into at %f degrees, and says how far it goes", (degrees) => {
    // Wheels of radius 10 and 4 on circles of radius 50 and 62 about one axis: 12 mm apart at the nearest.
    const solved = solve(carried(at(62, degrees)));
    const hit = collisionsOf(solved).list.find((one) => named(solved, one) === "gear p, gear q");
    expect(hit?.overlap).toBeCloseTo(2, 1);
    const told = hit?.turns[0]?.degrees ?? 0;
    expect(hit?.turns[0]?.carrier).toBe(1);
    // Deepest where the post stands; the overlap is flat there, and told to a hundredth of a mm.
    expect(Math.abs(((told - degrees + 540) % 360) - 180)).toBeLessThan(2);
    const message = solved.findings.find(({ code, at: ids }) => code === "collision" && ids.includes("q"))?.message;
    expect(message).toMatch(/when Arm has turned [\d.]+° from rest/);
  });

  it("says at rest what is so at rest", () => {
    const solved = solve(carried(at(62, 0)));
    expect(collisionsOf(solved).list[0]?.turns).toEqual([]);
  });

  it("finds nothing where the post stands clear of the circle", () => {
    const solved = solve(carried(at(66, 100)));
    expect(collisionsOf(solved).list.filter((one) => named(solved, one).includes("gear q"))).toEqual([]);
  });

  it("tells the clearance all the way round, and where it is least", () => {
    for (const degrees of [0, 45, 200]) {
      const solved = solve(carried(at(70, degrees)));
      const told = clearance(solved, { kind: "gear", id: "p" }, { kind: "gear", id: "q" });
      if ("reason" in told) throw new Error(told.reason);
      // Closed form: 70 - 50 - 10 - 4.
      expect(told.gap).toBeCloseTo(6, 2);
      const [x, y] = at(70, degrees);
      expect(told.rest).toBeCloseTo(Math.hypot(x - 50, y) - 14, 2);
      expect(told.turns[0]?.degrees ?? 0).toBeCloseTo(degrees, -0.5);
    }
  });

  it("turns two carriers on one line against each other, and carriers on carriers one by one", () => {
    // Two arms on one line, each with a planet: they can stand anywhere against each other.
    const arms = makeDrive({
      shafts: [
        upright("S", 0, 0),
        makeShaft({ id: "C", coaxial: "S" }),
        makeShaft({ id: "D", coaxial: "S" }),
        makeShaft({ id: "P", frame: "C" }),
        makeShaft({ id: "Q", frame: "D" }),
      ],
      gears: [toothless("s", "S", "wheel", 80), toothless("p", "P", "wheel", 20), toothless("q", "Q", "wheel", 30)],
      meshes: [
        makeMesh({ id: "m", gears: ["s", "p"], azimuth: 0 }),
        makeMesh({ id: "n", gears: ["s", "q"], azimuth: 150 }),
      ],
    });
    const solved = solve(arms);
    const hit = collisionsOf(solved).list.find((one) => named(solved, one) === "gear p, gear q");
    // Radii 50 and 55: side by side the wheels of 10 and 15 are 5 mm apart, so all but their faces' 10 mm overlap.
    expect(hit?.overlap).toBeCloseTo(10, 1);
    expect(hit?.turns.length).toBe(1);
  });

  /** Source: manifold-3d on the two gears stood at angles of a fine grid: none is nearer than what is told. */
  it("is never undercut by the general library at any angle of a grid", () => {
    const bevel = differential(30, 16, 1);
    const drive = makeDrive({
      ...bevel,
      shafts: [...bevel.shafts, lying("X", 70, 40, 20)],
      gears: [...bevel.gears, makeGear({ id: "x", shaft: "X", kind: "wheel", diameter: 30, face: 8 })],
    });
    const solved = solve(drive);
    const told = clearance(solved, { kind: "gear", id: "p1" }, { kind: "gear", id: "x" });
    if ("reason" in told) throw new Error(told.reason);
    const bodies = bodiesOf(solved);
    const of = (id: string) => bodies.find(({ kind, index }) => kind === "gear" && drive.gears[index]?.id === id);
    const [p, x] = [of("p1"), of("x")];
    if (!p || !x) throw new Error("No bodies.");
    // The line of the carrier is x.
    let least = Infinity;
    for (let k = 0; k < 72; k++) {
      const [c, s] = [Math.cos((k * Math.PI) / 36), Math.sin((k * Math.PI) / 36)];
      const roll = ([u, v, w]: readonly [number, number, number]) => [u, c * v - s * w, s * v + c * w] as const;
      least = Math.min(least, judge({ ...p, origin: roll(p.origin), axis: roll(p.axis) }, x, 200).gap);
    }
    expect(told.gap).toBeLessThan(least + 0.02);
    // Between two angles of the grid nothing moves further than 2.5 degrees of its reach.
    expect(told.gap).toBeGreaterThan(least - 80 * ((2.5 * Math.PI) / 180));
    expect(told.gap).toBeGreaterThan(0);
  });
});

describe("clearance", () => {
  const planets = solve(planetary(20, 20, 60, 3));
  it("says why there is none to tell", () => {
    const ask = (a: string, b: string, kinds: readonly ["gear" | "shaft", "gear" | "shaft"] = ["gear", "gear"]) =>
      clearance(planets, { kind: kinds[0], id: a }, { kind: kinds[1], id: b });
    expect(ask("s", "p1")).toHaveProperty("reason", expect.stringContaining("in mesh"));
    expect(ask("s", "s")).toHaveProperty("reason", "Choose two different parts.");
    expect(ask("s", "S", ["gear", "shaft"])).toHaveProperty("reason", expect.stringContaining("sits on that shaft"));
    expect(ask("S", "C", ["shaft", "shaft"])).toHaveProperty("reason", expect.stringContaining("one line"));
    expect(ask("s", "none")).toHaveProperty("reason", expect.stringContaining("choose another"));
  });
  it("is that of planets in their own carrier's frame", () => {
    const told = clearance(planets, { kind: "gear", id: "p1" }, { kind: "gear", id: "p2" });
    // Centres 40 · √3 mm apart, tips at 22 mm.
    expect(told).toMatchObject({ turns: [], isWhole: true });
    expect("gap" in told && told.gap).toBeCloseTo(40 * Math.sqrt(3) - 44, 2);
  });
});

describe("finding near pairs", () => {
  it("finds the same as comparing all with all (seed 5)", () => {
    let state = 5;
    const random = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
    const boxes = new Float64Array(6 * 400);
    for (let i = 0; i < 400; i++) {
      for (let k = 0; k < 3; k++) {
        boxes[6 * i + k] = Math.floor(random() * 100);
        boxes[6 * i + 3 + k] = (boxes[6 * i + k] ?? 0) + (random() < 0.1 ? 60 : random() * 12);
      }
    }
    const found = new Set<string>();
    nearPairs(boxes, (i, j) => {
      found.add(`${Math.min(i, j)} ${Math.max(i, j)}`);
      return true;
    });
    const expected = new Set<string>();
    for (let i = 0; i < 400; i++) {
      for (let j = i + 1; j < 400; j++) {
        const meets = [0, 1, 2].every(
          (k) =>
            (boxes[6 * i + k] ?? 0) <= (boxes[6 * j + 3 + k] ?? 0) &&
            (boxes[6 * j + k] ?? 0) <= (boxes[6 * i + 3 + k] ?? 0),
        );
        if (meets) expected.add(`${i} ${j}`);
      }
    }
    expect(found).toEqual(expected);
    expect(found.size).toBeGreaterThan(100);
  });
});

describe("a large drive", () => {
  it("has a budget, and says so where it doesn't reach", () => {
    const before = effort.steps;
    const solved = solve(randomTree(7, 4000, 12));
    const found = collisionsOf(solved);
    expect(effort.steps - before).toBeLessThan(500_000);
    expect(found.isCut).toBe(true);
    const note = solved.findings.find(({ code }) => code === "collisions-unchecked");
    expect(note?.severity).toBe("note");
    expect(note?.message).toContain("were not looked at");
    expect(solved.findings.filter(({ code }) => code === "collision").length).toBeLessThanOrEqual(200);
  }, 30_000);

  it("compares near pairs alone: as many for each shaft of a long chain as of a short one", () => {
    const compared = (stages: number): number => collisionsOf(solve(chain(stages))).compared;
    expect(compared(2000)).toBeGreaterThan(0);
    expect(compared(2000) / 2000).toBeLessThan(0.2);
    expect(compared(4000) / 4000).toBeLessThan(0.2);
  }, 30_000);
});

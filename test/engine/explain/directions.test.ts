/** Words of direction against world vectors computed apart from them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nearSide, nearSideWords, sameWay, thumbWords, turning } from "../../../src/engine/explain/directions";
import { endNames, portEnd, sideName } from "../../../src/engine/explain/ends";
import { solve } from "../../../src/engine/solve";
import type { Drive, Solved, Vec3 } from "../../../src/engine/solved";
import { cross, dot, scale, sub, unit } from "../../../src/engine/vector";
import { differential, planetary, randomTree } from "../../support/random-drives";
import { bevels, mixer, POSE, pairOf, solveFile, spurs } from "./build";

const vector = fc
  .tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }))
  .filter((v) => v.some((x) => x !== 0));

/** A random tree with its root stood in a random direction. */
const tumbled = (seed: number, axis: Vec3): Solved => {
  const drive = randomTree(seed, 7, 4);
  const ref: Vec3 = Math.abs(axis[0]) > Math.abs(axis[1]) ? [0, 1, 0] : [1, 0, 0];
  const shafts = drive.shafts.map((shaft, i) =>
    i === 0 ? { ...shaft, pose: { origin: [3, 4, 5], axis, ref } as const } : shaft,
  );
  return solve({ ...drive, shafts } as Drive);
};

/** What a side word promises of a direction. */
const WORDS: Readonly<Record<string, Vec3>> = {
  right: [1, 0, 0],
  "right-hand": [1, 0, 0],
  left: [-1, 0, 0],
  "left-hand": [-1, 0, 0],
  far: [0, 1, 0],
  near: [0, -1, 0],
  top: [0, 0, 1],
  upper: [0, 0, 1],
  bottom: [0, 0, -1],
  lower: [0, 0, -1],
};
const keepsPromise = (name: string, direction: Vec3): boolean =>
  name
    .replace(/ end$/, "")
    .split(" ")
    .every((word) => dot(WORDS[word] ?? [Number.NaN, 0, 0], direction) > 0);

describe("names of ends", () => {
  test("each side word is true of the end it names, and the two ends differ", () => {
    fc.assert(
      fc.property(vector, (v) => {
        const axis = unit(v);
        const [plus, minus] = [sideName(axis), sideName(scale(axis, -1))];
        expect(plus).not.toBe(minus);
        expect(keepsPromise(plus, axis)).toBe(true);
        expect(keepsPromise(minus, scale(axis, -1))).toBe(true);
      }),
    );
  });

  test.each([
    [[1, 0, 0], "right end"],
    [[0, 1, 0], "far end"],
    [[0, 0, -1], "bottom end"],
    [[1, 0, 1], "upper right end"],
    [[-1, 0.1, -1], "lower left end"],
    [[0, -1, 1], "upper near end"],
    [[1, 1, 0], "right-hand far end"],
    [[1, 0.2, 0.2], "right end"],
  ] as const)("%j faces the %s", (v, name) => {
    expect(sideName(unit(v))).toBe(name);
  });

  test("a motor stands away from the apex of its bevel gear, on either side", () => {
    for (const [apex, end] of [
      ["+", "minus"],
      ["-", "plus"],
    ] as const) {
      const solved = pairOf(["bevel", "bevel"], { teeth: 20, apex }, { teeth: 40 }, { shaftAngle: 90 });
      expect(portEnd(solved, 0)).toBe(end);
      expect(endNames(solved, 0)[end]).toBe("motor end");
    }
  });

  test("a shaft without a port has the sides that it faces; one called Left keeps true sides", () => {
    const solved = spurs(20, 40);
    expect(endNames(solved, 1)).toEqual({ plus: "right end", minus: "left end" });
    const named = (name: string) =>
      solveFile({ shafts: [{ id: "A", name, pose: POSE }], ports: [{ shaft: "A", role: "held" }] });
    expect(endNames(named("Left"), 0)).toEqual({ plus: "right end", minus: "left end" });
    expect(endNames(named("Right"), 0)).toEqual({ plus: "right end", minus: "left end" });
    expect(endNames(named("NW arm"), 0).minus).toBe("NW arm end");
    expect(endNames(named(""), 0).minus).toBe("A end");
    expect(endNames(named("Rope end"), 0).minus).toBe("rope end");
  });

  test("a pinion that a carrier carries round has an outer and an inner end, not sides of the room", () => {
    const solved = solve(differential(20, 12));
    for (const id of ["P1", "P2"]) {
      const shaft = solved.index.shafts.get(id) ?? -1;
      const names = endNames(solved, shaft);
      expect(new Set(Object.values(names))).toEqual(new Set(["outer end", "inner end"]));
      const gear = solved.placement.gears[solved.index.gearsOfShaft[shaft]?.[0] ?? -1];
      const placed = solved.placement.shafts[shaft];
      // The gear itself stands out from the carrier's axis: the outer end is on its side.
      const isOut = dot(gear?.centre ?? [0, 0, 0], placed?.axis ?? [0, 0, 0]) > 0;
      expect(names[isOut ? "plus" : "minus"]).toBe("outer end");
    }
  });
});

/** Spin of a shaft as an eye on its carrier sees it, rad/s. */
const ownSpin = (solved: Solved, shaft: number): Vec3 => {
  const own = solved.motion.angularVelocity[shaft] ?? [0, 0, 0];
  const carrier = solved.index.frameOfShaft[shaft] ?? -1;
  return carrier < 0 ? own : sub(own, solved.motion.angularVelocity[carrier] ?? [0, 0, 0]);
};

/** Clockwise for an eye out along `towards` means turning left-handed about that direction. */
const seen = (spin: Vec3, towards: Vec3): string => (dot(spin, towards) < 0 ? "clockwise" : "counterclockwise");

function expectTrue(solved: Solved, shaft: number): void {
  const words = turning(solved, shaft);
  const match = /^(clockwise|counterclockwise) seen from the (.+ end)/.exec(words);
  const spin = ownSpin(solved, shaft);
  const axis = solved.placement.shafts[shaft]?.axis ?? [0, 0, 0];
  if (Math.hypot(...spin) < 1e-9) {
    expect(words).toContain("stands still");
    return;
  }
  const names = endNames(solved, shaft);
  const end = match?.[2] === names.plus ? 1 : -1;
  expect(match?.[2]).toBe(end === 1 ? names.plus : names.minus);
  expect(match?.[1]).toBe(seen(spin, scale(axis, end)));
  // From the other end it is the other way.
  const other = turning(solved, shaft, end === 1 ? "minus" : "plus");
  expect(other.split(" ")[0]).toBe(seen(spin, scale(axis, -end)));
  // A word that names a side must be true of the world.
  if (portEnd(solved, shaft) === null && !match?.[2]?.match(/inner|outer/)) {
    expect(keepsPromise(match?.[2] ?? "", scale(axis, end))).toBe(true);
  }
}

describe("turning", () => {
  test("random trees in random poses", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), vector, (seed, v) => {
        const solved = tumbled(seed, v);
        for (const shaft of solved.drive.shafts.keys()) expectTrue(solved, shaft);
      }),
      { numRuns: 60 },
    );
  });

  test("planetary sets and differentials, each shaft in its own frame", () => {
    for (const solved of [
      solve(planetary(24, 18, 60, 3)),
      solve(differential(20, 12)),
      solve(differential(20, 11, 3)),
    ]) {
      for (const shaft of solved.drive.shafts.keys()) expectTrue(solved, shaft);
      const planet = solved.index.shafts.get("P1") ?? -1;
      expect(turning(solved, planet)).toContain("to an eye riding on Carrier");
    }
  });

  test("rest and open speeds have their own words", () => {
    const still = pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, [{ shaft: "A", role: "held" }]);
    expect(turning(still, 1)).toBe("stands still");
    expect(turning(pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, []), 1)).toBe("not fixed yet");
  });

  test("the mixer of the format: motor at 1450, positive about +x, seen from its own end on the left", () => {
    const solved = mixer();
    expect(turning(solved, 0)).toBe("clockwise seen from the motor end");
    expect(turning(solved, 1)).toBe("counterclockwise seen from the left end");
    expect(thumbWords(solved, 0)).toBe("right thumb towards the right end: the fingers curl the way it turns");
  });

  test("two gates from one bevel turn opposite ways from one end, alike from their own ends", () => {
    const solved = solveFile({
      shafts: [
        { id: "A", name: "Crank", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
        { id: "B", name: "Left gate" },
        { id: "C", name: "Right gate" },
      ],
      gears: [
        { id: "a", shaft: "A", kind: "bevel", teeth: 20, module: 2 },
        { id: "b", shaft: "B", kind: "bevel", teeth: 40, module: 2, apex: "-" },
        { id: "c", shaft: "C", kind: "bevel", teeth: 40, module: 2, apex: "-" },
      ],
      meshes: [
        { id: "m1", gears: ["a", "b"], shaftAngle: 90, azimuth: 180 },
        { id: "m2", gears: ["a", "c"], shaftAngle: 90, azimuth: 0 },
      ],
      ports: [
        { shaft: "A", role: "input", speed: 30 },
        { shaft: "B", role: "output" },
        { shaft: "C", role: "output" },
      ],
    });
    const [left, right] = [turning(solved, 1), turning(solved, 2)];
    expect(left.split(" ")[0]).toBe(right.split(" ")[0]);
    expect([left, right].map((words) => words.replace(/^\w+ seen from the /, ""))).toEqual([
      "left gate end",
      "right gate end",
    ]);
    expect(sameWay(solved, 1, 2)).toBe("the other way");
    expect(sameWay(solved, 0, 1)).toBeNull();
  });
});

describe("the same way and the other way", () => {
  test("only between parallel shafts, as world vectors have it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), vector, (seed, v) => {
        const solved = tumbled(seed, v);
        for (const a of solved.drive.shafts.keys()) {
          for (const b of solved.drive.shafts.keys()) {
            const [wa, wb] = [ownSpin(solved, a), ownSpin(solved, b)];
            const along = dot(unit(wa), unit(wb));
            const expected = Math.abs(along) < 1 - 1e-9 ? null : along > 0 ? "the same way" : "the other way";
            expect(sameWay(solved, a, b)).toBe(expected);
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  test("null beside a shaft that rests, is open, or is carried by another frame", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const at = (id: string) => solved.index.shafts.get(id) ?? -1;
    expect(sameWay(solved, at("S"), at("C"))).toBe("the same way");
    expect(sameWay(solved, at("S"), at("R"))).toBeNull();
    expect(sameWay(solved, at("S"), at("P1"))).toBeNull();
    expect(sameWay(solved, at("P1"), at("P2"))).toBe("the same way");
  });
});

/**
 * The near side by finite steps: the foremost point of each gear in the plane of its contact moves a little; does it get
 * nearer to the contact, measured across, or further away?
 */
function nearSideByPoints(solved: Solved, mesh: number, toEye: Vec3): string[] {
  const placed = solved.placement.meshes[mesh];
  const frames = (solved.index.shaftsOfMesh[mesh] ?? []).map((shaft) => solved.index.frameOfShaft[shaft] ?? -1);
  const frame = Math.max(...frames);
  const background = solved.motion.angularVelocity[frame] ?? [0, 0, 0];
  return (solved.index.shaftsOfMesh[mesh] ?? []).map((shaft) => {
    const { axis, origin } = solved.placement.shafts[shaft] ?? { axis: [0, 0, 0] as Vec3, origin: [0, 0, 0] as Vec3 };
    const spin = sub(solved.motion.angularVelocity[shaft] ?? [0, 0, 0], background);
    const contact = placed?.contact[0] ?? [0, 0, 0];
    const foot: Vec3 = [0, 1, 2].map(
      (i) => (origin[i] ?? 0) + dot(sub(contact, origin), axis) * (axis[i] ?? 0),
    ) as unknown as Vec3;
    const arm = sub(contact, foot);
    const front = sub(toEye, scale(axis, dot(toEye, axis)));
    const velocity = cross(spin, front);
    return dot(velocity, arm) > 0 ? "meet" : "part";
  });
}

describe("near-side arrows", () => {
  test("both gears agree with each other and with moving points", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), vector, vector, (seed, v, eye) => {
        const solved = tumbled(seed, v);
        for (const mesh of solved.drive.meshes.keys()) {
          const way = nearSide(solved, mesh, eye);
          if (way !== null) expect(nearSideByPoints(solved, mesh, unit(eye))).toEqual([way, way]);
          const back = nearSide(solved, mesh, scale(eye, -1));
          expect(back).toBe(way === null ? null : way === "meet" ? "part" : "meet");
        }
      }),
      { numRuns: 60 },
    );
  });

  test("a mesh that travels round with a carrier has no near side of its own", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    for (const mesh of solved.drive.meshes.keys()) expect(nearSide(solved, mesh, [0.3, -1, 0.2])).toBeNull();
  });

  test("two spurs side by side: a counterclockwise left one and its clockwise mate, seen from above, part below and meet above", () => {
    // Axes towards the viewer (−y), the second to the right; the eye above sees the tops run towards each other where the
    // left one turns clockwise as the viewer in front sees it.
    const pair = (speed: number) =>
      solveFile({
        shafts: [{ id: "A", pose: { origin: [0, 0, 0], axis: [0, -1, 0], ref: [1, 0, 0] } }, { id: "B" }],
        gears: [
          { id: "a", shaft: "A", kind: "spur", teeth: 20, module: 2 },
          { id: "b", shaft: "B", kind: "spur", teeth: 20, module: 2 },
        ],
        meshes: [{ id: "m", gears: ["a", "b"] }],
        ports: [{ shaft: "A", role: "input", speed }],
      });
    expect(nearSide(pair(-10), 0, [0, 0, 1])).toBe("meet");
    expect(nearSide(pair(10), 0, [0, 0, 1])).toBe("part");
    expect(nearSide(pair(10), 0, [0, 0, -1])).toBe("meet");
    expect(nearSide(pair(10), 0, [1, 0, 0])).toBeNull();
    expect(nearSide(pair(0), 0, [0, 0, 1])).toBeNull();
    expect(nearSideWords(pair(-10), 0, [0, 0, 1])).toBe("the near-side arrows meet");
  });

  test("inside a ring and past the crown both near sides run the same way: neither meet nor part", () => {
    for (const angle of [135, 150, 165]) {
      const solved = bevels(20, 40, angle);
      const eye = unit([0.1, -1, 0.3]);
      const [first, second] = (solved.index.shaftsOfMesh[0] ?? []).map((shaft) => {
        const axis = solved.placement.shafts[shaft]?.axis ?? [0, 0, 0];
        // The point of the body that is nearest to the eye moves along ω × eye.
        return unit(cross(solved.motion.angularVelocity[shaft] ?? [0, 0, 0], sub(eye, scale(axis, dot(eye, axis)))));
      });
      expect(dot(first ?? [0, 0, 0], second ?? [0, 0, 0])).toBeGreaterThan(0.5);
      expect(nearSide(solved, 0, eye)).toBeNull();
    }
    expect(nearSide(bevels(20, 40, 120), 0, [0.1, -1, 0.3])).toBeNull();
  });
});

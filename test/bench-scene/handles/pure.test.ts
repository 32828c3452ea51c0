/** Every handle by itself: what lies under the pointer, what it snaps to, where the drive follows it, and what it refuses. */
import { describe, expect, it } from "vitest";
import type { Handle } from "../../../src/bench/handles/handle";
import { handlesFor } from "../../../src/bench/handles/handles-for";
import { moduleAfter, nearestModule } from "../../../src/bench/handles/series";
import type { SizeWay } from "../../../src/bench/handles/size-handle";
import { HOME, type Orbit, project, sightThrough } from "../../../src/bench/orbit";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import type { Drive } from "../../../src/engine/drive/types";
import { solve } from "../../../src/engine/solve";
import { distance } from "../../../src/engine/vector";
import type { Part } from "../../../src/store/view";
import { mesh, planetary, root, toothed, toothless } from "../../support/random-drives";

/** A spur pair, a bevel pair beyond it, and a ring beyond that. */
const train: Drive = {
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }, { id: "C", name: "C" }, { id: "D", name: "D" }],
  gears: [
    toothed("a", "A", "spur", 20, 2),
    toothed("b", "B", "spur", 32, 2, { at: 4 }),
    toothed("b2", "B", "bevel", 20, 3, { at: 60, apex: "-" }),
    toothed("c", "C", "bevel", 40, 3, { apex: "-", at: 2 }),
    toothed("c2", "C", "spur", 18, 2, { at: 50 }),
    toothed("d", "D", "internal", 60, 2),
  ],
  meshes: [
    mesh("m1", "a", "b", { azimuth: 20 }),
    mesh("m2", "b2", "c", { shaftAngle: 70, azimuth: 300 }),
    mesh("m3", "c2", "d", { azimuth: 45 }),
  ],
  ports: [{ shaft: "A", role: "input", speed: 60 }],
};

const find = (drive: Drive, part: Part, sort: Handle["sort"], way: SizeWay = "teeth"): Handle => {
  const handle = handlesFor(solve(drive), part, way).find((one) => one.sort === sort);
  if (!handle) throw new Error(`no ${sort} handle`);
  return handle;
};
const edited = (drive: Drive, handle: Handle, value: number): Drive => {
  const result = handle.edit(value)(drive);
  if (isRefused(result)) throw new Error(result.refused);
  return result;
};
const reason = (drive: Drive, handle: Handle, value: number): string => {
  const result = handle.edit(value)(drive);
  return isRefused(result) ? result.refused : "";
};
const gear = (id: string): Part => ({ kind: "gear", id });
const shaft = (id: string): Part => ({ kind: "shaft", id });
const meshPart = (id: string): Part => ({ kind: "mesh", id });

const CASES: readonly (readonly [string, Part, Handle["sort"], SizeWay, readonly number[]])[] = [
  ["lean of a bevel pair", meshPart("m2"), "lean", "teeth", [5, 40, 75, 110, 150]],
  ["lean of a spur pair", meshPart("m1"), "lean", "teeth", [5, 40, 75, 110, 150]],
  ["lean of a ring pair", shaft("D"), "lean", "teeth", [175, 140, 90, 40]],
  ["swing of a spur pair", shaft("B"), "swing", "teeth", [0, 50, 130, 200, 300]],
  ["swing of a bevel pair", meshPart("m2"), "swing", "teeth", [0, 50, 130, 200, 300]],
  ["swing of a ring", meshPart("m3"), "swing", "teeth", [0, 50, 130, 200, 300]],
  ["slide of a gear that its shaft doesn't hang on", gear("b2"), "slide", "teeth", [25, 45, 90]],
  ["slide of the gear that its shaft hangs on", gear("b"), "slide", "teeth", [-30, 15]],
  ["teeth of a driver", gear("a"), "size", "teeth", [12, 17, 40]],
  ["teeth of a follower", gear("b"), "size", "teeth", [12, 17, 60]],
  ["teeth of a follower in its ratio", gear("b"), "size", "ratio", [16, 24, 64]],
  ["module of a pair", gear("b"), "size", "module", [1, 1.5, 5]],
  ["teeth of a ring", gear("d"), "size", "teeth", [40, 80]],
  ["place x of a root", shaft("A"), "x", "teeth", [-40, 25]],
  ["place y of a root", shaft("A"), "y", "teeth", [-40, 25]],
  ["place z of a root", shaft("A"), "z", "teeth", [-40, 25]],
];

describe("the value under the pointer", () => {
  it.each(CASES)("is that of the point which is seen there: %s", (_, part, sort, way, values) => {
    const handle = find(train, part, sort, way);
    const orbit: Orbit = { target: handle.point(handle.value), ...HOME, distance: 900 };
    for (const value of [handle.value, ...values]) {
      const at = project(orbit, handle.point(value), 800);
      const under = handle.under(sightThrough(orbit, at.x, at.y, 800));
      // A turn of 360 degrees is the same place.
      const off = Math.abs((under ?? Number.NaN) - value);
      expect(Math.min(off, sort === "swing" ? Math.abs(off - 360) : off)).toBeLessThan(1e-6);
    }
  });

  it.each(CASES)("is where the drive follows: the knob stays under it: %s", (_, part, sort, way, values) => {
    const handle = find(train, part, sort, way);
    const size = Math.max(50, distance(handle.point(values[0] ?? 0), handle.point(values[1] ?? 0)));
    for (const value of values) {
      const next = find(edited(train, handle, value), part, sort, way);
      expect(next.value).toBeCloseTo(value, 9);
      expect(next.key).toBe(handle.key);
      // The tip of a bevel gear goes a little aslant as its cone changes; the others keep to the pointer.
      expect(distance(next.point(next.value), handle.point(value)) / size).toBeLessThan(1e-6);
    }
  });

  it.each(CASES)("can't be told from an eye that looks along its line, or in its plane: %s", (_, part, sort) => {
    const handle = find(train, part, sort);
    const [here, near, quarter] = [handle.value, handle.value + 1, handle.value + 90].map((value) =>
      handle.point(value),
    );
    if (!here || !near || !quarter) throw new Error("no points");
    const isRound = sort === "lean" || sort === "swing";
    const d = [0, 1, 2].map((k) => ((isRound ? quarter : near)[k] ?? 0) - (here[k] ?? 0));
    const size = Math.hypot(...d);
    const direction = d.map((part) => part / size) as unknown as readonly [number, number, number];
    expect(
      handle.under({
        origin: [here[0] - 500 * direction[0], here[1] - 500 * direction[1], here[2] - 500 * direction[2]],
        direction,
      }),
    ).toBeNull();
    expect(handle.perPixel).toBeGreaterThan(0);
  });
});

describe("snapping", () => {
  it("leans onto steps of 15, the right angle and the flat crown, whole degrees between them, tenths with Alt", () => {
    const lean = find(train, meshPart("m2"), "lean");
    expect([61.7, 88.2, 68.4, 1.9, 178.4, -20, -170].map((value) => lean.snap(value, false))).toEqual([
      60, 90, 68, 0, 180, 0, 180,
    ]);
    expect(lean.snap(61.74, true)).toBe(61.7);
    const crown = find(
      { ...train, gears: train.gears.map((g) => (g.id === "c" ? { ...g, teeth: 30 } : g)) as Drive["gears"] },
      meshPart("m2"),
      "lean",
    );
    // cos of the shaft angle at which the larger is flat: -z1/z2.
    expect(crown.snap(131, false)).toBeCloseTo((Math.acos(-20 / 30) * 180) / Math.PI, 12);
  });

  it("swings onto steps of 15, all the way round", () => {
    const swing = find(train, meshPart("m1"), "swing");
    expect([43, 52.4, 358.7, -33, 722].map((value) => swing.snap(value, false))).toEqual([45, 52, 0, 330, 0]);
    expect(swing.snap(43.26, true)).toBe(43.3);
    expect(swing.stepped(359, 1)).toBe(0);
    expect(swing.stepped(0, -10)).toBe(350);
  });

  it("slides onto whole millimetres, and onto the fit of a loop", () => {
    const slide = find(train, gear("b2"), "slide");
    expect(slide.snap(41.4, false)).toBe(41);
    expect(slide.snap(41.44, true)).toBe(41.4);
    const set = planetary(24, 18, 60, 3);
    const ring = set.gears.find(({ kind }) => kind === "internal");
    if (!ring) throw new Error("no ring");
    const odd: Drive = {
      ...set,
      gears: set.gears.map((one) => (one === ring ? { ...one, at: 30 } : { ...one, at: 0.4 })) as Drive["gears"],
    };
    expect(find(odd, gear(ring.id), "slide").snap(1.2, false)).toBeCloseTo(0.4, 6);
  });

  it("counts whole teeth with or without Alt; in a ratio only those that keep it; modules of the series", () => {
    expect(find(train, gear("a"), "size").snap(17.4, true)).toBe(17);
    const ratio = find(train, gear("a"), "size", "ratio");
    // 20 : 32 is 5 : 8.
    expect([17.4, 18, 3, 1e6].map((value) => ratio.snap(value, false))).toEqual([15, 20, 5, 400]);
    expect(edited(train, ratio, 35).gears.slice(0, 2)).toMatchObject([{ teeth: 35 }, { teeth: 56 }]);
    expect(ratio.text(35)).toBe("35 : 56 teeth");
    const size = find(train, gear("a"), "size", "module");
    expect([1.9, 2.7, 3.6, 70].map((value) => size.snap(value, false))).toEqual([2, 2.5, 4, 50]);
    expect(size.snap(2.713, true)).toBe(2.71);
    expect(edited(train, size, 4).gears.slice(0, 3)).toMatchObject([{ module: 4 }, { module: 4 }, { module: 3 }]);
    expect([moduleAfter(2, 1), moduleAfter(2.2, -1), moduleAfter(50, 1), moduleAfter(1, 3)]).toEqual([2.5, 2, 50, 2]);
    expect(nearestModule(0.27)).toBe(0.25);
  });

  it("moves a root by 5 mm", () => {
    const x = find(train, shaft("A"), "x");
    expect([12.4, 12.6, -1, 5000].map((value) => x.snap(value, false))).toEqual([10, 15, 0, 1000]);
    expect(edited(train, x, 35).shafts[0]?.pose?.origin).toEqual([35, 0, 0]);
  });
});

describe("which handles there are", () => {
  const sorts = (drive: Drive, part: Part | null): string[] =>
    handlesFor(solve(drive), part, "teeth").map(({ sort }) => sort);

  it("follows from what is selected", () => {
    expect(sorts(train, null)).toEqual([]);
    expect(sorts(train, shaft("A"))).toEqual(["x", "y", "z"]);
    expect(sorts(train, shaft("B"))).toEqual(["lean", "swing"]);
    expect(sorts(train, meshPart("m2"))).toEqual(["lean", "swing"]);
    expect(sorts(train, gear("a"))).toEqual(["size", "slide"]);
    expect(sorts(train, gear("c"))).toEqual(["lean", "size", "slide"]);
    expect(sorts(train, gear("gone"))).toEqual([]);
    expect(sorts(train, shaft("gone"))).toEqual([]);
  });

  it("leaves out the lean and swing of a mesh that closes a loop", () => {
    const set = planetary(24, 18, 60, 3);
    const loop = solve(set).placement.meshes.findIndex((one) => one?.closesLoop);
    expect(loop).toBeGreaterThanOrEqual(0);
    expect(sorts(set, meshPart(set.meshes[loop]?.id ?? ""))).toEqual([]);
  });
});

describe("what can't be is refused with a reason", () => {
  it("a ring no larger than its pinion", () => {
    expect(reason(train, find(train, gear("d"), "size"), 17)).toMatch(/^Ring d .*can't hold c2/);
    expect(reason(train, find(train, gear("c2"), "size"), 60)).toMatch(/^Ring d .*can't hold c2/);
  });

  it("equal gears at 180, and cones without an apex", () => {
    const equal: Drive = {
      ...train,
      gears: train.gears.map((g) => (g.id === "c" ? { ...g, teeth: 20 } : g)) as Drive["gears"],
    };
    expect(reason(equal, find(equal, meshPart("m2"), "lean"), 180)).toMatch(/flat crowns face to face/);
    expect(reason(train, find(train, meshPart("m2"), "lean"), 0.001)).toMatch(/no apex within reach/);
  });

  it("a gear on the place of another; a place beyond it is free", () => {
    const slide = find(train, gear("b2"), "slide");
    expect(reason(train, slide, 8)).toBe(
      "Gear b2 can't stand at 8 mm: b is there on the same shaft; slide it past that gear, or stop short of it.",
    );
    expect(reason(train, slide, -20)).toBe("");
  });

  it("profile shifts that a ring can't have", () => {
    const shifted: Drive = {
      ...train,
      gears: train.gears.map((g) =>
        g.id === "b2" ? { ...g, shift: 0.3 } : g.id === "c" ? { ...g, shift: -0.3 } : g,
      ) as Drive["gears"],
    };
    expect(reason(shifted, find(shifted, meshPart("m2"), "lean"), 180)).toMatch(/shifts .* must be equal/);
    expect(reason(shifted, find(shifted, meshPart("m2"), "lean"), 0)).toBe("");
  });
});

it("gears without teeth are pulled by their diameter, alone or with the mate in the ratio", () => {
  const wheels: Drive = {
    ...train,
    shafts: train.shafts.slice(0, 2),
    gears: [toothless("a", "A", "wheel", 40), toothless("b", "B", "wheel", 60)],
    meshes: [mesh("m1", "a", "b")],
  };
  const alone = find(wheels, gear("b"), "size");
  expect([alone.text(60), alone.snap(61.4, false), alone.snap(61.44, true)]).toEqual(["diameter 60 mm", 61, 61.4]);
  expect(edited(wheels, alone, 80).gears).toMatchObject([{ diameter: 40 }, { diameter: 80 }]);
  expect(edited(wheels, find(wheels, gear("b"), "size", "ratio"), 90).gears).toMatchObject([
    { diameter: 60 },
    { diameter: 90 },
  ]);
});

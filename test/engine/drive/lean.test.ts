/**
 * Leaning a pair from one end to the other. What is right is told by placing itself: a hundredth of a degree before a change all
 * shafts and gears must stand, and turn in space, where they stand after it but for what that hundredth moves them (0.2 mm in a metre).
 */
import { describe, expect, it } from "vitest";
import { type Edit, isRefused } from "../../../src/engine/drive/commands/edit";
import { leanMesh } from "../../../src/engine/drive/commands/lean";
import { makePort } from "../../../src/engine/drive/defaults";
import { parseDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { alignedWith } from "../../../src/engine/placement/aligned";
import { solve } from "../../../src/engine/solve";
import { distance, dot, length, sub } from "../../../src/engine/vector";
import { mesh, root, toothed, toothless } from "../../support/random-drives";

interface Sizes {
  readonly stays?: number;
  readonly leans?: number;
  readonly apexes?: readonly ["+" | "-", "+" | "-"];
  readonly kinds?: readonly ["spur" | "internal" | "bevel", "spur" | "internal" | "bevel"];
  readonly angle?: number;
  readonly listed?: "first" | "second";
}

/** A pair of which B leans, and what hangs on B: by parallel pairs and their like C, D (coaxial) and E, at an angle F, and G beyond it. */
function tree({
  stays = 20,
  leans = 30,
  apexes = ["+", "+"],
  kinds = ["bevel", "bevel"],
  angle = 70,
  listed = "first",
}: Sizes = {}): Drive {
  const isCone = kinds[0] === "bevel";
  return {
    title: "",
    notes: "",
    shafts: [
      root("A"),
      { id: "B", name: "B" },
      { id: "C", name: "C" },
      { id: "D", name: "D", coaxial: "B" },
      { id: "E", name: "E" },
      { id: "F", name: "F" },
      { id: "G", name: "G" },
    ],
    gears: [
      toothed("a", "A", kinds[0], stays, 2, { face: 8, at: 12, apex: apexes[0] }),
      toothed("b", "B", kinds[1], leans, 2, { face: 14, at: -5, apex: apexes[1] }),
      toothed("b2", "B", "spur", 18, 2, { at: 50, phase: 7 }),
      toothed("c", "C", "spur", 26, 2, { at: 3 }),
      toothed("c2", "C", "bevel", 20, 2, { at: 40 }),
      toothed("d", "D", "spur", 22, 2, { at: 90 }),
      toothed("e", "E", "spur", 31, 2, { at: -8 }),
      toothed("f", "F", "bevel", 25, 2, { at: 6, apex: "-" }),
      toothed("f2", "F", "spur", 25, 2, { at: 60 }),
      toothed("g", "G", "spur", 25, 2, { at: 6 }),
    ],
    meshes: [
      listed === "first"
        ? mesh("m", "a", "b", { azimuth: 35, ...(isCone ? { shaftAngle: angle } : {}) })
        : mesh("m", "b", "a", { azimuth: 35, ...(isCone ? { shaftAngle: angle } : {}) }),
      mesh("mc", "b2", "c", { azimuth: 110 }),
      mesh("me", "d", "e", { azimuth: 200 }),
      mesh("mf", "c2", "f", { azimuth: 20, shaftAngle: 65 }),
      mesh("mg", "f2", "g", { azimuth: 75 }),
    ],
    ports: [
      makePort({ shaft: "A", role: "input", speed: 60 }),
      makePort({ shaft: "D", role: "input", speed: 12.5, speedDigits: "12.50000000000000000001" }),
      makePort({ shaft: "G", role: "output", torque: 3 }),
    ],
  };
}

const leanTo = (drive: Drive, angle: number): Edit => {
  const solved = solve(drive);
  return leanMesh("m", {
    angle,
    leans: drive.meshes[0]?.gears[0] === "a" ? 1 : 0,
    aligned: alignedWith(solved, solved.index.shafts.get("B") ?? -1),
  });
};

function leaned(drive: Drive, angle: number): Drive {
  const result = leanTo(drive, angle)(drive);
  if (isRefused(result)) throw new Error(result.refused);
  // A drive that an edit gives is one that the parser passes.
  expect(parseDrive(writeDrive(result))).toEqual({ drive: result });
  return result;
}

/** mm: the furthest that any shaft's line or gear's body stands from where it stands in the other drive. */
function furthest(one: Drive, other: Drive): number {
  const [a, b] = [solve(one), solve(other)];
  let most = 0;
  one.shafts.forEach((_, i) => {
    const [p, q] = [a.placement.shafts[i], b.placement.shafts[i]];
    if (!p || !q) throw new Error("unreached");
    most = Math.max(most, distance(p.origin, q.origin), 100 * (1 - Math.abs(dot(p.axis, q.axis))));
  });
  one.gears.forEach((gear, i) => {
    const [p, q] = [a.placement.gears[i], b.placement.gears[i]];
    if (!p || !q) throw new Error("unplaced");
    // The two of the pair itself go from the heel to the middle of the face.
    if (gear.id !== "a" && gear.id !== "b") most = Math.max(most, distance(p.centre, q.centre));
  });
  return most;
}

/** The middle of a gear's face in the world; of a cone next to a cylinder, as far as its face is deep. */
function middle(drive: Drive, id: string) {
  const solved = solve(drive);
  const i = solved.index.gears.get(id) ?? -1;
  const [placed, gear] = [solved.placement.gears[i], drive.gears[i]];
  if (!placed || !gear) throw new Error("no gear");
  if (placed.apexPoint === null) return placed.centre;
  const k = -Math.sign(Math.cos(((placed.pitchAngle ?? 0) * Math.PI) / 180)) * (gear.face / 2);
  const [x, y, z] = placed.outward;
  return [placed.centre[0] + k * x, placed.centre[1] + k * y, placed.centre[2] + k * z] as const;
}

const ways: readonly Sizes[] = (["+", "-"] as const).flatMap((one) =>
  (["+", "-"] as const).flatMap((two) =>
    [
      [20, 30],
      [30, 20],
    ].map(([stays = 0, leans = 0]) => ({ apexes: [one, two] as const, stays, leans })),
  ),
);

describe("a pair that leans to its end", () => {
  it.each(ways)("becomes a spur pair at 0 and a ring at 180, and nothing jumps: %o", (sizes) => {
    for (const [end, near] of [
      [0, 0.01],
      [180, 179.99],
    ] as const) {
      const before = leaned(tree(sizes), near);
      const after = leaned(tree(sizes), end);
      expect(before.gears[0]?.kind).toBe("bevel");
      const isRing = (id: "a" | "b"): boolean =>
        end === 180 && (id === "a") === (sizes.stays ?? 0) > (sizes.leans ?? 0);
      for (const [i, id] of (["a", "b"] as const).entries())
        expect(after.gears[i]?.kind).toBe(isRing(id) ? "internal" : "spur");
      expect(after.meshes[0]).not.toHaveProperty("shaftAngle");
      expect(furthest(before, after)).toBeLessThan(0.2);
      // The gear that stays keeps the middle of its face; the other is centred on it.
      expect(distance(middle(before, "a"), middle(after, "a"))).toBeLessThan(0.05);
    }
  });

  it.each(ways)("turns on in space as it did: %o", (sizes) => {
    for (const [end, near] of [
      [0, 0.01],
      [180, 179.99],
    ] as const) {
      const only = { ...tree(sizes), ports: tree(sizes).ports.filter(({ shaft }) => shaft === "A") };
      const [before, after] = [solve(leaned(only, near)), solve(leaned(only, end))];
      after.motion.angularVelocity.forEach((now, i) => {
        const then = before.motion.angularVelocity[i];
        if (!now || !then || i === 0) return;
        expect(length(now)).toBeGreaterThan(1);
        expect(length(sub(now, then))).toBeLessThan(0.005 * length(now));
      });
    }
  });

  it("keeps a typed speed of what it reverses the same way in space, digits and all", () => {
    const before = solve(leaned(tree(), 179.99));
    const after = solve(leaned(tree(), 180));
    expect(after.drive.ports[1]).toMatchObject({ speed: -12.5, speedDigits: "-12.50000000000000000001" });
    const axis = before.placement.shafts[3]?.axis;
    const reversed = after.placement.shafts[3]?.axis;
    if (!axis || !reversed) throw new Error("unplaced");
    expect(dot(axis, reversed)).toBeCloseTo(-1, 6);
  });

  it("does so whichever gear is listed first", () => {
    const before = leaned(tree({ listed: "second" }), 0.01);
    expect(furthest(before, leaned(tree({ listed: "second" }), 0))).toBeLessThan(0.2);
  });
});

describe("a parallel pair", () => {
  it.each([
    { kinds: ["spur", "spur"], end: 0, near: 0.01, stays: 20, leans: 30 },
    { kinds: ["spur", "internal"], end: 180, near: 179.99, stays: 20, leans: 70 },
    { kinds: ["internal", "spur"], end: 180, near: 179.99, stays: 70, leans: 20 },
  ] as const)("leans without a jump and with its axes as they were: %o", ({ kinds, end, near, stays, leans }) => {
    const start = tree({ kinds, stays, leans });
    const next = leaned(start, near);
    expect(next.gears.slice(0, 2).map(({ kind }) => kind)).toEqual(["bevel", "bevel"]);
    expect(furthest(start, next)).toBeLessThan(0.2);
    const axes = [start, next].map((drive) => solve(drive).placement.shafts[1]?.axis);
    expect(dot(axes[0] ?? [0, 0, 0], axes[1] ?? [0, 0, 0])).toBeCloseTo(1, 6);
    // All the way to the other end, without a jump there either.
    const other = end === 0 ? 180 : 0;
    expect(furthest(leaned(start, Math.abs(other - 0.01)), leaned(start, other))).toBeLessThan(0.2);
    // And back where it began.
    expect(furthest(leaned(next, end), start)).toBeLessThan(1e-6);
    expect(leanTo(start, end)(start)).toBe(start);
  });

  it("of friction wheels becomes cones, and a wheel in a ring", () => {
    const wheels: Drive = {
      ...tree(),
      gears: tree().gears.map((gear) =>
        gear.id === "a" || gear.id === "b"
          ? toothless(gear.id, gear.shaft, "wheel", gear.id === "a" ? 40 : 60, { face: 10 })
          : gear,
      ),
      meshes: tree().meshes.map((one) =>
        one.id === "m" ? mesh("m", "a", "b", { normalForce: 90, friction: 0.2 }) : one,
      ),
    };
    const kinds = (angle: number) =>
      leaned(wheels, angle)
        .gears.slice(0, 2)
        .map(({ kind }) => kind);
    expect(kinds(60)).toEqual(["cone", "cone"]);
    expect(kinds(180)).toEqual(["wheel", "internal-wheel"]);
    expect(leaned(wheels, 60).meshes[0]).toMatchObject({ normalForce: 90, friction: 0.2, shaftAngle: 60 });
  });
});

describe("what can't lean is refused with a reason", () => {
  const reason = (drive: Drive, angle: number): string => {
    const result = leanTo(drive, angle)(drive);
    return isRefused(result) ? result.refused : "";
  };

  it("equal gears at 180, flat crowns face to face", () => {
    expect(reason(tree({ stays: 24, leans: 24 }), 180)).toMatch(/two flat crowns face to face/);
    expect(reason(tree({ stays: 24, leans: 24 }), 179)).toBe("");
  });

  it("a gear that another mesh needs as it is", () => {
    const start = tree({ kinds: ["spur", "spur"] });
    const shared: Drive = {
      ...start,
      shafts: [...start.shafts, { id: "H", name: "H" }],
      gears: [...start.gears, toothed("h", "H", "spur", 20, 2)],
      meshes: [...start.meshes, mesh("mh", "a", "h", { azimuth: 200 })],
    };
    expect(reason(shared, 40)).toBe(
      "Mesh m can't become a pair at an angle: mesh mh needs a as the spur gear that it is; take that mesh away first, or stop short of it.",
    );
  });

  it("angles that are none", () => {
    for (const angle of [-1, 181, Number.NaN]) expect(reason(tree(), angle)).toMatch(/choose an angle from 0° to 180°/);
  });
});

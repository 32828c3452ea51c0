import { describe, expect, it } from "vitest";
import type { Drive, Port } from "../../../src/engine/drive/types";
import { toText } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import { differential, mesh, picker, planetary, root, toothed } from "../../support/random-drives";

const speedsOf = (drive: Drive): Record<string, number | null> => {
  const { motion } = solve(drive);
  return Object.fromEntries(drive.shafts.map((shaft, i) => [shaft.id, motion.speed[i] ?? null]));
};
const input = (shaft: string, speed: number): Port => ({ shaft, role: "input", speed });
const held = (shaft: string): Port => ({ shaft, role: "held" });

/** Speed of a carried shaft seen from the ground, as the books give it: its own on top of its carrier's. */
const absolute = (speeds: Record<string, number | null>, planet: string, carrier: string): number =>
  (speeds[planet] as number) + (speeds[carrier] as number);

describe("epicyclic trains of the handbooks", () => {
  it("Khurmi & Gupta, Theory of Machines, Example 13.6: annulus 72 held, sun 32, arm at 18", () => {
    const speeds = speedsOf(planetary(32, 20, 72, 1, [input("C", 18), held("R")]));
    expect(speeds.S).toBe(58.5);
    expect(absolute(speeds, "P1", "C")).toBeCloseTo(-46.8, 12);
  });

  it("Shigley, Mechanical Engineering Design, planetary example (from memory): 20/30/80, sun -100", () => {
    const speeds = speedsOf(planetary(20, 30, 80, 1, [input("S", -100), held("R")]));
    expect(speeds.C).toBe(-20);
    expect(absolute(speeds, "P1", "C")).toBeCloseTo(33.33, 2);
  });

  it("Khurmi & Gupta, Example 13.4: two gears 36/45 and an arm at 150", () => {
    const drive = (ports: Port[]): Drive => ({
      ...planetary(36, 45, 126, 1, ports),
      meshes: [mesh("m", "s", "p1")],
      shafts: planetary(36, 45, 126, 1).shafts.filter((shaft) => shaft.id !== "R"),
      gears: planetary(36, 45, 126, 1).gears.filter((gear) => gear.id !== "r"),
    });
    const fixed = speedsOf(drive([input("C", 150), held("S")]));
    expect(absolute(fixed, "P1", "C")).toBeCloseTo(270, 12);
    const turned = speedsOf(drive([input("C", 150), input("S", -300)]));
    expect(absolute(turned, "P1", "C")).toBeCloseTo(510, 12);
  });

  it("Khurmi & Gupta, Example 13.13, Ferguson's paradox: 101 goes on, 99 goes back", () => {
    // Gears of 99, 100 and 101 teeth on one line with one planet of 20: three modules make the three centre distances equal.
    const z = { a: 100, c: 101, d: 99, planet: 20 };
    const module = (teeth: number): number => 120 / (teeth + z.planet);
    const drive: Drive = {
      title: "Paradox",
      notes: "",
      shafts: [
        root("A"),
        { id: "arm", name: "", coaxial: "A" },
        { id: "C", name: "", coaxial: "A" },
        { id: "D", name: "", coaxial: "A" },
        { id: "P", name: "", frame: "arm" },
      ],
      gears: [
        toothed("a", "A", "spur", z.a, module(z.a), { at: 0 }),
        toothed("pa", "P", "spur", z.planet, module(z.a), { at: 0 }),
        toothed("c", "C", "spur", z.c, module(z.c), { at: 30 }),
        toothed("pc", "P", "spur", z.planet, module(z.c), { at: 30 }),
        toothed("d", "D", "spur", z.d, module(z.d), { at: 60 }),
        toothed("pd", "P", "spur", z.planet, module(z.d), { at: 60 }),
      ],
      meshes: [mesh("m1", "a", "pa"), mesh("m2", "c", "pc"), mesh("m3", "d", "pd")],
      ports: [held("A"), input("arm", 1)],
    };
    const { motion, index } = solve(drive);
    expect(toText(motion.speeds[index.shafts.get("C") as number] as never)).toBe("1/101");
    expect(toText(motion.speeds[index.shafts.get("D") as number] as never)).toBe("-1/99");
  });

  it("Willis equation: three modes of 20/20/60", () => {
    expect(speedsOf(planetary(20, 20, 60, 3, [input("S", 100), held("R")])).C).toBe(25);
    expect(speedsOf(planetary(20, 20, 60, 3, [input("R", 100), held("S")])).C).toBe(75);
    expect(speedsOf(planetary(20, 20, 60, 3, [input("S", 300), held("C")])).R).toBe(-100);
  });

  it("Khurmi & Gupta, Example 13.16: bevel 40, idler 50, bevel 30, arm 100, first -100 gives 366.7", () => {
    const tall = (3 * 50) / 2;
    const drive: Drive = {
      ...differential(40, 50),
      shafts: [
        root("A"),
        { id: "B", name: "", coaxial: "A" },
        { id: "C", name: "", coaxial: "A" },
        { id: "P", name: "", frame: "C" },
      ],
      gears: [
        toothed("a", "A", "bevel", 40, 3, { at: -tall, apex: "+" }),
        toothed("p1", "P", "bevel", 50, 3, { at: 0, apex: "-" }),
        // The idler's second face, cut for a pinion of 30 at its own cone.
        toothed("p2", "P", "bevel", 50, 3, { at: 0, apex: "-" }),
        toothed("b", "B", "bevel", 30, 3, { at: tall, apex: "-" }),
      ],
      meshes: [mesh("m1", "a", "p1", { shaftAngle: 90 }), mesh("m2", "p2", "b", { shaftAngle: 90 })],
      ports: [input("C", 100), input("A", -100)],
    };
    // Its apexes differ by the height of the cones (60 against 45 mm): move the second idler face so that they meet.
    const gears = drive.gears.map((gear) => (gear.id === "p2" ? { ...gear, at: -15 } : gear));
    expect(speedsOf({ ...drive, gears }).B).toBeCloseTo(366.7, 1);
  });

  it("Sarkar, Theory of Machines, Illustration 4.16: crown at 200, one wheel 210, the other 190", () => {
    expect(speedsOf(differential(20, 12, 2, [input("C", 200), input("L", 210)])).R).toBe(190);
  });

  it("an open differential adds: carrier = (left + right)/2, signs kept (Willis equation)", () => {
    for (const [left, right, carrier] of [
      [120, 80, 100],
      [-50, 150, 50],
      [60, -60, 0],
    ] as const) {
      expect(speedsOf(differential(24, 16, 2, [input("L", left), input("R", right)])).C).toBe(carrier);
    }
  });

  it("agrees with the table method on random planetary sets", () => {
    // Table method (Khurmi & Gupta, ch. 13): arm y, sun x + y, ring y - x zs/zr, planet y - x zs/zp.
    const pick = picker(7);
    for (let i = 0; i < 200; i++) {
      const [zs, zp] = [pick.whole(15, 60), pick.whole(15, 40)];
      const zr = zs + 2 * zp;
      const [x, y] = [pick.whole(-500, 500), pick.whole(-500, 500)];
      const speeds = speedsOf(planetary(zs, zp, zr, 1, [input("S", x + y), input("C", y)]));
      expect(speeds.R).toBeCloseTo(y - (x * zs) / zr, 9);
      expect(absolute(speeds, "P1", "C")).toBeCloseTo(y - (x * zs) / zp, 9);
    }
  });
});

import { describe, expect, it } from "vitest";
import type { Drive, Port } from "../../../src/engine/drive/types";
import { toText } from "../../../src/engine/motion/rational";
import { solve } from "../../../src/engine/solve";
import { chain, differential, mesh, planetary, root, toothed } from "../../support/random-drives";

const input = (shaft: string, speed: number): Port => ({ shaft, role: "input", speed });
const held = (shaft: string): Port => ({ shaft, role: "held" });
const codes = (drive: Drive): string[] => solve(drive).findings.map((finding) => finding.code);

const twoSpurs = (ports: readonly Port[] = []): Drive => ({
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "" }],
  gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 40, 2)],
  meshes: [mesh("m", "a", "b")],
  ports,
});

/** Equal gears on the corners of an equilateral triangle, each meshing with both others. */
const threeInARing = (ports: readonly Port[]): Drive => ({
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "" }, { id: "C", name: "" }],
  gears: ["a", "b", "c"].map((id) => toothed(id, id.toUpperCase(), "spur", 24, 2)),
  meshes: [mesh("m1", "a", "b"), mesh("m2", "a", "c", { azimuth: 60 }), mesh("m3", "b", "c")],
  ports,
});

describe("the four statuses (format.md, Motion, the table of examples)", () => {
  it("two spurs without ports: mobility 1, free, both null", () => {
    const { motion, findings } = solve(twoSpurs());
    expect([motion.mobility, motion.status, motion.missingInputs]).toEqual([1, "free", 1]);
    expect(motion.speed).toEqual([null, null]);
    expect(findings.find((finding) => finding.code === "free")?.message).toContain("1 more input is needed");
  });

  it("three spurs, each meshing with the two others, input 100: mobility 0, locked", () => {
    const { motion, findings } = solve(threeInARing([input("A", 100)]));
    expect([motion.mobility, motion.status]).toEqual([0, "locked"]);
    expect(motion.speed).toEqual([0, 0, 0]);
    expect(motion.ratios).toEqual([null, null, null]);
    expect(findings.find((finding) => finding.code === "locked")?.severity).toBe("error");
  });

  it("planetary, ring held, sun 100: mobility 2, determined", () => {
    const { motion } = solve(planetary(20, 20, 60, 3, [held("R"), input("S", 100)]));
    expect([motion.mobility, motion.status]).toEqual([2, "determined"]);
  });

  it("planetary, ring held alone: free, ring 0, the others null", () => {
    const { motion } = solve(planetary(20, 20, 60, 1, [held("R")]));
    expect([motion.mobility, motion.status, motion.missingInputs]).toEqual([2, "free", 1]);
    expect(motion.speed).toEqual([null, null, 0, null]);
  });

  it("planetary, ring and carrier held, sun 10: mobility 2, conflict, motion null", () => {
    const { motion, findings } = solve(planetary(20, 20, 60, 1, [held("R"), held("C"), input("S", 10)]));
    expect([motion.mobility, motion.status]).toEqual([2, "conflict"]);
    expect(motion.speed).toEqual([null, null, null, null]);
    expect(findings.find((finding) => finding.code === "contradiction")?.at).toContain("S");
  });

  it("held ports that agree are no conflict", () => {
    expect(solve(planetary(20, 20, 60, 1, [held("R"), held("C"), held("S")])).motion.status).toBe("determined");
  });

  it("a locked part beside one that moves: its shafts 0, the error locked, the status by the table", () => {
    const ring = threeInARing([]);
    const own = twoSpurs([input("X", 30)]);
    const drive: Drive = {
      ...ring,
      shafts: [
        ...ring.shafts,
        { ...root("X"), pose: { origin: [0, 500, 0], axis: [1, 0, 0], ref: [0, 0, 1] } },
        { id: "Y", name: "" },
      ],
      gears: [...ring.gears, toothed("x", "X", "spur", 20, 2), toothed("y", "Y", "spur", 60, 2)],
      meshes: [...ring.meshes, mesh("m9", "x", "y")],
      ports: own.ports,
    };
    const { motion } = solve(drive);
    expect([motion.mobility, motion.status]).toEqual([1, "determined"]);
    expect(motion.speed).toEqual([0, 0, 0, 30, -10]);
    expect(codes(drive)).toContain("locked");
  });

  it("an open differential says how its shafts hang together", () => {
    const { findings } = solve(differential(24, 16, 2, [input("C", 100)]));
    expect(findings.find((finding) => finding.code === "free")?.message).toContain("(L + R)/2 = C");
  });

  it("a single shaft without gears has one way to turn", () => {
    const drive: Drive = { title: "", notes: "", shafts: [root("A")], gears: [], meshes: [], ports: [] };
    expect(solve(drive).motion.mobility).toBe(1);
    expect(solve(drive).motion.status).toBe("free");
  });

  it("a shaft that nothing reaches is left out of mobility and status", () => {
    const drive = twoSpurs([input("A", 10)]);
    const lone: Drive = { ...drive, shafts: [...drive.shafts, { id: "Z", name: "" }] };
    const { motion, placement } = solve(lone);
    expect([motion.mobility, motion.status]).toEqual([1, "determined"]);
    expect([motion.speed[2], placement.shafts[2]]).toEqual([null, null]);
    expect(codes(lone)).toContain("unreached");
  });
});

describe("exactness", () => {
  it("speed is read as an exact decimal", () => {
    const { motion } = solve(twoSpurs([input("A", 0.1)]));
    expect(toText(motion.speeds[1] as never)).toBe("-1/20");
  });

  it("diameters are read as exact decimals: 33.3 to 100 is 333/1000", () => {
    const wheel = { ...twoSpurs([input("A", 1)]) };
    const drive: Drive = {
      ...wheel,
      gears: wheel.gears.map((gear, i) => {
        const { teeth: _teeth, module: _module, ...rest } = gear as never as Record<string, unknown>;
        return { ...rest, kind: "wheel", diameter: i === 0 ? 33.3 : 100 } as never;
      }),
    };
    expect(toText(solve(drive).motion.ratios[1] as never)).toBe("-333/1000");
  });

  it("a loop that fits to the last micrometre still locks where its ratios differ by two teeth in 100,000", () => {
    // Both pairs have a centre distance of 100 mm exactly: 100 + 100 at module 1, 99,999 + 100,001 at module 0.001.
    const loop = (teeth: readonly [number, number]): Drive => ({
      title: "",
      notes: "",
      shafts: [root("A"), { id: "B", name: "" }],
      gears: [
        toothed("a1", "A", "spur", 100, 1),
        toothed("b1", "B", "spur", 100, 1),
        toothed("a2", "A", "spur", teeth[0], 0.001, { at: 50 }),
        toothed("b2", "B", "spur", teeth[1], 0.001, { at: 50 }),
      ],
      meshes: [mesh("m1", "a1", "b1"), mesh("m2", "a2", "b2")],
      ports: [input("A", 1)],
    });
    expect(solve(loop([99_999, 100_001])).motion.status).toBe("locked");
    expect(solve(loop([100_000, 100_000])).motion.status).toBe("determined");
    expect(codes(loop([99_999, 100_001]))).not.toContain("loop-misfit");
  });

  it("10,000 stages stay exact; a ratio too long to write is null with a note", () => {
    const drive = chain(10_000);
    const { motion, findings } = solve(drive);
    // Independent: the product of all teeth, as two big integers, cross-multiplied.
    let [driving, driven] = [1n, 1n];
    const teeth = new Map(
      drive.gears.map((gear) => [gear.id, { shaft: gear.shaft, teeth: (gear as { teeth: number }).teeth }]),
    );
    for (const { gears } of drive.meshes) {
      const ends = gears.map((id) => teeth.get(id) as { shaft: string; teeth: number });
      ends.sort((a, b) => Number(a.shaft.slice(1)) - Number(b.shaft.slice(1)));
      driving *= BigInt((ends[0] as { teeth: number }).teeth);
      driven *= -BigInt((ends[1] as { teeth: number }).teeth);
    }
    const last = motion.speeds.at(-1) as { n: bigint; d: bigint };
    expect(last.n * driven === 100n * driving * last.d).toBe(true);
    expect(motion.ratios.at(-1)).toBeNull();
    expect(findings.some((finding) => finding.code === "ratio-long")).toBe(true);
  });
});

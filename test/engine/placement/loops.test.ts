import { describe, expect, it } from "vitest";
import type { Drive } from "../../../src/engine/drive/types";
import type { Finding } from "../../../src/engine/findings";
import { solve } from "../../../src/engine/solve";
import { differential, mesh, planetary, root, toothed } from "../../support/random-drives";

const finding = (drive: Drive, code: string): Finding | undefined =>
  solve(drive).findings.find((found) => found.code === code);

/** A pair between two roots `apart` mm from each other, so that its mesh closes a loop. Needed: 60 mm. */
const twoRoots = (apart: number, lean = 0): Drive => ({
  title: "",
  notes: "",
  shafts: [
    root("A"),
    { id: "B", name: "", pose: { origin: [0, 0, apart], axis: [Math.cos(lean), 0, Math.sin(lean)], ref: [0, 1, 0] } },
  ],
  gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 40, 2)],
  meshes: [mesh("m", "a", "b")],
  ports: [{ shaft: "A", role: "input", speed: 100 }],
});

describe("a mesh between placed shafts closes a loop (format.md, Placing)", () => {
  it("fits up to 1e-6 module", () => {
    expect(finding(twoRoots(60.000001), "loop-misfit")).toBeUndefined();
    expect(finding(twoRoots(60.000003), "loop-misfit")).toBeDefined();
  });

  it("up to 0.02 module is a warning that says the misfit in mm, and is solved as if it fitted", () => {
    const found = finding(twoRoots(60.039), "loop-misfit");
    expect(found?.severity).toBe("warning");
    expect(found?.message).toContain("0.039 mm");
    expect(solve(twoRoots(60.039)).motion.speed).toEqual([100, -50]);
  });

  it("beyond it is an error, and what is joined to it has no numbers", () => {
    const found = finding(twoRoots(60.041), "loop-misfit");
    expect(found?.severity).toBe("error");
    expect(found?.message).toContain("0.041 mm");
    const { motion, load } = solve(twoRoots(60.041));
    expect(motion.speed).toEqual([null, null]);
    expect(motion.ratios).toEqual([null, null]);
    expect(load.shafts.map((shaft) => shaft.torque)).toEqual([null, null]);
  });

  it("a lean of up to 0.1 degree is a warning that says the degrees, beyond it an error", () => {
    const degree = Math.PI / 180;
    expect(finding(twoRoots(60, 0.09 * degree), "loop-misfit")?.severity).toBe("warning");
    expect(finding(twoRoots(60, 0.09 * degree), "loop-misfit")?.message).toContain("0.09°");
    expect(finding(twoRoots(60, 0.11 * degree), "loop-misfit")?.severity).toBe("error");
  });

  it("planets between sun and ring fit; a sun of one tooth more does not", () => {
    expect(finding(planetary(18, 21, 60, 3), "loop-misfit")).toBeUndefined();
    expect(finding(planetary(19, 21, 60, 3), "loop-misfit")?.severity).toBe("error");
  });

  it("a differential's far side gear fits where both apexes meet, and not 1 mm away", () => {
    expect(finding(differential(24, 16), "loop-misfit")).toBeUndefined();
    const drive = differential(24, 16);
    const off = { ...drive, gears: drive.gears.map((gear) => (gear.id === "r" ? { ...gear, at: gear.at + 1 } : gear)) };
    expect(finding(off, "loop-misfit")?.message).toContain("1 mm");
  });
});

describe("what placement says of a pair", () => {
  const bevelOnce = (angle: number): Drive => ({
    title: "",
    notes: "",
    shafts: [root("A"), { id: "B", name: "" }, { id: "C", name: "" }],
    gears: [toothed("a", "A", "bevel", 20, 2), toothed("b", "B", "bevel", 40, 2), toothed("c", "C", "bevel", 40, 2)],
    meshes: [mesh("m1", "a", "b", { shaftAngle: 90 }), mesh("m2", "a", "c", { shaftAngle: angle, azimuth: 180 })],
    ports: [{ shaft: "A", role: "input", speed: 100 }],
  });

  it("a bevel gear has one pitch cone: that of the first mesh that names it", () => {
    expect(finding(bevelOnce(90), "cone-mismatch")).toBeUndefined();
    const found = finding(bevelOnce(60), "cone-mismatch");
    expect(found?.at).toEqual(["m2", "a"]);
    // atan(20/40) and atan2(sin 60, 2 + cos 60): 26.57 and 19.11 degrees (references: bevel-60-20-40).
    expect(found?.message).toContain("19.11°");
    expect(found?.message).toContain("26.57°");
    expect(solve(bevelOnce(60)).motion.speed).toEqual([null, null, null]);
  });

  it("faces that pass one another", () => {
    const drive = twoRoots(60);
    const apart = { ...drive, gears: drive.gears.map((gear) => (gear.id === "b" ? { ...gear, at: 10 } : gear)) };
    expect(finding(apart, "no-common-face")?.severity).toBe("error");
    const partly = { ...drive, gears: drive.gears.map((gear) => (gear.id === "b" ? { ...gear, at: 4 } : gear)) };
    expect(solve(partly).placement.meshes[0]?.width).toBeCloseTo(6, 12);
  });

  it("a planet meshing with a shaft that is not on its carrier's axis shares no frame with it", () => {
    const drive = planetary(20, 20, 60, 1);
    const stray: Drive = {
      ...drive,
      shafts: [...drive.shafts, { id: "X", name: "" }],
      gears: [...drive.gears, toothed("x", "X", "spur", 20, 2)],
      meshes: [...drive.meshes, mesh("m9", "p1", "x", { azimuth: 90 })],
    };
    expect(finding(stray, "no-shared-frame")?.at[0]).toBe("m9");
  });

  it("passes: a mesh later in the file may use a shaft placed in the same pass, an earlier one waits for the next", () => {
    const spur = (id: string, shaft: string) => toothed(id, shaft, "spur", 20, 2);
    const drive: Drive = {
      title: "",
      notes: "",
      shafts: [root("A"), { id: "B", name: "" }, { id: "C", name: "" }],
      gears: [
        spur("a", "A"),
        spur("b", "B"),
        spur("c", "C"),
        toothed("c2", "C", "spur", 20, 2, { at: 30 }),
        toothed("a2", "A", "spur", 20, 2, { at: 30 }),
      ],
      // B-C waits in pass 1 (neither placed); A-B places B; then A2-C2 places C before pass 2 comes to B-C.
      meshes: [mesh("m1", "b", "c"), mesh("m2", "a", "b"), mesh("m3", "a2", "c2", { azimuth: 60 })],
      ports: [],
    };
    const { placement } = solve(drive);
    expect(placement.shafts.map((shaft) => shaft?.placedBy)).toEqual(["pose", "m2", "m3"]);
    expect(placement.meshes[0]?.closesLoop).toBe(true);
  });
});

describe("errors of a pair by itself", () => {
  const pair = (a: Partial<{ module: number; pressureAngle: number; shift: number }>, b: typeof a): Drive => {
    const drive = twoRoots(60);
    const shafts = [root("A"), { id: "B", name: "" }];
    const gears = drive.gears.map((gear, i) => ({ ...gear, ...(i === 0 ? a : b) })) as Drive["gears"];
    return { ...drive, shafts, gears };
  };

  it("module, pressure angle", () => {
    expect(finding(pair({ module: 2.5 }, {}), "module-mismatch")?.message).toContain("2.5 mm");
    expect(finding(pair({ pressureAngle: 14.5 }, {}), "pressure-angle-mismatch")?.message).toContain("14.5°");
    expect(finding(pair({}, {}), "module-mismatch")).toBeUndefined();
  });

  it("shifts that do not cancel say the centre distance that they need", () => {
    expect(finding(pair({ shift: 0.3 }, { shift: -0.3 }), "shift-sum")).toBeUndefined();
    // Independent: inv αw = inv 20° + 2 tan 20° · 0.5/60 solved by bisection, a = 60 cos 20°/cos αw (ISO 21771).
    const alpha = (20 * Math.PI) / 180;
    const target = Math.tan(alpha) - alpha + (2 * Math.tan(alpha) * 0.5) / 60;
    let [low, high] = [0, 1];
    for (let i = 0; i < 100; i++) {
      const middle = (low + high) / 2;
      if (Math.tan(middle) - middle < target) low = middle;
      else high = middle;
    }
    const needed = (60 * Math.cos(alpha)) / Math.cos(low);
    expect(finding(pair({ shift: 0.3 }, { shift: 0.2 }), "shift-sum")?.message).toContain(`${needed.toFixed(3)} mm`);
  });

  it("a ring smaller than its pinion, and one of the same size", () => {
    const ring = (teeth: number): Drive => {
      const drive = pair({}, {});
      return { ...drive, gears: [drive.gears[0] as never, toothed("b", "B", "internal", teeth, 2)] };
    };
    expect(finding(ring(19), "ring-too-small")?.severity).toBe("error");
    expect(finding(ring(20), "ring-too-small")?.severity).toBe("error");
    expect(finding(ring(60), "ring-too-small")).toBeUndefined();
  });

  it("a cone next to 0 or 180 degrees degenerates, with a sentence and finite numbers", () => {
    for (const angle of [1e-7, 180 - 1e-7]) {
      const drive: Drive = {
        ...twoRoots(60),
        shafts: [root("A"), { id: "B", name: "" }],
        gears: [toothed("a", "A", "bevel", 20, 2), toothed("b", "B", "bevel", 40, 2)],
        meshes: [mesh("m", "a", "b", { shaftAngle: angle })],
      };
      expect(finding(drive, "cone-degenerate")?.severity).toBe("error");
      for (const shaft of solve(drive).placement.shafts) expect(shaft?.origin.every(Number.isFinite)).toBe(true);
    }
  });
});

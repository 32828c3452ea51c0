import { describe, expect, it } from "vitest";
import { type Drive, type Gear, hasTeeth } from "../../../src/engine/drive/types";
import { GEAR_FORMS } from "../../../src/engine/mesh-kinds/gear-forms";
import { kindOf, MESH_KINDS } from "../../../src/engine/mesh-kinds/list";
import { solve } from "../../../src/engine/solve";
import { mesh, root, toothed, toothless } from "../../support/random-drives";
import references from "../references.json";

/** The smallest drive of each kind: 20 on 60 (teeth, or mm times two), 60 degrees where axes meet. */
function pairOf(kind: (typeof MESH_KINDS)[number], from: 0 | 1): Drive {
  const [first, second] = kind.pairs;
  const gear = (id: string, shaft: string, form: Gear["kind"], size: number): Gear =>
    GEAR_FORMS[form].hasTeeth
      ? toothed(id, shaft, form as "spur", size, 2)
      : toothless(id, shaft, form as "wheel", 2 * size);
  const ids = from === 0 ? (["A", "B"] as const) : (["B", "A"] as const);
  return {
    title: kind.id,
    notes: "",
    shafts: [root("A"), { id: "B", name: "" }],
    gears: [gear("one", ids[0], first, 20), gear("two", ids[1], second, 60)],
    meshes: [
      mesh("m", "one", "two", {
        ...(kind.needsShaftAngle ? { shaftAngle: 60 } : {}),
        ...(kind.isFriction ? { normalForce: 500, friction: 0.3 } : { efficiency: 0.98 }),
      }),
    ],
    ports: [
      { shaft: ids[0], role: "input", speed: 90 },
      { shaft: ids[1], role: "output", torque: 3 },
    ],
  };
}

describe("every kind of mesh places, turns, loads, checks and speaks", () => {
  for (const kind of MESH_KINDS) {
    for (const from of [0, 1] as const) {
      it(`${kind.id}, placed from its ${from === 0 ? "first" : "second"} gear`, () => {
        const drive = pairOf(kind, from);
        const { placement, motion, load, findings } = solve(drive);
        expect(kindOf(kind.pairs[1], kind.pairs[0])).toBe(kind);
        // Places: all that stands is finite, and both gears touch where the contact line says.
        expect(placement.shafts.every((shaft) => shaft?.origin.every(Number.isFinite))).toBe(true);
        expect(placement.meshes[0]?.width).toBe(10);
        // Turns: a third as fast, in size.
        expect(Math.abs(motion.speed[from === 0 ? 1 : 0] as number)).toBe(30);
        // Loads: action equals reaction, power in is power out and losses.
        const [one, two] = load.shafts;
        const loss = load.meshes[0]?.loss as number;
        expect((one?.power as number) + (two?.power as number)).toBeCloseTo(loss, 9);
        const ft = load.meshes[0]?.tangentialForce as number;
        const efficiency = drive.meshes[0]?.efficiency as number;
        const outRadius = kind.forceRadii(
          { mesh: drive.meshes[0] as never, gears: drive.gears as never, shape: placement.meshes[0]?.shape as never },
          10,
        )[1];
        expect(ft).toBeCloseTo(3 / efficiency / (outRadius / 1000), 6);
        const radial = load.meshes[0]?.radialForces;
        expect(radial?.every(Number.isFinite)).toBe(true);
        // Checks: a sound pair has no error.
        expect(findings.filter((finding) => finding.severity === "error")).toEqual([]);
        // Speaks.
        expect(kind.words.name.length).toBeGreaterThan(3);
        expect(kind.words.direction).toMatch(/turn/);
        expect(hasTeeth(drive.gears[0] as Gear)).toBe(!kind.isFriction);
      });
    }
  }
});

interface Reference {
  readonly id: string;
  readonly topic: string;
  readonly source: string;
  readonly given: Readonly<Record<string, number>>;
  readonly expect: Readonly<Record<string, number | string>>;
}
const list = references as unknown as Reference[];

describe("bevel geometry against published values", () => {
  for (const { id, source, given, expect: expected } of list.filter((entry) => entry.topic === "bevel-cone")) {
    const z1 = given.z1 ?? given.zP;
    const z2 = given.z2 ?? given.zG;
    const angle = given.shaft_angle_deg;
    if (z1 === undefined || z2 === undefined || angle === undefined) continue;
    it(`${id}: ${source}`, () => {
      const inch = given.Pd_per_in !== undefined;
      const module = inch ? 25.4 / (given.Pd_per_in as number) : (given.module_mm ?? 1);
      const drive: Drive = {
        title: "",
        notes: "",
        shafts: [root("A"), { id: "B", name: "" }],
        gears: [toothed("a", "A", "bevel", z1, module), toothed("b", "B", "bevel", z2, module)],
        meshes: [mesh("m", "a", "b", { shaftAngle: angle })],
        ports: [],
      };
      const [a, b] = solve(drive).placement.gears;
      let checked = 0;
      const check = (name: string, value: number | null | undefined): void => {
        const wanted = expected[name];
        if (typeof wanted !== "number") return;
        // 0.05 percent, the widest that the list gives these entries: printed values have four figures.
        expect(Math.abs((value as number) - wanted)).toBeLessThan(5e-4 * Math.abs(wanted));
        checked++;
      };
      check("delta1_deg", a?.pitchAngle);
      check("delta2_deg", b?.pitchAngle);
      check("gammaP_deg", a?.pitchAngle);
      check("gammaG_deg", b?.pitchAngle);
      check("Re_mm", a?.coneDistance);
      check("R_mm", a?.coneDistance);
      check("outer_cone_distance_in", (a?.coneDistance ?? 0) / 25.4);
      check("zv1", z1 / Math.cos(((a?.pitchAngle ?? 0) * Math.PI) / 180));
      check("d1_mm", a?.pitchDiameter);
      check("d2_mm", b?.pitchDiameter);
      if (Object.keys(expected).some((key) => /^(delta|gamma|Re|R_mm|zv1)/.test(key)))
        expect(checked).toBeGreaterThan(0);
    });
  }
});

describe("contact ratio against published values", () => {
  const ratioOf = (z1: number, z2: number, module: number, alpha: number, addendum: number, ring = false): number => {
    const drive: Drive = {
      title: "",
      notes: "",
      shafts: [root("A"), { id: "B", name: "" }],
      gears: [
        toothed("a", "A", "spur", z1, module, { pressureAngle: alpha, addendum }),
        toothed("b", "B", ring ? "internal" : "spur", z2, module, { pressureAngle: alpha, addendum }),
      ],
      meshes: [mesh("m", "a", "b")],
      ports: [],
    };
    return solve(drive).load.meshes[0]?.contactRatio as number;
  };

  it("Khurmi & Gupta, Theory of Machines, Example 12.3: 30/80, module 12, addendum 10 mm: path 52.3 mm, ratio 1.475", () => {
    const ratio = ratioOf(30, 80, 12, 20, 10 / 12);
    expect(ratio).toBeCloseTo(1.475, 2);
    expect(ratio * Math.PI * 12 * Math.cos(Math.PI / 9)).toBeCloseTo(52.3, 1);
  });

  it("Khurmi & Gupta, Example 12.4: 20/40, module 5: 1.635", () => {
    expect(ratioOf(20, 40, 5, 20, 1)).toBeCloseTo(1.635, 3);
  });

  it("Bevan, The Theory of Machines, ch. X Example 6: 28/45 at 14.5 and 20 degrees: 2.007 and 1.687", () => {
    expect(ratioOf(28, 45, 1, 14.5, 1)).toBeCloseTo(2.007, 3);
    expect(ratioOf(28, 45, 1, 20, 1)).toBeCloseTo(1.687, 3);
  });

  it("standard formula, full depth, 20 degrees: 17/17 1.515, 20/20 1.557, 20/100 1.7047, 30/30 1.654", () => {
    expect(ratioOf(17, 17, 2, 20, 1)).toBeCloseTo(1.515, 3);
    expect(ratioOf(20, 20, 2, 20, 1)).toBeCloseTo(1.557, 3);
    expect(ratioOf(20, 100, 2, 20, 1)).toBeCloseTo(1.7047, 3);
    expect(ratioOf(30, 30, 2, 20, 1)).toBeCloseTo(1.654, 3);
  });

  it("Khurmi & Gupta, Example 12.7: pinion 18 (addendum 8.5 mm) in a ring of 72 (3.5 mm), module 4: path 28.04 mm", () => {
    const drive: Drive = {
      title: "",
      notes: "",
      shafts: [root("A"), { id: "B", name: "" }],
      gears: [
        toothed("a", "A", "spur", 18, 4, { addendum: 8.5 / 4 }),
        toothed("b", "B", "internal", 72, 4, { addendum: 3.5 / 4 }),
      ],
      meshes: [mesh("m", "a", "b")],
      ports: [],
    };
    const ratio = solve(drive).load.meshes[0]?.contactRatio as number;
    expect(ratio * Math.PI * 4 * Math.cos(Math.PI / 9)).toBeCloseTo(28.04, 2);
  });

  it("the rack: a crown gear of 90 degrees is met as by a rack, continuous from both sides", () => {
    const bevel = (angle: number): number => {
      const drive: Drive = {
        title: "",
        notes: "",
        shafts: [root("A"), { id: "B", name: "" }],
        gears: [toothed("a", "A", "bevel", 24, 2.5), toothed("b", "B", "bevel", 48, 2.5)],
        meshes: [mesh("m", "a", "b", { shaftAngle: angle })],
        ports: [],
      };
      return solve(drive).load.meshes[0]?.contactRatio as number;
    };
    const crown = bevel(120);
    expect(bevel(120 - 1e-6)).toBeCloseTo(crown, 6);
    expect(bevel(120 + 1e-6)).toBeCloseTo(crown, 6);
    // Rack and pinion, closed form: (sqrt(ra² - rb²) - r sin α + ha/sin α)/(π m cos α) on the virtual pinion of 24/cos 30 teeth.
    const alpha = Math.PI / 9;
    const r = (2.5 * 24) / Math.cos(Math.PI / 6) / 2;
    const path = Math.sqrt((r + 2.5) ** 2 - (r * Math.cos(alpha)) ** 2) - r * Math.sin(alpha) + 2.5 / Math.sin(alpha);
    expect(crown).toBeCloseTo(path / (Math.PI * 2.5 * Math.cos(alpha)), 9);
  });
});

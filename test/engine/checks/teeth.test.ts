/** Checks of teeth against published limits: undercut, interference, contact ratio, face width, ratio, pitch speed. */
import { expect, test } from "vitest";
import { excessHeight, heightReaching } from "../../../src/engine/checks/interference";
import { undercutLimit } from "../../../src/engine/checks/undercut";
import { tipReach } from "../../../src/engine/mesh-kinds/tooth-action";
import { bevels, codes, mixer, numberOf, only, pairOf, reference, spurs } from "../explain/build";

const DEGREE = Math.PI / 180;

test("undercut limits are those of the textbooks (limits-undercut-rack: AGMA)", () => {
  const { expect: table } = reference("limits-undercut-rack");
  expect(undercutLimit(1, 0, 14.5 * DEGREE)).toBeCloseTo(numberOf(table, "exact_14_5"), 1);
  expect(undercutLimit(1, 0, 20 * DEGREE)).toBeCloseTo(numberOf(table, "exact_20"), 1);
  expect(undercutLimit(1, 0, 25 * DEGREE)).toBeCloseTo(numberOf(table, "exact_25"), 1);
  expect(undercutLimit(0.8, 0, 20 * DEGREE)).toBeCloseTo(numberOf(table, "exact_stub_20"), 2);
  expect(undercutLimit(1, 0, 22.5 * DEGREE)).toBeCloseTo(numberOf(table, "exact_22_5"), 2);
});

test.each([
  [16, "warning"],
  [17, "note"],
  [18, undefined],
])("%i teeth at 20 degrees: %s", (teeth, severity) => {
  expect(only(spurs(teeth, 40), "undercut")[0]?.severity).toBe(severity);
});

test("a limit that is whole is met by that number: 8 teeth at 30 degrees (2 / sin² 30 = 8)", () => {
  expect(only(spurs(8, 40, { pressureAngle: 30 }), "undercut")).toEqual([]);
  expect(only(spurs(7, 40, { pressureAngle: 30 }), "undercut")[0]?.severity).toBe("warning");
});

test("the shift that avoids undercut is the published one (limits-profile-shift-undercut)", () => {
  const { expect: table } = reference("limits-profile-shift-undercut");
  for (const teeth of [8, 10, 12, 14]) {
    const shift = numberOf(table, `x_${teeth}`);
    const pair = (x: number) => pairOf(["spur", "spur"], { teeth, shift: x }, { teeth: 60, shift: -x });
    expect(only(pair(shift + 1e-4), "undercut")).toEqual([]);
    expect(only(pair(shift - 1e-4), "undercut")).toHaveLength(1);
    const said = /shift of at least ([\d.]+)/.exec(only(spurs(teeth, 60), "undercut")[0]?.message ?? "");
    // Rounded up to a thousandth, so that what is printed does avoid it.
    expect(Number(said?.[1]) - shift).toBeGreaterThanOrEqual(-5e-5);
    expect(Number(said?.[1]) - shift).toBeLessThan(1.1e-3);
  }
});

test("bevel gears count by their virtual teeth, once for each gear (Jindal 27-2: 20 teeth count as 22.88)", () => {
  const { expect: table } = reference("bevel-jindal-27-2-virtual");
  expect(20 / Math.cos(Math.atan(20 / 36))).toBeCloseTo(numberOf(table, "zv1"), 1);
  // 15 teeth against 15 at 90 degrees count as 21.2: no undercut, though 15 would be on a spur gear.
  expect(only(bevels(15, 15, 90), "undercut")).toEqual([]);
  // 16 / cos(atan(16/64)) = 16.49: a warning with the figure.
  const [found] = only(bevels(16, 64, 90), "undercut");
  expect(found?.severity).toBe("warning");
  expect(found?.message).toContain("counts as 16.49 on its back cone");
});

test("rings and crown gears are not undercut by a rack", () => {
  expect(only(pairOf(["spur", "internal"], { teeth: 20 }, { teeth: 40 }), "undercut")).toEqual([]);
  // cos 120 = -1/2: a flat crown of 14 teeth would need a pinion of 7, which is the one undercut.
  expect(only(bevels(7, 14, 120), "undercut").map((finding) => finding.at)).toEqual([["a"]]);
});

test.each([
  ["limits-interference-20", 20],
  ["limits-interference-25", 25],
])(
  "largest gear for a given pinion: %s (Mott table 8-6, Norton table 12-4, Shigley eq. 13-12)",
  (id, pressureAngle) => {
    const { expect: table } = reference(id);
    for (const [key, largest] of Object.entries(table)) {
      const pinion = Number(key.slice(1));
      const fouls = (wheel: number) => only(spurs(pinion, wheel, { pressureAngle }), "interference").length > 0;
      if (typeof largest === "number") {
        expect([key, fouls(largest), fouls(largest + 1)]).toEqual([key, false, true]);
      } else if (largest === "unlimited") expect([key, fouls(100_000)]).toEqual([key, false]);
      else expect([key, fouls(pinion)]).toEqual([key, true]);
    }
  },
);

test("smallest pinions of Bevan, The Theory of Machines, ch. X, example 4, and Khurmi & Gupta 12.9", () => {
  const { expect: bevan } = reference("limits-bevan-10-4");
  const least = (wheelOf: (pinion: number) => number): number => {
    for (let z = 8; ; z++) if (only(spurs(z, wheelOf(z)), "interference").length === 0) return z;
  };
  expect(least((z) => z)).toBe(numberOf(bevan, "z_min_equal"));
  expect(least((z) => 3 * z)).toBe(numberOf(bevan, "z_min_ratio_3"));
  expect(least(() => 100_000)).toBe(numberOf(bevan, "z_min_rack"));
  expect(least((z) => 3 * z)).toBe(numberOf(reference("limits-kg-12-9").expect, "z_min"));
});

test("largest addenda of Khurmi & Gupta 12.11 reach just the tangent points", () => {
  const { expect: table } = reference("geom-kg-12-11-max-addendum");
  const alpha = 16 * DEGREE;
  const [r1, r2] = [48, 84];
  const pinion = { curvature: 1 / r1, addendum: 0 };
  const wheel = { curvature: 1 / r2, addendum: 0 };
  expect(heightReaching(pinion, r2 * Math.sin(alpha), alpha)).toBeCloseTo(numberOf(table, "max_addendum_pinion_mm"), 1);
  expect(heightReaching(wheel, r1 * Math.sin(alpha), alpha)).toBeCloseTo(numberOf(table, "max_addendum_wheel_mm"), 1);
});

test("the rack of Khurmi & Gupta 12.14 fouls below 18.435 degrees", () => {
  const { given, expect: table } = reference("geom-kg-12-14-rack");
  const rack = { curvature: 0, addendum: numberOf(given, "addendum_rack_mm") };
  const pinion = { curvature: 2 / numberOf(given, "d_mm"), addendum: numberOf(given, "addendum_pinion_mm") };
  const least = numberOf(table, "min_alpha_deg");
  expect(excessHeight(rack, pinion, (least - 0.01) * DEGREE)).toBeGreaterThan(0);
  expect(excessHeight(rack, pinion, (least + 0.01) * DEGREE)).toBe(0);
});

test("the height that reaches a point is the inverse of the reach of a height, for gears, racks and rings", () => {
  for (const curvature of [1 / 10, 1 / 300, 0, -1 / 300, -1 / 50]) {
    for (const addendum of [0.3, 1, 2.5]) {
      const reach = tipReach({ curvature, addendum }, 20 * DEGREE);
      expect(reach).not.toBeNull();
      expect(heightReaching({ curvature, addendum: 0 }, reach ?? 0, 20 * DEGREE)).toBeCloseTo(addendum, 10);
    }
  }
});

test("each cure that a finding of interference names does cure it", () => {
  for (const [z1, z2] of [
    [12, 36],
    [10, 30],
    [13, 17],
    [17, 1310],
  ] as const) {
    const message = only(spurs(z1, z2), "interference")[0]?.message ?? "";
    const lower = Number(/addendum of at most ([\d.]+)/.exec(message)?.[1]);
    const shift = Number(/\(a ([\d.]+), b/.exec(message)?.[1]);
    expect(only(pairOf(["spur", "spur"], { teeth: z1 }, { teeth: z2, addendum: lower }), "interference")).toEqual([]);
    expect(only(pairOf(["spur", "spur"], { teeth: z1, shift }, { teeth: z2, shift: -shift }), "interference")).toEqual(
      [],
    );
  }
});

test("a ring of 60 stands 0.091 module too deep for 18 teeth: hypot(rb, a sin α) against its tip radius", () => {
  const [r1, r2] = [18, 60];
  const alpha = 20 * DEGREE;
  const least = Math.hypot(r2 * Math.cos(alpha), (r2 - r1) * Math.sin(alpha));
  const solved = pairOf(["spur", "internal"], { teeth: 18 }, { teeth: 60 });
  const [found] = only(solved, "interference");
  expect(found?.at).toEqual(["m", "b", "a"]);
  const printed = Number(/reach ([\d.]+) mm/.exec(found?.message ?? "")?.[1]);
  expect(printed).toBeCloseTo(least - (r2 - 2), 3);
  const shift = Number(/\(a ([\d.]+), b/.exec(found?.message ?? "")?.[1]);
  const cured = pairOf(["spur", "internal"], { teeth: 18, shift }, { teeth: 60, shift });
  expect(only(cured, "interference")).toEqual([]);
  expect(codes(cured)).not.toContain("shift-sum");
});

test("bevel 12/36, 10/30 and 8/24 at 90 degrees interfere, 16/32 does not", () => {
  for (const [z1, z2] of [
    [12, 36],
    [10, 30],
    [8, 24],
  ] as const) {
    expect(only(bevels(z1, z2, 90), "interference")).toHaveLength(1);
  }
  expect(only(bevels(16, 32, 90), "interference")).toEqual([]);
});

test("a crown gear is a rack: its pinion fouls below 17.097 virtual teeth", () => {
  // cos Σ = -z1/z2 makes the second gear flat.
  const crown = (z1: number, z2: number) => bevels(z1, z2, Math.acos(-z1 / z2) / DEGREE);
  expect(15 / Math.cos(Math.asin(15 / 45))).toBeLessThan(17.097);
  expect(only(crown(15, 45), "interference")).toHaveLength(1);
  expect(20 / Math.cos(Math.asin(20 / 40))).toBeGreaterThan(17.097);
  expect(only(crown(20, 40), "interference")).toEqual([]);
});

test("contact ratio below 1.2 is a warning (common practice, no source)", () => {
  expect(only(spurs(20, 40), "contact-ratio")).toEqual([]);
  const [found] = only(spurs(20, 40, { addendum: 0.6 }), "contact-ratio");
  expect(found?.severity).toBe("warning");
  expect(found?.message).toMatch(/only 1\.0\d pairs of teeth/);
});

test("face width of Mott 8-6 (16/48, 90 degrees): 1.054 in is the most", () => {
  const { given, expect: table } = reference("bevel-mott-8-6");
  const module = 25.4 / numberOf(given, "Pd_per_in");
  const most = 25.4 * numberOf(table, "F_max_by_cone_in");
  const pair = (face: number) => bevels(numberOf(given, "zP"), numberOf(given, "zG"), 90, { module, face });
  expect(only(pair(most - 0.02), "face-width")).toEqual([]);
  expect(only(pair(most + 0.02), "face-width").map((finding) => finding.at)).toEqual([["a"], ["b"]]);
});

test.each([
  "bevel-60-20-40",
  "bevel-75-20-40",
  "bevel-100-20-30",
  "bevel-120-crown",
  "bevel-135-internal",
  "bevel-90-mitre",
])("largest face of %s", (id) => {
  const { given, expect: table } = reference(id);
  const module = numberOf(given, "module_mm");
  const most = numberOf(table, "b_max_mm");
  const pair = (face: number) =>
    bevels(numberOf(given, "z1"), numberOf(given, "z2"), numberOf(given, "shaft_angle_deg"), { module, face });
  expect(only(pair(most - 1e-3), "face-width")).toEqual([]);
  expect(only(pair(most + 1e-3), "face-width")).toHaveLength(2);
});

test("a bevel gear that meshes twice is said once", () => {
  const solved = mixer({
    shafts: [
      { id: "A", name: "Motor", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
      { id: "B", name: "Left gate" },
      { id: "C", name: "Right gate" },
    ],
    gears: [
      { id: "a", shaft: "A", kind: "bevel", teeth: 12, module: 2, face: 30 },
      { id: "b", shaft: "B", kind: "bevel", teeth: 40, module: 2, face: 10 },
      { id: "c", shaft: "C", kind: "bevel", teeth: 40, module: 2, face: 10 },
    ],
    meshes: [
      { id: "m1", gears: ["a", "b"], shaftAngle: 90 },
      { id: "m2", gears: ["a", "c"], shaftAngle: 90, azimuth: 180 },
    ],
    ports: [],
  });
  expect(only(solved, "face-width").map((finding) => finding.at)).toEqual([["a"]]);
  expect(only(solved, "undercut").map((finding) => finding.at)).toEqual([["a"]]);
});

test("usual ratios of one stage: 6 on parallel shafts, 5 at an angle (limits-common-practice)", () => {
  const { expect: table } = reference("limits-common-practice");
  expect(numberOf(table, "spur_ratio_max_per_stage")).toBe(6);
  expect(numberOf(table, "bevel_ratio_max")).toBe(5);
  expect(only(spurs(20, 120), "ratio-range")).toEqual([]);
  expect(only(spurs(20, 121), "ratio-range")).toHaveLength(1);
  expect(only(spurs(121, 20), "ratio-range")).toHaveLength(1);
  expect(only(bevels(20, 100, 90), "ratio-range")).toEqual([]);
  expect(only(bevels(20, 101, 90), "ratio-range")).toHaveLength(1);
});

test("pitch speed: v = π d n / 60,000 against 10 m/s on spurs and 5 m/s on bevels", () => {
  const speedAt = (v: number, d: number) => (60_000 * v) / (Math.PI * d);
  const spur = (v: number) =>
    pairOf(["spur", "spur"], { teeth: 20 }, { teeth: 40 }, {}, [{ shaft: "A", role: "input", speed: speedAt(v, 40) }]);
  expect(only(spur(9.99), "pitch-speed")).toEqual([]);
  expect(only(spur(-10.01), "pitch-speed")).toHaveLength(1);
  const mean = 40 - 3 * Math.sin(Math.atan(20 / 40));
  const bevel = (v: number) =>
    pairOf(["bevel", "bevel"], { teeth: 20, face: 3 }, { teeth: 40, face: 3 }, { shaftAngle: 90 }, [
      { shaft: "A", role: "input", speed: speedAt(v, mean) },
    ]);
  expect(only(bevel(4.99), "pitch-speed")).toEqual([]);
  expect(only(bevel(5.01), "pitch-speed")).toHaveLength(1);
});

test("every finding is one sentence that names where and what to do", () => {
  const all = [spurs(8, 130, { addendum: 0.5 }), spurs(10, 70), bevels(10, 60, 90, { face: 40 }), bevels(17, 40, 60)];
  for (const { message, at } of all.flatMap((solved) => solved.findings)) {
    expect(message).toMatch(/^[A-Z“].*\.$/);
    expect(message.slice(0, -1)).not.toMatch(/[.!?] [A-Z]/);
    expect(message).not.toMatch(/NaN|undefined|Infinity|null/);
    expect(at.length).toBeGreaterThan(0);
  }
});

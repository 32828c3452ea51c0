/** Torques and forces against published examples and derivations of references.json, the source beside each. */
import { expect, test } from "vitest";
import type { Port } from "../../../src/engine/drive/types";
import references from "../references.json";
import { POSE, relative, solveWritten } from "./loaded";
import { chain } from "./trains";

function reference(id: string): { given: Record<string, number>; wanted: Record<string, number> } {
  const entry = references.find((one) => one.id === id);
  if (!entry) throw new Error(`no reference ${id}`);
  return {
    given: entry.given as unknown as Record<string, number>,
    wanted: entry.expect as unknown as Record<string, number>,
  };
}
const at = (values: Record<string, number>, key: string): number => values[key] ?? Number.NaN;

const bevelPair = (
  z: readonly [number, number],
  module: number,
  face: number,
  angle: number,
  ports: readonly Port[],
) => ({
  shafts: [{ id: "A", pose: POSE }, { id: "B" }],
  gears: [
    { id: "a", shaft: "A", kind: "bevel", teeth: z[0], module, face } as const,
    { id: "b", shaft: "B", kind: "bevel", teeth: z[1], module, face } as const,
  ],
  meshes: [{ id: "m", gears: ["a", "b"] as const, shaftAngle: angle }],
  ports,
});

const INCH = 25.4;
const POUND = 4.4482216152605;
const HORSEPOWER = 745.6998715822702;

// Wentzell, Machine Design, Example 11.4 (the book's 63,000 for 63,025 is within its tolerance).
test("spur-train-wentzell-11-4: torque rises as speed falls", () => {
  const { given, wanted } = reference("spur-train-wentzell-11-4");
  const ports: Port[] = [
    { shaft: "A", role: "input", speed: at(given, "n1_rpm"), power: at(given, "P_hp") * HORSEPOWER },
    { shaft: "B", role: "output" },
  ];
  const solved = solveWritten(chain([[at(given, "z1"), at(given, "z2")]], ports));
  const poundInch = (POUND * INCH) / 1000;
  relative(solved.shaft("A").torque, at(wanted, "T1_lbin") * poundInch, 0.0005);
  relative(solved.shaft("B").torque, at(wanted, "T2_lbin") * poundInch, 0.0005);
});

// Khurmi & Gupta, Theory of Machines, Example 12.1: a pitch circle of 250 mm.
test("force-kg-12-1: tangential force and normal load", () => {
  const { given, wanted } = reference("force-kg-12-1");
  const ports: Port[] = [
    { shaft: "A", role: "input", speed: at(given, "n_rpm"), power: at(given, "P_kW") * 1000 },
    { shaft: "B", role: "output" },
  ];
  const solved = solveWritten(chain([[50, 100]], ports, at(given, "d_mm") / 50));
  const { tangentialForce, radialForces } = solved.mesh("m1");
  relative(solved.shaft("A").torque, at(wanted, "T_Nm"), 0.0005);
  relative(tangentialForce, at(wanted, "Ft_N"), 0.0005);
  relative(Math.hypot(tangentialForce ?? 0, radialForces?.[0] ?? 0) / 1000, at(wanted, "F_normal_kN"), 0.0005);
});

// Jindal, Machine Design, Example 27-1: bevel forces at the mean radius.
test("force-jindal-27-1-bevel", () => {
  const { given, wanted } = reference("force-jindal-27-1-bevel");
  const coneDistance = at(wanted, "R_mm");
  const face = at(given, "b_over_R") * coneDistance;
  const module = (2 * at(given, "r1_mm")) / 40;
  const ports: Port[] = [
    { shaft: "A", role: "input", speed: at(given, "n1_rpm"), power: at(given, "P_kW") * 1000 },
    { shaft: "B", role: "output" },
  ];
  const { tangentialForce, radialForces, axialForces } = solveWritten(
    bevelPair([40, 80], module, face, 90, ports),
  ).mesh("m");
  relative(tangentialForce, at(wanted, "Ft_N"), 0.0005);
  relative(radialForces?.[0], at(wanted, "Fr1_N"), 0.0005);
  relative(axialForces?.[0], at(wanted, "Fa1_N"), 0.0005);
  relative(radialForces?.[1], at(wanted, "Fa1_N"), 0.0005);
  relative(axialForces?.[1], at(wanted, "Fr1_N"), 0.0005);
});

// Vector geometry: at 75 degrees the radial force of one gear is not the axial force of the other.
test("force-bevel-75deg", () => {
  const { given, wanted } = reference("force-bevel-75deg");
  const z = [at(given, "z1"), at(given, "z2")] as const;
  const angle = at(given, "shaft_angle_deg");
  const delta = Math.atan2(Math.sin((angle * Math.PI) / 180), z[1] / z[0] + Math.cos((angle * Math.PI) / 180));
  const mean = (2 * z[0]) / 2 - 4 * Math.sin(delta);
  const ports: Port[] = [
    { shaft: "A", role: "input", speed: 100, torque: (at(given, "Ft_N") * mean) / 1000 },
    { shaft: "B", role: "output" },
  ];
  const mesh = solveWritten(bevelPair(z, 2, 8, angle, ports)).mesh("m");
  relative(mesh.tangentialForce, at(given, "Ft_N"), 1e-9);
  relative(mesh.radialForces?.[0], at(wanted, "Fr1_N"), 0.001);
  relative(mesh.axialForces?.[0], at(wanted, "Fa1_N"), 0.001);
  relative(mesh.radialForces?.[1], at(wanted, "Fr2_N"), 0.001);
  relative(mesh.axialForces?.[1], at(wanted, "Fa2_N"), 0.001);
});

// Shigley, Mechanical Engineering Design, bevel example (from memory): forces on the gear of a 3:1 pair at 90 degrees.
test("force-shigley-bevel", () => {
  const { given, wanted } = reference("force-shigley-bevel");
  const delta = Math.atan(1 / at(given, "gear_over_pinion"));
  const face = 20;
  const heel = at(given, "r_mean_in") * INCH + (face / 2) * Math.sin(delta);
  const ports: Port[] = [
    { shaft: "A", role: "input", speed: at(given, "n_rpm"), power: at(given, "P_hp") * HORSEPOWER },
    { shaft: "B", role: "output" },
  ];
  const mesh = solveWritten(bevelPair([20, 60], heel / 10, face, 90, ports)).mesh("m");
  relative(mesh.pitchSpeed, (at(wanted, "V_ft_min") * 0.3048) / 60, 0.005);
  relative(mesh.tangentialForce, at(wanted, "Ft_lb") * POUND, 0.005);
  relative(mesh.radialForces?.[1], at(wanted, "Fr_gear_lb") * POUND, 0.005);
  relative(mesh.axialForces?.[1], at(wanted, "Fa_gear_lb") * POUND, 0.005);
});

// Shigley, Mechanical Engineering Design, Example 13-7 (from memory): the idler's two meshes carry one force.
test("force-shigley-13-7-idler", () => {
  const { given, wanted } = reference("force-shigley-13-7-idler");
  const [z2, z3, z4] = [at(given, "z2"), at(given, "z3_idler"), at(given, "z4")];
  const gear = (id: string, shaft: string, teeth: number) =>
    ({ id, shaft, kind: "spur", teeth, module: at(given, "module_mm"), face: 20 }) as const;
  const solved = solveWritten({
    shafts: [{ id: "A", pose: POSE }, { id: "B" }, { id: "C" }],
    gears: [gear("a", "A", z2), gear("b", "B", z3), gear("c", "C", z4)],
    meshes: [
      { id: "ab", gears: ["a", "b"] },
      { id: "bc", gears: ["b", "c"], azimuth: 90 },
    ],
    ports: [
      { shaft: "A", role: "input", speed: at(given, "n2_rpm"), power: at(given, "P_kW") * 1000 },
      { shaft: "C", role: "output" },
    ],
  });
  relative(solved.shaft("A").torque, at(wanted, "T2_Nm"), 0.002);
  for (const id of ["ab", "bc"]) {
    relative((solved.mesh(id).tangentialForce ?? 0) / 1000, at(wanted, "Ft_kN"), 0.002);
    relative((solved.mesh(id).radialForces?.[0] ?? 0) / 1000, at(wanted, "Fr_kN"), 0.002);
  }
  // One gear: no torque goes along the idler's shaft.
  expect(solved.shaft("B")).toEqual({ torque: 0, power: 0 });
});

// Product rule: losses lower torque, never speed.
test("eff-three-meshes", () => {
  const { given, wanted } = reference("eff-three-meshes");
  const e = at(given, "eta_mesh");
  const torque = at(given, "T_in_Nm");
  const speed = ((at(given, "P_in_kW") * 1000) / torque) * (60 / (2 * Math.PI));
  const stages = [
    [20, 40, e],
    [20, 40, e],
    [20, 100, e],
  ] as const;
  const solved = solveWritten(
    chain(stages, [
      { shaft: "A", role: "input", speed, torque },
      { shaft: "D", role: "output" },
    ]),
  );
  relative(Math.abs(solved.shaft("D").torque ?? 0), at(wanted, "T_out_Nm"), 1e-5);
  relative(-(solved.shaft("D").power ?? 0) / 1000, at(wanted, "P_out_kW"), 1e-5);
});

// Khurmi, Engineering Mechanics, Example 11.8: two stages of velocity ratio 18, efficiency 0.75 in all.
test("eff-khurmi-11-8-winch", () => {
  const { given, wanted } = reference("eff-khurmi-11-8-winch");
  const e = Math.sqrt(at(given, "eta"));
  const solved = solveWritten(
    chain(
      [
        [25, 90, e],
        [8, 40, e],
      ],
      [
        { shaft: "A", role: "input", speed: 60, torque: at(given, "P_N") },
        { shaft: "C", role: "output" },
      ],
    ),
  );
  relative(solved.shaft("C").torque, -at(wanted, "W_N"), 1e-12);
});

// P = 2 π n T / 60.
test("speed-power-torque", () => {
  const { given, wanted } = reference("speed-power-torque");
  const ports: Port[] = [
    { shaft: "A", role: "input", speed: at(given, "n_rpm"), power: at(given, "P_kW") * 1000 },
    { shaft: "B", role: "output" },
  ];
  relative(solveWritten(chain([[20, 20]], ports)).shaft("A").torque, at(wanted, "T_Nm"), 1e-6);
});

const wheels = (d1: number, d2: number, normalForce: number, friction: number, ports: readonly Port[]) => ({
  shafts: [
    { id: "A", name: "Hand wheel", pose: POSE },
    { id: "B", name: "Press" },
  ],
  gears: [
    { id: "a", shaft: "A", kind: "wheel", diameter: d1 } as const,
    { id: "b", shaft: "B", kind: "wheel", diameter: d2 } as const,
  ],
  meshes: [{ id: "m", gears: ["a", "b"] as const, normalForce, friction }],
  ports,
});

// Coulomb friction, references.json friction-wheels-force: the least normal force that passes 3 kW.
test("friction-wheels-force: holds just above the least normal force, slips just below", () => {
  const { given, wanted } = reference("friction-wheels-force");
  const solve = (normal: number) =>
    solveWritten(
      wheels(at(given, "d1_mm"), at(given, "d2_mm"), normal, at(given, "mu"), [
        { shaft: "A", role: "input", speed: at(given, "n1_rpm") },
        { shaft: "B", role: "output", torque: at(wanted, "T2_out_Nm") },
      ]),
    );
  const least = at(wanted, "Fn_min_N");
  const holding = solve(least * 1.0001);
  relative(holding.mesh("m").pitchSpeed, at(wanted, "v_m_s"), 1e-4);
  relative(holding.mesh("m").tangentialForce, at(wanted, "Ft_N"), 1e-4);
  relative(holding.shaft("A").power, at(given, "P_kW") * 1000, 1e-4);
  expect(holding.codes()).toEqual([]);
  expect(solve(least * 0.9999).codes()).toEqual(["slips"]);
});

// references.json friction-bevel-cones: axial thrust Fn sin δ.
test("friction-bevel-cones", () => {
  const { given, wanted } = reference("friction-bevel-cones");
  const [delta1, delta2] = [at(given, "delta1_deg"), at(given, "delta2_deg")].map((d) => (d * Math.PI) / 180) as [
    number,
    number,
  ];
  const face = 10;
  const heel = at(given, "r1_mean_mm") + (face / 2) * Math.sin(delta1);
  const solved = solveWritten({
    shafts: [{ id: "A", pose: POSE }, { id: "B" }],
    gears: [
      { id: "a", shaft: "A", kind: "cone", diameter: 2 * heel, face },
      { id: "b", shaft: "B", kind: "cone", diameter: (2 * heel * Math.sin(delta2)) / Math.sin(delta1), face },
    ],
    meshes: [
      { id: "m", gears: ["a", "b"], shaftAngle: 90, normalForce: at(wanted, "Fn_N"), friction: at(given, "mu") },
    ],
    ports: [
      { shaft: "A", role: "input", speed: 100, torque: at(given, "T1_Nm") },
      { shaft: "B", role: "output" },
    ],
  });
  const mesh = solved.mesh("m");
  relative(mesh.tangentialForce, at(wanted, "Ft_N"), 1e-4);
  relative(mesh.axialForces?.[0], at(wanted, "Fa1_N"), 1e-4);
  relative(mesh.axialForces?.[1], at(wanted, "Fa2_N"), 1e-4);
  expect(mesh.contactRatio).toBeNull();
  expect(solved.codes()).toEqual([]);
});

// Coulomb: 0.3 · 200 N at 60 mm is 3.6 N·m.
test("juice press: wheels 60/120 mm, 200 N, 0.3, slip at 3.6 N·m on the output", () => {
  const ports = (torque?: number): Port[] => [
    { shaft: "A", role: "input", speed: 60 },
    torque === undefined ? { shaft: "B", role: "output" } : { shaft: "B", role: "output", torque },
  ];
  const loadedPress = solveWritten(wheels(60, 120, 200, 0.3, ports(5)));
  expect(loadedPress.codes()).toEqual(["slips"]);
  expect(loadedPress.message("slips")).toContain("the torque at Press passes 3.6 N·m");
  expect(solveWritten(wheels(60, 120, 200, 0.3, ports(3.5))).codes()).toEqual([]);
  const unloaded = solveWritten(wheels(60, 120, 200, 0.3, ports()));
  expect(unloaded.codes()).toEqual([]);
  relative(unloaded.mesh("m").slipTorque, 3.6, 1e-12);
});

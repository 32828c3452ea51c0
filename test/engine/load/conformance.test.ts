/** Loads of random drives worked out outside this project's code (test/engine/conformance.json, entries with torques). */
import { describe, expect, test } from "vitest";
import conformance from "../conformance.json";
import { loaded, relative } from "./loaded";

interface Expected {
  power?: Record<string, number>;
  torque?: Record<string, number>;
  meshes?: Record<string, { pitchSpeed: number; tangentialForce: number }>;
}

const entries = conformance.map(({ drive, expect: wanted }) => ({ drive, wanted: wanted as Expected }));
const withLoads = entries.filter(({ wanted }) => wanted.torque);

test("six entries have torques", () => expect(withLoads.length).toBe(6));

describe.each(withLoads)("$drive.title", ({ drive, wanted }) => {
  const solved = loaded(drive);
  test("torques and powers at the ports", () => {
    for (const [id, torque] of Object.entries(wanted.torque ?? {})) relative(solved.shaft(id).torque, torque, 1e-6);
    for (const [id, power] of Object.entries(wanted.power ?? {})) relative(solved.shaft(id).power, power, 1e-6);
  });
  test("pitch speeds and tangential forces", () => {
    for (const [id, mesh] of Object.entries(wanted.meshes ?? {})) {
      relative(solved.mesh(id).pitchSpeed, mesh.pitchSpeed, 1e-6);
      relative(solved.mesh(id).tangentialForce, mesh.tangentialForce, 1e-6);
    }
  });
});

import { describe, expect, it } from "vitest";
import { follow, grab, ratesFor } from "../../src/bench/cranking";
import { alongAxis, HOME, type Orbit, project } from "../../src/bench/orbit";
import { whyStuck } from "../../src/bench/refusal";
import { pointAt } from "../../src/bench/turning";
import type { Drive } from "../../src/engine/drive/types";
import { poseAt, poseModel } from "../../src/engine/motion/pose-at";
import { solve } from "../../src/engine/solve";
import type { Solved, Vec3 } from "../../src/engine/solved";
import { crank, shaftAngle } from "../../src/store/clock";
import { openDrive } from "../../src/store/document";
import { mesh, planetary, root, toothed } from "../support/random-drives";

const HEIGHT = 800;

const sceneOf = (solved: Solved, orbit: Orbit, angles = new Float64Array(solved.drive.shafts.length)) => ({
  model: poseModel(solved),
  rest: new Float64Array(solved.drive.shafts.length),
  angles,
  orbit,
  height: HEIGHT,
});

const pair = (): Drive => ({
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }],
  gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 40, 2)],
  meshes: [mesh("m", "a", "b", { azimuth: 90 })],
  ports: [{ shaft: "A", role: "input", speed: 60 }],
});

const threeInARing = (): Drive => {
  const drive = pair();
  return {
    ...drive,
    shafts: [root("A"), { id: "B", name: "B" }, { id: "C", name: "C" }],
    gears: ["A", "B", "C"].map((id) => toothed(id.toLowerCase(), id, "spur", 30, 2)),
    meshes: [mesh("m1", "a", "b", { azimuth: 0 }), mesh("m2", "a", "c", { azimuth: 60 }), mesh("m3", "b", "c")],
  };
};

describe("cranking by hand", () => {
  it("turns a drive counterclockwise where the rim is pulled counterclockwise, and backwards", () => {
    const solved = solve(pair());
    // Looking back along +x: the positive sense is counterclockwise on the screen.
    const orbit: Orbit = { target: [0, 0, 0], ...alongAxis([1, 0, 0]), distance: 500 };
    const scene = sceneOf(solved, orbit);
    const held = grab(solved, 0, [20, 0, 0], scene);
    if (!held) throw new Error("refused");
    expect(held.belt).toBeNull();
    for (const angle of [0.2, -0.2]) {
      const target: Vec3 = [20 * Math.cos(angle), 20 * Math.sin(angle), 0];
      const to = project(orbit, pointAt(poseAt(scene.model, scene.angles).still, 0, target), HEIGHT);
      expect(follow(held, scene, to, to)).toBeCloseTo(angle, 6);
    }
  });

  it("moves the mate by the ratio, the other way", () => {
    const rates = ratesFor(solve(pair()), 0);
    expect([...(rates ?? [])]).toEqual([1, -0.5]);
    expect([...(ratesFor(solve(pair()), 1) ?? [])]).toEqual([-2, 1]);
  });

  it("lets a point of a planet follow the pointer though the planet goes round as it turns", () => {
    const drive = planetary(24, 18, 60, 3, [
      { shaft: "R", role: "held" },
      { shaft: "S", role: "input", speed: 100 },
    ]);
    const solved = solve(drive);
    const planet = solved.index.frameOfShaft.findIndex((frame) => frame >= 0);
    const axis = solved.placement.shafts[planet]?.axis ?? [1, 0, 0];
    const orbit: Orbit = { target: [0, 0, 0], ...alongAxis(axis), distance: 900 };
    const scene = sceneOf(solved, orbit);
    const held = grab(solved, planet, [15, 6, 0], scene);
    if (!held) throw new Error("refused");
    // Wherever on its path the pointer is, that very turn is found.
    for (const turn of [0.15, -0.4]) {
      const angles = scene.angles.map((_, i) => turn * (held.rates[i] ?? 0));
      const { turned } = poseAt(scene.model, angles);
      const to = project(orbit, pointAt(turned, planet, held.point), HEIGHT);
      expect(follow(held, scene, to, to)).toBeCloseTo(turn, 5);
    }
  });

  it("pulls the rim past like a belt where a gear is seen from its side, with no end to it", () => {
    const solved = solve(pair());
    const orbit: Orbit = { target: [0, 0, 0], ...alongAxis([0, -1, 0]), distance: 500 };
    const scene = sceneOf(solved, orbit);
    // The point nearest the eye at -y.
    const held = grab(solved, 0, [0, 20, 0], scene);
    expect(held?.belt).not.toBeNull();
    if (!held) return;
    // About +x, counterclockwise from +x: on the near side (-y) the rim goes down for a positive turn.
    expect(follow(held, scene, { x: 0, y: -50 }, { x: 0, y: 0 })).toBeGreaterThan(0.1);
    expect(follow(held, scene, { x: 0, y: 50 }, { x: 0, y: 0 })).toBeLessThan(-0.1);
    expect(follow(held, scene, { x: 40, y: 0 }, { x: 0, y: 0 })).toBeCloseTo(0, 6);
  });

  it("refuses a locked drive, with its finding", () => {
    const solved = solve(threeInARing());
    expect(solved.motion.status).toBe("locked");
    expect(grab(solved, 0, [20, 0, 0], sceneOf(solved, { target: [0, 0, 0], ...HOME, distance: 500 }))).toBeNull();
    const finding = solved.findings.find(({ code }) => code === "locked");
    expect(whyStuck(solved, 0)).toBe(finding?.message);
  });

  it("refuses a held shaft, and says what to do", () => {
    const drive = planetary(24, 18, 60, 3, [{ shaft: "R", role: "held" }]);
    const solved = solve(drive);
    const ring = solved.index.shafts.get("R") ?? -1;
    expect(ratesFor(solved, ring)).toBeNull();
    expect(whyStuck(solved, ring)).toMatch(/is held, so it can't be cranked/);
    // The sun still turns, and the carrier with it.
    const sun = solved.index.shafts.get("S") ?? -1;
    expect(ratesFor(solved, sun)?.[sun]).toBe(1);
  });
});

describe("cranking a drive without an input", () => {
  it("goes on from where it stands when another gear is taken hold of", () => {
    openDrive({ ...pair(), ports: [] });
    expect(crank(0, 1)).toBe(true);
    expect([shaftAngle(0), shaftAngle(1)]).toEqual([1, -0.5]);
    expect(crank(1, 0.25)).toBe(true);
    expect([shaftAngle(0), shaftAngle(1)]).toEqual([0.5, -0.25]);
    expect(crank(0, -0.5)).toBe(true);
    expect(shaftAngle(0)).toBeCloseTo(0, 12);
  });
});

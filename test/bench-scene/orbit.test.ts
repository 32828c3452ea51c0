import { Matrix4, PerspectiveCamera, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { benchLayout } from "../../src/bench/bench-layout";
import { roomOf } from "../../src/bench/camera";
import {
  alongAxis,
  between,
  eyeFrame,
  eyePoint,
  FRONT,
  fitView,
  HOME,
  type Orbit,
  project,
  RIGHT,
  sightThrough,
  TOP,
  turnBy,
  VIEW_ANGLE,
  zoomBy,
} from "../../src/bench/orbit";
import { solve } from "../../src/engine/solve";
import { differential, planetary, randomTree, seeded } from "../support/random-drives";

/** The same eye as a camera of three, the judge of projections. */
function cameraOf(orbit: Orbit, aspect: number): PerspectiveCamera {
  const camera = new PerspectiveCamera((VIEW_ANGLE * 180) / Math.PI, aspect, 0.1, 1e5);
  const { back, right, up } = eyeFrame(orbit);
  camera.position.set(...eyePoint(orbit));
  camera.quaternion.setFromRotationMatrix(
    new Matrix4().makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...back)),
  );
  camera.updateMatrixWorld();
  camera.updateProjectionMatrix();
  return camera;
}

describe("the bench's eye", () => {
  it("projects as a perspective camera of three does", () => {
    const random = seeded(7);
    for (let k = 0; k < 200; k++) {
      const orbit: Orbit = {
        target: [random() * 50, random() * 50, random() * 50],
        azimuth: random() * 7 - 3,
        elevation: (random() - 0.5) * Math.PI,
        distance: 100 + random() * 900,
      };
      const point = [random() * 80, random() * 80, random() * 80] as const;
      const seen = project(orbit, point, 800);
      const judge = new Vector3(...point).project(cameraOf(orbit, 1.5));
      expect(seen.x / (800 * 1.5 * 0.5)).toBeCloseTo(judge.x, 9);
      expect(seen.y / 400).toBeCloseTo(judge.y, 9);
    }
  });

  it("looks back along the line that it projects", () => {
    const orbit: Orbit = { target: [3, 4, 5], ...HOME, distance: 420 };
    const { origin, direction } = sightThrough(orbit, 123, -45, 700);
    const point = [
      origin[0] + direction[0] * 300,
      origin[1] + direction[1] * 300,
      origin[2] + direction[2] * 300,
    ] as const;
    const seen = project(orbit, point, 700);
    expect(seen.x).toBeCloseTo(123, 9);
    expect(seen.y).toBeCloseTo(-45, 9);
  });

  it("shows x to the right and z up from the front, y up from the top", () => {
    expect(eyeFrame(FRONT).right.map(Math.round)).toEqual([1, 0, 0]);
    expect(eyeFrame(FRONT).up.map((x) => Math.round(x) + 0)).toEqual([0, 0, 1]);
    expect(eyeFrame(TOP).right.map(Math.round)).toEqual([1, 0, 0]);
    expect(eyeFrame(TOP).up.map((x) => Math.round(x) + 0)).toEqual([0, 1, 0]);
    expect(eyeFrame(RIGHT).back.map((x) => Math.round(x) + 0)).toEqual([1, 0, 0]);
    expect(eyeFrame(RIGHT).right.map((x) => Math.round(x) + 0)).toEqual([0, 1, 0]);
  });

  it.each([[[1, 0, 0]], [[0, 0, -1]], [[0.6, -0.48, 0.64]]] as const)(
    "stands at the end of the axis %j when it looks along it",
    (axis) => {
      const { back } = eyeFrame(alongAxis(axis));
      for (const k of [0, 1, 2] as const) expect(back[k]).toBeCloseTo(axis[k], 9);
    },
  );

  it("fits every point of a drive beside what covers the top and the right, from any side", () => {
    const drives = [planetary(24, 18, 60, 3), differential(16, 12), randomTree(3, 20, 6)];
    for (const drive of drives) {
      const room = roomOf(benchLayout(solve(drive)));
      for (const direction of [HOME, FRONT, TOP, RIGHT]) {
        for (const aspect of [0.5, 1, 1.8]) {
          const orbit = fitView(direction, room, aspect, { top: 0.1, right: 0.3 });
          const seen = room.points.map((point) => project(orbit, point, 1000));
          expect(Math.min(...seen.map(({ x }) => x))).toBeGreaterThanOrEqual(-500 * aspect - 1);
          expect(Math.max(...seen.map(({ x }) => x))).toBeLessThanOrEqual(200 * aspect + 1);
          expect(Math.max(...seen.map(({ y }) => y))).toBeLessThanOrEqual(401);
          expect(Math.min(...seen.map(({ y }) => y))).toBeGreaterThanOrEqual(-501);
        }
      }
    }
  });

  it("keeps the point under the pointer where it is while zooming", () => {
    const orbit: Orbit = { target: [0, 0, 0], ...HOME, distance: 500 };
    const room = { points: [], centre: [0, 0, 0] as const, radius: 100 };
    const { back } = eyeFrame(orbit);
    const sight = sightThrough(orbit, 200, 100, 800);
    // Where the line meets the plane through the target, square to the sight.
    const along = (s: number) =>
      sight.origin.map((x, k) => x + (sight.direction[k] ?? 0) * s) as unknown as [number, number, number];
    const s =
      -(sight.origin[0] * back[0] + sight.origin[1] * back[1] + sight.origin[2] * back[2]) /
      (sight.direction[0] * back[0] + sight.direction[1] * back[1] + sight.direction[2] * back[2]);
    const point = along(s);
    const nearer = zoomBy(orbit, 0.6, room, 200, 100, 800);
    const seen = project(nearer, point, 800);
    expect(nearer.distance).toBeCloseTo(300, 9);
    expect(seen.x).toBeCloseTo(200, 6);
    expect(seen.y).toBeCloseTo(100, 6);
  });

  it("glides the short way round", () => {
    const from: Orbit = { target: [0, 0, 0], azimuth: 3, elevation: 0, distance: 100 };
    const to: Orbit = { target: [10, 0, 0], azimuth: -3, elevation: 1, distance: 400 };
    const half = between(from, to, 0.5);
    expect(Math.cos(half.azimuth)).toBeCloseTo(-1, 9);
    expect(half.distance).toBeCloseTo(200, 9);
    expect(between(from, to, 1).elevation).toBe(1);
  });

  it("does not turn over the pole", () => {
    expect(turnBy({ target: [0, 0, 0], ...HOME, distance: 1 }, 0, 9).elevation).toBe(Math.PI / 2);
  });
});

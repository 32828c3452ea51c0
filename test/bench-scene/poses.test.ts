import { Matrix4, Quaternion, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import type { Drive } from "../../src/engine/drive/types";
import { frameOfMesh, MATRIX, newPoses, poseAt, poseModel } from "../../src/engine/motion/pose-at";
import { solve } from "../../src/engine/solve";
import type { Solved } from "../../src/engine/solved";
import { differential, planetary, randomTree } from "../support/random-drives";

const speedsOf = (solved: Solved): Float64Array => Float64Array.from(solved.motion.speed, (speed) => speed ?? 0);

const matrixOf = (matrices: Float64Array, shaft: number): Matrix4 => new Matrix4().fromArray(matrices, shaft * MATRIX);

/** The same pose by quaternions of three, walked down from the outermost carrier. */
function byQuaternions(solved: Solved, shaft: number, angles: Float64Array): { point: Vector3; turn: Quaternion } {
  const chain: number[] = [];
  for (let s = shaft; s >= 0; s = solved.index.frameOfShaft[s] ?? -1) chain.unshift(s);
  const point = new Vector3();
  const turn = new Quaternion();
  const frame = { at: new Vector3(), turn: new Quaternion() };
  for (const s of chain) {
    const placed = solved.placement.shafts[s];
    if (!placed) throw new Error("not placed");
    // Where the carriers above have taken this shaft's axis.
    const axis = new Vector3(...placed.axis).applyQuaternion(frame.turn);
    const origin = new Vector3(...placed.origin).applyQuaternion(frame.turn).add(frame.at);
    const own = new Quaternion().setFromAxisAngle(axis, angles[s] ?? 0);
    const rest = new Matrix4().makeBasis(
      new Vector3(...placed.ref),
      new Vector3(...placed.axis).cross(new Vector3(...placed.ref)),
      new Vector3(...placed.axis),
    );
    point.copy(origin);
    turn.copy(own.clone().multiply(frame.turn).multiply(new Quaternion().setFromRotationMatrix(rest)));
    // x -> origin + own (frame x - origin)
    frame.at = frame.at.clone().sub(origin).applyQuaternion(own).add(origin);
    frame.turn = own.clone().multiply(frame.turn);
  }
  return { point, turn };
}

function expectSamePoses(drive: Drive, minutes: number): void {
  const solved = solve(drive);
  const angles = speedsOf(solved).map((speed) => 2 * Math.PI * speed * minutes);
  const { turned } = poseAt(poseModel(solved), angles);
  solved.placement.shafts.forEach((placed, shaft) => {
    if (!placed) return;
    const expected = byQuaternions(solved, shaft, angles);
    const matrix = matrixOf(turned, shaft);
    const size = 1 + expected.point.length();
    expect(new Vector3().setFromMatrixPosition(matrix).distanceTo(expected.point) / size).toBeLessThan(1e-9);
    expect(new Quaternion().setFromRotationMatrix(matrix).angleTo(expected.turn)).toBeLessThan(1e-6);
  });
}

/** Carriers on carriers: a planet's own axis carries a further one. Not a drive that anybody builds, but one that the format allows. */
const threeDeep: Drive = {
  title: "",
  notes: "",
  shafts: [
    { id: "A", name: "A", pose: { origin: [3, -2, 5], axis: [1, 2, 2], ref: [0, 0, 1] } },
    { id: "B", name: "B", pose: { origin: [40, 0, 5], axis: [0, 1, 0.5], ref: [1, 0, 0] }, frame: "A" },
    { id: "C", name: "C", pose: { origin: [40, 30, -8], axis: [1, 0, -1], ref: [0, 1, 0] }, frame: "B" },
  ],
  gears: [],
  meshes: [],
  ports: [
    { shaft: "A", role: "input", speed: 13 },
    { shaft: "B", role: "input", speed: -7 },
    { shaft: "C", role: "input", speed: 29 },
  ],
};

describe("poses of shafts", () => {
  it("leave every shaft where placement put it while nothing has turned", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const { turned, still } = poseAt(poseModel(solved), new Float64Array(solved.drive.shafts.length));
    solved.placement.shafts.forEach((placed, shaft) => {
      if (!placed) return;
      for (const matrices of [turned, still]) {
        const o = shaft * MATRIX;
        expect([...matrices.slice(o + 12, o + 15)]).toEqual(placed.origin);
        expect([...matrices.slice(o + 8, o + 11)]).toEqual(placed.axis);
        expect([...matrices.slice(o, o + 3)]).toEqual(placed.ref);
      }
    });
  });

  it("agree with quaternions of three on nested carriers", () => {
    for (const minutes of [0, 0.001, 0.0137, 1.25]) expectSamePoses(threeDeep, minutes);
  });

  it.each([
    ["a planetary set", planetary(24, 18, 60, 3)],
    ["a bevel differential", differential(16, 12)],
    ...[1, 2, 3, 4].map((seed): [string, Drive] => [`a tree of 12 shafts, seed ${seed}`, randomTree(seed, 12, 5)]),
  ] as [string, Drive][])("agree with quaternions of three on %s", (_, drive) => {
    expectSamePoses(drive, 0.0031);
  });

  it.each([
    ["a planetary set", planetary(24, 18, 60, 3)],
    ["a bevel differential", differential(16, 12)],
    ["a tree, seed 9", randomTree(9, 10, 4)],
  ])("turn at the engine's absolute angular velocities: %s", (_, drive) => {
    const solved = solve(drive);
    const model = poseModel(solved);
    const speeds = speedsOf(solved);
    const seconds = 1e-4;
    const at = (time: number) =>
      poseAt(
        model,
        speeds.map((speed) => (2 * Math.PI * speed * time) / 60),
      ).turned;
    const [before, after] = [at(1 - seconds), at(1 + seconds)];
    solved.motion.angularVelocity.forEach((omega, shaft) => {
      // At another time a carried axis points elsewhere: turn the engine's figure, given at time zero, along with the carrier.
      if (!omega || !solved.placement.shafts[shaft]) return;
      const step = matrixOf(after, shaft).multiply(matrixOf(before, shaft).invert());
      const size = 2 * Math.acos(Math.min(1, new Quaternion().setFromRotationMatrix(step).w));
      const short = Math.min(size, 2 * Math.PI - size);
      expect(short / (2 * seconds)).toBeCloseTo(Math.hypot(...omega), 2);
    });
  });

  it("keep contact points on both pitch surfaces as a carrier goes round", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const model = poseModel(solved);
    const poses = poseAt(
      model,
      speedsOf(solved).map((speed) => speed * 0.37),
    );
    solved.placement.meshes.forEach((placed, mesh) => {
      if (!placed) return;
      const frame = frameOfMesh(solved, mesh);
      const contact = new Vector3(...placed.contact[0]);
      if (frame >= 0) contact.applyMatrix4(matrixOf(poses.frame, frame));
      for (const side of [0, 1] as const) {
        const shaft = solved.index.shaftsOfMesh[mesh]?.[side] ?? -1;
        const gear = solved.placement.gears[solved.index.gearsOfMesh[mesh]?.[side] ?? -1];
        const local = contact.clone().applyMatrix4(matrixOf(poses.still, shaft).invert());
        expect(Math.hypot(local.x, local.y)).toBeCloseTo((gear?.pitchDiameter ?? 0) / 2, 9);
      }
    });
  });

  it("adds the rest rotation to the shaft's own turning, and not to what it carries", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const model = poseModel(solved);
    const angles = new Float64Array(model.count);
    const rest = new Float64Array(model.count).fill(0.3);
    const with0 = poseAt(model, angles);
    const withRest = poseAt(model, angles, rest);
    expect([...withRest.still]).toEqual([...with0.still]);
    expect([...withRest.turned]).not.toEqual([...with0.turned]);
  });

  it("takes no memory when given some", () => {
    const solved = solve(planetary(24, 18, 60, 3));
    const out = newPoses(solved.drive.shafts.length);
    expect(poseAt(poseModel(solved), new Float64Array(out.still.length / MATRIX), null, out)).toBe(out);
  });
});

import { DoubleSide, Matrix4, Mesh, MeshBasicMaterial, Raycaster, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { benchLayout } from "../../src/bench/bench-layout";
import { toGeometry } from "../../src/bench/gear-geometry";
import { meetBand, pick } from "../../src/bench/picking";
import { turnedShape } from "../../src/bench/shapes";
import { MATRIX, poseAt, poseModel } from "../../src/engine/motion/pose-at";
import { solve } from "../../src/engine/solve";
import { differential, planetary, seeded } from "../support/random-drives";

describe("picking", () => {
  it("meets a cylinder, a cone and a disc at distances known by hand", () => {
    const sight = { origin: [10, 0, 1], direction: [-1, 0, 0] } as const;
    expect(meetBand(sight, [4, 0], [4, 2])).toBeCloseTo(6, 12);
    // Radius 2 at z = 1 on the cone from the apex at z = 0 to radius 4 at z = 2.
    expect(meetBand(sight, [0, 0], [4, 2])).toBeCloseTo(8, 12);
    expect(meetBand({ origin: [3, 0, 5], direction: [0, 0, -1] }, [2, 1], [4, 1])).toBeCloseTo(4, 12);
    expect(meetBand({ origin: [1, 0, 5], direction: [0, 0, -1] }, [2, 1], [4, 1])).toBe(Number.POSITIVE_INFINITY);
    expect(meetBand(sight, [4, 2], [4, 3])).toBe(Number.POSITIVE_INFINITY);
  });

  it.each([
    ["a planetary set", planetary(24, 18, 60, 3)],
    ["a bevel differential", differential(16, 12)],
  ])("finds the gear that three's own raycaster finds: %s", (_, drive) => {
    const solved = solve(drive);
    const layout = benchLayout(solved);
    const { still } = poseAt(poseModel(solved), new Float64Array(solved.drive.shafts.length));
    const bodies = layout.gears.map((outline) => {
      const body = new Mesh(toGeometry(turnedShape(outline.body, 256)), new MeshBasicMaterial({ side: DoubleSide }));
      body.matrixAutoUpdate = false;
      body.matrix.copy(new Matrix4().fromArray(still, outline.shaft * MATRIX));
      body.updateMatrixWorld(true);
      body.userData.gear = outline.gear;
      return body;
    });
    const bare = { ...layout, rods: [] };
    const random = seeded(5);
    let met = 0;
    for (let k = 0; k < 300; k++) {
      const from = new Vector3(random() - 0.5, random() - 0.5, random() - 0.5)
        .normalize()
        .multiplyScalar(4 * layout.radius);
      from.add(new Vector3(...layout.centre));
      const to = new Vector3(random() - 0.5, random() - 0.5, random() - 0.5)
        .multiplyScalar(layout.radius)
        .add(new Vector3(...layout.centre));
      const direction = to.sub(from).normalize();
      const all = new Raycaster(from, direction).intersectObjects(bodies);
      const judged = all[0];
      const hit = pick(bare, still, { origin: from.toArray(), direction: direction.toArray() });
      // A line that grazes the many-sided body of the judge may miss it and still meet the round one.
      if (!judged) continue;
      met++;
      expect(hit).not.toBeNull();
      if (!hit || hit.distance < judged.distance - 0.05) continue;
      // Bodies of mates overlap by their tips, and faces lie in one plane: any of those that tie will do.
      const ties = all
        .filter(({ distance }) => distance < judged.distance + 0.05)
        .map(({ object }) => object.userData.gear);
      expect(ties).toContain(hit.index);
      expect(hit.distance).toBeLessThan(judged.distance + 0.05);
    }
    expect(met).toBeGreaterThan(60);
  });
});

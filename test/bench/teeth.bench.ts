/** All teeth of 40 different gears of 20 to 60 teeth as the bench draws them, against one rotation and copy of every corner. */
import { makeGear } from "../../src/engine/drive/defaults";
import { buildGear, type GearMesh } from "../../src/engine/teeth/gear-mesh";
import { loneSpec, QUALITIES, type ToothSpec } from "../../src/engine/teeth/spec";
import { measureBoth, report } from "./measure";

const KINDS = ["spur", "internal", "bevel", "bevel"] as const;

/** Every one of another tooth count; cones from nearly flat to nearly cylinders. */
const specs: readonly ToothSpec[] = Array.from({ length: 40 }, (_, i) => {
  const kind = KINDS[i % KINDS.length] ?? "spur";
  const gear = makeGear({ id: `g${i}`, shaft: "s", kind, teeth: 20 + i + (i > 19 ? 1 : 0), module: 2, face: 8 });
  return loneSpec(gear, kind === "bevel" ? ((15 + 3 * i) * Math.PI) / 180 : null, QUALITIES.bench);
});
const built: readonly GearMesh[] = specs.map(buildGear);
const corners = built.reduce((sum, { positions }) => sum + positions.length / 3, 0);

/** Positions and normals of every gear, turned and copied: the least that any way of making them costs. */
function turnAll(): readonly GearMesh[] {
  const [c, s] = [Math.cos(0.1), Math.sin(0.1)];
  const turned = (from: Float32Array): Float32Array => {
    const to = new Float32Array(from.length);
    for (let i = 0; i < from.length; i += 3) {
      const [x, y] = [from[i] as number, from[i + 1] as number];
      to[i] = c * x - s * y;
      to[i + 1] = s * x + c * y;
      to[i + 2] = from[i + 2] as number;
    }
    return to;
  };
  return built.map(({ positions, normals, indices }) => ({
    positions: turned(positions),
    normals: turned(normals),
    indices: indices.slice(),
  }));
}

const compared = measureBoth(
  // Specs of their own each time: nothing is known of them.
  () => specs.map((spec) => buildGear({ ...spec })),
  turnAll,
  (gears, copies) => {
    gears.forEach(({ positions, indices }, i) => {
      const copy = copies[i];
      const expected = built[i];
      if (positions.length !== copy?.positions.length || indices.length !== expected?.indices.length) {
        throw new Error("A gear was built with another number of corners.");
      }
      if (!positions.every(Number.isFinite)) throw new Error("A corner lies nowhere.");
    });
  },
);
report({
  name: `all teeth of 40 different gears, ${corners} corners`,
  value: compared.first,
  unit: "ms",
  against: null,
  ratio: null,
  target: "<= 25",
});
report({
  name: "all teeth of 40 different gears over one rotation and copy of every corner",
  value: compared.first,
  unit: "ms",
  against: compared.second,
  ratio: compared.ratio,
  target: "<= 4",
});

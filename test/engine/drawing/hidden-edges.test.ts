/**
 * Hidden and visible edges of the SVG against rays through turned meshes of three: where an edge is drawn as seen, what a ray meets
 * on one side of it is another body, depth or slope than on the other side; where it is dashed, the same smooth surface covers both.
 */
import { DoubleSide, LatheGeometry, Mesh, MeshBasicMaterial, type Object3D, Raycaster, Vector2, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { rodsOf } from "../../../src/engine/collisions/rods";
import type { Solved } from "../../../src/engine/solved";
import { arcsOf, linesOf, readSvg, type XY } from "./read-figure";
import { figure, SAMPLES } from "./samples";

const SIDES = 720;
/** Radians: no seam of the triangles lies in a plane of symmetry, where rays would slip through between two. */
const SEAM = 0.0123;
const VIEWS = ["front", "top", "side"] as const;
type View = (typeof VIEWS)[number];

type Angle = "first" | "third";
/** Front, top and side of third angle; of first angle the side alone is another, for the others stand only in other places. */
const SIGHTS: readonly (readonly [View, Angle])[] = [
  ...VIEWS.map((view) => [view, "third"] as const),
  ["side", "first"],
];

/** Right, up and eye of each view, written out. */
const axesOf = (view: View, angle: Angle): readonly [Vector3, Vector3, Vector3] => {
  if (view === "front") return [new Vector3(1, 0, 0), new Vector3(0, 0, 1), new Vector3(0, -1, 0)];
  if (view === "top") return [new Vector3(1, 0, 0), new Vector3(0, 1, 0), new Vector3(0, 0, 1)];
  const side = angle === "third" ? 1 : -1;
  return [new Vector3(0, side, 0), new Vector3(0, 0, 1), new Vector3(side, 0, 0)];
};

/** The bodies as meshes that three turns about their axes. */
function bodies(solved: Solved): Mesh[] {
  const { gears, rods } = rodsOf(solved);
  const make = (id: string, shaft: number, section: readonly (readonly [number, number])[]): Mesh[] => {
    const placed = solved.placement.shafts[shaft];
    if (!placed) return [];
    const closed = [...section, section[0] as readonly [number, number]];
    // Flat faces: no normals are blended.
    const geometry = new LatheGeometry(
      closed.map(([r, z]) => new Vector2(r, z)),
      SIDES,
      SEAM,
    ).toNonIndexed();
    geometry.computeVertexNormals();
    const mesh = new Mesh(geometry, new MeshBasicMaterial({ side: DoubleSide }));
    mesh.name = id;
    mesh.position.set(...placed.origin);
    mesh.quaternion.setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(...placed.axis).normalize());
    mesh.updateMatrixWorld();
    return [mesh];
  };
  return [
    ...gears.flatMap(({ gear, shaft, body }) => make(solved.drive.gears[gear]?.id ?? "", shaft, body)),
    ...rods.flatMap((rod, i) =>
      rod
        ? make(`rod ${i}`, i, [
            [0, rod.low],
            [rod.radius, rod.low],
            [rod.radius, rod.high],
            [0, rod.high],
          ])
        : [],
    ),
  ];
}

interface Place {
  readonly at: XY;
  readonly across: XY;
  readonly part: string;
}

/** From the middle of a chord to the centre. Of half a circle it is nothing, where the root would make much of the chord's last digit. */
const toCentre = (radius: number, chord: number): number =>
  chord > 2 * radius - 0.003 ? 0 : Math.sqrt(radius * radius - (chord * chord) / 4);

/** Places along what a layer draws, with the direction across. */
function places(svg: ReturnType<typeof readSvg>, id: string): Place[] {
  const list: Place[] = linesOf(svg, id).flatMap(({ from, to, part }) => {
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const size = Math.hypot(dx, dy);
    if (size < 2) return [];
    return [0.23, 0.71].map((t) => ({
      at: [from[0] + t * dx, from[1] + t * dy] as const,
      across: [-dy / size, dx / size] as const,
      part,
    }));
  });
  // Of arcs of circles, all drawn towards greater angles: the middle of the arc.
  for (const { from, to, rx, ry, part, isLarge } of arcsOf(svg, id)) {
    const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (Math.abs(rx - ry) > 1e-6 || chord < 0.5) continue;
    const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    const inward: XY = [-(to[1] - from[1]) / chord, (to[0] - from[0]) / chord];
    const off = (isLarge ? -1 : 1) * toCentre(rx, chord) - rx;
    list.push({ at: [mx + off * inward[0], my + off * inward[1]], across: inward, part });
  }
  return list;
}

/** Sheet to world: from the first pitch surface that shows the middle of its gear. */
function origin(
  solved: Solved,
  svg: ReturnType<typeof readSvg>,
  [view, angle]: readonly [View, Angle],
  scale: number,
): XY {
  for (const [i, gear] of solved.drive.gears.entries()) {
    const shaft = solved.placement.shafts[solved.index.shaftOfGear[i] ?? -1];
    if (!shaft) continue;
    const heel = new Vector3(...shaft.origin).addScaledVector(new Vector3(...shaft.axis), gear.at);
    const [right, up] = axesOf(view, angle);
    const arc = arcsOf(svg, `${view}-pitch`).find(({ part }) => part === gear.id);
    const lines = linesOf(svg, `${view}-pitch`).filter(({ part }) => part === gear.id);
    const isCone = gear.kind === "bevel" || gear.kind === "cone";
    const ends = arc ? [arc.from, arc.to] : lines.flatMap(({ from, to }) => (isCone ? [to] : [from, to]));
    if (ends.length < 2) continue;
    const mean = (k: 0 | 1): number => ends.reduce((sum, end) => sum + end[k], 0) / ends.length;
    return [mean(0) - scale * heel.dot(right), mean(1) + scale * heel.dot(up)];
  }
  throw new Error("nothing tells where the view lies");
}

describe.each(SAMPLES)("%s", (_name, solved) => {
  it.each(SIGHTS)("has its edges seen and hidden in the %s view of %s angle as rays meet them", (view, angle) => {
    const { svg: text, scale } = figure(solved, { angle });
    const svg = readSvg(text);
    const [ox, oy] = origin(solved, svg, [view, angle], scale);
    const [right, up, eye] = axesOf(view, angle);
    const objects: Object3D[] = bodies(solved);
    const mates = new Map<string, Set<string>>();
    for (const { gears } of solved.drive.meshes) {
      for (const [a, b] of [gears, [gears[1], gears[0]]] as const) mates.set(a, (mates.get(a) ?? new Set()).add(b));
    }
    const ray = new Raycaster();
    const FAR = 1e4;
    const first = ([x, y]: XY) => {
      const from = right
        .clone()
        .multiplyScalar((x - ox) / scale)
        .addScaledVector(up, (oy - y) / scale)
        .addScaledVector(eye, FAR);
      ray.set(from, eye.clone().negate());
      const hit = ray.intersectObjects(objects, false)[0];
      if (!hit?.face) return null;
      const normal = hit.face.normal.clone().applyQuaternion(hit.object.quaternion);
      return { id: hit.object.name, depth: hit.distance, normal: normal.dot(eye) < 0 ? normal.negate() : normal };
    };
    /** mm of paper to each side. */
    const aside = 0.03;
    const differs = ({ at, across }: Place): { differs: boolean; ids: string[] } => {
      const [a, b] = [1, -1].map((s) => first([at[0] + s * aside * across[0], at[1] + s * aside * across[1]]));
      const ids = [a?.id ?? "", b?.id ?? ""];
      if (!a || !b) return { differs: a !== b, ids };
      // A smooth round body bends by no more than this over so small a step, away from its own silhouette.
      const bend = a.normal.angleTo(b.normal);
      return { differs: a.id !== b.id || bend > 0.05 || Math.abs(a.depth - b.depth) > (2 * aside * 3) / scale, ids };
    };
    const visible = places(svg, `${view}-visible`);
    let checked = 0;
    const wrong: string[] = [];
    for (const place of visible) {
      const found = differs(place);
      // In the zone of mesh neither gear hides the other (ISO 2203): no ray tells.
      if (found.ids.some((id) => mates.get(place.part)?.has(id))) continue;
      checked++;
      if (!found.differs) wrong.push(`seen ${place.part} at ${place.at} between ${found.ids.join(" and ")}`);
    }
    const edges = linesOf(svg, `${view}-visible`);
    const rounds = arcsOf(svg, `${view}-visible`);
    for (const place of places(svg, `${view}-hidden`)) {
      const [x, y] = place.at;
      // Where a seen edge passes close by the ray meets that one.
      const isNear =
        edges.some(({ from, to }) => {
          const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
          const t = Math.max(0, Math.min(1, ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy)));
          return Math.hypot(x - from[0] - t * dx, y - from[1] - t * dy) < 3 * aside;
        }) ||
        rounds.some(({ from, to, rx, isLarge }) => {
          const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
          const off = ((isLarge ? -1 : 1) * toCentre(rx, chord)) / chord;
          const [cx, cy] = [
            (from[0] + to[0]) / 2 - off * (to[1] - from[1]),
            (from[1] + to[1]) / 2 + off * (to[0] - from[0]),
          ];
          return Math.abs(Math.hypot(x - cx, y - cy) - rx) < 3 * aside;
        });
      if (isNear) continue;
      const found = differs(place);
      // Where mates run into one another as simplified bodies, their seam is no edge of either.
      if (mates.get(found.ids[0] ?? "")?.has(found.ids[1] ?? "")) continue;
      checked++;
      if (found.differs) wrong.push(`hidden ${place.part} at ${place.at} between ${found.ids.join(" and ")}`);
    }
    expect(wrong).toEqual([]);
    expect(checked).toBeGreaterThan(5);
  });
});

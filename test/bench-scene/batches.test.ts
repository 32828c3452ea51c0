/** Batches of bodies, read back from what the graphics card is told to draw: the same corners, places and colours as the bodies' own. */
import * as fc from "fast-check";
import {
  type BatchedMesh,
  BufferAttribute,
  BufferGeometry,
  Color,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  PerspectiveCamera,
  Scene,
  type WebGLRenderer,
} from "three";
import { describe, expect, it } from "vitest";
import { Batches, batchable } from "../../src/bench/batches";

/** A fan of triangles, or as many corners in pairs: told apart from others by its corners. */
function form(corners: number, seed: number, isLine = false): BufferGeometry {
  const geometry = new BufferGeometry();
  const points = Float32Array.from({ length: 3 * corners }, (_, i) => Math.sin(seed * 97 + i));
  geometry.setAttribute("position", new BufferAttribute(points, 3));
  if (!isLine) geometry.setIndex(Array.from({ length: 3 * (corners - 2) }, (_, i) => (i % 3) + Math.floor(i / 3)));
  return geometry;
}

const camera = new PerspectiveCamera(90, 1, 0.1, 1e6);
camera.position.set(0, 0, 5000);
camera.updateMatrixWorld();

interface Drawn {
  readonly corners: string;
  readonly place: string;
  readonly colour: string;
}

const told = (points: Iterable<number>): string => [...points].map((x) => x.toFixed(4)).join(" ");
const inOrder = (list: readonly Drawn[]): string[] => list.map((one) => JSON.stringify(one)).sort();

/** All that one drawing of the scene would send. */
function drawnOf(scene: Scene): Drawn[] {
  const list: Drawn[] = [];
  scene.updateMatrixWorld();
  for (const object of scene.children) {
    const batch = object as BatchedMesh;
    if (!batch.isBatchedMesh || !batch.visible) continue;
    batch.onBeforeRender(
      {} as WebGLRenderer,
      scene,
      camera,
      batch.geometry,
      batch.material as MeshBasicMaterial,
      // The type asks for a group of the geometry, which is not there.
      undefined as never,
    );
    const sent = batch as unknown as {
      _multiDrawStarts: Int32Array;
      _multiDrawCounts: Int32Array;
      _multiDrawCount: number;
      _indirectTexture: { image: { data: Uint32Array } };
    };
    const { index } = batch.geometry;
    const positions = batch.geometry.getAttribute("position");
    for (let i = 0; i < sent._multiDrawCount; i++) {
      const id = sent._indirectTexture.image.data[i] ?? -1;
      const start = (sent._multiDrawStarts[i] ?? 0) / (index?.array.BYTES_PER_ELEMENT ?? 1);
      const corners: number[] = [];
      for (let k = 0; k < (sent._multiDrawCounts[i] ?? 0); k++) {
        const at = index ? index.getX(start + k) : start + k;
        corners.push(positions.getX(at), positions.getY(at), positions.getZ(at));
      }
      list.push({
        corners: told(corners),
        place: told(batch.getMatrixAt(id, new Matrix4()).elements),
        colour: (batch.getColorAt(id, new Color()) as Color).getHexString(),
      });
    }
  }
  return list;
}

function ownOf(body: Mesh | LineSegments): Drawn {
  const { index } = body.geometry;
  const positions = body.geometry.getAttribute("position");
  const corners: number[] = [];
  for (let k = 0; k < (index?.count ?? positions.count); k++) {
    const at = index ? index.getX(k) : k;
    corners.push(positions.getX(at), positions.getY(at), positions.getZ(at));
  }
  return {
    corners: told(corners),
    place: told(body.matrixWorld.elements),
    colour: (body.material as MeshBasicMaterial).color.getHexString(),
  };
}

describe("a batch", () => {
  it("draws every body as it is, whatever comes, changes and goes", () => {
    const step = fc.record({
      body: fc.nat(150),
      act: fc.constantFrom("put", "put", "form", "colour", "drop"),
      corners: fc.integer({ min: 3, max: 900 }),
      colour: fc.nat(0xffffff),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 250 }), (steps) => {
        const scene = new Scene();
        const batches = new Batches(scene);
        const there = new Map<number, Mesh | LineSegments>();
        for (const [number, { body: at, act, corners, colour }] of steps.entries()) {
          const isLine = at % 3 === 0;
          const known = there.get(at);
          if (act === "drop") {
            if (known) {
              batches.drop(known);
              scene.remove(known);
              there.delete(at);
            }
            continue;
          }
          const body = known ?? (isLine ? new LineSegments() : new Mesh());
          const shared = [...there.values()].find((other) => other instanceof LineSegments === isLine)?.geometry;
          if (!known || act === "form") body.geometry = (number % 4 === 0 && shared) || form(corners, number, isLine);
          if (!known || act === "colour")
            body.material = isLine
              ? batchable("line", new LineBasicMaterial({ color: colour }))
              : batchable(
                  at % 3 === 1 ? "body" : "surface",
                  new MeshBasicMaterial({ color: colour, transparent: at % 3 === 2 }),
                );
          body.position.set(at, number, 0);
          scene.add(body);
          batches.put(body);
          there.set(at, body);
        }
        scene.updateMatrixWorld();
        batches.place();
        expect(inOrder(drawnOf(scene))).toEqual(inOrder([...there.values()].map(ownOf)));
        for (const body of there.values()) expect(body.layers.test(camera.layers)).toBe(false);
        batches.dispose();
      }),
      { numRuns: process.env.SOAK ? 300 : 25, seed: 5 },
    );
  });

  it("keeps its buffers while one body is dragged through a thousand forms", () => {
    const scene = new Scene();
    const batches = new Batches(scene);
    const bodies = Array.from({ length: 40 }, (_, i) => {
      const body = new Mesh(form(300, i), batchable("body", new MeshBasicMaterial()));
      scene.add(body);
      batches.put(body);
      return body;
    });
    const room = (): number =>
      (scene.children.find((child) => (child as BatchedMesh).isBatchedMesh) as BatchedMesh).geometry.getAttribute(
        "position",
      ).count;
    const before = room();
    const [dragged] = bodies;
    if (!dragged) throw new Error("No body.");
    for (let i = 0; i < 1000; i++) {
      dragged.geometry = form(200 + (i % 150), i);
      batches.put(dragged);
    }
    expect(room()).toBeLessThanOrEqual(2 * before);
    scene.updateMatrixWorld();
    batches.place();
    expect(inOrder(drawnOf(scene))).toEqual(inOrder(bodies.map(ownOf)));
  });

  it("leaves out what is very large, what has no form and what is of no sort", () => {
    const scene = new Scene();
    const batches = new Batches(scene);
    const large = new Mesh(form(70_000, 1), batchable("body", new MeshBasicMaterial()));
    const none = new Mesh(new BufferGeometry(), batchable("body", new MeshBasicMaterial()));
    const ghost = new Mesh(form(9, 1), new MeshBasicMaterial({ transparent: true }));
    for (const body of [large, none, ghost]) {
      scene.add(body);
      batches.put(body);
      expect(body.layers.test(camera.layers)).toBe(true);
    }
    expect(drawnOf(scene)).toEqual([]);
  });

  it("gives a body that is lit back to the renderer, and takes it again", () => {
    const scene = new Scene();
    const batches = new Batches(scene);
    const plain = batchable("body", new MeshBasicMaterial());
    const body = new Mesh(form(9, 1), plain);
    scene.add(body);
    batches.put(body);
    body.material = new MeshBasicMaterial();
    batches.put(body);
    expect(drawnOf(scene)).toEqual([]);
    expect(body.layers.test(camera.layers)).toBe(true);
    body.material = plain;
    batches.put(body);
    expect(drawnOf(scene)).toHaveLength(1);
    expect(body.layers.test(camera.layers)).toBe(false);
  });
});

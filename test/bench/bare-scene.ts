/** A page with nothing but a scene of three: as many moving bodies and lines as it is told, of as many corners each. For `frames.bench.ts`. */
import {
  BufferAttribute,
  BufferGeometry,
  DirectionalLight,
  Group,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene,
  WebGLRenderer,
} from "three";

export interface BareObject {
  readonly isLine: boolean;
  readonly corners: number;
  readonly triangles: number;
}

const scene = new Scene();
const camera = new PerspectiveCamera(35, 16 / 10, 1, 2000);
camera.position.z = 500;
scene.add(new HemisphereLight(), new DirectionalLight());
const moving: Group[] = [];

function geometryOf({ isLine, corners, triangles }: BareObject): BufferGeometry {
  const positions = new Float32Array(3 * corners);
  const normals = new Float32Array(3 * corners);
  for (let i = 0; i < corners; i++) {
    positions[3 * i] = 20 * Math.cos(i);
    positions[3 * i + 1] = 20 * Math.sin(i);
    positions[3 * i + 2] = i % 7;
    normals[3 * i + 2] = 1;
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  if (isLine) return geometry;
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  geometry.setIndex(Array.from({ length: 3 * triangles }, (_, i) => (i * 7) % Math.max(1, corners)));
  return geometry;
}

/** Draws them, each moved before every frame. */
function start(objects: readonly BareObject[]): void {
  const canvas = document.createElement("canvas");
  document.body.append(canvas);
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setSize(window.innerWidth, window.innerHeight);
  const body = new MeshLambertMaterial({ color: "#4488bb" });
  const line = new LineBasicMaterial({ color: "#223344" });
  objects.forEach((object, i) => {
    const geometry = geometryOf(object);
    const group = new Group();
    group.matrixAutoUpdate = false;
    group.add(object.isLine ? new LineSegments(geometry, line) : new Mesh(geometry, body));
    group.matrix.setPosition(((i % 16) - 8) * 20, (Math.floor(i / 16) - 6) * 20, 0);
    scene.add(group);
    moving.push(group);
  });
  const frame = (time: number): void => {
    const [c, s] = [Math.cos(time / 1000), Math.sin(time / 1000)];
    for (const group of moving) {
      const { elements } = group.matrix;
      elements[0] = elements[5] = c;
      elements[1] = s;
      elements[4] = -s;
      group.matrixWorldNeedsUpdate = true;
    }
    renderer.render(scene, camera);
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}

Object.assign(window, { startBare: start });

/** A page with nothing but a scene of three: as many moving bodies and lines as it is told, of as many corners each. For `frames.bench.ts`. */
import {
  BufferAttribute,
  BufferGeometry,
  DirectionalLight,
  Group,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  type Material,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene,
  WebGLRenderer,
} from "three";

export interface BareObject {
  readonly isLine: boolean;
  /** Bodies that let light through are drawn last and sorted, in a bare scene too. */
  readonly isTranslucent: boolean;
  /** Which of the materials: as many as the page has. */
  readonly material: number;
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
  const materials = new Map<string, Material>();
  const materialOf = ({ isLine, isTranslucent, material }: BareObject): Material => {
    const key = `${isLine} ${isTranslucent} ${material}`;
    const look = { transparent: isTranslucent, opacity: isTranslucent ? 0.4 : 1, depthWrite: !isTranslucent };
    const known = materials.get(key);
    if (known) return known;
    const made = isLine
      ? new LineBasicMaterial(look)
      : isTranslucent
        ? new MeshBasicMaterial(look)
        : new MeshLambertMaterial(look);
    materials.set(key, made);
    return made;
  };
  objects.forEach((object, i) => {
    const geometry = geometryOf(object);
    const group = new Group();
    group.matrixAutoUpdate = false;
    group.add(object.isLine ? new LineSegments(geometry, materialOf(object)) : new Mesh(geometry, materialOf(object)));
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

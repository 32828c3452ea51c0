/** Solids as files: binary STL in mm, and what can be said of one without any other program. */
import type { GearSolid } from "./gear-mesh";

const HEADER = 80;
const PER_TRIANGLE = 50;

/** A solid in 32-bit floats, as STL keeps it: points that fall together are one, triangles without area are gone. */
export interface RoundedSolid {
  readonly points: Float32Array;
  readonly triangles: Uint32Array;
}

export function roundSolid({ points, triangles }: GearSolid): RoundedSolid {
  const rounded = Float32Array.from(points);
  const bits = new Uint32Array(rounded.buffer);
  const count = rounded.length / 3;
  const order = Uint32Array.from({ length: count }, (_, i) => i);
  const compare = (a: number, b: number) =>
    (bits[3 * a] ?? 0) - (bits[3 * b] ?? 0) ||
    (bits[3 * a + 1] ?? 0) - (bits[3 * b + 1] ?? 0) ||
    (bits[3 * a + 2] ?? 0) - (bits[3 * b + 2] ?? 0);
  // -0 and 0 are one place, and so one pattern of bits.
  for (let i = 0; i < rounded.length; i++) rounded[i] = (rounded[i] ?? 0) + 0;
  order.sort(compare);
  const firstOf = new Uint32Array(count);
  for (let i = 0; i < count; i++) {
    const [here, before] = [order[i] ?? 0, order[i - 1] ?? 0];
    firstOf[here] = i > 0 && compare(here, before) === 0 ? (firstOf[before] ?? 0) : here;
  }
  const kept = new Uint32Array(triangles.length);
  let size = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const a = firstOf[triangles[i] ?? 0] ?? 0;
    const b = firstOf[triangles[i + 1] ?? 0] ?? 0;
    const c = firstOf[triangles[i + 2] ?? 0] ?? 0;
    if (a === b || b === c || c === a) continue;
    kept[size++] = a;
    kept[size++] = b;
    kept[size++] = c;
  }
  return { points: rounded, triangles: kept.slice(0, size) };
}

/** Every edge lies between exactly two triangles, which run along it in opposite ways. */
export function isWatertight({ points, triangles }: RoundedSolid | GearSolid): boolean {
  const count = points.length / 3;
  const along = new Float64Array(triangles.length);
  const against = new Float64Array(triangles.length);
  for (let i = 0; i < triangles.length; i++) {
    const a = triangles[i] ?? 0;
    const b = triangles[i % 3 === 2 ? i - 2 : i + 1] ?? 0;
    along[i] = a * count + b;
    against[i] = b * count + a;
  }
  along.sort();
  against.sort();
  for (let i = 0; i < along.length; i++) {
    if (along[i] !== against[i] || (i > 0 && along[i] === along[i - 1])) return false;
  }
  return triangles.length > 0;
}

/** mm³, by the divergence theorem: the sum of tetrahedra over the triangles, from the first point so that no digits are lost. */
export function volumeOf({ points, triangles }: RoundedSolid | GearSolid): number {
  const at = (point: number, k: number) => (points[3 * point + k] ?? 0) - (points[k] ?? 0);
  let sum = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i] ?? 0, triangles[i + 1] ?? 0, triangles[i + 2] ?? 0];
    const [ax, ay, az] = [at(a, 0), at(a, 1), at(a, 2)];
    const [bx, by, bz] = [at(b, 0), at(b, 1), at(b, 2)];
    const [cx, cy, cz] = [at(c, 0), at(c, 1), at(c, 2)];
    sum += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return sum / 6;
}

/** The bytes of a binary STL: 80 of a title, the count, then 50 a triangle, little-endian. */
export function binaryStl({ points, triangles }: RoundedSolid, title: string): Uint8Array<ArrayBuffer> {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(HEADER + 4 + PER_TRIANGLE * count);
  const view = new DataView(bytes.buffer);
  // A title that began with "solid" would pass for a text STL.
  for (let i = 0; i < Math.min(HEADER, title.length); i++) {
    const code = title.charCodeAt(i);
    bytes[i] = code >= 32 && code < 127 ? code : 63;
  }
  view.setUint32(HEADER, count, true);
  const corner = new Float64Array(9);
  for (let t = 0, at = HEADER + 4; t < count; t++, at += PER_TRIANGLE) {
    for (let k = 0; k < 9; k++) corner[k] = points[3 * (triangles[3 * t + Math.floor(k / 3)] ?? 0) + (k % 3)] ?? 0;
    const [x0 = 0, y0 = 0, z0 = 0, x1 = 0, y1 = 0, z1 = 0, x2 = 0, y2 = 0, z2 = 0] = corner;
    const nx = (y1 - y0) * (z2 - z0) - (z1 - z0) * (y2 - y0);
    const ny = (z1 - z0) * (x2 - x0) - (x1 - x0) * (z2 - z0);
    const nz = (x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0);
    const size = Math.hypot(nx, ny, nz) || 1;
    view.setFloat32(at, nx / size, true);
    view.setFloat32(at + 4, ny / size, true);
    view.setFloat32(at + 8, nz / size, true);
    for (let k = 0; k < 9; k++) view.setFloat32(at + 12 + 4 * k, corner[k] ?? 0, true);
  }
  return bytes;
}

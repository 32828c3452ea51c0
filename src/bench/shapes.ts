/** Plain bodies as typed arrays: turned profiles, rings, arrows, dashed lines. z is the axis; lengths in mm. */
import type { RZ } from "../engine/collisions/gear-outline";

/** Corners with normals, and triangles between them. */
export interface Shape {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
}

/** Cosine: sides that meet at a smaller angle make no corner. */
const CORNER = Math.cos(Math.PI / 10);
const TURN = 2 * Math.PI;

/** Collects corners and triangles. */
export class ShapeBuilder {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly indices: number[] = [];

  corner(x: number, y: number, z: number, nx: number, ny: number, nz: number): number {
    this.positions.push(x, y, z);
    this.normals.push(nx, ny, nz);
    return this.positions.length / 3 - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.indices.push(a, b, c);
  }

  quad(a: number, b: number, c: number, d: number): void {
    this.indices.push(a, b, c, a, c, d);
  }

  /** One line of a profile turned about z: sharp towards its neighbours. Outside is to the right of the way from `p` to `q`, z up. */
  band(p: RZ, q: RZ, segments: number, from = 0, to = TURN): this {
    const [dr, dz] = [q[0] - p[0], q[1] - p[1]];
    const size = Math.hypot(dr, dz);
    if (size < 1e-9) return this;
    const [nr, nz] = [dz / size, -dr / size];
    let before: [number, number] | null = null;
    for (let k = 0; k <= segments; k++) {
      const a = from + ((to - from) * k) / segments;
      const [c, s] = [Math.cos(a), Math.sin(a)];
      const now: [number, number] = [
        this.corner(p[0] * c, p[0] * s, p[1], nr * c, nr * s, nz),
        this.corner(q[0] * c, q[0] * s, q[1], nr * c, nr * s, nz),
      ];
      if (before) this.quad(before[0], now[0], now[1], before[1]);
      before = now;
    }
    return this;
  }

  /** A box by its middle, its half sizes along three unit vectors. */
  box(centre: readonly number[], axes: readonly (readonly number[])[], half: readonly number[]): this {
    for (let k = 0; k < 3; k++) {
      for (const side of [1, -1]) {
        const n = (axes[k] ?? []).map((x) => x * side);
        const [u, v] = [axes[(k + 1) % 3] ?? [], axes[(k + 2) % 3] ?? []];
        const [hu, hv] = [half[(k + 1) % 3] ?? 0, half[(k + 2) % 3] ?? 0];
        const at = (su: number, sv: number): number => {
          const p = [0, 1, 2].map(
            (i) =>
              (centre[i] ?? 0) + (n[i] ?? 0) * (half[k] ?? 0) + (u[i] ?? 0) * su * hu * side + (v[i] ?? 0) * sv * hv,
          );
          return this.corner(p[0] ?? 0, p[1] ?? 0, p[2] ?? 0, n[0] ?? 0, n[1] ?? 0, n[2] ?? 0);
        };
        this.quad(at(-1, -1), at(1, -1), at(1, 1), at(-1, 1));
      }
    }
    return this;
  }

  shape(): Shape {
    return {
      positions: new Float32Array(this.positions),
      normals: new Float32Array(this.normals),
      indices: new Uint32Array(this.indices),
    };
  }
}

/** A closed half section turned about z; corners may go round either way. */
export function turnedShape(profile: readonly RZ[], segments: number): Shape {
  let area = 0;
  profile.forEach(([r, z], i) => {
    const [r2, z2] = profile[(i + 1) % profile.length] ?? [0, 0];
    area += r * z2 - r2 * z;
  });
  // With r to the right and z up, outside is to the right when going round counterclockwise.
  const round = area >= 0 ? profile : [...profile].reverse();
  return bandsShape(
    round.flatMap((p, i) => {
      const q = round[(i + 1) % round.length];
      return q && (p[0] > 1e-9 || q[0] > 1e-9) ? [[p, q] as const] : [];
    }),
    segments,
  );
}

const circles = new Map<number, Float64Array>();
/** Cosines and sines at the corners of a circle of so many sides, in turn; the first again at the end. */
function circleOf(segments: number): Float64Array {
  let circle = circles.get(segments);
  if (!circle) {
    circle = new Float64Array(2 * (segments + 1));
    for (let k = 0; k <= segments; k++) {
      circle[2 * k] = Math.cos((TURN * k) / segments);
      circle[2 * k + 1] = Math.sin((TURN * k) / segments);
    }
    circles.set(segments, circle);
  }
  return circle;
}

/** Lines of a profile turned about z, each sharp towards its neighbours: `ShapeBuilder.band` all the way round, without its lists. */
export function bandsShape(lines: readonly (readonly [p: RZ, q: RZ])[], segments: number): Shape {
  const kept = lines.filter(([p, q]) => Math.hypot(q[0] - p[0], q[1] - p[1]) >= 1e-9);
  const corners = 2 * (segments + 1);
  const positions = new Float32Array(3 * corners * kept.length);
  const normals = new Float32Array(3 * corners * kept.length);
  const indices = new Uint32Array(6 * segments * kept.length);
  const circle = circleOf(segments);
  let [at, to] = [0, 0];
  kept.forEach(([p, q], line) => {
    const size = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const [nr, nz] = [(q[1] - p[1]) / size, -(q[0] - p[0]) / size];
    for (let k = 0; k <= segments; k++) {
      const [c, s] = [circle[2 * k] as number, circle[2 * k + 1] as number];
      for (const [r, z] of [p, q]) {
        positions[at] = r * c;
        positions[at + 1] = r * s;
        positions[at + 2] = z;
        normals[at] = nr * c;
        normals[at + 1] = nr * s;
        normals[at + 2] = nz;
        at += 3;
      }
    }
    for (let k = 0; k < segments; k++) {
      const first = line * corners + 2 * k;
      indices[to] = first;
      indices[to + 1] = first + 2;
      indices[to + 2] = first + 3;
      indices[to + 3] = first;
      indices[to + 4] = first + 3;
      indices[to + 5] = first + 1;
      to += 6;
    }
  });
  return { positions, normals, indices };
}

/** The circles at which such a body has a corner, as pairs of ends. */
export function turnedEdges(profile: readonly RZ[], segments: number): Float32Array {
  const corners = profile.filter((point, i) => {
    const [before, after] = [profile.at(i - 1) ?? point, profile[(i + 1) % profile.length] ?? point];
    const [ar, az] = [point[0] - before[0], point[1] - before[1]];
    const [br, bz] = [after[0] - point[0], after[1] - point[1]];
    return point[0] > 1e-9 && ar * br + az * bz < CORNER * Math.hypot(ar, az) * Math.hypot(br, bz);
  });
  const points = new Float32Array(corners.length * segments * 6);
  const circle = circleOf(segments);
  let at = 0;
  for (const [r, z] of corners) {
    for (let k = 0; k < segments; k++) {
      for (let end = k; end <= k + 1; end++) {
        points[at] = r * (circle[2 * end] as number);
        points[at + 1] = r * (circle[2 * end + 1] as number);
        points[at + 2] = z;
        at += 3;
      }
    }
  }
  return points;
}

export const rodShape = (low: number, high: number, radius: number, segments = 20): Shape =>
  turnedShape(
    [
      [0, low],
      [radius, low],
      [radius, high],
      [0, high],
    ],
    segments,
  );

/** A round ring of wire about z. */
export function wireRing(radius: number, wire: number, z = 0, segments = 72): Shape {
  return arcTube(radius, wire, z, 0, TURN, segments).shape();
}

/** A round ring of wire in dashes with gaps between them, about z: the mark of a part that something is wrong with. */
export function dashedRing(radius: number, wire: number, z = 0, dashes = 14): Shape {
  const step = TURN / dashes;
  return joinShapes(
    Array.from({ length: dashes }, (_, k) => arcTube(radius, wire, z, k * step, (k + 0.6) * step, 6).shape()),
  );
}

function arcTube(radius: number, wire: number, z: number, from: number, to: number, segments: number): ShapeBuilder {
  const builder = new ShapeBuilder();
  const sides = 8;
  let before: number[] = [];
  for (let k = 0; k <= segments; k++) {
    const a = from + ((to - from) * k) / segments;
    const now: number[] = [];
    for (let j = 0; j <= sides; j++) {
      const b = (TURN * j) / sides;
      const [nr, nz] = [Math.cos(b), Math.sin(b)];
      const r = radius + wire * nr;
      now.push(builder.corner(r * Math.cos(a), r * Math.sin(a), z + wire * nz, nr * Math.cos(a), nr * Math.sin(a), nz));
    }
    if (before.length > 0) {
      for (let j = 0; j < sides; j++) {
        builder.quad(before[j] ?? 0, now[j] ?? 0, now[j + 1] ?? 0, before[j + 1] ?? 0);
      }
    }
    before = now;
  }
  return builder;
}

/** An arrow that goes three quarters round z, counterclockwise for an eye at +z: a wire with a cone at its head. */
export function roundArrow(radius: number, wire: number): Shape {
  const from = -0.25 * Math.PI;
  const to = 1.12 * Math.PI;
  const builder = arcTube(radius, wire, 0, from, to, 44);
  const head = 3.1 * wire;
  const long = 8.5 * wire;
  const sides = 12;
  // The head follows the arc: its axis is the chord over its own length.
  const a = to + long / radius / 2;
  const [tx, ty] = [-Math.sin(a), Math.cos(a)];
  const [rx, ry] = [Math.cos(a), Math.sin(a)];
  const [bx, by] = [radius * Math.cos(to), radius * Math.sin(to)];
  const tip = [bx + tx * long, by + ty * long];
  const slope = head / long;
  for (let j = 0; j < sides; j++) {
    const corner = (angle: number, isTip: boolean): number => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const n = 1 / Math.hypot(1, slope);
      return builder.corner(
        isTip ? (tip[0] ?? 0) : bx + rx * c * head,
        isTip ? (tip[1] ?? 0) : by + ry * c * head,
        isTip ? 0 : s * head,
        (rx * c + tx * slope) * n,
        (ry * c + ty * slope) * n,
        s * n,
      );
    };
    const [b0, b1] = [(TURN * j) / sides, (TURN * (j + 1)) / sides];
    builder.triangle(corner(b0, false), corner((b0 + b1) / 2, true), corner(b1, false));
    const flat = (x: number, y: number, z: number): number => builder.corner(x, y, z, -tx, -ty, 0);
    const [c0, s0, c1, s1] = [Math.cos(b0), Math.sin(b0), Math.cos(b1), Math.sin(b1)];
    builder.triangle(
      flat(bx, by, 0),
      flat(bx + rx * c0 * head, by + ry * c0 * head, s0 * head),
      flat(bx + rx * c1 * head, by + ry * c1 * head, s1 * head),
    );
  }
  return builder.shape();
}

/**
 * A long-dashed dotted line on z, as pairs of ends: dash 24, gap 3, dot 1, gap 3 in parts of the line's width (ISO 128-2, line
 * type 04.1 narrow; the dot is drawn twice its 0.5 so that a screen shows it).
 */
export function dashDot(low: number, high: number, width: number): Float32Array {
  const [dash, gap, dot] = [24 * width, 3 * width, width];
  const period = dash + 2 * gap + dot;
  // Whole periods and one more dash: both ends are dashes.
  const periods = Math.max(0, Math.round((high - low - dash) / period));
  const scale = (high - low) / (periods * period + dash);
  const points: number[] = [];
  for (let k = 0; k <= periods; k++) {
    const at = low + k * period * scale;
    points.push(0, 0, at, 0, 0, at + dash * scale);
    if (k < periods) points.push(0, 0, at + (dash + gap) * scale, 0, 0, at + (dash + gap + dot) * scale);
  }
  return new Float32Array(points);
}

/** A straight bar between two points, square to nothing in particular: a rod with its own axis. */
export function barShape(from: readonly number[], to: readonly number[], radius: number, sides = 12): Shape {
  const d = [0, 1, 2].map((i) => (to[i] ?? 0) - (from[i] ?? 0));
  const size = Math.hypot(...d) || 1;
  const [x = 0, y = 0, z = 0] = d.map((part) => part / size);
  // Any two directions square to the bar.
  const helper = Math.abs(z) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const [hx = 0, hy = 0, hz = 0] = helper;
  let u = [y * hz - z * hy, z * hx - x * hz, x * hy - y * hx];
  const us = Math.hypot(...u);
  u = u.map((part) => part / us);
  const [ux = 0, uy = 0, uz = 0] = u;
  const v = [y * uz - z * uy, z * ux - x * uz, x * uy - y * ux];
  const rod = rodShape(0, size, radius, sides);
  const move = (source: Float32Array, isPoint: boolean): Float32Array => {
    const out = new Float32Array(source.length);
    for (let k = 0; k < source.length; k += 3) {
      const [a, b, c] = [source[k] ?? 0, source[k + 1] ?? 0, source[k + 2] ?? 0];
      out[k] = a * ux + b * (v[0] ?? 0) + c * x + (isPoint ? (from[0] ?? 0) : 0);
      out[k + 1] = a * uy + b * (v[1] ?? 0) + c * y + (isPoint ? (from[1] ?? 0) : 0);
      out[k + 2] = a * uz + b * (v[2] ?? 0) + c * z + (isPoint ? (from[2] ?? 0) : 0);
    }
    return out;
  };
  return { positions: move(rod.positions, true), normals: move(rod.normals, false), indices: rod.indices };
}

/** Several shapes as one. */
export function joinShapes(shapes: readonly Shape[]): Shape {
  const corners = shapes.reduce((sum, shape) => sum + shape.positions.length, 0);
  const count = shapes.reduce((sum, shape) => sum + shape.indices.length, 0);
  const positions = new Float32Array(corners);
  const normals = new Float32Array(corners);
  const indices = new Uint32Array(count);
  let [p, i] = [0, 0];
  for (const shape of shapes) {
    positions.set(shape.positions, p);
    normals.set(shape.normals, p);
    for (let k = 0; k < shape.indices.length; k++) indices[i + k] = (shape.indices[k] ?? 0) + p / 3;
    p += shape.positions.length;
    i += shape.indices.length;
  }
  return { positions, normals, indices };
}

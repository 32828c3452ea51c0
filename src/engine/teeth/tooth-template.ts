/** One pitch of a gear's toothed surface: points, vertices with normals, triangles. The gear is this, turned and copied. */
import { endPoint } from "./blank";
import { acrossAzimuth, type Outline, outlineOf } from "./outline";
import type { ToothSpec } from "./spec";

export interface ToothTemplate {
  /** Points of one pitch, both ends: x, y, z in mm in the outward frame. */
  readonly points: Float64Array;
  /** For each vertex its point, and its normal. Where surfaces meet in an edge one point has several vertices. */
  readonly pointOf: Uint32Array;
  readonly normals: Float64Array;
  /** Vertex numbers, counterclockwise from outside; a number at or past the count of vertices is one of the next pitch. */
  readonly triangles: Uint32Array;
  /** For each end the vertices along the root circle that face as the end does. */
  readonly rootVertices: readonly [Uint32Array, Uint32Array];
}

type Triple = readonly [number, number, number];

/** One tooth of a gear, all that its body and its edges are made of. */
export interface OneTooth {
  readonly outline: Outline;
  readonly template: ToothTemplate;
}

const known = new WeakMap<ToothSpec, OneTooth>();

/** The one tooth of a spec; kept with the spec, since the body and the edges both begin with it. */
export function toothOf(spec: ToothSpec): OneTooth {
  const before = known.get(spec);
  if (before) return before;
  const outline = outlineOf(spec);
  const tooth = { outline, template: toothTemplate(spec, outline) };
  known.set(spec, tooth);
  return tooth;
}

function toothTemplate(spec: ToothSpec, outline: Outline): ToothTemplate {
  const { rowPlace, rowHalf, columns, landSteps, rootAzimuths, root, outward } = outline;
  const rows = rowPlace.length;
  const perRow = columns + 1;
  const rootCount = rootAzimuths.length;
  const perEnd = rootCount + Math.max(0, rows - 1) * perRow;
  const isConical = spec.form === "conical";

  /** Point numbers: row 0 lies among the points of the root circle. */
  const gridPoint = (end: number, row: number, column: number): number =>
    end * perEnd + (row === 0 ? landSteps + column : rootCount + (row - 1) * perRow + column);
  const partAcross = (column: number): number => (columns === 0 ? 0 : (2 * column) / columns - 1);
  const isArc = (row: number): boolean => outline.isWide || row === rows - 1;
  const azimuthAt = (row: number, column: number): number =>
    acrossAzimuth(rowHalf[row] ?? 0, partAcross(column), isArc(row));
  /** Nearness of a row's point to the axis: straight rows run inside the circle through their ends. */
  const chordAt = (row: number, column: number): number =>
    isArc(row) ? 1 : Math.cos(rowHalf[row] ?? 0) / Math.cos(azimuthAt(row, column));

  const points = new Float64Array(6 * perEnd);
  const setPoint = (point: number, place: number, azimuth: number, end: 0 | 1, chord: number) => {
    const [r, z] = endPoint(spec, place, end);
    points[3 * point] = chord * r * Math.cos(azimuth);
    points[3 * point + 1] = chord * r * Math.sin(azimuth);
    points[3 * point + 2] = z;
  };
  for (const end of [0, 1] as const) {
    for (let i = 0; i < rootCount; i++) {
      const column = i - landSteps;
      const isAcross = rows > 0 && column >= 0 && column <= columns;
      setPoint(end * perEnd + i, root, rootAzimuths[i] ?? 0, end, isAcross ? chordAt(0, column) : 1);
    }
    for (let row = 1; row < rows; row++) {
      for (let c = 0; c <= columns; c++) {
        setPoint(gridPoint(end, row, c), rowPlace[row] ?? 0, azimuthAt(row, c), end, chordAt(row, c));
      }
    }
  }

  /** A direction given by its parts along growing place and azimuth. */
  const direction = (place: number, azimuth: number, alongPlace: number, alongAzimuth: number): Triple => {
    const [c, s] = [Math.cos(azimuth), Math.sin(azimuth)];
    const radial = isConical ? alongPlace * Math.cos(place) : alongPlace;
    const axial = isConical ? -alongPlace * Math.sin(place) : 0;
    return [radial * c - alongAzimuth * s, radial * s + alongAzimuth * c, axial];
  };

  const pointOf: number[] = [];
  const normals: number[] = [];
  const addVertex = (point: number, normal: Triple): number => {
    pointOf.push(point);
    normals.push(normal[0], normal[1], normal[2]);
    return pointOf.length - 1;
  };
  const triangles: number[] = [];
  const addTriangle = (a: number, b: number, c: number) => {
    if (outward > 0) triangles.push(a, b, c);
    else triangles.push(a, c, b);
  };
  /** A strip between two rows of vertices, a ahead of b in azimuth; [first end, second end]. */
  const addQuad = (a: readonly [number, number], b: readonly [number, number]) => {
    addTriangle(a[1], b[1], b[0]);
    addTriangle(a[1], b[0], a[0]);
  };
  const pairAt = (point: number, place: number, azimuth: number, nq: number, na: number): [number, number] => {
    const normal = direction(place, azimuth, nq, na);
    return [addVertex(point, normal), addVertex(point + perEnd, normal)];
  };

  // Root land on both sides; the last step leads to the first vertex of the next pitch.
  const land: [number, number][] = [];
  const landAt = (i: number) => pairAt(i, root, rootAzimuths[i] ?? 0, outward, 0);
  const rightEnd = rows > 0 ? landSteps : 0;
  for (let i = 0; i <= rightEnd; i++) land.push(landAt(i));
  for (let i = 0; i < rightEnd; i++) addQuad(land[i] as [number, number], land[i + 1] as [number, number]);
  const closing = land.length;
  for (let i = landSteps + columns; rows > 0 && i < rootCount; i++) land.push(landAt(i));
  for (let i = closing; i + 1 < land.length; i++) addQuad(land[i] as [number, number], land[i + 1] as [number, number]);
  const lastLand = land[land.length - 1] as [number, number];
  const firstLand = land[0] as [number, number];

  // Flanks: the left one as the profile has it, the right one its mirror image.
  let row = 0;
  for (const stretch of outline.profile?.stretches ?? []) {
    const first = row;
    let before: { left: [number, number]; right: [number, number] } | null = null;
    for (let i = 0; i < stretch.q.length; i++) {
      row = first + i;
      const place = rowPlace[row] ?? 0;
      const half = rowHalf[row] ?? 0;
      const [nq, na] = [stretch.normalQ[i] ?? 0, stretch.normalA[i] ?? 0];
      const left = pairAt(gridPoint(0, row, columns), place, half, nq, na);
      const right = pairAt(gridPoint(0, row, 0), place, -half, nq, -na);
      if (before) {
        addQuad(left, before.left);
        addQuad(before.right, right);
      }
      before = { left, right };
    }
  }

  // Tip land.
  for (let c = 0, before: [number, number] | null = null; rows > 0 && c <= columns; c++) {
    const place = rowPlace[rows - 1] ?? 0;
    const next = pairAt(gridPoint(0, rows - 1, c), place, azimuthAt(rows - 1, c), outward, 0);
    if (before) addQuad(before, next);
    before = next;
  }

  // Ends of the tooth: square to the axis, or on the back cones.
  const addFacing = (end: number, a: number, b: number, c: number) =>
    end === 0 ? addTriangle(a, b, c) : addTriangle(a, c, b);
  const [sin, cos] = [Math.sin(spec.pitchAngle), Math.cos(spec.pitchAngle)];
  const rootVertices = ([0, 1] as const).map((end) => {
    const side = end === 0 ? 1 : -1;
    const endNormal = (azimuth: number): Triple =>
      isConical ? [side * sin * Math.cos(azimuth), side * sin * Math.sin(azimuth), side * cos] : [0, 0, side];
    const onRoot = Uint32Array.from(rootAzimuths, (azimuth, i) => addVertex(end * perEnd + i, endNormal(azimuth)));
    let lower = Array.from({ length: rows > 0 ? perRow : 0 }, (_, c) => onRoot[landSteps + c] ?? 0);
    for (let k = 1; k < rows; k++) {
      const upper = lower.map((_, c) => addVertex(gridPoint(end, k, c), endNormal(azimuthAt(k, c))));
      for (let c = 0; c < columns; c++) {
        const [a, b, d, e] = [lower[c] ?? 0, upper[c] ?? 0, upper[c + 1] ?? 0, lower[c + 1] ?? 0];
        // The diagonal that leans outward: rows may lie close together, and the other would dip below the lower one.
        if (2 * c < columns - 1) {
          addFacing(end, a, b, e);
          addFacing(end, b, d, e);
        } else {
          addFacing(end, a, b, d);
          addFacing(end, a, d, e);
        }
      }
      lower = upper;
    }
    return onRoot;
  });

  const count = pointOf.length;
  addQuad(lastLand, [firstLand[0] + count, firstLand[1] + count]);
  return {
    points,
    pointOf: Uint32Array.from(pointOf),
    normals: Float64Array.from(normals),
    triangles: Uint32Array.from(triangles),
    rootVertices: [rootVertices[0] as Uint32Array, rootVertices[1] as Uint32Array],
  };
}

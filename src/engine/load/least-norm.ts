/**
 * Among the solutions x of sparse equations B x = b with at least as many unknowns as equations, the one of least
 * sum of squares; and which unknowns the equations leave open.
 *
 * Method: orthogonal factors of the transpose, Bᵀ = Q [R; 0], by Givens rotations, one unknown after the other
 * (George and Heath, Linear Algebra and its Applications 34, 1980), equations ordered by least degree. Then
 * x = Q [R⁻ᵀ b; 0]. Stable without squaring the condition, and square systems are just the case without freedom.
 */
import { ROUNDING, ZERO_RELATIVE } from "../tolerances";

/** One unknown: the equations that it is in, and its coefficient in each. */
export interface Column {
  readonly equations: readonly number[];
  readonly coefficients: readonly number[];
}

interface SparseRow {
  columns: number[];
  values: number[];
}

export interface Factors {
  readonly unknowns: number;
  /** For each place in the order of elimination: its equation. */
  readonly order: readonly number[];
  /** Each equation is divided by this. */
  readonly scale: Float64Array;
  /** Rows of R by place; null where the equation depends on others. */
  readonly rows: readonly (SparseRow | null)[];
  /** The unknown whose coordinate holds a row of R. */
  readonly owner: Int32Array;
  /** Rotations in order: coordinates of owner and of unknown, cosine, sine. */
  readonly rotations: { readonly a: number[]; readonly b: number[]; readonly c: number[]; readonly s: number[] };
}

/** Equations in the order of least degree: those that share an unknown are neighbours. */
export function leastDegreeOrder(columns: readonly Column[], equations: number): number[] {
  const near: Set<number>[] = Array.from({ length: equations }, () => new Set());
  for (const { equations: joined } of columns)
    for (const i of joined) for (const j of joined) if (i !== j) near[i]?.add(j);
  const buckets: number[][] = [];
  const put = (i: number) => {
    const degree = near[i]?.size ?? 0;
    const bucket = buckets[degree];
    if (bucket) bucket.push(i);
    else buckets[degree] = [i];
    return degree;
  };
  for (let i = 0; i < equations; i++) put(i);
  const done = new Uint8Array(equations);
  const order: number[] = [];
  for (let degree = 0; order.length < equations; ) {
    const i = buckets[degree]?.pop();
    if (i === undefined) {
      degree++;
      continue;
    }
    const mine = near[i];
    // Entries of a bucket grow stale when a degree changes; the fresh one stands in another bucket.
    if (!mine || done[i] || mine.size !== degree) continue;
    done[i] = 1;
    order.push(i);
    for (const j of mine) {
      const theirs = near[j];
      if (!theirs) continue;
      theirs.delete(i);
      for (const k of mine) if (k !== j) theirs.add(k);
    }
    for (const j of mine) degree = Math.min(degree, put(j));
  }
  return order;
}

/** a ← c a + s b and b ← c b - s a, the leading entry of b (the same column as a's) dropped. */
function rotate(a: SparseRow, b: SparseRow, c: number, s: number, length: number): SparseRow {
  const columns: number[] = [];
  const upper: number[] = [];
  const rest: SparseRow = { columns: [], values: [] };
  let i = 0;
  let j = 0;
  while (i < a.columns.length || j < b.columns.length) {
    const left = a.columns[i] ?? Infinity;
    const right = b.columns[j] ?? Infinity;
    const column = Math.min(left, right);
    const x = left === column ? (a.values[i++] ?? 0) : 0;
    const y = right === column ? (b.values[j++] ?? 0) : 0;
    columns.push(column);
    if (columns.length === 1) {
      upper.push(length);
      continue;
    }
    upper.push(c * x + s * y);
    const below = c * y - s * x;
    // What is left of two like numbers is rounding, and would pose as a further independent equation.
    if (Math.abs(below) <= ROUNDING * (Math.abs(c * y) + Math.abs(s * x))) continue;
    rest.columns.push(column);
    rest.values.push(below);
  }
  a.columns = columns;
  a.values = upper;
  return rest;
}

/** Factors the equations. `order` may be handed on from an earlier system of the same shape. */
export function factorise(
  columns: readonly Column[],
  equations: number,
  order: readonly number[] = leastDegreeOrder(columns, equations),
): Factors {
  const scale = new Float64Array(equations);
  for (const { equations: joined, coefficients } of columns)
    joined.forEach((i, k) => {
      scale[i] = Math.max(scale[i] ?? 0, Math.abs(coefficients[k] ?? 0));
    });
  for (let i = 0; i < equations; i++) if (!scale[i]) scale[i] = 1;
  const place = new Int32Array(equations);
  order.forEach((i, p) => {
    place[i] = p;
  });
  const rows: (SparseRow | null)[] = new Array(equations).fill(null);
  const owner = new Int32Array(equations).fill(-1);
  const rotations = { a: [] as number[], b: [] as number[], c: [] as number[], s: [] as number[] };
  columns.forEach(({ equations: joined, coefficients }, unknown) => {
    const entries = joined
      .map((i, k) => ({ column: place[i] ?? 0, value: (coefficients[k] ?? 0) / (scale[i] ?? 1) }))
      .filter(({ value }) => value !== 0)
      .sort((p, q) => p.column - q.column);
    let row: SparseRow = { columns: entries.map((e) => e.column), values: entries.map((e) => e.value) };
    while (row.columns.length > 0) {
      const lead = row.columns[0] ?? 0;
      const mine = rows[lead];
      if (!mine) {
        rows[lead] = row;
        owner[lead] = unknown;
        return;
      }
      const x = mine.values[0] ?? 0;
      const y = row.values[0] ?? 0;
      const length = Math.hypot(x, y);
      rotations.a.push(owner[lead] ?? 0);
      rotations.b.push(unknown);
      rotations.c.push(x / length);
      rotations.s.push(y / length);
      row = rotate(mine, row, x / length, y / length, length);
    }
  });
  return { unknowns: columns.length, order, scale, rows, owner, rotations };
}

/** x ← Q x: the rotations undone, last first. */
function applyQ({ rotations: { a, b, c, s } }: Factors, x: Float64Array): void {
  for (let k = a.length - 1; k >= 0; k--) {
    const i = a[k] ?? 0;
    const j = b[k] ?? 0;
    const p = x[i] ?? 0;
    const q = x[j] ?? 0;
    x[i] = (c[k] ?? 1) * p - (s[k] ?? 0) * q;
    x[j] = (s[k] ?? 0) * p + (c[k] ?? 1) * q;
  }
}

/** x ← Qᵀ x. */
function applyQTransposed({ rotations: { a, b, c, s } }: Factors, x: Float64Array): void {
  for (let k = 0; k < a.length; k++) {
    const i = a[k] ?? 0;
    const j = b[k] ?? 0;
    const p = x[i] ?? 0;
    const q = x[j] ?? 0;
    x[i] = (c[k] ?? 1) * p + (s[k] ?? 0) * q;
    x[j] = (c[k] ?? 1) * q - (s[k] ?? 0) * p;
  }
}

/** The least-norm solution for the right sides `b`; null where the equations contradict one another. */
export function leastNorm(factors: Factors, b: ArrayLike<number>): Float64Array | null {
  const { order, scale, rows, owner } = factors;
  const rest = Float64Array.from(order, (i) => (b[i] ?? 0) / (scale[i] ?? 1));
  const size = Float64Array.from(rest, Math.abs);
  const x = new Float64Array(factors.unknowns);
  for (let p = 0; p < order.length; p++) {
    const row = rows[p];
    const value = rest[p] ?? 0;
    const diagonal = row?.values[0] ?? 0;
    const reach = row ? row.values.reduce((most, v) => Math.max(most, Math.abs(v)), 0) : 0;
    if (!row || Math.abs(diagonal) <= ROUNDING * reach) {
      if (Math.abs(value) > ZERO_RELATIVE * (size[p] ?? 0)) return null;
      continue;
    }
    const y = value / diagonal;
    x[owner[p] ?? 0] = y;
    for (let k = 1; k < row.columns.length; k++) {
      const column = row.columns[k] ?? 0;
      const term = (row.values[k] ?? 0) * y;
      rest[column] = (rest[column] ?? 0) - term;
      size[column] = (size[column] ?? 0) + Math.abs(term);
    }
  }
  applyQ(factors, x);
  return x;
}

/**
 * For each unknown, whether the equations leave it open: whether it moves along the null space. Found by throwing two
 * arbitrary vectors onto that space; a coordinate that stays 0 in both is fixed.
 */
export function openUnknowns(factors: Factors): boolean[] {
  const open: boolean[] = new Array(factors.unknowns).fill(false);
  if (factors.owner.every((unknown) => unknown >= 0) && factors.unknowns === factors.order.length) return open;
  // A congruential sequence (Numerical Recipes' constants): nothing regular, which a regular train might cancel.
  let state = 1;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return 0.5 + state / 2 ** 32;
  };
  for (let round = 0; round < 2; round++) {
    const z = Float64Array.from(open, next);
    applyQTransposed(factors, z);
    for (const unknown of factors.owner) if (unknown >= 0) z[unknown] = 0;
    applyQ(factors, z);
    z.forEach((value, k) => {
      if (Math.abs(value) > ZERO_RELATIVE) open[k] = true;
    });
  }
  return open;
}

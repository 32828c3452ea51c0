/** Triangles that face the eye, sorted into squares of the picture: whether something stands before a point. Lengths in mm. */
import type { Vec3 } from "../solved";
import { dot } from "../vector";
import type { Frame } from "./frame";
import { flatten } from "./frame";

/** Squares along the longer side of the picture, at the most. */
const MOST_SQUARES = 400;

export class TriangleGrid {
  private readonly start: Int32Array;
  private readonly members: Int32Array;
  private readonly low: readonly [number, number];
  private readonly cell: number;
  private readonly columns: number;
  private readonly rows: number;

  constructor(
    private readonly frame: Frame,
    private readonly corners: Float64Array,
  ) {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (let i = 0; i < corners.length; i += 3) {
      const [x, y] = [corners[i] as number, corners[i + 1] as number];
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
    const count = corners.length / 9;
    const squares = Math.min(MOST_SQUARES, Math.max(1, Math.ceil(Math.sqrt(count))));
    this.low = [x0, y0];
    this.cell = Math.max(1e-9, x1 - x0, y1 - y0) / squares;
    this.columns = count === 0 ? 1 : Math.floor((x1 - x0) / this.cell) + 1;
    this.rows = count === 0 ? 1 : Math.floor((y1 - y0) / this.cell) + 1;
    this.start = new Int32Array(this.columns * this.rows + 1);
    // Counted first, then filled.
    this.eachSquare((square) => {
      this.start[square + 1] = (this.start[square + 1] as number) + 1;
    });
    for (let i = 0; i < this.columns * this.rows; i++) {
      this.start[i + 1] = (this.start[i + 1] as number) + (this.start[i] as number);
    }
    this.members = new Int32Array(this.start[this.columns * this.rows] as number);
    const next = this.start.slice();
    this.eachSquare((square, triangle) => {
      const at = next[square] as number;
      this.members[at] = triangle;
      next[square] = at + 1;
    });
  }

  private eachSquare(visit: (square: number, triangle: number) => void): void {
    const c = this.corners;
    for (let t = 0; t < c.length; t += 9) {
      const [xa, ya, xb, yb, xc, yc] = [c[t], c[t + 1], c[t + 3], c[t + 4], c[t + 6], c[t + 7]] as number[] as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const column = (x: number): number => Math.floor((x - this.low[0]) / this.cell);
      const row = (y: number): number => Math.floor((y - this.low[1]) / this.cell);
      const [c0, c1] = [column(Math.min(xa, xb, xc)), column(Math.max(xa, xb, xc))];
      const [r0, r1] = [row(Math.min(ya, yb, yc)), row(Math.max(ya, yb, yc))];
      for (let r = r0; r <= r1; r++) for (let k = c0; k <= c1; k++) visit(r * this.columns + k, t);
    }
  }

  /** Whether a facing triangle stands nearer to the eye than the point. */
  covers(point: Vec3): boolean {
    const [x, y] = flatten(this.frame, point);
    const depth = dot(point, this.frame.towards);
    const column = Math.floor((x - this.low[0]) / this.cell);
    const row = Math.floor((y - this.low[1]) / this.cell);
    if (!(column >= 0 && row >= 0 && column < this.columns && row < this.rows)) return false;
    const square = row * this.columns + column;
    const c = this.corners;
    for (let i = this.start[square] as number; i < (this.start[square + 1] as number); i++) {
      const t = this.members[i] as number;
      const [ax, ay, az] = [c[t] as number, c[t + 1] as number, c[t + 2] as number];
      const [bx, by, bz] = [c[t + 3] as number, c[t + 4] as number, c[t + 5] as number];
      const [dx, dy, dz] = [c[t + 6] as number, c[t + 7] as number, c[t + 8] as number];
      const whole = (bx - ax) * (dy - ay) - (dx - ax) * (by - ay);
      const u = ((x - ax) * (dy - ay) - (dx - ax) * (y - ay)) / whole;
      const v = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / whole;
      if (u >= 0 && v >= 0 && u + v <= 1 && az + u * (bz - az) + v * (dz - az) > depth) return true;
    }
    return false;
  }
}

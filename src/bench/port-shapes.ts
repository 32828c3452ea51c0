/** Plain bodies for what drives, holds or loads a shaft. At the shaft's end, z = 0 there; `side` 1 where the end is the + end. */
import { barShape, joinShapes, rodShape, type Shape, ShapeBuilder, turnedShape } from "./shapes";

const X = [1, 0, 0] as const;
const Y = [0, 1, 0] as const;
const Z = [0, 0, 1] as const;

/** An arm square to the shaft with a handle at its end. Turns with the shaft. */
export function crankShape(unit: number, rod: number, side: 1 | -1): Shape {
  const reach = 0.65 * unit;
  const thick = Math.max(rod * 0.8, 0.06 * unit);
  const arm = new ShapeBuilder()
    .box([reach / 2, 0, side * thick], [X, Y, Z], [reach / 2 + thick, thick * 1.15, thick])
    .shape();
  const from = 2 * thick;
  const handle = barShape([reach, 0, side * from], [reach, 0, side * (from + 0.5 * unit)], thick * 1.15, 20);
  return joinShapes([arm, handle]);
}

/** A round motor on a foot. Stands still. */
export function motorShape(unit: number, rod: number, side: 1 | -1): Shape {
  const r = Math.max(0.36 * unit, rod * 2);
  const long = 0.8 * unit;
  const body = turnedShape(
    side === 1
      ? [
          [0, 0],
          [r * 0.8, 0],
          [r, r * 0.2],
          [r, long],
          [0, long],
        ]
      : [
          [0, -long],
          [r, -long],
          [r, -r * 0.2],
          [r * 0.8, 0],
          [0, 0],
        ],
    32,
  );
  const ribs = [0.35, 0.5, 0.65, 0.8].map((part) => {
    const at = side * long * part;
    return rodShape(at - 0.025 * unit, at + 0.025 * unit, r * 1.07, 32);
  });
  return joinShapes([body, ...ribs]);
}

/** Radius and thickness of an output's disc. */
const discSize = (unit: number, rod: number) => ({ r: Math.max(0.42 * unit, rod * 2), thick: 0.12 * unit });

/** The disc of an output without its mark: how it turns is not seen. */
export function discShape(unit: number, rod: number, side: 1 | -1): Shape {
  const { r, thick } = discSize(unit, rod);
  return side === 1 ? rodShape(0, thick, r, 40) : rodShape(-thick, 0, r, 40);
}

/** A disc with a mark that shows how it turns. Turns with the shaft. */
export function loadShape(unit: number, rod: number, side: 1 | -1): Shape {
  const { r, thick } = discSize(unit, rod);
  const bar = new ShapeBuilder()
    .box([r * 0.55, 0, side * (thick + 0.02 * unit)], [X, Y, Z], [r * 0.42, r * 0.09, 0.04 * unit])
    .shape();
  return joinShapes([discShape(unit, rod, side), bar]);
}

/** A bracket that grips the shaft, hatched by its fins as held things are. Stands still. */
export function heldShape(unit: number, rod: number, side: 1 | -1): Shape {
  const half = Math.max(0.4 * unit, rod * 2);
  const thick = 0.1 * unit;
  const plate = new ShapeBuilder().box([0, 0, side * thick], [X, Y, Z], [half, half, thick]).shape();
  const s = Math.SQRT1_2;
  const fins = [-0.66, -0.22, 0.22, 0.66].map((part) =>
    new ShapeBuilder()
      .box(
        [half * part, 0, side * (2 * thick + 0.1 * unit)],
        [
          [s, 0, s],
          [0, 1, 0],
          [-s, 0, s],
        ],
        [0.14 * unit, half, 0.02 * unit],
      )
      .shape(),
  );
  return joinShapes([plate, ...fins]);
}

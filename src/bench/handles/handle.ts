/**
 * What a handle is: one number of the drive that can be pulled in the picture. Pure: where it is seen, and under which line of sight
 * which value lies. All places are at time zero, for an eye on the handle's carrier.
 */
import type { Edit } from "../../engine/drive/commands/edit";
import type { Vec3 } from "../../engine/solved";
import { along, cross, dot, length, scale, sub } from "../../engine/vector";
import type { Ray } from "../orbit";

export type HandleSort = "lean" | "swing" | "slide" | "size" | "x" | "y" | "z";

export interface Handle {
  /** The same as long as it pulls the same number, whatever that is. */
  readonly key: string;
  readonly sort: HandleSort;
  /** What a screen reader calls it. */
  readonly name: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  /** The value with its unit, as it stands beside the knob; and as it is said. */
  text(value: number): string;
  said(value: number): string;
  /** What is announced when the knob is let go. */
  told(value: number): string;
  /** mm: where the knob is at a value. */
  point(value: number): Vec3;
  /** Index of the carrier that it rides on, -1 for ground. */
  readonly frame: number;
  /** The value that lies under a line of sight; null where it is seen too nearly end on to tell. */
  under(ray: Ray): number | null;
  /** What a pixel to the right changes, where `under` can't tell. */
  readonly perPixel: number;
  /** Into the range; onto a step where near, unless `isFree`. */
  snap(value: number, isFree: boolean): number;
  /** The value so many steps of an arrow key further. */
  stepped(value: number, steps: number): number;
  edit(value: number): Edit;
  /** What the edit is called in the list of steps to undo. */
  readonly label: string;
}

type Track = Pick<Handle, "point" | "under">;

/** Sine of the angle to the plane of the turning, or to the line, below which a line of sight tells no value. */
const END_ON = 0.08;

/** A knob that goes along a line. `way`: mm for each unit of the value; asked for when first needed. */
export function straightTrack(value: number, at: Vec3, way: () => Vec3): Track {
  let known: Vec3 | undefined;
  const step = (): Vec3 => {
    known ??= way();
    return known;
  };
  return {
    point: (to) => (to === value ? at : along(at, step(), to - value)),
    under: ({ origin, direction }) => {
      const size = length(step());
      if (!(size > 1e-9)) return null;
      const line = scale(step(), 1 / size);
      const aslant = dot(direction, line);
      if (1 - aslant * aslant < END_ON * END_ON) return null;
      // The point of the line that is nearest to the line of sight.
      const from = sub(origin, at);
      return value + (dot(from, line) - aslant * dot(from, direction)) / (1 - aslant * aslant) / size;
    },
  };
}

/**
 * A knob that goes round a pivot. At 0 degrees it stands in the direction `zero`, at 90 in `quarter` (unit, square to one another), each
 * turned by `ahead` degrees; `radius` in mm. Values from -180 to 180.
 */
export function roundTrack(pivot: Vec3, zero: Vec3, quarter: Vec3, radius: number, ahead = 0): Track {
  const normal = cross(zero, quarter);
  return {
    point: (value) => {
      const a = ((value + ahead) * Math.PI) / 180;
      return along(along(pivot, zero, radius * Math.cos(a)), quarter, radius * Math.sin(a));
    },
    under: ({ origin, direction }) => {
      const down = dot(direction, normal);
      if (Math.abs(down) < END_ON) return null;
      const d = sub(along(origin, direction, dot(sub(pivot, origin), normal) / down), pivot);
      return halfTurn((Math.atan2(dot(d, quarter), dot(d, zero)) * 180) / Math.PI - ahead);
    },
  };
}

/** The same angle, more than -180 and not above 180 degrees. */
export const halfTurn = (angle: number): number => 180 - ((((180 - angle) % 360) + 360) % 360);

/** The same angle, from 0 to below 360 degrees. */
export function fullTurn(angle: number): number {
  const rest = angle % 360;
  // Only what is below 0 is moved: a sum more would cost a decimal its last digit.
  return (rest < 0 ? rest + 360 : rest) + 0;
}

/** The nearest of the stops where one is within `near`, else null. */
export function nearestStop(value: number, stops: readonly number[], near: number): number | null {
  let best: number | null = null;
  for (const stop of stops) {
    const off = Math.abs(value - stop);
    if (off <= near && (best === null || off < Math.abs(value - best))) best = stop;
  }
  return best;
}

/** To a tenth of a unit: what a free hand can tell. */
export const toTenth = (value: number): number => Math.round(value * 10) / 10 + 0;

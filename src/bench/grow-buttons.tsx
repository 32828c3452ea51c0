/** A `+` at the selected gear and at the free ends of the selected shaft: it opens what can grow there. */
import { Plus } from "lucide-react";
import { useLayoutEffect, useMemo, useRef } from "react";
import { reachAcross } from "../engine/collisions/gear-outline";
import type { Vec3 } from "../engine/solved";
import { nameText, shaftName } from "../engine/wording";
import { type GrowSpot, growFrom, growSpots, spotKey } from "../store/growing";
import { sideName } from "../store/stage/sides";
import { useView } from "../store/view";
import { type BenchLayout, freeDirection } from "./bench-layout";
import { currentOrbit, screenSize } from "./camera";
import css from "./grow-buttons.module.css";
import { project } from "./orbit";
import { onPlace } from "./overlay";
import { shownDrive, useShownDrive } from "./shown-drive";
import { pointAt } from "./turning";

/** In units of a usual gear: how far a button stands from the rim or from the end of the rod. */
const OFF_RIM = 0.3;
const OFF_END = 0.35;
/** px between a button's rim and the line of its shaft, on which the lean handle stands. */
const OFF_LINE = 24;
/** px from the edges of the picture, and from the row of view buttons at its top. */
const EDGE = 26;
const TOP = 74;

interface Place {
  readonly spot: GrowSpot;
  readonly shaft: number;
  /** In the shaft's own coordinates, its own turning left out. */
  readonly local: Vec3;
  readonly name: string;
}

/** Where the buttons stand for a selection. */
export function growPlaces(layout: BenchLayout, spots: readonly GrowSpot[]): Place[] {
  const { solved } = layout;
  return spots.flatMap((spot) => {
    const shaft = solved.index.shafts.get(spot.shaft) ?? -1;
    const rod = layout.rods[shaft];
    if (!rod) return [];
    if (spot.gear !== undefined) {
      const outline = layout.outlines.get(solved.index.gears.get(spot.gear) ?? -1);
      if (!outline) return [];
      const [x, y] = freeDirection(layout, outline);
      const r = reachAcross(outline) + OFF_RIM * layout.unit;
      // Beside the label with the teeth, 50 degrees on.
      const [c, s] = [Math.cos(0.87), Math.sin(0.87)];
      const local: Vec3 = [(x * c - y * s) * r, (x * s + y * c) * r, outline.at];
      return [{ spot, shaft, local, name: `Grow from gear ${nameText(spot.gear)}` }];
    }
    const side = spot.side ?? 1;
    const local: Vec3 = [0, 0, (side === 1 ? rod.high : rod.low) + side * OFF_END * layout.unit];
    const name = `Grow at the ${sideName(solved, shaft, side)} of ${shaftName(solved.drive, shaft)}`;
    return [{ spot, shaft, local, name }];
  });
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Unit, y down: square to the line through two points of the picture (y up), to the left of an upright one and above a level one. */
function aside(from: Point, to: Point): readonly [number, number] {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const size = Math.hypot(x, y);
  if (size < 1e-9) return [0, -1];
  const flip = y + x / 2 > 0 ? 1 : -1;
  return [(-flip * y) / size, (-flip * x) / size];
}

let measured: { readonly key: string; readonly half: number } = { key: "", half: 0 };

/** px: half a button's width; asked of the page once for each size of the picture, since in a drag it would lay itself out anew. */
function halfButton(element: Element | undefined): number {
  const { width, height } = screenSize();
  const key = `${width} ${height}`;
  if (measured.key !== key && element instanceof HTMLElement && element.offsetWidth > 0) {
    measured = { key, half: element.offsetWidth / 2 };
  }
  return measured.half;
}

export const GrowButtons = () => {
  const { layout } = useShownDrive();
  const selection = useView((state) => state.selection);
  const isOpen = useView((state) => state.adding !== null);
  const places = useMemo(() => growPlaces(layout, growSpots(layout.solved, selection)), [layout, selection]);
  const host = useRef<HTMLDivElement>(null);

  useLayoutEffect(() => {
    const place = (): void => {
      const { width, height } = screenSize();
      const orbit = currentOrbit();
      places.forEach(({ spot, shaft, local }, i) => {
        const on = (point: Vec3) => project(orbit, pointAt(shownDrive().turning.poses.still, shaft, point), height);
        const element = host.current?.children[i];
        const at = on(local);
        const [dx, dy] = spot.side === undefined ? [0, 0] : aside(at, on([local[0], local[1], local[2] + layout.unit]));
        const off = OFF_LINE + halfButton(element);
        const x = Math.max(EDGE, Math.min(width - EDGE, width / 2 + at.x + dx * off));
        const y = Math.max(TOP, Math.min(height - EDGE, height / 2 - at.y + dy * off));
        if (!(element instanceof HTMLElement)) return;
        element.style.visibility = at.depth > 0 ? "visible" : "hidden";
        element.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translate(-50%, -50%)`;
      });
    };
    place();
    return onPlace(place);
  }, [places, layout]);

  return (
    <div ref={host} className={css.host} hidden={isOpen}>
      {places.map(({ spot, name }) => (
        <button key={spotKey(spot)} type="button" className={css.plus} title={name} onClick={() => growFrom(spot)}>
          <Plus size={20} aria-hidden />
          <span className="only-heard">{name}</span>
        </button>
      ))}
    </div>
  );
};

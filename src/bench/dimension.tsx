/**
 * Dimension lines of what is being measured, over the picture: thin, with a filled arrowhead at each end and the figure amid (ISO
 * 129-1), as elements of the page that are put in their places once a frame. They ride with what their ends stand on.
 */
import { useEffect, useMemo, useRef } from "react";
import { isMeasured, type Measure, measure, type Span } from "../engine/measure/measure";
import type { Vec3 } from "../engine/solved";
import { add, along, DEGREE, dot, scale, square, sub, unit } from "../engine/vector";
import { quantity } from "../engine/wording";
import { useMeasuring } from "../store/measuring";
import type { BenchLayout } from "./bench-layout";
import { currentOrbit, screenSize } from "./camera";
import css from "./dimension.module.css";
import { project } from "./orbit";
import { onPlace } from "./overlay";
import { shownDrive, useShownDrive } from "./shown-drive";
import { inFrame } from "./turning";

/** px: an arrowhead's length and half its width, about 20 degrees in all. */
const HEAD = 12;
const HALF_HEAD = 2.6;
/** mm: ends nearer than this are one point. */
const TOUCHING = 1e-6;
/** Pieces of an arc. */
const PIECES = 24;

interface Drawn {
  readonly key: string;
  readonly words: string;
  /** Points of the line at rest, mm, each with the carrier that it rides on (-1 for none). */
  readonly points: readonly { readonly at: Vec3; readonly carrier: number }[];
  readonly isSecond: boolean;
}

export const Dimension = () => {
  const { layout } = useShownDrive();
  const first = useMeasuring((state) => state.first);
  const second = useMeasuring((state) => state.second);
  const drawn = useMemo(() => {
    if (!first || !second) return [];
    const found = measure(layout.solved, first, second);
    return isMeasured(found) ? dimensions(found, layout) : [];
  }, [layout, first, second]);
  return (
    <>
      {drawn.map((line) => (
        <DimensionLine key={line.key} line={line} />
      ))}
    </>
  );
};

/** The lines to draw of a measure: between the axes, between the centres where that is another, and the angle where axes meet. */
export function dimensions(found: Measure, layout: BenchLayout): Drawn[] {
  const { index, placement } = layout.solved;
  const carriers = found.shafts.map((shaft) => index.frameOfShaft[shaft] ?? -1) as [number, number];
  const span = (key: string, { distance, feet }: Span, isSecond: boolean): Drawn => ({
    key: `${key} ${JSON.stringify(feet)}`,
    words: quantity(distance, "mm", 6),
    points: feet.map((at, i) => ({ at, carrier: carriers[i] ?? -1 })),
    isSecond,
  });
  const lines: Drawn[] = [];
  if (found.axes.distance > TOUCHING) lines.push(span("axes", found.axes, false));
  const { centres } = found;
  if (centres && centres.distance > TOUCHING && Math.abs(centres.distance - found.axes.distance) > TOUCHING) {
    lines.push(span("centres", centres, true));
  }
  const axes = found.shafts.map((shaft) => placement.shafts[shaft]?.axis);
  const [u, v] = axes;
  if (found.relation === "meeting" && u && v) {
    const apex = found.axes.feet[0];
    // The smaller of the two angles, from the arm on which the first one's gears stand.
    const arm = dot(sub(middleOfGears(layout, found.shafts[0]) ?? along(apex, u, 1), apex), u) < 0 ? scale(u, -1) : u;
    const across = unit(square(dot(arm, v) < 0 ? scale(v, -1) : v, arm));
    const points = Array.from({ length: PIECES + 1 }, (_, k) => {
      const angle = (found.angle * DEGREE * k) / PIECES;
      const direction = along(scale(arm, Math.cos(angle)), across, Math.sin(angle));
      return { at: along(apex, direction, layout.unit), carrier: carriers[0] };
    });
    lines.push({
      key: `angle ${JSON.stringify([apex, u, v])}`,
      words: quantity(found.angle, "°", 6),
      points,
      isSecond: false,
    });
  }
  return lines;
}

/** World, mm; null on a shaft without gears. */
function middleOfGears({ solved: { index, placement } }: BenchLayout, shaft: number): Vec3 | null {
  const centres = (index.gearsOfShaft[shaft] ?? []).flatMap((gear) => {
    const centre = placement.gears[gear]?.centre;
    return centre ? [centre] : [];
  });
  return centres.length === 0
    ? null
    : scale(
        centres.reduce<Vec3>((sum, centre) => add(sum, centre), [0, 0, 0]),
        1 / centres.length,
      );
}

const DimensionLine = ({ line }: { readonly line: Drawn }) => {
  const drawing = useRef<SVGSVGElement>(null);
  const figure = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const place = (): void => {
      const [svg, label] = [drawing.current, figure.current];
      if (!svg || !label) return;
      const { width, height } = screenSize();
      const { poses } = shownDrive().turning;
      const seen = line.points.map(({ at, carrier }) => project(currentOrbit(), inFrame(poses, carrier, at), height));
      const isSeen = seen.every(({ depth }) => depth > 0);
      for (const element of [svg, label]) element.style.visibility = isSeen ? "visible" : "hidden";
      if (!isSeen) return;
      const points = seen.map(({ x, y }) => ({ x: width / 2 + x, y: height / 2 - y }));
      const path = `M${points.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}`;
      for (const child of svg.querySelectorAll("[data-line]")) child.setAttribute("d", path);
      const heads = [arrowhead(points[1], points[0]), arrowhead(points.at(-2), points.at(-1))].join("");
      svg.querySelector("[data-heads]")?.setAttribute("d", heads);
      const middle = middleOf(points);
      // A figure stays whole at the rim of the picture.
      const x = Math.max(40, Math.min(width - 40, middle.x));
      const y = Math.max(70, Math.min(height - 16, middle.y));
      label.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translate(-50%, -50%)`;
    };
    place();
    return onPlace(place);
  }, [line]);
  return (
    <>
      <svg ref={drawing} className={css.drawing} data-second={line.isSecond || undefined} aria-hidden="true">
        <path className={css.halo} data-line />
        <path className={css.line} data-line />
        <path className={css.heads} data-heads />
      </svg>
      <span ref={figure} className={css.figure} aria-hidden="true">
        {line.words}
      </span>
    </>
  );
};

interface Spot {
  readonly x: number;
  readonly y: number;
}

function middleOf(points: readonly Spot[]): Spot {
  const half = (points.length - 1) / 2;
  const [a, b] = [points[Math.floor(half)], points[Math.ceil(half)]];
  return { x: ((a?.x ?? 0) + (b?.x ?? 0)) / 2, y: ((a?.y ?? 0) + (b?.y ?? 0)) / 2 };
}

/** A filled head at `tip`, coming from `from`. */
function arrowhead(from: Spot | undefined, tip: Spot | undefined): string {
  if (!from || !tip) return "";
  const [dx, dy] = [tip.x - from.x, tip.y - from.y];
  const size = Math.hypot(dx, dy);
  if (size < 1e-9) return "";
  const [ux, uy] = [dx / size, dy / size];
  const corner = (side: number): string =>
    `${(tip.x - HEAD * ux - side * HALF_HEAD * uy).toFixed(1)} ${(tip.y - HEAD * uy + side * HALF_HEAD * ux).toFixed(1)}`;
  return `M${tip.x.toFixed(1)} ${tip.y.toFixed(1)}L${corner(1)}L${corner(-1)}Z`;
}

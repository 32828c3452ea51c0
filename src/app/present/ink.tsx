/** Ink over the bench: drawn by mouse, pen, touch or keys, faded by the next step. What lies below gets nothing while it is on. */
import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import { announce } from "../../store/view";
import { inkPath, type Point } from "./ink-path";
import css from "./present.module.css";
import { addStroke, usePresent } from "./present-store";

/** px that an arrow key moves the pen; with Shift. */
const MOVE = 12;
const FAR = 60;
const ARROWS: Readonly<Record<string, readonly [number, number] | undefined>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

const INK_HELP =
  "Ink: draw with mouse, pen or finger. Arrow keys move the pen, with Shift further; Space or Enter sets it down and lifts it.";

export const Ink = () => {
  const isInking = usePresent((state) => state.isInking);
  const strokes = usePresent((state) => state.strokes);
  const fading = usePresent((state) => state.fading);
  return (
    <div className={css.ink}>
      <svg aria-hidden="true">
        <g className={css.fading}>
          {fading.map((stroke, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines stand in the order they were drawn in.
            <path key={i} d={stroke} />
          ))}
        </g>
        {strokes.map((stroke, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines stand in the order they were drawn in.
          <path key={i} d={stroke} />
        ))}
      </svg>
      {isInking ? <Sheet /> : null}
    </div>
  );
};

/** What takes the pen. The line under way is written straight to its path: nothing is rendered while one draws. */
const Sheet = () => {
  const sheet = useRef<HTMLDivElement>(null);
  const path = useRef<SVGPathElement>(null);
  const points = useRef<Point[]>([]);
  /** The pointer that draws; others are palms. */
  const pointer = useRef<number | null>(null);
  /** Where the pen of the keys is; null until one is pressed. */
  const [pen, setPen] = useState<Point | null>(null);
  const [isDown, setDown] = useState(false);

  useEffect(() => {
    sheet.current?.focus();
    // A line that is under way when ink is put away stays.
    return () => {
      if (points.current.length > 0) addStroke(inkPath(points.current));
    };
  }, []);

  const draw = (...more: readonly Point[]): void => {
    points.current.push(...more);
    path.current?.setAttribute("d", inkPath(points.current));
  };
  const lift = (): void => {
    if (points.current.length > 0) addStroke(inkPath(points.current));
    points.current = [];
    path.current?.setAttribute("d", "");
  };

  const down = (event: PointerEvent): void => {
    if (event.button !== 0 || pointer.current !== null) return;
    event.currentTarget.setPointerCapture?.(event.pointerId);
    pointer.current = event.pointerId;
    lift();
    setPen(null);
    setDown(false);
    draw({ x: event.clientX, y: event.clientY });
  };
  const move = (event: PointerEvent): void => {
    if (event.pointerId !== pointer.current) return;
    const passed = event.nativeEvent.getCoalescedEvents?.() ?? [];
    draw(...(passed.length > 0 ? passed : [event]).map(({ clientX, clientY }) => ({ x: clientX, y: clientY })));
  };
  const up = (event: PointerEvent): void => {
    if (event.pointerId !== pointer.current) return;
    pointer.current = null;
    lift();
  };

  const press = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const from = pen ?? { x: window.innerWidth / 2, y: window.innerHeight / 3 };
    const way = ARROWS[event.key];
    if (way) {
      const by = event.shiftKey ? FAR : MOVE;
      const to = {
        x: Math.min(Math.max(from.x + way[0] * by, 0), window.innerWidth),
        y: Math.min(Math.max(from.y + way[1] * by, 0), window.innerHeight),
      };
      setPen(to);
      if (isDown) draw(to);
    } else if (event.key === " " || event.key === "Enter") {
      setPen(from);
      setDown(!isDown);
      if (isDown) lift();
      else draw(from);
      announce(isDown ? "The pen is lifted." : "The pen is down.");
    } else return;
    event.preventDefault();
  };

  return (
    <div
      ref={sheet}
      className={css.sheet}
      role="application"
      aria-label={INK_HELP}
      data-ink
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet is drawn on with the keyboard, by keys of its own.
      tabIndex={0}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={up}
      onKeyDown={press}
    >
      <svg aria-hidden="true">
        <path ref={path} />
        {pen ? <circle cx={pen.x} cy={pen.y} r={isDown ? 5 : 9} className={css.pen} /> : null}
      </svg>
    </div>
  );
};

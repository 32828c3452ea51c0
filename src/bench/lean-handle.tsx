/**
 * The lean handle: a knob on the arc between two bevel axes. A slider of the page, so that keys and screen readers have it too;
 * each frame it is put where its arc ends in the picture. One drag is one undo step; Escape takes it back.
 */
import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef } from "react";
import { setMesh } from "../engine/drive/commands/mesh";
import type { UnitChoice } from "../engine/units/choice";
import { figures, quantityIn } from "../engine/wording";
import { beginDrag, cancelDrag, endDrag, isDragging, perform } from "../store/document";
import { useUnits } from "../store/units";
import { announce, useView } from "../store/view";
import { currentOrbit, screenSize } from "./camera";
import { angleUnder, arcPoint, LEAST_LEAN, type Lean, leanFor, MOST_LEAN, snapLean } from "./lean";
import css from "./lean-handle.module.css";
import { project, type Ray, sightThrough } from "./orbit";
import { onPlace } from "./overlay";
import { shownDrive, useShownDrive } from "./shown-drive";
import { inFrame, outOfFrame } from "./turning";

/** Degrees that a pixel leans where the plane of the axes is seen edge on. */
const EDGE_ON = 0.4;

export const LeanHandle = () => {
  const { layout } = useShownDrive();
  const selection = useView((state) => state.selection);
  const lean = useMemo(() => leanFor(layout.solved, selection), [layout, selection]);
  return lean ? <Knob lean={lean} /> : null;
};

const angleText = (angle: number, units: UnitChoice): string => quantityIn(angle, "°", units);

const Knob = ({ lean }: { readonly lean: Lean }) => {
  const units = useUnits();
  const knob = useRef<HTMLDivElement>(null);
  const now = useRef(lean);
  now.current = lean;
  // The pair as it stood when the drag began: its apex glides as it leans, and an angle about a gliding apex would run away.
  const drag = useRef<{ readonly pointer: number; readonly x: number; readonly lean: Lean } | null>(null);

  useEffect(() => {
    const place = (): void => {
      const element = knob.current;
      if (!element) return;
      const { width, height } = screenSize();
      const point = inFrame(shownDrive().turning.poses, now.current.frame, arcPoint(now.current, now.current.angle));
      const at = project(currentOrbit(), point, height);
      const x = Math.max(24, Math.min(width - 24, width / 2 + at.x));
      const y = Math.max(24, Math.min(height - 24, height / 2 - at.y));
      element.style.visibility = at.depth > 0 ? "visible" : "hidden";
      element.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
    };
    place();
    return onPlace(place);
  }, []);
  // A handle that goes away in the middle of a drag leaves no drag behind.
  useEffect(
    () => () => {
      if (drag.current) endDrag();
    },
    [],
  );

  const leanTo = (angle: number): void => {
    perform(setMesh(lean.id, { shaftAngle: angle }), `shaft angle of ${lean.id}`);
  };
  const tell = (): void => announce(`Shaft angle ${angleText(now.current.angle, units)}`);

  const down = (event: PointerEvent<HTMLDivElement>): void => {
    if (event.button !== 0) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    event.currentTarget.focus({ preventScroll: true });
    drag.current = { pointer: event.pointerId, x: event.clientX, lean };
    beginDrag();
  };
  const move = (event: PointerEvent<HTMLDivElement>): void => {
    const held = drag.current;
    if (held?.pointer !== event.pointerId) return;
    if (!isDragging()) {
      // Taken back from elsewhere (Undo): the handle is let go, and must be pressed anew.
      drag.current = null;
      return;
    }
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    if (!box) return;
    const x = event.clientX - box.left - box.width / 2;
    const y = box.height / 2 - (event.clientY - box.top);
    const sight = sightThrough(currentOrbit(), x, y, screenSize().height);
    const local: Ray = outOfFrame(shownDrive().turning.poses, held.lean.frame, sight);
    const under = angleUnder(held.lean, local) ?? held.lean.angle + (event.clientX - held.x) * EDGE_ON;
    const angle = snapLean(under, lean.crown, event.altKey);
    if (angle !== now.current.angle) leanTo(angle);
  };
  const finish = (isKept: boolean) => (event: PointerEvent<HTMLDivElement>) => {
    if (drag.current?.pointer !== event.pointerId) return;
    drag.current = null;
    if (isKept) endDrag();
    else cancelDrag();
    tell();
  };

  const key = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (event.key === "Escape" && drag.current) {
      drag.current = null;
      cancelDrag();
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    const by = event.shiftKey ? 10 : 1;
    const to: Record<string, number> = {
      ArrowRight: lean.angle + by,
      ArrowUp: lean.angle + by,
      ArrowLeft: lean.angle - by,
      ArrowDown: lean.angle - by,
      PageUp: lean.angle + 10,
      PageDown: lean.angle - 10,
      Home: LEAST_LEAN,
      End: MOST_LEAN,
    };
    const angle = to[event.key];
    if (angle === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    leanTo(Math.round(Math.max(LEAST_LEAN, Math.min(MOST_LEAN, angle)) * 10) / 10);
  };

  return (
    <div
      ref={knob}
      className={css.knob}
      role="slider"
      tabIndex={0}
      aria-label="Lean: angle between the two shafts"
      aria-valuemin={LEAST_LEAN}
      aria-valuemax={MOST_LEAN}
      aria-valuenow={Math.round(lean.angle * 10) / 10}
      aria-valuetext={`${figures(lean.angle)} degrees`}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={finish(true)}
      onPointerCancel={finish(false)}
      onLostPointerCapture={finish(true)}
      onKeyDown={key}
      onKeyUp={(event) => event.key !== "Tab" && tell()}
    >
      <span className={css.dot} />
      <span className={css.figure}>{angleText(lean.angle, units)}</span>
    </div>
  );
};

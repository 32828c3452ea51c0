/** One knob: a slider of the page, for pointer, keys and screen readers alike, that the layer puts where its handle is seen. */
import { Cog, type LucideIcon, MoveHorizontal, RotateCw, TriangleRight } from "lucide-react";
import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useRef } from "react";
import { documentStore, perform } from "../../store/document";
import { announce } from "../../store/view";
import { sayOnBench } from "../bench-note";
import { grabKnob, holds, isHeld, moveKnob, releaseKnob, type ScreenPoint, takeBackKnob } from "./drag";
import type { Handle, HandleSort } from "./handle";
import css from "./handles.module.css";

const icon = (Icon: LucideIcon) => <Icon size={18} aria-hidden="true" />;
/** The same elements each time: React leaves them alone. */
const ICONS: Readonly<Partial<Record<HandleSort, ReactNode>>> = {
  lean: icon(TriangleRight),
  swing: icon(RotateCw),
  slide: icon(MoveHorizontal),
  size: icon(Cog),
};

interface KnobProps {
  readonly handle: Handle;
  /** Its figure is always shown, not only when it is pointed at. */
  readonly isChief: boolean;
  readonly onElement: (key: string, element: HTMLElement | null) => void;
}

export const Knob = ({ handle, isChief, onElement }: KnobProps) => {
  const { key: id, value } = handle;
  const latest = useRef(handle);
  latest.current = handle;
  // A knob that goes away in the middle of a drag leaves no drag behind.
  useEffect(
    () => () => {
      if (isHeld(id)) releaseKnob();
    },
    [id],
  );

  const down = (event: PointerEvent<HTMLDivElement>): void => {
    if (event.button !== 0) return;
    event.stopPropagation();
    if (!grabKnob(handle, event.pointerId, pointOf(event))) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    event.currentTarget.focus({ preventScroll: true });
    event.currentTarget.dataset.held = "true";
  };
  const move = (event: PointerEvent<HTMLDivElement>): void => {
    if (holds(event.pointerId)) moveKnob(pointOf(event), event.altKey);
  };
  const finish = (isKept: boolean) => (event: PointerEvent<HTMLDivElement>) => {
    if (!holds(event.pointerId)) return;
    // Where it is let go counts, too; a capture that is lost tells no place.
    if (event.type === "pointerup") moveKnob(pointOf(event), event.altKey);
    if (isKept) releaseKnob();
    else takeBackKnob();
    delete event.currentTarget.dataset.held;
  };

  const press = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (event.key === "Escape" && isHeld(id)) {
      takeBackKnob();
      delete event.currentTarget.dataset.held;
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    if (event.ctrlKey || event.metaKey) return;
    const to = keyValue(handle, event);
    if (to === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    // The hand that holds it has the say.
    if (isHeld(id) || to === value) return;
    if (!perform(handle.edit(to), handle.label)) sayOnBench(documentStore.getState().refusal ?? "");
  };
  const tell = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (!isHeld(id) && MOVES.includes(event.key)) announce(latest.current.told(latest.current.value));
  };

  return (
    <div
      ref={(element) => onElement(id, element)}
      className={css.knob}
      role="slider"
      tabIndex={0}
      title={`${handle.name} (drag, or arrow keys)`}
      aria-label={handle.name}
      aria-valuemin={handle.least}
      aria-valuemax={handle.most}
      aria-valuenow={Math.round(value * 100) / 100}
      aria-valuetext={handle.said(value)}
      data-sort={handle.sort}
      data-chief={isChief || undefined}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={finish(true)}
      onPointerCancel={finish(false)}
      onLostPointerCapture={finish(true)}
      onKeyDown={press}
      onKeyUp={tell}
    >
      <span className={css.dot}>{ICONS[handle.sort] ?? handle.sort}</span>
      <span className={css.figure}>{handle.text(value)}</span>
    </div>
  );
};

const MOVES = ["ArrowRight", "ArrowUp", "ArrowLeft", "ArrowDown", "PageUp", "PageDown", "Home", "End"];

function keyValue(handle: Handle, { key, shiftKey }: KeyboardEvent): number | undefined {
  const by = (steps: number): number => handle.stepped(handle.value, steps);
  switch (key) {
    case "ArrowRight":
    case "ArrowUp":
      return by(shiftKey ? 10 : 1);
    case "ArrowLeft":
    case "ArrowDown":
      return by(shiftKey ? -10 : -1);
    case "PageUp":
      return by(10);
    case "PageDown":
      return by(-10);
    case "Home":
      return handle.least;
    case "End":
      return handle.most;
    default:
      return undefined;
  }
}

function pointOf(event: PointerEvent<HTMLDivElement>): ScreenPoint {
  const box = event.currentTarget.parentElement?.getBoundingClientRect() ?? new DOMRect();
  return { x: event.clientX - box.left - box.width / 2, y: box.height / 2 - (event.clientY - box.top) };
}

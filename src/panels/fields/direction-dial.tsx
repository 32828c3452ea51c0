/**
 * A clock face to point with: twelve places round a shaft, the hand on the one that is meant. Dragging settles as one
 * undo step; the arrow keys go from one hour to the next, with Shift a quarter turn.
 */
import { type KeyboardEvent, type PointerEvent, useRef } from "react";
import { beginDrag, cancelDrag, endDrag } from "../../store/document";
import { announce } from "../../store/view";
import styles from "./fields.module.css";

const HOURS = 12;
const QUARTER = HOURS / 4;
const SIZE = 56;
const MIDDLE = SIZE / 2;
const HAND = 19;

export interface DirectionDialProps {
  readonly label: string;
  /** Degrees clockwise from 12 o'clock. */
  readonly clockwise: number;
  /** Where that is, in words: "above". */
  readonly words: string;
  readonly onChange: (clockwise: number) => string | null;
}

const turned = (degrees: number): number => ((degrees % 360) + 360) % 360;
const place = (degrees: number, radius: number) => {
  const angle = (degrees * Math.PI) / 180;
  return { x: MIDDLE + radius * Math.sin(angle), y: MIDDLE - radius * Math.cos(angle) };
};

export function DirectionDial({ label, clockwise, words, onChange }: DirectionDialProps) {
  const dragging = useRef(false);
  const said = useRef(words);
  said.current = words;

  const point = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = event.clientX - box.left - box.width / 2;
    const y = event.clientY - box.top - box.height / 2;
    if (Math.hypot(x, y) < 4) return;
    const hour = Math.round((Math.atan2(x, -y) * HOURS) / (2 * Math.PI));
    const to = turned((hour * 360) / HOURS);
    if (to !== turned(clockwise)) onChange(to);
  };

  const drop = (keep: boolean) => {
    if (!dragging.current) return;
    dragging.current = false;
    if (keep) {
      endDrag();
      announce(`${label}: ${said.current}`);
    } else cancelDrag();
  };

  const keyDown = (event: KeyboardEvent<HTMLElement>) => {
    if (event.key === "Escape") return drop(false);
    const next = hourAfter(event, (clockwise * HOURS) / 360);
    if (next === null) return;
    event.preventDefault();
    event.stopPropagation();
    onChange(turned((next * 360) / HOURS));
  };

  return (
    <div
      className={styles.dial}
      role="slider"
      tabIndex={0}
      title={label}
      aria-label={label}
      aria-valuemin={0}
      aria-valuemax={360}
      aria-valuenow={Math.round(turned(clockwise))}
      aria-valuetext={words}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture?.(event.pointerId);
        event.currentTarget.focus();
        dragging.current = true;
        beginDrag();
        point(event);
      }}
      onPointerMove={(event) => {
        if (dragging.current) point(event);
      }}
      onPointerUp={() => drop(true)}
      onPointerCancel={() => drop(false)}
      onKeyDown={keyDown}
    >
      <Face clockwise={clockwise} />
    </div>
  );
}

function Face({ clockwise }: { readonly clockwise: number }) {
  const tip = place(clockwise, HAND);
  return (
    <svg width={SIZE} height={SIZE} viewBox={`0 0 ${SIZE} ${SIZE}`} aria-hidden="true">
      <circle cx={MIDDLE} cy={MIDDLE} r={MIDDLE - 2} fill="var(--surface)" stroke="var(--ink-soft)" />
      {Array.from({ length: HOURS }, (_, hour) => {
        const degrees = (hour * 360) / HOURS;
        const outer = place(degrees, MIDDLE - 3);
        const inner = place(degrees, MIDDLE - (hour % 3 === 0 ? 8 : 6));
        return <line key={degrees} x1={outer.x} y1={outer.y} x2={inner.x} y2={inner.y} stroke="var(--ink-soft)" />;
      })}
      <line x1={MIDDLE} y1={MIDDLE} x2={tip.x} y2={tip.y} stroke="var(--ink)" strokeWidth={2.5} />
      <circle cx={tip.x} cy={tip.y} r={4.5} fill="var(--accent)" stroke="var(--surface)" />
      <circle cx={MIDDLE} cy={MIDDLE} r={2.5} fill="var(--ink)" />
    </svg>
  );
}

const KEYS: Readonly<Record<string, number | undefined>> = {
  ArrowRight: 1,
  ArrowDown: 1,
  ArrowUp: -1,
  ArrowLeft: -1,
  PageDown: QUARTER,
  PageUp: -QUARTER,
};

/** The hour that a key leads to; null for a key that leads nowhere. */
function hourAfter({ key, shiftKey }: Pick<KeyboardEvent, "key" | "shiftKey">, hour: number): number | null {
  if (key === "Home") return 0;
  if (key === "End") return HOURS - 1;
  const by = KEYS[key];
  if (by === undefined) return null;
  const hours = shiftKey ? Math.sign(by) * QUARTER : by;
  // From between two hours to the next one that way.
  return hours > 0 ? Math.floor(hour + 1e-9) + hours : Math.ceil(hour - 1e-9) + hours;
}

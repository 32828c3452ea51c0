/** A live counter of turns: one loop for all of them writes the text itself, so that no frame renders React. */
import { useEffect, useRef } from "react";
import type { DecimalSign } from "../../engine/units/choice";
import { shaftAngle } from "../../store/clock";
import { currentUnits } from "../../store/units";

interface Counter {
  readonly element: HTMLElement;
  readonly shaft: number;
  text: string;
}

const counters = new Set<Counter>();
let frame = 0;

/** Turns since time zero, a size: "12.3". */
export function turnsText(radians: number, decimalSign: DecimalSign): string {
  const turns = Math.abs(radians) / (2 * Math.PI);
  return Number.isFinite(turns) ? turns.toFixed(1).replace(".", decimalSign) : "–";
}

function write(): void {
  const { decimalSign } = currentUnits();
  for (const counter of counters) {
    const text = turnsText(shaftAngle(counter.shaft), decimalSign);
    if (text === counter.text) continue;
    counter.text = text;
    counter.element.textContent = text;
  }
  frame = requestAnimationFrame(write);
}

export function TurnCounter({ shaft }: { readonly shaft: number }) {
  const ref = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const element = ref.current;
    if (!element) return;
    const counter: Counter = { element, shaft, text: "" };
    counters.add(counter);
    if (counters.size === 1) frame = requestAnimationFrame(write);
    return () => {
      counters.delete(counter);
      if (counters.size === 0) cancelAnimationFrame(frame);
    };
  }, [shaft]);
  return <span ref={ref} />;
}

/**
 * What pointers, wheel and keys do on the bench: a part under the pointer is cranked (or, without moving, selected), the ground
 * turns the view, two fingers pan and zoom. No React, no three: it writes to the eye, the clock and the view store.
 */
import { clockStore, crank, setPlaying } from "../store/clock";
import { isDemoOnBench } from "../store/demo";
import { isDragging } from "../store/document";
import { openSpot, pressGrowth, setGrowth } from "../store/growing";
import { hover, select, viewStore } from "../store/view";
import { sayOnBench } from "./bench-note";
import { currentOrbit, currentRoom, fitAll, goTo, screenSize, setOrbit } from "./camera";
import { follow, type Grab, grab } from "./cranking";
import { aimGrowth, leaveGrowth } from "./grow-aim";
import { panBy, sightThrough, turnBy, zoomBy } from "./orbit";
import { type Hit, pick } from "./picking";
import { whyStuck } from "./refusal";
import { shownDrive } from "./shown-drive";
import { tellMoved } from "./ticking";

/** Pixels that a pointer may wander and still be a click. */
const CLICK = 5;
/** Radians for a pixel, and for a key. */
const ORBIT_SPEED = 0.008;
const KEY_TURN = Math.PI / 24;
const KEY_ZOOM = 1.15;

interface Point {
  readonly x: number;
  readonly y: number;
}

type Mode = "none" | "part" | "crank" | "refused" | "orbit" | "pan" | "pinch";

/** What a key does to the eye; null for a key that is none of the bench's. */
export function keyAction(key: string): (() => void) | null {
  const orbit = currentOrbit();
  switch (key) {
    case "ArrowLeft":
      return () => setOrbit(turnBy(orbit, -KEY_TURN, 0));
    case "ArrowRight":
      return () => setOrbit(turnBy(orbit, KEY_TURN, 0));
    case "ArrowUp":
      return () => setOrbit(turnBy(orbit, 0, KEY_TURN));
    case "ArrowDown":
      return () => setOrbit(turnBy(orbit, 0, -KEY_TURN));
    case "+":
    case "=":
      return () => setOrbit(zoomBy(orbit, 1 / KEY_ZOOM, currentRoom()));
    case "-":
      return () => setOrbit(zoomBy(orbit, KEY_ZOOM, currentRoom()));
    case "0":
      return fitAll;
    case "Home":
      return () => goTo({ name: "home" });
    default:
      return null;
  }
}

export function followGestures(element: HTMLElement): () => void {
  const pointers = new Map<number, Point>();
  let mode: Mode = "none";
  let start: Point = { x: 0, y: 0 };
  let last: Point = start;
  let hit: Hit | null = null;
  let held: Grab | null = null;
  let wasPlaying = false;
  let hovering = 0;

  /** Pixels from the middle of the picture, y up. */
  const at = (event: { clientX: number; clientY: number }): Point => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left - box.width / 2, y: box.height / 2 - (event.clientY - box.top) };
  };
  const find = (point: Point): Hit | null => {
    const { layout, turning } = shownDrive();
    return pick(layout, turning.poses.still, sightThrough(currentOrbit(), point.x, point.y, screenSize().height));
  };
  const scene = () => {
    const { turning } = shownDrive();
    turning.update();
    return {
      model: turning.model,
      rest: turning.rest,
      angles: turning.angles,
      orbit: currentOrbit(),
      height: screenSize().height,
    };
  };
  const partOf = (found: Hit) => {
    const { drive } = shownDrive().layout.solved;
    const id = (found.kind === "gear" ? drive.gears[found.index]?.id : drive.shafts[found.index]?.id) ?? "";
    return { kind: found.kind, id } as const;
  };

  const beginCrank = (): void => {
    if (!hit) return;
    // What a demonstration shows turns by the clock alone.
    if (isDemoOnBench()) {
      mode = "orbit";
      return;
    }
    const { solved } = shownDrive().layout;
    held = grab(solved, hit.shaft, hit.local, scene());
    if (!held) {
      mode = "refused";
      sayOnBench(whyStuck(solved, hit.shaft));
      return;
    }
    mode = "crank";
    wasPlaying = clockStore.getState().playing;
    setPlaying(false);
    element.dataset.cranking = "true";
  };
  const crankTo = (point: Point): void => {
    if (!held) return;
    const angle = follow(held, scene(), point, last);
    if (angle !== 0 && !crank(held.shaft, angle)) {
      mode = "refused";
      sayOnBench(whyStuck(shownDrive().layout.solved, held.shaft));
    }
    tellMoved();
  };
  const letGo = (): void => {
    if (mode === "crank" && wasPlaying) setPlaying(true);
    delete element.dataset.cranking;
    held = null;
    mode = "none";
  };

  const down = (event: PointerEvent): void => {
    // A second hand on the picture would pull the drive, or the view, from under a handle that is held.
    if (isDragging()) return;
    if (event.target instanceof Element && event.target.closest("button, [role=slider], a")) return;
    element.focus({ preventScroll: true });
    element.setPointerCapture?.(event.pointerId);
    const point = at(event);
    pointers.set(event.pointerId, point);
    if (pointers.size === 2) {
      letGo();
      mode = "pinch";
      return;
    }
    start = last = point;
    hit = event.button === 0 && !event.shiftKey ? find(point) : null;
    mode = hit ? "part" : event.button === 0 && !event.shiftKey ? "orbit" : "pan";
  };

  const move = (event: PointerEvent): void => {
    if (!pointers.has(event.pointerId)) {
      if (event.pointerType !== "touch") pointAt(event);
      return;
    }
    const point = at(event);
    if (mode === "pinch") {
      pinch(event.pointerId, point);
      return;
    }
    pointers.set(event.pointerId, point);
    if (mode === "part" && Math.hypot(point.x - start.x, point.y - start.y) > CLICK) beginCrank();
    const [dx, dy] = [point.x - last.x, point.y - last.y];
    if (mode === "crank") crankTo(point);
    else if (mode === "orbit") setOrbit(turnBy(currentOrbit(), -dx * ORBIT_SPEED, -dy * ORBIT_SPEED));
    else if (mode === "pan") setOrbit(panBy(currentOrbit(), dx, -dy, screenSize().height));
    last = point;
  };

  const pinch = (id: number, point: Point): void => {
    const other = [...pointers].find(([key]) => key !== id)?.[1];
    const before = pointers.get(id);
    pointers.set(id, point);
    if (!other || !before) return;
    const span = (p: Point): number => Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
    const middle = { x: (point.x + other.x) / 2, y: (point.y + other.y) / 2 };
    const { height } = screenSize();
    const panned = panBy(currentOrbit(), (point.x - before.x) / 2, -(point.y - before.y) / 2, height);
    setOrbit(zoomBy(panned, span(before) / span(point), currentRoom(), middle.x, middle.y, height));
  };

  const up = (event: PointerEvent): void => {
    if (!pointers.delete(event.pointerId)) return;
    const point = at(event);
    const isClick = Math.hypot(point.x - start.x, point.y - start.y) <= CLICK;
    if (event.type === "pointerup" && isClick && openSpot() && (mode === "part" || mode === "orbit")) grow(event);
    else if (event.type === "pointerup" && isClick && mode === "part" && hit) select(partOf(hit));
    else if (event.type === "pointerup" && isClick && mode === "orbit") select(null);
    letGo();
    // The finger that stays on goes on from where it is.
    const rest = [...pointers.values()][0];
    if (rest) {
      start = last = rest;
      mode = "orbit";
    }
  };

  /** A press on the bench puts down what is being grown; a finger, which was nowhere before, swings it first. */
  const grow = (event: PointerEvent): void => {
    const point = at(event);
    const azimuth = aimGrowth(sightThrough(currentOrbit(), point.x, point.y, screenSize().height));
    if (event.pointerType !== "touch") pressGrowth();
    else if (azimuth !== null) setGrowth({ azimuth });
  };

  const pointAt = (event: PointerEvent): void => {
    if (hovering || isDragging()) return;
    const point = at(event);
    if (openSpot()) aimGrowth(sightThrough(currentOrbit(), point.x, point.y, screenSize().height));
    hovering = requestAnimationFrame(() => {
      hovering = 0;
      const found = find(point);
      element.dataset.part = found ? "true" : "false";
      const part = found && partOf(found);
      const before = viewStore.getState().hover;
      if (part?.id !== before?.id || part?.kind !== before?.kind) hover(part);
    });
  };
  const leave = (): void => {
    if (hovering) cancelAnimationFrame(hovering);
    hovering = 0;
    leaveGrowth();
    if (viewStore.getState().hover) hover(null);
  };

  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    if (isDragging()) return;
    const point = at(event);
    const lines = event.deltaMode === 1 ? 20 : 1;
    const factor = Math.exp(Math.max(-0.5, Math.min(0.5, event.deltaY * lines * 0.0015)));
    setOrbit(zoomBy(currentOrbit(), factor, currentRoom(), point.x, point.y, screenSize().height));
  };

  const key = (event: KeyboardEvent): void => {
    if (event.target !== element || event.ctrlKey || event.metaKey || event.altKey) return;
    const action = keyAction(event.key);
    if (!action) return;
    event.preventDefault();
    action();
  };

  const noMenu = (event: Event): void => event.preventDefault();
  element.addEventListener("pointerdown", down);
  element.addEventListener("pointermove", move);
  element.addEventListener("pointerup", up);
  element.addEventListener("pointercancel", up);
  element.addEventListener("pointerleave", leave);
  element.addEventListener("wheel", wheel, { passive: false });
  element.addEventListener("keydown", key);
  element.addEventListener("contextmenu", noMenu);
  return () => {
    leave();
    letGo();
    element.removeEventListener("pointerdown", down);
    element.removeEventListener("pointermove", move);
    element.removeEventListener("pointerup", up);
    element.removeEventListener("pointercancel", up);
    element.removeEventListener("pointerleave", leave);
    element.removeEventListener("wheel", wheel);
    element.removeEventListener("keydown", key);
    element.removeEventListener("contextmenu", noMenu);
  };
}

/**
 * The bench's one eye, kept outside React: gestures and glides move it every frame. Follows the wishes of the view store, and fits
 * anew when another drive is opened.
 */

import { reachAcross, reachAlong } from "../engine/collisions/gear-outline";
import type { Solved, Vec3 } from "../engine/solved";
import { add, along, cross, dot, length, scale, sub } from "../engine/vector";
import { documentStore, isDragging } from "../store/document";
import { readEyeBy } from "../store/eye";
import { coveredWidth } from "../store/growing";
import { type NamedView, viewStore } from "../store/view";
import { type BenchLayout, benchLayout, portRoom } from "./bench-layout";
import {
  alongAxis,
  between,
  type Covered,
  eyeFrame,
  FRONT,
  fitView,
  HOME,
  type Orbit,
  RIGHT,
  type Room,
  TOP,
} from "./orbit";

/** How long a glide takes, ms. */
const GLIDE = 550;

let orbit: Orbit = { target: [0, 0, 0], ...HOME, distance: 500 };
let glide: { readonly from: Orbit; readonly to: Orbit; readonly begun: number } | null = null;
let size = { width: 1, height: 1 };
let room: Room = { points: [], centre: [0, 0, 0], radius: 100 };
let isTouched = false;
const listeners = new Set<() => void>();

readEyeBy({
  towards: () => eyeFrame(orbit).back,
  near: () => (sees(room) ? null : { target: orbit.target, distance: orbit.distance }),
});

export const currentOrbit = (): Orbit => orbit;
/** Where the eye comes to rest: the end of a glide that is under way. */
export const restingOrbit = (): Orbit => glide?.to ?? orbit;
export const screenSize = (): { readonly width: number; readonly height: number } => size;
export const currentRoom = (): Room => room;

/** Told whenever the eye moves or begins to. */
export function onEye(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
const tell = (): void => {
  for (const listener of listeners) listener();
};

const prefersStill = (): boolean => window.matchMedia?.("(prefers-reduced-motion: reduce)").matches ?? false;

/** Puts the eye somewhere at once; by a person's own hand, a later change of size then leaves it there. */
export function setOrbit(next: Orbit, byHand = true): void {
  orbit = next;
  glide = null;
  isTouched ||= byHand;
  tell();
}

/** Remembers where the eye is, or is gliding to; what is returned puts it back there. */
export function keepEye(): () => void {
  const [kept, wasTouched] = [glide?.to ?? orbit, isTouched];
  return () => {
    setOrbit(kept, false);
    isTouched = wasTouched;
  };
}

function glideTo(next: Orbit): void {
  isTouched = false;
  if (prefersStill()) setOrbit(next, false);
  else glide = { from: orbit, to: next, begun: performance.now() };
  tell();
}

/** Glides to a place that a change of the screen's size or of the drive then leaves alone. */
export function glideClose(next: Orbit): void {
  glideTo(next);
  isTouched = true;
}

/** Carries the eye along, a glide that is under way too. */
export function carryEye(by: Vec3): void {
  const carried = (state: Orbit): Orbit => ({ ...state, target: add(state.target, by) });
  orbit = carried(orbit);
  if (glide) glide = { ...glide, from: carried(glide.from), to: carried(glide.to) };
}

/** Points, relative to what the eye looks at, before which nothing is drawn: a close look sees through what stands before it. */
let front: readonly Vec3[] = [];
let frontIsCarried = false;
/** @param isCarried whether a carrier takes them round: then they may come to stand on any side */
export const setFront = (points: readonly Vec3[], isCarried = false): void => {
  front = points;
  frontIsCarried = isCarried;
};
/** mm before the target beyond which nothing needs drawing; Infinity for no such limit. */
export const frontReach = (back: Vec3): number =>
  front.length === 0
    ? Infinity
    : front.reduce((most, point) => Math.max(most, frontIsCarried ? length(point) : dot(point, back)), 0);

/** Moves a glide on; true while one is under way. Called once a frame. */
export function glideOn(time: number): boolean {
  if (!glide) return false;
  const t = Math.min(1, Math.max(0, (time - glide.begun) / GLIDE));
  orbit = between(glide.from, glide.to, t);
  if (t < 1) return true;
  glide = null;
  // What goes by the eye's place (how finely teeth are drawn) is told where it came to rest.
  tell();
  return false;
}

const aspect = (): number => size.width / Math.max(1, size.height);

/** Pixels at the top of the bench over which the buttons of the named views stand. */
const BUTTONS = 56;
const covered = (): Covered => ({
  top: Math.min(0.25, BUTTONS / size.height),
  right: Math.min(0.6, coveredWidth() / size.width),
});

/** Sees the whole from the side on which the eye is, or on which a glide is to end: that goes on to its new end. */
function fitAnew(): void {
  const fitted = fitView(restingOrbit(), room, aspect(), covered());
  if (glide) glide = { ...glide, to: fitted };
  else setOrbit(fitted, false);
}

export function setScreenSize(width: number, height: number): void {
  if (size.width === width && size.height === height) return;
  size = { width: Math.max(1, width), height: Math.max(1, height) };
  if (!isTouched) fitAnew();
  tell();
}

/**
 * The room that a drive takes as it stands at time zero, without its ports where these are not drawn. Its points are reckoned when they
 * are first asked for.
 */
export function roomOf(layout: BenchLayout, withPorts = true): Room {
  let points: readonly Vec3[] | null = null;
  return {
    get points() {
      points ??= outsideOf(layout, withPorts);
      return points;
    },
    centre: layout.centre,
    radius: layout.radius,
  };
}

/** Points on the outside of a drive. */
function outsideOf(layout: BenchLayout, withPorts: boolean): readonly Vec3[] {
  const points: Vec3[] = [];
  const ring = (shaft: number, at: number, r: number): void => {
    const placed = layout.solved.placement.shafts[shaft];
    if (!placed) return;
    const y = cross(placed.axis, placed.ref);
    const centre = along(placed.origin, placed.axis, at);
    for (let k = 0; k < 12; k++) {
      const a = (k * Math.PI) / 6;
      points.push(add(centre, add(scale(placed.ref, r * Math.cos(a)), scale(y, r * Math.sin(a)))));
    }
  };
  for (const gear of layout.gears) for (const at of reachAlong(gear)) ring(gear.shaft, at, reachAcross(gear));
  for (const rod of layout.rods) {
    if (!rod) continue;
    ring(rod.shaft, rod.low, rod.radius);
    ring(rod.shaft, rod.high, rod.radius);
    ring(rod.shaft, rod.arrowAt, rod.arrowRadius);
    if (withPorts) for (const [at, r] of portRoom(layout.solved, rod, layout.unit)) ring(rod.shaft, at, r);
  }
  return points;
}

let openedSeen = -1;
/** `isAnother`: quite another drive than before, to be seen whole wherever the eye was taken. */
export function followLayout(layout: BenchLayout, isAnother = false): void {
  const before = room;
  room = roomOf(layout);
  const { opened } = documentStore.getState();
  if (opened !== openedSeen) {
    openedSeen = opened;
    isTouched = false;
    setOrbit(fitView(HOME, room, aspect(), covered()), false);
    // Somebody opened it to be looked at from a place of their own.
    const { camera } = viewStore.getState();
    if (camera.opened === opened) goTo(camera.view);
  } else if (!isDragging() && (isAnother || !isTouched) && before.radius !== room.radius && !sees(room))
    glideTo(fitView(restingOrbit(), room, aspect(), covered()));
}

/** A drive that would be has to be seen whole; when it goes, the eye comes back to the drive that is. */
function followGhost(ghost: Solved | null): void {
  const { solved } = documentStore.getState();
  const before = room;
  room = roomOf(benchLayout(ghost ?? solved));
  if (before.radius !== room.radius && (ghost || !isTouched) && !sees(room))
    glideTo(fitView(restingOrbit(), room, aspect(), covered()));
}

viewStore.subscribe(({ ghost }, before) => {
  if (ghost !== before.ghost) followGhost(ghost?.solved ?? null);
});

/** Whether the whole drive is on the screen as the eye now stands. */
function sees({ points }: Room): boolean {
  const fitted = fitView(orbit, room, aspect(), covered());
  const slack = orbit.distance / fitted.distance;
  return (
    points.length === 0 ||
    (slack > 0.97 && slack < 1.6 && distanceBetween(orbit.target, fitted.target) < 0.2 * room.radius)
  );
}
const distanceBetween = (a: Vec3, b: Vec3): number => Math.hypot(...sub(a, b));

/** The direction of a named view; null where the shaft that it names isn't there. */
export function directionOf(view: NamedView, solved: Solved): Pick<Orbit, "azimuth" | "elevation"> | null {
  switch (view.name) {
    case "fit":
      return orbit;
    case "home":
      return HOME;
    case "front":
      return FRONT;
    case "top":
      return TOP;
    case "right":
      return RIGHT;
    case "towards":
      return alongAxis(view.towards);
    case "along": {
      const shaft = solved.placement.shafts[solved.index.shafts.get(view.shaft) ?? -1];
      return shaft ? alongAxis(scale(shaft.axis, view.end === "+" ? 1 : -1)) : null;
    }
  }
}

/** Goes to a named view. */
export function goTo(view: NamedView): void {
  const direction = directionOf(view, documentStore.getState().solved);
  if (direction && view.name === "towards" && view.near) glideClose({ ...direction, ...view.near });
  else if (direction)
    glideTo(fitView({ azimuth: direction.azimuth, elevation: direction.elevation }, room, aspect(), covered()));
}

export const fitAll = (): void => goTo({ name: "fit" });

let wishSeen = viewStore.getState().camera.count;
viewStore.subscribe(({ camera }) => {
  if (camera.count === wishSeen) return;
  wishSeen = camera.count;
  goTo(camera.view);
});

/**
 * The one drag of a knob that is under way. Every edit is made on the drive as it was when the drag began, so that going through a
 * place that can't be and back loses nothing. Moves are gathered to one edit a frame; the last one counts, and is made before the
 * knob is let go.
 */
import { isRefused } from "../../engine/drive/commands/edit";
import type { Drive } from "../../engine/drive/types";
import { beginDrag, cancelDrag, documentStore, endDrag, isDragging, perform } from "../../store/document";
import { announce } from "../../store/view";
import { sayOnBench } from "../bench-note";
import { currentOrbit, screenSize } from "../camera";
import { project, sightThrough } from "../orbit";
import { shownDrive } from "../shown-drive";
import { inFrame, outOfFrame } from "../turning";
import type { Handle } from "./handle";

/** Pixels from the middle of the picture, y up. */
export interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

interface Held {
  readonly handle: Handle;
  readonly pointer: number;
  readonly start: Drive;
  /** From the knob's place to where it was grabbed: nothing jumps at the first touch. */
  readonly grip: ScreenPoint;
  readonly from: ScreenPoint;
  /** The eye looks along the line or the plane of the handle: only pixels tell. */
  readonly isBlind: boolean;
}

let held: Held | null = null;
/** Where the pointer was last. */
let last: ScreenPoint = { x: 0, y: 0 };
let waiting: { readonly point: ScreenPoint; readonly isFree: boolean } | null = null;
let frame = 0;
/** The last value that was tried, and the last that went through. */
let tried = 0;
let value = 0;

/** Where a knob is seen at a value. */
export function seenAt(handle: Handle, at: number): ScreenPoint & { readonly depth: number } {
  const point = inFrame(shownDrive().turning.poses, handle.frame, handle.point(at));
  return project(currentOrbit(), point, screenSize().height);
}

const valueUnder = (handle: Handle, { x, y }: ScreenPoint): number | null =>
  handle.under(
    outOfFrame(shownDrive().turning.poses, handle.frame, sightThrough(currentOrbit(), x, y, screenSize().height)),
  );

export const isHeld = (key: string): boolean => held?.handle.key === key;
export const holds = (pointer: number): boolean => held?.pointer === pointer;
/** The handle as it was when it was grabbed: its knob goes by that until it is let go. */
export const heldHandle = (key: string): Handle | null => (held?.handle.key === key ? held.handle : null);

/** Grabs a knob; false where another drag is under way. */
export function grabKnob(handle: Handle, pointer: number, point: ScreenPoint): boolean {
  if (held && !isDragging()) drop();
  // A number that is being typed is settled first, as when one goes to another field.
  if (!held && isDragging() && document.activeElement instanceof HTMLElement) document.activeElement.blur();
  if (held || isDragging()) return false;
  const at = seenAt(handle, handle.value);
  const grip = { x: point.x - at.x, y: point.y - at.y };
  const isBlind = valueUnder(handle, { x: at.x, y: at.y }) === null;
  held = { handle, pointer, start: documentStore.getState().drive, grip, from: point, isBlind };
  tried = value = handle.value;
  last = point;
  beginDrag(true);
  return true;
}

/** The pointer is somewhere else now: an edit follows at the next frame. */
export function moveKnob(point: ScreenPoint, isFree: boolean): void {
  if (!held) return;
  // Letting go where it was last is no move: Alt may have been let go before.
  if (point.x === last.x && point.y === last.y) return;
  last = point;
  waiting = { point, isFree };
  frame ||= requestAnimationFrame(() => {
    frame = 0;
    follow();
  });
}

function follow(): void {
  const to = waiting;
  waiting = null;
  if (!held || !to) return;
  // Taken back from elsewhere (Undo): the knob is let go, and must be grabbed anew.
  if (!isDragging()) {
    drop();
    return;
  }
  const { handle, start, grip, from, isBlind } = held;
  const under = isBlind
    ? handle.value + (to.point.x - from.x) * handle.perPixel
    : valueUnder(handle, { x: to.point.x - grip.x, y: to.point.y - grip.y });
  if (under === null || !Number.isFinite(under)) return;
  const next = handle.snap(under, to.isFree);
  if (next === tried) return;
  tried = next;
  if (next === value) return;
  const made = next === handle.value ? start : handle.edit(next)(start);
  if (isRefused(made)) {
    sayOnBench(made.refused);
    return;
  }
  value = next;
  perform(() => made, handle.label);
}

function drop(): void {
  held = null;
  waiting = null;
  if (frame) cancelAnimationFrame(frame);
  frame = 0;
}

/** Lets go: the drag is one step to undo. */
export function releaseKnob(): void {
  if (!held) return;
  follow();
  const now = held;
  drop();
  if (!now || !isDragging()) return;
  endDrag();
  announce(now.handle.told(value));
}

/** Puts all back as it was when the knob was grabbed. */
export function takeBackKnob(): void {
  if (!held) return;
  const { handle } = held;
  drop();
  if (!isDragging()) return;
  cancelDrag();
  announce(`Taken back: ${handle.told(handle.value)}`);
}

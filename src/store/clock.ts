/**
 * The clock of what is shown. Animation never re-solves and never renders React: each frame `advance` moves `time`, and
 * the bench writes `shaftAngle` straight to its objects.
 *
 * angle of a shaft in its own frame = 2π · speed · time + cranked · its part in the crank mode   (radians since time zero)
 */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { crankMode } from "../engine/motion/crank";
import { fastestMesh, pitchesAtMesh } from "../engine/motion/shown-speed";
import type { Solved } from "../engine/solved";
import { documentStore } from "./document";

/** Parts of a tooth pitch per frame beyond which teeth seem to run backwards (the wagon-wheel effect): a quarter. */
const PITCH_PER_FRAME = 0.25;
/** Frames a second that the slow-down is reckoned for; a slower screen moves as much a frame, and so slower. */
const FRAME_RATE = 60;
/** What "step" turns: a quarter pitch of the fastest mesh would be too little to see, a whole pitch is one tooth. */
const STEP_PITCHES = 1;
/** Pitches a minute at most at a mesh that is looked at closely, and the part of a pitch that a step is there. */
const WATCHED_PITCHES = 30;
const WATCHED_STEP = 0.1;
/** Longest stretch of time that one frame moves a drive which is looked at closely, s: it can't seem to run backwards. */
const WATCHED_FRAME = 0.1;

export interface ClockState {
  readonly playing: boolean;
  readonly direction: 1 | -1;
  /** 0 < rate <= 1: how much of the fastest speed that can be shown. */
  readonly rate: number;
  /** Shown speed over true speed of the running drive, for the words "shown n times slower". */
  readonly slowdown: number;
}

export const clockStore = createStore<ClockState>()(() => ({ playing: true, direction: 1, rate: 0.5, slowdown: 1 }));
export const useClock = <T>(selector: (state: ClockState) => T): T => useStore(clockStore, selector);

/** Simulated minutes since time zero; and radians cranked along the mode below. Mutable: read each frame. */
export const now = { time: 0, cranked: 0 };
let mode: Float64Array | null = null;
/** Radians that each shaft was cranked in modes before the present one. */
let base: Float64Array | null = null;

const solved = (): Solved => documentStore.getState().solved;

/** True speed of the fastest mesh in pitches a minute; 0 where nothing turns. */
let fastest = 0;

/** Id of the mesh that is looked at closely, and the pitches a minute that truly pass there. */
let watchedId: string | null = null;
let watched = 0;

/** Slows the clock down to what the eye can follow at one mesh; null: to what it can follow at all. */
export function watchMesh(mesh: string | null): void {
  watchedId = mesh;
  follow();
}

/** What the bench shows beside or in the place of the drive, at speeds of its own; null for nothing. */
let guest: Solved | null = null;

/** Slows the clock down to what the eye can follow of another drive that is shown too. */
export function watchGuest(solved: Solved | null): void {
  if (guest === solved) return;
  guest = solved;
  follow();
}

function follow(): void {
  // What a question hides must not be seen turning, and some shafts can't turn without the others.
  fastest = solved().veil ? 0 : Math.max(fastestMesh(solved()), guest ? fastestMesh(guest) : 0);
  const mesh = watchedId === null ? undefined : solved().index.meshes.get(watchedId);
  watched = mesh === undefined || solved().veil ? 0 : pitchesAtMesh(solved(), mesh);
  // No mesh to be fooled by: shown at most one turn a second.
  const mostPitches = PITCH_PER_FRAME * FRAME_RATE * 60;
  const { rate } = clockStore.getState();
  const most = Math.min(mostPitches / fastest, watched > 0 ? WATCHED_PITCHES / watched : Infinity);
  const slowdown = fastest > 0 ? Math.min(1, most * rate) : 1;
  if (slowdown !== clockStore.getState().slowdown) clockStore.setState({ slowdown });
}

/** Angle of a shaft (by index) in its own frame, radians since time zero. */
export function shaftAngle(shaft: number): number {
  const speed = solved().motion.speed[shaft] ?? 0;
  const before = base?.[shaft] ?? 0;
  const angle = 2 * Math.PI * speed * now.time + before + (mode ? now.cranked * (mode[shaft] ?? 0) : 0);
  // Speeds beyond all range turn nothing that could be drawn.
  return Number.isFinite(angle) ? angle : 0;
}

/** Moves the clock by a frame of `seconds`, never further than a quarter pitch at the fastest mesh. Returns whether anything moved. */
export function advance(seconds: number): boolean {
  const { playing, direction, slowdown } = clockStore.getState();
  if (!playing || fastest === 0) return false;
  now.time += (direction * slowdown * Math.min(seconds, watched > 0 ? WATCHED_FRAME : 1 / FRAME_RATE)) / 60;
  return true;
}

/** One tooth of the fastest mesh on (or back); a tenth of one at a mesh that is looked at closely. */
export function step(direction: 1 | -1): void {
  if (watched > 0) now.time += (direction * WATCHED_STEP) / watched;
  else if (fastest > 0) now.time += (direction * STEP_PITCHES) / fastest;
  clockStore.setState({ playing: false });
}

/**
 * Turns the drive by hand: shaft `shaft` by `angle` radians in its own frame, all else with it. Returns false where it
 * can't turn (locked, held, in conflict).
 */
export function crank(shaft: number, angle: number): boolean {
  const { motion, veil } = solved();
  if (veil) return false;
  if (motion.status === "locked" || motion.status === "conflict") return false;
  const speed = motion.speed[shaft];
  if (speed) {
    now.time += angle / (2 * Math.PI * speed);
    return true;
  }
  const next = crankMode(solved(), shaft);
  if (!next) return false;
  if (mode !== next) {
    // Another shaft is taken hold of: what was cranked stays where it is.
    if (mode) base = mode.map((part, i) => (base?.[i] ?? 0) + now.cranked * part);
    mode = next;
    now.cranked = 0;
  }
  now.cranked += angle / (next[shaft] ?? 1);
  return true;
}

export function reset(): void {
  now.time = 0;
  now.cranked = 0;
  mode = null;
  base = null;
}

export const setPlaying = (playing: boolean): void => clockStore.setState({ playing });
export const reverse = (): void =>
  clockStore.setState(({ direction }) => ({ direction: direction === 1 ? -1 : 1, playing: true }));
export const setRate = (rate: number): void => {
  clockStore.setState({ rate: Math.min(1, Math.max(0.01, rate)) });
  follow();
};

documentStore.subscribe((state, before) => {
  if (state.solved === before.solved) return;
  if (state.opened !== before.opened || state.solved.veil) reset();
  else if (mode) {
    // Angles cranked in the old ratios would set the new teeth on one another.
    mode = null;
    base = null;
    now.cranked = 0;
  }
  follow();
});
follow();

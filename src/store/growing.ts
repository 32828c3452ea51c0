/**
 * What is being grown from the picture: the choice so far, and what of the bench its choices cover. Light, since the bench has it from the
 * start; what the choice comes to is worked out in `store/stage`, which comes with the first `+` that is pressed.
 */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Solved } from "../engine/solved";
import { freeEnds, type Side, sidesOf } from "./stage/sides";
import { type Part, setView, viewStore } from "./view";

/** A place from which something can grow: the gear, or an end of the shaft. */
export interface GrowSpot {
  readonly shaft: string;
  readonly gear?: string;
  readonly side?: Side;
}

/** Numbers typed or swung to; what is left out is filled in. */
export interface GrowSettings {
  /** As typed: `50`, `16:32`, `1/3`. */
  readonly sizes?: string;
  /** mm */
  readonly face?: number;
  readonly module?: number;
  readonly at?: number;
  /** 0 to 1. */
  readonly efficiency?: number;
  /** N·m, of a load on the new shaft. */
  readonly load?: number;
  /** Degrees. */
  readonly shaftAngle?: number;
  /** Degrees; the free place nearest to it is taken. */
  readonly azimuth?: number;
  /** What stands at the end, and how fast it turns in rev/min. */
  readonly role?: "input" | "output" | "held";
  readonly speed?: number;
}

export interface GrowState {
  /** Id of the option that is chosen; null for the first. */
  readonly option: string | null;
  /** One that the pointer is over: its ghost is shown as long as it is. */
  readonly peek: string | null;
  /** Degrees: where the pointer on the bench would have it, as long as it is there. */
  readonly pointed: number | null;
  readonly settings: GrowSettings;
}

const NOTHING: GrowState = { option: null, peek: null, pointed: null, settings: {} };

export const growStore = createStore<GrowState>()(() => NOTHING);
export const useGrow = <T>(selector: (state: GrowState) => T): T => useStore(growStore, selector);

export const setGrow = (patch: Partial<GrowState>): void => growStore.setState(patch);
export const setGrowth = (patch: Partial<GrowSettings>): void =>
  growStore.setState(({ settings }) => ({ settings: { ...settings, ...patch } }));

/** The places of what is selected: of a gear itself and the free ends of its shaft, of a shaft its free ends. */
export function growSpots(solved: Solved, selection: Part | null): GrowSpot[] {
  const { index, drive, placement } = solved;
  const gear = selection?.kind === "gear" ? drive.gears[index.gears.get(selection.id) ?? -1] : undefined;
  const shaft = selection?.kind === "shaft" ? selection.id : gear?.shaft;
  const i = index.shafts.get(shaft ?? "") ?? -1;
  if (shaft === undefined || !placement.shafts[i]) return [];
  const free = freeEnds(solved, i);
  const ends = free.length > 0 || gear ? free : sidesOf(solved, i).slice(0, 1);
  return [...(gear ? [{ shaft, gear: gear.id }] : []), ...ends.map((side) => ({ shaft, side }))];
}

export const isSameSpot = (a: GrowSpot, b: GrowSpot): boolean =>
  a.shaft === b.shaft && a.gear === b.gear && a.side === b.side;

/** Opens the choices at a place. */
export function growFrom(spot: GrowSpot): void {
  setGrow(NOTHING);
  setView({ adding: { shaft: spot.shaft, gear: spot.gear, grow: { side: spot.side } }, ghost: null });
}

/** The place that is open; null where no choices are. */
export function openSpot(): GrowSpot | null {
  const { adding } = viewStore.getState();
  return adding?.grow ? { shaft: adding.shaft, gear: adding.gear, side: adding.grow.side } : null;
}

/** Opens the choices for what is selected, or those of the next place where they are open. */
export function growNext(solved: Solved, selection: Part | null): void {
  const spots = growSpots(solved, selection);
  const open = openSpot();
  const next = spots[(open ? spots.findIndex((spot) => isSameSpot(spot, open)) : -1) + 1] ?? spots[0];
  if (next) growFrom(next);
}

export const spotKey = ({ shaft, gear, side }: GrowSpot): string => JSON.stringify([shaft, gear ?? "", side ?? 0]);

/** Pixels at the right of the bench that the choices stand over; the drive is fitted beside them. */
let covering = 0;
export const coverBench = (pixels: number): void => {
  covering = pixels;
};
export const coveredWidth = (): number => (openSpot() ? covering : 0);

/** Puts down what is chosen; there while choices are shown. */
let put: (() => void) | null = null;
export function onGrowPress(handler: () => void): () => void {
  put = handler;
  return () => {
    if (put === handler) put = null;
  };
}
export const pressGrowth = (): void => put?.();

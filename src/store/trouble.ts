/**
 * Which parts a collision or a side of the space is about, for the bench to mark. Looked for when an edit has settled, never at every
 * step of a drag: until then the marks of the last look stay.
 */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { fitInSpace } from "../engine/collisions/extents";
import { collisionsOf } from "../engine/collisions/find";
import type { Solved, Vec3 } from "../engine/solved";
import { documentStore, isDragging } from "./document";

/** The box that the drive must fit, in the world, mm; an open side is null, and drawn as far as the drive reaches. */
export interface SpaceBox {
  readonly sides: readonly (readonly [low: number, high: number] | null)[];
  readonly low: Vec3;
  readonly high: Vec3;
}

export interface Trouble {
  /** "gear b1" or "shaft A" to what is wrong with it: "collides", "sticks out". */
  readonly words: ReadonlyMap<string, string>;
  readonly box: SpaceBox | null;
}

const NONE: Trouble = { words: new Map(), box: null };
/** ms after the last edit: longer than the pause between two steps of a held key or a drag. */
const SETTLED = 120;

export const troubleStore = createStore<Trouble>()(() => NONE);

/** What is wrong with a part; undefined for nothing. */
export const useTrouble = (kind: "gear" | "shaft", id: string): string | undefined =>
  useStore(troubleStore, ({ words }) => words.get(`${kind} ${id}`));
export const useTroubles = (): ReadonlyMap<string, string> => useStore(troubleStore, ({ words }) => words);
export const useSpaceBox = (): SpaceBox | null => useStore(troubleStore, ({ box }) => box);

function troubleOf(solved: Solved): Trouble {
  const { drive } = solved;
  const words = new Map<string, string>();
  const key = (kind: "gear" | "shaft", index: number): string =>
    `${kind} ${(kind === "gear" ? drive.gears : drive.shafts)[index]?.id ?? ""}`;
  for (const { bodies } of collisionsOf(solved).list) {
    for (const { kind, index } of bodies) words.set(key(kind, index), "collides");
  }
  const fit = fitInSpace(solved);
  for (const { body } of fit?.out ?? []) {
    const at = key(body.kind, body.index);
    words.set(at, words.has(at) ? "collides, sticks out" : "sticks out");
  }
  return { words, box: fit && { sides: fit.stands, low: fit.taken.low, high: fit.taken.high } };
}

/** Looks now; the same again where nothing has changed, so that nothing is drawn anew. */
export function lookForTrouble(): void {
  const { solved } = documentStore.getState();
  const next = troubleOf(solved);
  const had = troubleStore.getState();
  const isSame =
    next.words.size === had.words.size &&
    [...next.words].every(([part, word]) => had.words.get(part) === word) &&
    JSON.stringify(next.box) === JSON.stringify(had.box);
  if (!isSame) troubleStore.setState(next);
}

let timer: ReturnType<typeof setTimeout> | undefined;

function wait(): void {
  clearTimeout(timer);
  timer = setTimeout(() => (isDragging() ? wait() : lookForTrouble()), SETTLED);
}

/** Follows the drive from now on; returns the stop function. */
export function followTrouble(): () => void {
  wait();
  const stop = documentStore.subscribe((state, before) => {
    if (state.solved !== before.solved) wait();
  });
  return () => {
    stop();
    clearTimeout(timer);
  };
}

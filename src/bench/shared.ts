/**
 * Geometries and materials shared by key: equal gears are built once, and what nobody uses any more is given back to the
 * graphics card. Counts are kept by effects, so that a render which is thrown away holds nothing.
 */
import { useEffect, useMemo, useReducer, useRef } from "react";

interface Disposable {
  dispose(): void;
}

interface Entry {
  readonly thing: Disposable;
  users: number;
}

const entries = new Map<string, Entry>();
const built = new Map<string, number>();
/** How many things of a sort (the first word of their keys) were ever built, and how many things are held now: read by tests. */
export const sharedCounts = {
  built: (sort: string): number => built.get(sort) ?? 0,
  held: (): number => entries.size,
};

let isSweeping = false;
/** After the present round of effects: one component may let go of what the next one takes. */
function sweepSoon(): void {
  if (isSweeping) return;
  isSweeping = true;
  queueMicrotask(() => {
    isSweeping = false;
    for (const [key, entry] of entries) {
      if (entry.users > 0) continue;
      entry.thing.dispose();
      entries.delete(key);
    }
  });
}

function get<T extends Disposable>(key: string, build: () => T): T {
  const known = entries.get(key);
  return known ? (known.thing as T) : enter(key, build());
}

function enter<T extends Disposable>(key: string, thing: T): T {
  const sort = key.slice(0, key.indexOf(" "));
  built.set(sort, (built.get(sort) ?? 0) + 1);
  entries.set(key, { thing, users: 0 });
  return thing;
}

/** The thing of this key, built by `build` if nobody has it yet. The key must say all that `build` depends on. */
export function useShared<T extends Disposable>(key: string, build: () => T): T {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for everything that `build` reads.
  const thing = useMemo(() => get(key, build), [key]);
  useHeld(key, thing);
  return thing;
}

/** Counts the component among the users of a thing while it shows it. */
function useHeld(key: string | null, thing: Disposable | null): void {
  useEffect(() => {
    if (key === null || thing === null) return;
    // Swept between render and effect (a suspended render): put back.
    const entry = entries.get(key) ?? { thing, users: 0 };
    entries.set(key, entry);
    entry.users++;
    return () => {
      entry.users--;
      if (entry.users === 0) sweepSoon();
    };
  }, [key, thing]);
}

/** How much is built in one turn of the page's thread; a test sets it. */
export const workshop = {
  /** ms after which no further piece is begun: with that piece and the drawing that follows it stays within half a frame. */
  budget: 2,
};

/** Work that may be left lying at each `yield`, to be gone on with in another turn. */
export type Pieces<T> = Generator<void, T>;

/** Time within which what was ordered is collected, ms. */
const COLLECTED = 1000;

let spent = 0;

/** Things that are half built. */
const underWay = new Map<string, Pieces<Disposable>>();

/** Builds while there is time in this turn of the thread; the first piece of a turn always. Null while the thing isn't whole. */
function buildInTime<T extends Disposable>(key: string, begin: () => Pieces<T>): T | null {
  while (spent < workshop.budget) {
    if (spent === 0) setTimeout(restart);
    const begun = performance.now();
    const pieces = (underWay.get(key) as Pieces<T> | undefined) ?? begin();
    underWay.delete(key);
    const { done, value } = pieces.next();
    spent += Math.max(1e-6, performance.now() - begun);
    if (done) return enter(key, value);
    underWay.set(key, pieces);
  }
  return null;
}

const restart = (): void => {
  spent = 0;
};

interface Order {
  readonly build: () => Pieces<Disposable>;
  readonly waiting: Set<() => void>;
}

/** Things to be built in the turns to come, first come first served. */
const orders = new Map<string, Order>();
let isAtWork = false;

function workOn(): void {
  isAtWork = false;
  const told = new Set<() => void>();
  const made: Entry[] = [];
  for (const [key, { build, waiting }] of orders) {
    if (!entries.has(key) && !buildInTime(key, build)) break;
    const entry = entries.get(key);
    if (entry) made.push(entry);
    orders.delete(key);
    for (const tell of waiting) told.add(tell);
  }
  keepForAWhile(made);
  for (const tell of told) tell();
  if (orders.size > 0) goOn();
  // What a render began and nobody ordered.
  else underWay.clear();
}

/** Until those who ordered them have rendered. */
function keepForAWhile(made: readonly Entry[]): void {
  for (const entry of made) entry.users++;
  setTimeout(() => {
    for (const entry of made) entry.users--;
    sweepSoon();
  }, COLLECTED);
}

function goOn(): void {
  if (isAtWork) return;
  isAtWork = true;
  setTimeout(workOn);
}

/** Whether anything that was ordered is still to be built. */
export const isBuilding = (): boolean => orders.size > 0;

/** Orders a thing to be built in one of the next turns; `tell` is called when it is there. Returns what takes the order back. */
export function orderThing(key: string, build: () => Pieces<Disposable>, tell: () => void): () => void {
  const placed = orders.get(key) ?? { build, waiting: new Set() };
  orders.set(key, placed);
  placed.waiting.add(tell);
  goOn();
  return () => {
    placed.waiting.delete(tell);
    if (placed.waiting.size > 0 || orders.get(key) !== placed) return;
    orders.delete(key);
    underWay.delete(key);
  };
}

/**
 * As `useShared`, for what takes long to build: at once while there is time in this turn of the page's thread, else in one of the next
 * turns. Until then what it gave before; null where that is nothing.
 */
export function useBuilt<T extends Disposable>(key: string, build: () => Pieces<T>): T | null {
  const [, again] = useReducer((count: number) => count + 1, 0);
  const before = useRef<{ readonly key: string; readonly thing: T } | null>(null);
  const thing = (entries.get(key)?.thing as T | undefined) ?? buildInTime(key, build);
  const shown = thing ? { key, thing } : before.current;
  const isWaiting = thing === null;
  useEffect(() => {
    before.current = shown;
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for everything that `build` reads.
  useEffect(() => (isWaiting ? orderThing(key, build, again) : undefined), [key, isWaiting]);
  useHeld(shown?.key ?? null, shown?.thing ?? null);
  return shown?.thing ?? null;
}

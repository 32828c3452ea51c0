/**
 * Geometries and materials shared by key: equal gears are built once, and what nobody uses any more is given back to the
 * graphics card. Counts are kept by effects, so that a render which is thrown away holds nothing.
 */
import { useEffect, useMemo } from "react";

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
  if (known) return known.thing as T;
  const thing = build();
  const sort = key.slice(0, key.indexOf(" "));
  built.set(sort, (built.get(sort) ?? 0) + 1);
  entries.set(key, { thing, users: 0 });
  return thing;
}

/** The thing of this key, built by `build` if nobody has it yet. The key must say all that `build` depends on. */
export function useShared<T extends Disposable>(key: string, build: () => T): T {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for everything that `build` reads.
  const thing = useMemo(() => get(key, build), [key]);
  useEffect(() => {
    // Swept between render and effect (a suspended render): put back.
    const entry = entries.get(key) ?? { thing, users: 0 };
    entries.set(key, entry);
    entry.users++;
    return () => {
      entry.users--;
      if (entry.users === 0) sweepSoon();
    };
  }, [key, thing]);
  return thing;
}

/**
 * How finely each gear is drawn, by the size of its teeth on the screen: finer where one looks closely, coarser from afar, without
 * teeth where they would be less than a pixel. Followed as the eye moves, and changed only when a size is well past a limit.
 */
import { useSyncExternalStore } from "react";
import { hasTeeth } from "../engine/drive/types";
import type { Solved } from "../engine/solved";
import { distance } from "../engine/vector";
import { documentStore } from "../store/document";
import { currentOrbit, onEye, screenSize } from "./camera";
import { eyePoint, VIEW_ANGLE } from "./orbit";

/** From "fine" to no teeth at all. */
export type Level = "fine" | "bench" | "far" | "smooth";

/** Least size of a module on the screen, pixels. Ours: found by looking. */
const LEAST = { fine: 40, bench: 6, far: 1 } as const;
/** A size must be past a limit by this factor before the drawing changes, so that it doesn't flicker at the limit. */
const SLACK = 1.2;
/** ms after the eye has moved; a glide is followed now and then, and at its end. */
const PAUSE = 120;

/** The level for teeth whose module is so many pixels large. `now`: the level that they are drawn at, null for none yet. */
export function levelFor(pixels: number, now: Level | null): Level {
  const at = (factor: number): Level => {
    const size = pixels * factor;
    return size >= LEAST.fine ? "fine" : size >= LEAST.bench ? "bench" : size >= LEAST.far ? "far" : "smooth";
  };
  if (now === null) return at(1);
  // Where both a little larger and a little smaller would be the present level, or the level lies between them: it stays.
  const [larger, smaller] = [at(SLACK), at(1 / SLACK)];
  return now === larger || now === smaller ? now : at(1);
}

/** Size of a gear's module on the screen, pixels, at the part of it nearest to the eye; null where nothing is known of the screen. */
function moduleOnScreen({ drive, placement }: Solved, gear: number): number | null {
  const data = drive.gears[gear];
  const placed = placement.gears[gear];
  const { height } = screenSize();
  if (!data || !placed || !hasTeeth(data) || height <= 1) return null;
  const eye = eyePoint(currentOrbit());
  // Carried gears go round: where they stand at rest will do.
  const away = Math.max(distance(eye, placed.centre) - placed.pitchDiameter / 2, 2 * data.module);
  return (data.module * height) / (2 * Math.tan(VIEW_ANGLE / 2) * away);
}

const levels = new Map<string, Level>();
const listeners = new Set<() => void>();

function follow(): void {
  const { solved } = documentStore.getState();
  let isChanged = false;
  solved.drive.gears.forEach(({ id }, gear) => {
    const pixels = moduleOnScreen(solved, gear);
    if (pixels === null) return;
    const before = levels.get(id) ?? null;
    const next = levelFor(pixels, before);
    levels.set(id, next);
    isChanged ||= next !== before;
  });
  if (isChanged) for (const listener of listeners) listener();
}

let isDue = false;
function followSoon(): void {
  if (isDue) return;
  isDue = true;
  setTimeout(() => {
    isDue = false;
    follow();
  }, PAUSE);
}
onEye(followSoon);
documentStore.subscribe((state, before) => {
  if (state.opened !== before.opened) levels.clear();
  if (state.solved !== before.solved) followSoon();
});

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** The level that a gear is to be drawn at now. */
export const useLevel = (gear: string): Level => useSyncExternalStore(subscribe, () => levels.get(gear) ?? "bench");

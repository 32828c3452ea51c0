/** The drive on the bench (the document's, or that of a demonstration) with its layout and poses, made once for each solution and shared by all that draws it. */
import { useSyncExternalStore } from "react";
import type { Solved } from "../engine/solved";
import { demoStore, isDemoOnBench, solvedOnBench } from "../store/demo";
import { documentStore } from "../store/document";
import { type BenchLayout, benchLayout } from "./bench-layout";
import { followLayout } from "./camera";
import { ghostTurningOf, type Turning, turningOf } from "./turning";

export interface ShownDrive {
  readonly layout: BenchLayout;
  readonly turning: Turning;
}

let shown: { readonly solved: Solved; readonly isDemo: boolean; readonly drive: ShownDrive } | null = null;

/** The drive to be shown now, laid out; the same object until that is another. */
export function shownDrive(): ShownDrive {
  const solved = solvedOnBench();
  if (shown?.solved !== solved) {
    const isDemo = isDemoOnBench();
    const hasTurned = shown !== null && isDemo !== shown.isDemo;
    const turning = isDemo ? ghostTurningOf(solved) : turningOf(solved);
    shown = { solved, isDemo, drive: { layout: benchLayout(solved), turning } };
    followLayout(shown.drive.layout, hasTurned);
  }
  return shown.drive;
}

// Laid out at the edit itself, before anybody renders.
documentStore.subscribe(shownDrive);
demoStore.subscribe(shownDrive);

/** The demonstration stands on the bench after every change of the document that takes it away, so both are listened to. */
function subscribe(listener: () => void): () => void {
  const off = [documentStore.subscribe(listener), demoStore.subscribe(listener)];
  return () => {
    for (const stop of off) stop();
  };
}

export const useShownDrive = (): ShownDrive => useSyncExternalStore(subscribe, shownDrive);

/** The drive on the bench with its layout and poses, made once for each solution and shared by all that draws it. */
import { useSyncExternalStore } from "react";
import type { Solved } from "../engine/solved";
import { documentStore } from "../store/document";
import { type BenchLayout, benchLayout } from "./bench-layout";
import { followLayout } from "./camera";
import { type Turning, turningOf } from "./turning";

export interface ShownDrive {
  readonly layout: BenchLayout;
  readonly turning: Turning;
}

let shown: { readonly solved: Solved; readonly drive: ShownDrive } | null = null;

/** The drive that the document holds now, laid out; the same object until the document changes. */
export function shownDrive(): ShownDrive {
  const { solved } = documentStore.getState();
  if (shown?.solved !== solved) {
    shown = { solved, drive: { layout: benchLayout(solved), turning: turningOf(solved) } };
    followLayout(shown.drive.layout);
  }
  return shown.drive;
}

// Laid out at the edit itself, before anybody renders.
documentStore.subscribe(shownDrive);

export const useShownDrive = (): ShownDrive => useSyncExternalStore(documentStore.subscribe, shownDrive);

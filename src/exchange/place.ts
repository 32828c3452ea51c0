/**
 * Where the drive was opened from or saved to, where the browser lets a page write there. Going back with Undo past the
 * opening forgets it, so that a drive is never written over the file of another.
 */
import { documentStore } from "../store/document";

/** What we use of a FileSystemFileHandle. */
export interface Place {
  readonly name: string;
  readonly createWritable: () => Promise<{
    readonly write: (text: string) => Promise<void>;
    readonly close: () => Promise<void>;
  }>;
}

let place: Place | null = null;
/** How many steps lay behind when the place was kept. */
let depth = 0;

const stepsBehind = (): number => documentStore.temporal.getState().pastStates.length;

export const keepPlace = (kept: Place | null): void => {
  place = kept;
  depth = stepsBehind();
};

export const currentPlace = (): Place | null => place;

documentStore.temporal.subscribe(() => {
  if (place && stepsBehind() < depth) place = null;
});

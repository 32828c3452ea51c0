/**
 * Which saved drive the one on the bench came from or was saved as. Going back with Undo past that, or opening another drive,
 * forgets it, so that a drive is never saved over another. It is kept with the drive, and so outlives a reload.
 */
import { createStore } from "zustand/vanilla";
import { documentStore } from "../store/document";

export interface SavedLink {
  readonly id: string;
  readonly name: string;
  /** The saved drive as this tab knows it; another tab that saves over it counts on. */
  readonly revision: number;
}

interface Linked {
  readonly link: SavedLink | null;
  /** How many steps lay behind when it was made. */
  readonly depth: number;
}

export const linkStore = createStore<Linked>()(() => ({ link: null, depth: 0 }));

const stepsBehind = (): number => documentStore.temporal.getState().pastStates.length;

/** To call after the drive was opened or saved: opening any drive forgets the link to the one before. */
export const keepLink = (link: SavedLink | null, depth = stepsBehind()): void => linkStore.setState({ link, depth });

export const currentLink = (): SavedLink | null => linkStore.getState().link;

documentStore.temporal.subscribe(() => {
  const { link, depth } = linkStore.getState();
  if (link && stepsBehind() < depth) keepLink(null);
});

documentStore.subscribe((state, before) => {
  if (state.opened !== before.opened && currentLink()) keepLink(null);
});

/** What stands in the storage, if it is a link. */
export const readLinked = (value: unknown): Linked => {
  const { link, depth } = (value ?? {}) as Partial<Linked>;
  const isLink =
    typeof link?.id === "string" &&
    typeof link.name === "string" &&
    Number.isInteger(link.revision) &&
    Number.isInteger(depth);
  return isLink ? { link, depth: depth as number } : { link: null, depth: 0 };
};

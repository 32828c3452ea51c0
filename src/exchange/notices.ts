/** What opening, saving and keeping have to tell: one notice at a time, and the faults of a file that was refused. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Fault } from "../engine/drive/types";

export interface Notice {
  /** `alert` is read out at once, `polite` when there is a pause. */
  readonly tone: "polite" | "alert";
  readonly text: string;
  readonly action?: { readonly words: string; readonly run: () => void };
}

export interface RefusedFile {
  readonly name: string;
  readonly faults: readonly Fault[];
}

export interface NoticeState {
  readonly notice: Notice | null;
  readonly refused: RefusedFile | null;
}

export const noticeStore = createStore<NoticeState>()(() => ({ notice: null, refused: null }));

export const useNotices = <T>(selector: (state: NoticeState) => T): T => useStore(noticeStore, selector);

export const notify = (notice: Notice | null): void => noticeStore.setState({ notice });

export const refuse = (refused: RefusedFile | null): void => noticeStore.setState({ refused });

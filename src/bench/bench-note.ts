/** One passing sentence on the bench: why a drive can't be cranked, say. It goes by itself, and a screen reader hears it once. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { announce } from "../store/view";

const NOTE_TIME = 6000;

const noteStore = createStore<{ readonly note: string | null }>()(() => ({ note: null }));
let timer: ReturnType<typeof setTimeout> | undefined;

export function sayOnBench(note: string): void {
  if (noteStore.getState().note !== note) announce(note);
  noteStore.setState({ note });
  clearTimeout(timer);
  timer = setTimeout(() => noteStore.setState({ note: null }), NOTE_TIME);
}

export const useBenchNote = (): string | null => useStore(noteStore, (state) => state.note);

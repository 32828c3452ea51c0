import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";

export type DialogName = "keys" | "samples" | "menu" | "share" | "units" | "space" | "saved" | "figures" | "lessons";

/** Which dialog is open; one at the most. */
export const dialogStore = createStore<{ readonly open: DialogName | null }>()(() => ({ open: null }));

export const useDialog = (): DialogName | null => useStore(dialogStore, (state) => state.open);

export const showDialog = (open: DialogName | null): void => dialogStore.setState({ open });

import { useSyncExternalStore } from "react";

/** Narrow or low windows: the bench with one sheet under (or beside) it. layout.module.css has the same limits. */
export const PHONE = "(max-width: 759px), (max-height: 499px)";
/** No room for all commands in the header: most of them stand in its menu. */
export const COMPACT = "(max-width: 959px), (max-height: 499px)";
/** Room for the bench and one panel, hardly for two. */
export const MEDIUM = "(max-width: 1199px)";

/** No room in the header for the words of every command that has an icon. */
export const NARROW = "(max-width: 1599px)";

/** Whether a media query fits, followed as it changes. */
export const useMedia = (query: string): boolean =>
  useSyncExternalStore(
    (changed) => {
      const list = window.matchMedia?.(query);
      list?.addEventListener("change", changed);
      return () => list?.removeEventListener("change", changed);
    },
    () => window.matchMedia?.(query).matches ?? false,
  );

/** A command is one object, run alike by key, menu and button. */
import type { LucideIcon } from "lucide-react";
import { useSyncExternalStore } from "react";
import { documentStore } from "../../store/document";
import { viewStore } from "../../store/view";

export interface Command {
  readonly id: string;
  /** What stands on its button and in the list of keys. */
  readonly words: string;
  /** A longer line for the tooltip, where the words leave something open. */
  readonly hint?: string;
  /** Keys as in `Mod+Shift+Z`, `Space`, `?`; `Mod` is Ctrl, on a Mac Command. */
  readonly keys: readonly string[];
  readonly icon: LucideIcon;
  /** Whether there is anything for it to do now. */
  readonly guard: () => boolean;
  readonly perform: () => void | Promise<void>;
}

/** Runs a command if there is anything for it to do; returns whether there was. */
export const run = (command: Command): boolean => {
  if (!command.guard()) return false;
  void command.perform();
  return true;
};

const subscribe = (changed: () => void): (() => void) => {
  const stops = [
    documentStore.subscribe(changed),
    documentStore.temporal.subscribe(changed),
    viewStore.subscribe(changed),
  ];
  return () => {
    for (const stop of stops) stop();
  };
};

/** Whether a command can be run now, followed as the drive and the view change. */
export const useCanRun = (command: Command): boolean => useSyncExternalStore(subscribe, command.guard);

/** All commands, in the order of menu and list of keys. */
import type { Command } from "./command";
import { addStageCommand, redoCommand, removeCommand, undoCommand } from "./edit-commands";
import { newCommand, openCommand, samplesCommand, saveCommand, shareCommand } from "./file-commands";
import { fitCommand, keysCommand, leaveCommand, playCommand, themeCommand } from "./view-commands";

export const FILE_COMMANDS = [newCommand, openCommand, saveCommand, shareCommand, samplesCommand] as const;
export const HISTORY_COMMANDS = [undoCommand, redoCommand] as const;
export const VIEW_COMMANDS = [themeCommand, keysCommand] as const;

export const COMMANDS: readonly Command[] = [
  ...FILE_COMMANDS,
  ...HISTORY_COMMANDS,
  addStageCommand,
  removeCommand,
  playCommand,
  fitCommand,
  ...VIEW_COMMANDS,
  leaveCommand,
];

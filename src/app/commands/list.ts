/** All commands, in the order of menu and list of keys. */
import { demosCommand, drawingsCommand, measureCommand, questionCommand, structureCommand } from "./aside-commands";
import type { Command } from "./command";
import { addStageCommand, growCommand, redoCommand, removeCommand, undoCommand, wishCommand } from "./edit-commands";
import {
  lessonsCommand,
  newCommand,
  openCommand,
  samplesCommand,
  saveCommand,
  savedCommand,
  shareCommand,
} from "./file-commands";
import { presentCommand } from "./present-command";
import {
  figuresCommand,
  fitCommand,
  keysCommand,
  leaveCommand,
  playCommand,
  spaceCommand,
  themeCommand,
  unitsCommand,
} from "./view-commands";

export const FILE_COMMANDS = [
  newCommand,
  openCommand,
  saveCommand,
  savedCommand,
  shareCommand,
  samplesCommand,
  lessonsCommand,
] as const;
export const HISTORY_COMMANDS = [undoCommand, redoCommand] as const;
export const VIEW_COMMANDS = [presentCommand, unitsCommand, themeCommand, keysCommand] as const;

export const ASIDE_COMMANDS = [
  structureCommand,
  measureCommand,
  questionCommand,
  demosCommand,
  drawingsCommand,
] as const;

export interface CommandGroup {
  readonly title: string;
  readonly commands: readonly Command[];
}

/** As the list of keys has them; every command stands in one of them. */
export const COMMAND_GROUPS: readonly CommandGroup[] = [
  { title: "The drive", commands: FILE_COMMANDS },
  {
    title: "Editing",
    commands: [...HISTORY_COMMANDS, addStageCommand, growCommand, wishCommand, removeCommand, leaveCommand],
  },
  {
    title: "Structure, measures, question, demonstrations and drawings",
    commands: [...ASIDE_COMMANDS, figuresCommand],
  },
  { title: "Motion and view", commands: [playCommand, fitCommand, spaceCommand, ...VIEW_COMMANDS] },
];

export const COMMANDS: readonly Command[] = COMMAND_GROUPS.flatMap(({ commands }) => commands);

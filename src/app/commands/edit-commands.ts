/** Undo, redo, add a stage, remove what is selected. */
import { Plus, Redo2, Sprout, Target, Trash2, Undo2 } from "lucide-react";
import { removeGear, removeMesh, removeShaft } from "../../engine/drive/commands/remove";
import { documentStore, perform, redo, undo } from "../../store/document";
import { growNext } from "../../store/growing";
import { isHiding } from "../../store/question";
import { announce, type Part, select, setView, viewStore } from "../../store/view";
import type { Command } from "./command";

const steps = () => documentStore.temporal.getState();

export const undoCommand: Command = {
  id: "undo",
  words: "Undo",
  keys: ["Mod+Z"],
  icon: Undo2,
  guard: () => steps().pastStates.length > 0,
  perform: () => {
    const { label } = documentStore.getState();
    undo();
    announce(label ? `Undone: ${label}.` : "Undone.");
  },
};

export const redoCommand: Command = {
  id: "redo",
  words: "Redo",
  keys: ["Mod+Shift+Z", "Mod+Y"],
  icon: Redo2,
  guard: () => steps().futureStates.length > 0,
  perform: () => {
    redo();
    const { label } = documentStore.getState();
    announce(label ? `Done again: ${label}.` : "Done again.");
  },
};

/** The shaft that a stage would be added to: the selected one, or that of the selected gear, else the last of the drive. */
const shaftToAddTo = (): { readonly shaft: string; readonly gear?: string } | null => {
  const { drive } = documentStore.getState();
  const { selection } = viewStore.getState();
  if (selection?.kind === "shaft" && drive.shafts.some((shaft) => shaft.id === selection.id)) {
    return { shaft: selection.id };
  }
  const gear = selection?.kind === "gear" ? drive.gears.find((one) => one.id === selection.id) : undefined;
  if (gear) return { shaft: gear.shaft, gear: gear.id };
  const last = drive.shafts.at(-1);
  return last ? { shaft: last.id } : null;
};

export const addStageCommand: Command = {
  id: "add-stage",
  words: "Add a stage",
  hint: "Add a shaft with a gear that meshes, to the selected shaft or the last one",
  keys: ["A"],
  icon: Plus,
  guard: () => !isHiding() && viewStore.getState().adding === null && shaftToAddTo() !== null,
  perform: () => setView({ adding: shaftToAddTo() }),
};

/** The selected shaft, that of the selected gear, else the one that is driven: the output, or the last of the drive. */
const shaftToWishFor = (): string | null => {
  const { drive } = documentStore.getState();
  const { selection } = viewStore.getState();
  if (selection?.kind === "shaft" || selection?.kind === "gear") return shaftToAddTo()?.shaft ?? null;
  return drive.ports.find(({ role }) => role === "output")?.shaft ?? drive.shafts.at(-1)?.id ?? null;
};

export const wishCommand: Command = {
  id: "wish",
  words: "Wishes",
  hint: "Say what the selected shaft should do, and get the smallest changes that do it",
  keys: ["W"],
  icon: Target,
  guard: () => !isHiding() && viewStore.getState().asking?.kind !== "wish" && shaftToWishFor() !== null,
  perform: () => {
    const shaft = shaftToWishFor();
    if (shaft !== null) setView({ asking: { kind: "wish", shaft } });
  },
};

export const growCommand: Command = {
  id: "grow",
  words: "Grow here",
  hint: "Choices at the selected part on the bench; once more for the next place",
  keys: ["G"],
  icon: Sprout,
  guard: () => {
    const { adding } = viewStore.getState();
    return !isHiding() && (adding === null || adding.grow !== undefined) && shaftToAddTo() !== null;
  },
  perform: () => {
    const { solved } = documentStore.getState();
    const { selection } = viewStore.getState();
    const last = shaftToAddTo();
    if (selection === null || selection.kind === "mesh") select(last && { kind: "shaft", id: last.shaft });
    growNext(solved, viewStore.getState().selection);
  },
};

const REMOVE = { shaft: removeShaft, gear: removeGear, mesh: removeMesh } as const;

const selected = (): Part | null => viewStore.getState().selection;

export const removeCommand: Command = {
  id: "remove",
  words: "Remove",
  hint: "Remove the selected shaft, gear or mesh",
  keys: ["Delete", "Backspace"],
  icon: Trash2,
  guard: () => selected() !== null,
  perform: () => {
    const part = selected();
    if (!part) return;
    if (perform(REMOVE[part.kind](part.id), `removing ${part.id}`)) {
      select(null);
      announce(`Removed ${part.id}. Undo brings it back.`);
    } else announce(documentStore.getState().refusal ?? "This can't be removed.");
  },
};

/** New, open, save, saved drives, samples, lessons, share: each opening is one undo step, so nothing is lost. */
import { Archive, BookOpen, FilePlus2, FolderOpen, LibraryBig, Save, Share2 } from "lucide-react";
import { newDrive } from "../../engine/drive/defaults";
import { pickAndOpen } from "../../exchange/open";
import { keepPlace } from "../../exchange/place";
import { saveDrive } from "../../exchange/save";
import { openDrive } from "../../store/document";
import { announce, setView } from "../../store/view";
import { showDialog } from "../dialogs/dialog-store";
import type { Command } from "./command";

const always = (): boolean => true;

export const newCommand: Command = {
  id: "new",
  words: "New",
  hint: "A new drive: a motor shaft with one gear",
  keys: ["N"],
  icon: FilePlus2,
  guard: always,
  perform: () => {
    const drive = newDrive();
    openDrive(drive, { keepHistory: true, label: "a new drive" });
    keepPlace(null);
    // Its one gear is selected, so that a drive can grow from it at once.
    const [gear] = drive.gears;
    setView({ selection: gear ? { kind: "gear", id: gear.id } : null, adding: null, ghost: null });
    announce("A new drive: a motor shaft with one gear of 20 teeth. Undo brings back the one before.");
  },
};

export const openCommand: Command = {
  id: "open",
  words: "Open…",
  hint: "Open a drive file",
  keys: ["Mod+O"],
  icon: FolderOpen,
  guard: always,
  perform: pickAndOpen,
};

export const saveCommand: Command = {
  id: "save",
  words: "Save",
  hint: "Save the drive as a file",
  keys: ["Mod+S"],
  icon: Save,
  guard: always,
  perform: saveDrive,
};

export const savedCommand: Command = {
  id: "saved",
  words: "Saved drives…",
  hint: "Drives saved in this browser, by name",
  keys: ["S"],
  icon: Archive,
  guard: always,
  perform: () => showDialog("saved"),
};

export const samplesCommand: Command = {
  id: "samples",
  words: "Samples…",
  hint: "Drives to look at, each with something to notice",
  keys: ["E"],
  icon: LibraryBig,
  guard: always,
  perform: () => showDialog("samples"),
};

export const lessonsCommand: Command = {
  id: "lessons",
  words: "Lessons…",
  hint: "A walk in steps on the bench, and steps kept for a lesson of your own",
  keys: ["H"],
  icon: BookOpen,
  guard: always,
  perform: () => showDialog("lessons"),
};

export const shareCommand: Command = {
  id: "share",
  words: "Share…",
  hint: "A link that holds the whole drive, and a picture of it for phones",
  keys: ["L"],
  icon: Share2,
  guard: always,
  perform: () => showDialog("share"),
};

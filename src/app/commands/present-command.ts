/** Presenting the bench to a class, and leaving that by the same command. */
import { Presentation } from "lucide-react";
import { isDragging } from "../../store/document";
import { viewStore } from "../../store/view";
import { startPresenting, stopPresenting } from "../present/presenting";
import type { Command } from "./command";

export const presentCommand: Command = {
  id: "present",
  words: "Present",
  hint: "The bench on the whole screen in large type, with panels one by one and ink, for a class",
  keys: ["P"],
  icon: Presentation,
  guard: () => {
    const { adding, asking } = viewStore.getState();
    return adding === null && asking === null && !isDragging();
  },
  perform: () => (viewStore.getState().presenting ? stopPresenting() : startPresenting()),
};

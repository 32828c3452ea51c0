/** Play and pause, fit, space, figures, theme, units, the list of keys, and leaving what is under way. */
import { Box, CircleHelp, Image, Maximize, Moon, Play, SlidersHorizontal, X } from "lucide-react";
import { clockStore, setPlaying } from "../../store/clock";
import { closeStore, lookAway } from "../../store/close-look";
import { announce, look, select, setView, viewStore } from "../../store/view";
import { showDialog } from "../dialogs/dialog-store";
import { chooseTheme, shownTheme } from "../theme";
import type { Command } from "./command";

const always = (): boolean => true;

export const playCommand: Command = {
  id: "play",
  words: "Play or pause",
  keys: ["Space"],
  icon: Play,
  guard: always,
  perform: () => {
    const playing = !clockStore.getState().playing;
    setPlaying(playing);
    announce(playing ? "Playing." : "Paused.");
  },
};

export const fitCommand: Command = {
  id: "fit",
  words: "Fit the drive in the view",
  keys: ["0"],
  icon: Maximize,
  guard: always,
  perform: () => look({ name: "fit" }),
};

export const spaceCommand: Command = {
  id: "space",
  words: "Space and clearance…",
  hint: "The room that the drive takes, a space that it must fit, and the clearance of two parts",
  keys: ["B"],
  icon: Box,
  guard: always,
  perform: () => showDialog("space"),
};

export const figuresCommand: Command = {
  id: "figures",
  words: "Figures…",
  hint: "Drawings, workings and readouts as SVG or PNG, for slides and print",
  keys: ["F"],
  icon: Image,
  guard: always,
  perform: () => showDialog("figures"),
};

export const themeCommand: Command = {
  id: "theme",
  words: "Light or dark",
  keys: ["D"],
  icon: Moon,
  guard: always,
  perform: () => {
    const next = shownTheme() === "dark" ? "light" : "dark";
    chooseTheme(next);
    announce(`The ${next} theme.`);
  },
};

export const unitsCommand: Command = {
  id: "units",
  words: "Units…",
  hint: "Units, figures and decimal sign of every number on screen",
  keys: ["U"],
  icon: SlidersHorizontal,
  guard: always,
  perform: () => showDialog("units"),
};

export const keysCommand: Command = {
  id: "keys",
  words: "Keys",
  hint: "What the keys do",
  keys: ["?"],
  icon: CircleHelp,
  guard: always,
  perform: () => showDialog("keys"),
};

export const leaveCommand: Command = {
  id: "leave",
  words: "Leave what is under way, or the selection",
  keys: ["Escape"],
  icon: X,
  guard: () => {
    const { adding, asking, aside, selection } = viewStore.getState();
    const isUnderWay = adding !== null || asking !== null || aside !== null;
    return isUnderWay || selection !== null || closeStore.getState().mesh !== null;
  },
  perform: () => {
    const { adding, asking } = viewStore.getState();
    if (adding || asking) setView({ adding: null, asking: null, ghost: null });
    else if (closeStore.getState().mesh !== null) lookAway();
    else if (viewStore.getState().aside !== null) setView({ aside: null });
    else select(null);
  },
};

/** The bar of a presentation: what its keys do, for a hand on the mouse or the screen. It fades when nothing moves. */
import {
  ChevronLeft,
  ChevronRight,
  Eraser,
  type LucideIcon,
  Moon,
  Pause,
  PenLine,
  Play,
  Square,
  X,
} from "lucide-react";
import { useClock } from "../../store/clock";
import { useDocument } from "../../store/document";
import { run } from "../commands/command";
import { playCommand } from "../commands/view-commands";
import type { Acts } from "./present";
import css from "./present.module.css";
import { type PanelName, usePresent } from "./present-store";

interface ButtonProps {
  readonly words: string;
  readonly keyWords: string;
  readonly icon: LucideIcon;
  readonly act: () => void;
  readonly isPressed?: boolean;
}

const IconButton = ({ words, keyWords, icon: Icon, act, isPressed }: ButtonProps) => (
  <button type="button" title={`${words} (${keyWords})`} aria-label={words} aria-pressed={isPressed} onClick={act}>
    <Icon aria-hidden size={20} />
  </button>
);

interface BarProps {
  readonly acts: Acts;
  readonly titleOf: (panel: PanelName) => string;
  readonly isQuiet: boolean;
  /** Where in the panel one is; the title of the drive where it has no steps. */
  readonly place: string;
}

export const Bar = ({ acts, titleOf, isQuiet, place }: BarProps) => {
  const panels = usePresent((state) => state.panels);
  const panel = usePresent((state) => state.panel);
  const isBlack = usePresent((state) => state.isBlack);
  const isInking = usePresent((state) => state.isInking);
  const isPlaying = useClock((state) => state.playing);
  const title = useDocument((state) => state.drive.title);
  return (
    <section className={css.bar} aria-label="Presentation" data-quiet={isQuiet || undefined}>
      <h1 className="only-heard">{title}</h1>
      <IconButton words="Back" keyWords="Page Up or Left" icon={ChevronLeft} act={acts.previous} />
      {panels.map((one, i) => (
        <button
          key={one}
          type="button"
          aria-pressed={one === panel}
          title={`${titleOf(one)} (${i + 1})`}
          onClick={() => acts.show(one)}
        >
          {titleOf(one)}
        </button>
      ))}
      <IconButton words="Next" keyWords="Page Down or Right" icon={ChevronRight} act={acts.next} />
      <span className={css.place}>{place}</span>
      <IconButton
        words={isPlaying ? "Pause" : "Play"}
        keyWords="Space"
        icon={isPlaying ? Pause : Play}
        act={() => run(playCommand)}
      />
      <IconButton words="Ink" keyWords="I" icon={PenLine} act={acts.ink} isPressed={isInking} />
      <IconButton words="Clear the ink" keyWords="C" icon={Eraser} act={acts.clear} />
      <IconButton words="Black screen" keyWords="B or ." icon={Square} act={acts.black} isPressed={isBlack} />
      <IconButton words="Light or dark" keyWords="D" icon={Moon} act={acts.theme} />
      <IconButton words="Leave" keyWords="Escape" icon={X} act={acts.leave} />
    </section>
  );
};

import { Menu } from "lucide-react";
import { CommandButton } from "./command-button";
import type { Command } from "./commands/command";
import { addStageCommand } from "./commands/edit-commands";
import { savedCommand, shareCommand } from "./commands/file-commands";
import { ASIDE_COMMANDS, FILE_COMMANDS, HISTORY_COMMANDS, VIEW_COMMANDS } from "./commands/list";
import { showDialog } from "./dialogs/dialog-store";
import { DriveTitle } from "./drive-title";
import css from "./header.module.css";
import { COMPACT, MEDIUM, NARROW, useMedia } from "./media";

/** How many of the file commands keep their words where room is scarce, and which do without where it is not ample. */
const WORDED = 3;
const BARE_FIRST: readonly Command[] = [savedCommand, shareCommand];

/** The head of the page: the drive's title, and the commands as buttons; on narrow screens most of them behind one, and the panels beside the bench on middling ones. */
export const Header = ({ phone }: { readonly phone: boolean }) => {
  const compact = useMedia(COMPACT);
  // The title keeps its room, and every button stays on the screen.
  const medium = useMedia(MEDIUM);
  const narrow = useMedia(NARROW);
  return (
    <header className={css.header}>
      <h1 className={phone ? "only-heard" : css.name}>Turnwise</h1>
      <DriveTitle />
      {compact ? null : (
        <div className={css.group}>
          {FILE_COMMANDS.map((command, i) => (
            <CommandButton
              key={command.id}
              command={command}
              bare={(medium && i >= WORDED) || (narrow && BARE_FIRST.includes(command))}
            />
          ))}
        </div>
      )}
      <div className={css.group}>
        {HISTORY_COMMANDS.map((command) => (
          <CommandButton key={command.id} command={command} bare />
        ))}
      </div>
      <div className={css.group}>
        <CommandButton command={addStageCommand} bare={phone} strong />
        {compact
          ? null
          : (medium ? VIEW_COMMANDS : [...ASIDE_COMMANDS, ...VIEW_COMMANDS]).map((command) => (
              <CommandButton key={command.id} command={command} bare />
            ))}
        {medium ? (
          <button
            type="button"
            className={css.button}
            data-bare
            aria-haspopup="dialog"
            onClick={() => showDialog("menu")}
          >
            <Menu aria-hidden size={20} />
            <span className="only-heard">Menu</span>
          </button>
        ) : null}
      </div>
    </header>
  );
};

import { type Command, run, useCanRun } from "../commands/command";
import { removeCommand, wishCommand } from "../commands/edit-commands";
import { ASIDE_COMMANDS, FILE_COMMANDS, VIEW_COMMANDS } from "../commands/list";
import { figuresCommand, fitCommand, spaceCommand } from "../commands/view-commands";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import css from "./menu-dialog.module.css";

const MENU = [
  ...FILE_COMMANDS,
  ...ASIDE_COMMANDS,
  figuresCommand,
  wishCommand,
  removeCommand,
  fitCommand,
  spaceCommand,
  ...VIEW_COMMANDS,
];

const Entry = ({ command }: { readonly command: Command }) => {
  const can = useCanRun(command);
  const Icon = command.icon;
  return (
    <button
      type="button"
      disabled={!can}
      onClick={() => {
        // A command may open a dialog of its own in the place of this one.
        showDialog(null);
        run(command);
      }}
    >
      <Icon aria-hidden size={20} />
      {command.words}
    </button>
  );
};

/** The menu of a phone: what has no room in its header. */
export const MenuDialog = () => (
  <Dialog title="Menu" onClose={() => showDialog(null)}>
    <div className={css.menu}>
      {MENU.map((command) => (
        <Entry key={command.id} command={command} />
      ))}
    </div>
  </Dialog>
);

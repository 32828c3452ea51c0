import { type Command, run, useCanRun } from "./commands/command";
import { keyWords } from "./commands/keys";
import css from "./header.module.css";

interface Props {
  readonly command: Command;
  /** Only the icon is seen; the words are read out and shown on hover. */
  readonly bare?: boolean;
  readonly strong?: boolean;
}

/** A button for a command. Where there is nothing to do it stays in the row of focus, and says so. */
export const CommandButton = ({ command, bare = false, strong = false }: Props) => {
  const can = useCanRun(command);
  const { words, hint, keys, icon: Icon } = command;
  const key = keys[0];
  return (
    <button
      type="button"
      className={css.button}
      data-bare={bare || undefined}
      data-strong={strong || undefined}
      aria-disabled={!can || undefined}
      title={`${hint ?? words}${key ? ` (${keyWords(key)})` : ""}`}
      onClick={() => run(command)}
    >
      <Icon aria-hidden size={18} />
      <span className={bare ? "only-heard" : css.words}>{words}</span>
    </button>
  );
};

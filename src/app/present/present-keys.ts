/** The keys of a presentation: those of a clicker, and a letter for each thing that its bar has. They come before all others. */
import type { Command } from "../commands/command";
import { pressName, singleKeysOn, TYPED_IN } from "../commands/keys";
import { COMMANDS } from "../commands/list";
import { fitCommand, keysCommand, playCommand } from "../commands/view-commands";

/** Commands that go on as ever; the others would change the drive, or what a class doesn't see. */
const KEPT: readonly Command[] = [playCommand, fitCommand, keysCommand];

/** Where the arrow keys have a use of their own. */
const ARROWS_USED = "input, select, textarea, [role=slider], [role=tree], [role=tab], [role=radio], [data-ink]";

/** Presses that hands, or speech, may make by chance: off where single keys are off. */
const isSingle = (press: string): boolean => press.length === 1;

/** Listens until the returned function is called. `actions` by the names of presses. */
export function listenWhilePresenting(actions: Readonly<Record<string, (() => void) | undefined>>): () => void {
  const handle = (event: KeyboardEvent): void => {
    if (event.isComposing || document.querySelector("dialog[open]")) return;
    const press = pressName(event);
    const at = event.target instanceof Element ? event.target : null;
    // An open box of the browser's own is closed by Escape first.
    if (press === "Escape" && document.querySelector("[popover]:popover-open")) return;
    if (isSingle(press) && (at?.closest(TYPED_IN) || !singleKeysOn())) return;
    if (press.startsWith("Arrow") && at?.closest(ARROWS_USED)) return;
    const action = actions[press];
    const command = COMMANDS.find(({ keys }) => keys.includes(press));
    if (action) {
      if (!event.repeat) action();
    } else if (!command || KEPT.includes(command) || at?.closest(TYPED_IN)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  window.addEventListener("keydown", handle, true);
  return () => window.removeEventListener("keydown", handle, true);
}

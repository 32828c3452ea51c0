import type { Copy } from "lucide-react";
import css from "./figures-dialog.module.css";

interface PressProps {
  readonly words: string;
  readonly is: typeof Copy;
  /** Nothing to do now; it stays in the row of focus. */
  readonly off: boolean;
  readonly run: () => unknown;
}

/** A button of the figures: saving, copying, making. */
export const Press = ({ words, is: Icon, off, run }: PressProps) => (
  <button type="button" className={css.button} aria-disabled={off || undefined} onClick={() => off || void run()}>
    <Icon aria-hidden size={18} />
    {words}
  </button>
);

import { X } from "lucide-react";
import { type ReactNode, useEffect, useId, useRef } from "react";
import css from "./dialog.module.css";

interface Props {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A dialog of the browser's own: it keeps the focus, closes on Escape and gives the focus back. */
export const Dialog = ({ title, onClose, children }: Props) => {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();

  useEffect(() => {
    const element = dialog.current;
    if (element && !element.open) element.showModal();
    return () => element?.close();
  }, []);

  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes it too, and the button does.
    <dialog
      ref={dialog}
      className={css.dialog}
      aria-labelledby={heading}
      onClose={onClose}
      onClick={(event) => {
        // Only the backdrop is the dialog itself; all else is within its frame.
        if (event.target === dialog.current) onClose();
      }}
    >
      <div className={css.frame}>
        <header className={css.head}>
          <h2 id={heading}>{title}</h2>
          <button type="button" className={css.close} aria-label="Close" onClick={onClose}>
            <X aria-hidden size={20} />
          </button>
        </header>
        <div className={css.body}>{children}</div>
      </div>
    </dialog>
  );
};

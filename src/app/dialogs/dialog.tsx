import { X } from "lucide-react";
import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef } from "react";
import css from "./dialog.module.css";

interface Props {
  readonly title: string;
  readonly onClose: () => void;
  /** There is more to read than to do: the keys that scroll work from the start. */
  readonly isReading?: boolean;
  readonly children: ReactNode;
}

const FOCUSABLE =
  "a[href], button:not([disabled]), input:not([disabled]), select:not([disabled]), textarea:not([disabled]), summary, [tabindex='0']";

/** Tab goes round within the dialog: a browser would lead on to its own buttons, or to nothing at all. */
const keepFocus = (event: KeyboardEvent<HTMLDialogElement>): void => {
  if (event.key !== "Tab" || event.defaultPrevented) return;
  const all = [...event.currentTarget.querySelectorAll<HTMLElement>(FOCUSABLE)].filter(
    (one) => one.getClientRects().length > 0 && one.tabIndex >= 0,
  );
  const from = event.shiftKey ? all[0] : all.at(-1);
  if (document.activeElement !== from) return;
  event.preventDefault();
  (event.shiftKey ? all.at(-1) : all[0])?.focus();
};

/** A dialog of the browser's own: it keeps the focus, closes on Escape and gives the focus back. */
export const Dialog = ({ title, onClose, isReading = false, children }: Props) => {
  const dialog = useRef<HTMLDialogElement>(null);
  const body = useRef<HTMLDivElement>(null);
  const heading = useId();

  useEffect(() => {
    const element = dialog.current;
    if (element && !element.open) element.showModal();
    if (isReading) body.current?.focus();
    return () => element?.close();
  }, [isReading]);

  // The focus went with what held it (a button that is gone): it stays in the dialog, or Escape would no longer be heard here.
  useEffect(() => {
    const lost = (): void => {
      const element = dialog.current;
      requestAnimationFrame(() => {
        if (element?.open && document.activeElement === document.body) element.focus();
      });
    };
    const element = dialog.current;
    element?.addEventListener("focusout", lost);
    return () => element?.removeEventListener("focusout", lost);
  }, []);

  return (
    <dialog
      ref={dialog}
      className={css.dialog}
      aria-labelledby={heading}
      tabIndex={-1}
      onClose={onClose}
      onKeyDown={keepFocus}
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
        <div ref={body} className={css.body} tabIndex={isReading ? 0 : undefined}>
          {children}
        </div>
      </div>
    </dialog>
  );
};

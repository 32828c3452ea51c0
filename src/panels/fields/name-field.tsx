/** A name, editable in place: settled by Enter or by leaving it, taken back by Escape. */
import { type KeyboardEvent, useId, useRef, useState } from "react";
import styles from "./fields.module.css";

export interface NameFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  /** Makes the edit; null, or why it can't be made. */
  readonly onChange: (name: string) => string | null;
  /** For the command "rename", which leads here. */
  readonly inputRef?: (element: HTMLInputElement | null) => void;
}

const LONGEST_NAME = 200;

export function NameField({ label, value, placeholder, onChange, inputRef }: NameFieldProps) {
  const [draft, setDraft] = useState<string | null>(null);
  const [complaint, setComplaint] = useState<string | null>(null);
  const dropped = useRef(false);
  const id = useId();

  const settle = () => {
    if (draft !== null && !dropped.current && draft.trim() !== value) setComplaint(onChange(draft.trim()));
    dropped.current = false;
    setDraft(null);
  };

  const keyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === "Enter") event.currentTarget.blur();
    if (event.key === "Escape" && draft !== null) {
      event.stopPropagation();
      dropped.current = true;
      setComplaint(null);
      event.currentTarget.blur();
    }
  };

  return (
    <>
      <input
        ref={inputRef}
        className={styles.name}
        type="text"
        aria-label={label}
        aria-invalid={complaint !== null || undefined}
        aria-describedby={complaint ? `${id}-why` : undefined}
        autoComplete="off"
        spellCheck={false}
        maxLength={LONGEST_NAME}
        placeholder={placeholder}
        value={draft ?? value}
        onChange={(event) => setDraft(event.target.value)}
        onFocus={() => setComplaint(null)}
        onBlur={settle}
        onKeyDown={keyDown}
      />
      {complaint ? (
        <span id={`${id}-why`} className={styles.why} role="alert">
          {complaint}
        </span>
      ) : null}
    </>
  );
}

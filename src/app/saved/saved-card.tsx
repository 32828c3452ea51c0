import { Copy, PencilLine, Trash2 } from "lucide-react";
import { memo, useRef, useState } from "react";
import type { Head } from "../../exchange/saved-database";
import { LONGEST_NAME } from "../../exchange/saved-drives";
import css from "./saved.module.css";
import { duplicate, openSaved, remove, rename } from "./saved-store";
import { contentWords } from "./words";

interface Props {
  readonly head: Head;
  readonly isOnBench: boolean;
  /** After the card has gone. */
  readonly onRemoved: () => void;
}

/** One saved drive: its picture and name open it; rename, duplicate, delete. */
export const SavedCard = memo(({ head, isOnBench, onRemoved }: Props) => {
  const [isNaming, setNaming] = useState(false);
  const pencil = useRef<HTMLButtonElement>(null);
  const { name, picture } = head;
  const stopNaming = (): void => {
    setNaming(false);
    // The field has gone; the next key press begins where it began.
    requestAnimationFrame(() => pencil.current?.focus());
  };
  return (
    <li className={css.card} data-on-bench={isOnBench || undefined}>
      {picture === null ? (
        <span className={css.picture} />
      ) : (
        <img className={css.picture} src={picture} alt="" width={96} height={64} decoding="async" />
      )}
      {isNaming ? (
        <NameField name={name} onDone={stopNaming} onName={(next) => void rename(head, next)} />
      ) : (
        <button type="button" className={css.open} onClick={() => void openSaved(head)}>
          <strong>{name}</strong>
          <span>
            {contentWords(head)}
            {isOnBench ? ", on the bench" : ""}
          </span>
        </button>
      )}
      <span className={css.acts}>
        <button ref={pencil} type="button" aria-label={`Rename ${name}`} title="Rename" onClick={() => setNaming(true)}>
          <PencilLine aria-hidden size={18} />
        </button>
        <button type="button" aria-label={`Duplicate ${name}`} title="Duplicate" onClick={() => void duplicate(head)}>
          <Copy aria-hidden size={18} />
        </button>
        <button
          type="button"
          aria-label={`Delete ${name}`}
          title="Delete"
          onClick={() => void remove(head).then((isDone) => isDone && onRemoved())}
        >
          <Trash2 aria-hidden size={18} />
        </button>
      </span>
    </li>
  );
});

interface NameProps {
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly onDone: () => void;
}

/** Enter or leaving the field renames, Escape takes the typing back. */
const NameField = ({ name, onName, onDone }: NameProps) => {
  const [draft, setDraft] = useState(name);
  const isOver = useRef(false);
  const settle = (isKept: boolean): void => {
    if (isOver.current) return;
    isOver.current = true;
    const next = draft.trim();
    if (isKept && next !== "" && next !== name) onName(next);
    onDone();
  };
  return (
    <input
      className={css.field}
      aria-label={`New name of ${name}`}
      maxLength={LONGEST_NAME}
      autoComplete="off"
      spellCheck={false}
      // biome-ignore lint/a11y/noAutofocus: it takes the place of the button that was pressed.
      autoFocus
      value={draft}
      onFocus={(event) => event.target.select()}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={() => settle(true)}
      onKeyDown={(event) => {
        if (event.key === "Enter") settle(true);
        if (event.key === "Escape") {
          // The dialog would close on it.
          event.preventDefault();
          event.stopPropagation();
          settle(false);
        }
      }}
    />
  );
};

/** Changes to choose from: each says what it does and costs, stands on the bench as a ghost while it is looked at, and is one undo step. */
import { Eye } from "lucide-react";
import { useId, useState } from "react";
import type { Change } from "../../engine/wishes/change";
import styles from "./answers.module.css";
import { makeChange, useShown } from "./while-asking";

interface ListProps {
  readonly label: string;
  /** Id of the shaft that was asked about. */
  readonly shaft: string;
  readonly changes: readonly Change[];
}

export function ChangeList({ label, shaft, changes }: ListProps) {
  const [pinned, setPinned] = useState<Change | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const show = useShown(shaft);
  const pin = (change: Change): void => {
    const next = pinned === change ? null : change;
    setPinned(next);
    show(next);
  };
  return (
    <>
      <ol className={styles.changes} aria-label={label}>
        {changes.map((change) => (
          <ChangeCard
            key={change.title}
            change={change}
            isPinned={pinned === change}
            onPin={() => pin(change)}
            onLook={(isLooking) => show(isLooking ? change : pinned)}
            onDo={() => setRefused(makeChange(change))}
          />
        ))}
      </ol>
      {refused ? (
        <p className={styles.refused} role="alert">
          {refused}
        </p>
      ) : null}
    </>
  );
}

interface CardProps {
  readonly change: Change;
  readonly isPinned: boolean;
  readonly onPin: () => void;
  readonly onLook: (isLooking: boolean) => void;
  readonly onDo: () => void;
}

function ChangeCard({ change, isPinned, onPin, onLook, onDo }: CardProps) {
  const id = useId();
  const { title, sentence, also, cost } = change;
  return (
    <li
      className={styles.change}
      data-pinned={isPinned || undefined}
      onPointerEnter={({ pointerType }) => pointerType === "mouse" && onLook(true)}
      onPointerLeave={({ pointerType }) => pointerType === "mouse" && onLook(false)}
      onFocus={() => onLook(true)}
      onBlur={({ currentTarget, relatedTarget }) => currentTarget.contains(relatedTarget) || onLook(false)}
    >
      <h3 id={id}>{title}</h3>
      <p className={styles.cost}>{cost.words}</p>
      <p>{sentence}</p>
      {also.length > 0 ? (
        <ul className={styles.also} aria-label="What else changes">
          {also.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      ) : null}
      <div className={styles.row}>
        <button type="button" className={styles.put} aria-describedby={id} onClick={onDo}>
          Do this
        </button>
        <button type="button" className={styles.show} aria-pressed={isPinned} aria-describedby={id} onClick={onPin}>
          <Eye size={18} aria-hidden /> Show
        </button>
      </div>
    </li>
  );
}

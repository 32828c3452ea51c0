/** What fields have in common: the label, and the bubbles with what a number means or why it is no good. */
import styles from "./fields.module.css";

interface LabelProps {
  /** Id of the control. */
  readonly of: string;
  readonly label: string;
  /** To be seen in the place of the label. */
  readonly shortLabel?: string;
  readonly hidden?: boolean;
}

export function FieldLabel({ of, label, shortLabel, hidden }: LabelProps) {
  return (
    <label className={hidden ? styles.hidden : styles.label} htmlFor={of}>
      {shortLabel ? (
        <>
          <span aria-hidden>{shortLabel}</span>
          <span className={styles.hidden}>{label}</span>
        </>
      ) : (
        label
      )}
    </label>
  );
}

interface BubbleProps {
  /** Id of the control, which is described by `ID-hint` and `ID-why`. */
  readonly of: string;
  readonly note: string | undefined;
  /** Whether the note is seen, and not only heard. */
  readonly isShown: boolean;
  /** Takes the place of the note. */
  readonly complaint: string | null;
  readonly at: { readonly end: boolean; readonly above: boolean };
}

export function Bubbles({ of, note, isShown, complaint, at }: BubbleProps) {
  const place = { "data-end": at.end || undefined, "data-above": at.above || undefined };
  return (
    <>
      {note ? (
        <span id={`${of}-hint`} className={isShown && !complaint ? styles.bubble : styles.hidden} {...place}>
          {note}
        </span>
      ) : null}
      <span role="alert">
        {complaint ? (
          <span id={`${of}-why`} className={styles.bubble} data-bad {...place}>
            {complaint}
          </span>
        ) : null}
      </span>
    </>
  );
}

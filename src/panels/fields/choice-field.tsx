/** One of a few words: the platform's own list, so that it works alike by mouse, finger, keyboard and screen reader. */
import { useId } from "react";
import { FieldLabel } from "./field-parts";
import styles from "./fields.module.css";

export interface Choice<T extends string> {
  readonly value: T;
  readonly words: string;
}

export interface ChoiceFieldProps<T extends string> {
  readonly label: string;
  readonly shortLabel?: string;
  readonly hideLabel?: boolean;
  readonly value: T;
  readonly choices: readonly Choice<T>[];
  readonly onChange: (value: T) => void;
  readonly hint?: string;
  readonly disabled?: boolean;
}

export function ChoiceField<T extends string>(props: ChoiceFieldProps<T>) {
  const id = useId();
  return (
    <div className={styles.field} data-inline>
      <FieldLabel of={id} label={props.label} shortLabel={props.shortLabel} hidden={props.hideLabel} />
      <select
        id={id}
        className={styles.select}
        title={props.hint}
        value={props.value}
        disabled={props.disabled}
        aria-describedby={props.hint ? `${id}-hint` : undefined}
        onChange={(event) => {
          const chosen = props.choices.find((choice) => choice.value === event.target.value);
          if (chosen) props.onChange(chosen.value);
        }}
      >
        {props.choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.words}
          </option>
        ))}
      </select>
      {props.hint ? (
        <span id={`${id}-hint`} className={styles.hidden}>
          {props.hint}
        </span>
      ) : null}
    </div>
  );
}

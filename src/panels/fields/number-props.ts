/** What a number field is told. */
import type { NumberRules } from "./number-text";
import type { SeriesOf } from "./series-list";

export interface NumberFieldProps extends Omit<NumberRules, "also"> {
  /** What the number is, e.g. "Teeth of b1"; read out, and shown unless `hideLabel`. */
  readonly label: string;
  /** A shorter label to show in the place of `label`, where the surroundings say the rest. */
  readonly shortLabel?: string;
  readonly hideLabel?: boolean;
  /** null: nothing given (an empty field). */
  readonly value: number | null;
  /** The digits of the value as the file has them, where they are more than a double holds. */
  readonly digits?: string;
  /** Makes the edit, with the exact digits where a double doesn't hold them. Returns null if it went through, else one sentence on why it can't. */
  readonly onChange: (value: number, digits?: string) => string | null;
  /** Another quantity that this field takes where its unit is typed with the number, and what it is called. */
  readonly also?: {
    readonly unit: "W" | "N·m";
    readonly name: string;
    readonly onChange: (value: number) => string | null;
  };
  /** Usual values, in a list that one can open. */
  readonly series?: SeriesOf;
  /** Empties an optional field; left out where a number must stand. */
  readonly onClear?: () => string | null;
  /** A text that is no good number was left in the field: `kept` is to stand again in its place, where the number isn't the drive's. */
  readonly onTakeBack?: (kept: number) => void;
  /** Told when a text that is no good number comes to stand in the field, and when it goes. */
  readonly onBad?: (isBad: boolean) => void;
  readonly step?: number;
  /** The unit as read out, where it is none that can be chosen: "teeth". */
  readonly spokenUnit?: string;
  /** The format's term, or what the number means: shown on hover and on focus. */
  readonly hint?: string;
  readonly placeholder?: string;
  /** Steppers also where there is a mouse. */
  readonly steppers?: boolean;
  readonly disabled?: boolean;
  /** Characters of room. */
  readonly width?: number;
}

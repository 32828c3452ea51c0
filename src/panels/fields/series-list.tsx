/** Usual values of a number, as the platform's own list that opens beside it; any other number can be typed. */
import { ChevronDown } from "lucide-react";
import type { Series } from "../../engine/units/module-series";
import { figuresIn } from "../../engine/wording";
import { useUnits } from "../../store/units";
import styles from "./fields.module.css";

export interface SeriesOf {
  /** What the list is called: "Usual modules for b1". */
  readonly label: string;
  /** In the chosen unit. */
  readonly lists: readonly Series[];
}

interface Props {
  readonly series: SeriesOf;
  /** In the chosen unit, as is what is chosen. */
  readonly value: number;
  readonly unit: string;
  readonly onChoose: (value: number) => void;
}

/** Stands for a number that is in none of the lists. */
const OTHER = "other";

export function SeriesList({ series, value, unit, onChoose }: Props) {
  const units = useUnits();
  const isUsual = series.lists.some(({ values }) => values.includes(value));
  return (
    <span className={styles.series}>
      <ChevronDown size={18} aria-hidden />
      <select
        aria-label={series.label}
        title={series.label}
        value={isUsual ? String(value) : OTHER}
        onChange={(event) => event.target.value !== OTHER && onChoose(Number(event.target.value))}
      >
        {isUsual ? null : <option value={OTHER}>another size</option>}
        {series.lists.map(({ name, values }) => (
          <optgroup key={name} label={name}>
            {values.map((one) => (
              <option key={one} value={one}>
                {figuresIn(one, units)} {unit}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </span>
  );
}

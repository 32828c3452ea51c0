/** Usual values of a number, as the platform's own list that opens beside it; any other number can be typed. */
import { ChevronDown } from "lucide-react";
import { useState } from "react";
import type { Series } from "../../engine/units/module-series";
import { figuresIn } from "../../engine/wording";
import { useUnits } from "../../store/units";
import styles from "./fields.module.css";

/** The same element each time: React leaves it alone. */
const DOWN = <ChevronDown size={18} aria-hidden />;

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
  // Filled when it is reached: a list of gears would else hold thousands of choices that nobody looks at.
  const [isReached, setReached] = useState(false);
  const reach = () => setReached(true);
  const isUsual = series.lists.some(({ values }) => values.includes(value));
  const words = (one: number): string => `${figuresIn(one, units)} ${unit}`;
  return (
    <span className={styles.series}>
      {DOWN}
      <select
        aria-label={series.label}
        title={series.label}
        value={isReached && isUsual ? String(value) : OTHER}
        onPointerDown={reach}
        onFocus={reach}
        onChange={(event) => event.target.value !== OTHER && onChoose(Number(event.target.value))}
      >
        {isReached && isUsual ? null : <option value={OTHER}>{isUsual ? words(value) : "another size"}</option>}
        {(isReached ? series.lists : []).map(({ name, values }) => (
          <optgroup key={name} label={name}>
            {values.map((one) => (
              <option key={one} value={one}>
                {words(one)}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </span>
  );
}

/** The angle between the two shafts, and both ways of reading one that isn't a right angle. */
import { useId } from "react";
import { figuresIn } from "../../engine/wording";
import { useUnits } from "../../store/units";
import styles from "./add-stage.module.css";
import { LocalNumber } from "./local-number";

interface Props {
  readonly angle: number;
  readonly onChange: (angle: number) => void;
  /** The ends of the first shaft that the new one leans to below and above 90 degrees. */
  readonly back: string;
  readonly on: string;
}

const USUAL = [90, 60, 45, 120] as const;
const RIGHT = 90;

export function AngleChoice({ angle, onChange, back, on }: Props) {
  const id = useId();
  const units = useUnits();
  const sharp = Math.min(angle, 180 - angle);
  const readings = [
    { value: sharp, words: `leans back towards the ${back}` },
    { value: 180 - sharp, words: `leans on towards the ${on}` },
  ];
  return (
    <fieldset className={styles.group}>
      <legend>Angle between the shafts</legend>
      <div className={styles.row}>
        {USUAL.map((usual) => (
          <label key={usual} className={styles.chip}>
            <input type="radio" name={`${id}-usual`} checked={angle === usual} onChange={() => onChange(usual)} />
            <span>{usual}°</span>
          </label>
        ))}
        <LocalNumber
          label="Another angle"
          hideLabel
          value={angle}
          unit="°"
          least={0}
          above
          most={180}
          below
          step={5}
          width={5}
          onChange={(value) => {
            onChange(value);
          }}
        />
      </div>
      {angle === RIGHT ? null : (
        <div className={styles.readings} role="radiogroup" aria-label="Which way it leans">
          <p>
            The same two lines make {figuresIn(sharp, units)}° on one side and {figuresIn(180 - sharp, units)}° on the
            other:
          </p>
          {readings.map(({ value, words }) => (
            <label key={value} className={styles.reading}>
              <input type="radio" name={`${id}-way`} checked={angle === value} onChange={() => onChange(value)} />
              <span>
                <b>{figuresIn(value, units)}°</b> the new shaft {words}
              </span>
            </label>
          ))}
        </div>
      )}
    </fieldset>
  );
}

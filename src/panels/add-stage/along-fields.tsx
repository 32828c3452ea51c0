/** Where along the shaft a new gear goes, and the module of its teeth. */
import { useId } from "react";
import styles from "./add-stage.module.css";
import type { Choice } from "./candidate";
import { LocalNumber } from "./local-number";
import type { Plan } from "./plan";

interface Props {
  readonly plan: Plan;
  readonly name: string;
  readonly onChange: (choice: Partial<Choice>) => void;
}

export function AlongFields({ plan, name, onChange }: Props) {
  const id = useId();
  return (
    <fieldset className={styles.group}>
      <legend>Along {name}, towards the</legend>
      <div className={styles.row}>
        {plan.sides.map(({ side, name: end }) => (
          <label key={side} className={styles.chip}>
            <input
              type="radio"
              className={styles.radio}
              name={id}
              checked={plan.side === side}
              onChange={() => onChange({ side, at: undefined })}
            />
            <span>{end}</span>
          </label>
        ))}
      </div>
      <div className={styles.row}>
        <LocalNumber
          label={`Place along ${name}`}
          shortLabel="at"
          value={plan.at}
          unit="mm"
          spokenUnit="millimetres"
          step={5}
          width={5}
          onChange={(at) => {
            onChange({ at });
          }}
        />
        {plan.candidate.hasTeeth ? (
          <LocalNumber
            label="Module of both gears"
            shortLabel="module"
            value={plan.candidate.module}
            unit="mm"
            spokenUnit="millimetres"
            least={0}
            above
            step={0.5}
            width={4}
            onChange={(module) => {
              onChange({ module });
            }}
          />
        ) : null}
      </div>
    </fieldset>
  );
}

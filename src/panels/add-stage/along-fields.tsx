/** Where along the shaft a new gear goes, and the module of its teeth. */
import { useId } from "react";
import type { Choice } from "../../store/stage/candidate";
import type { Plan } from "../../store/stage/plan";
import { useUnits } from "../../store/units";
import { toothSize } from "../fields/tooth-size";
import styles from "./add-stage.module.css";
import { LocalNumber } from "./local-number";

interface Props {
  readonly plan: Plan;
  readonly name: string;
  readonly onChange: (choice: Partial<Choice>) => void;
}

export function AlongFields({ plan, name, onChange }: Props) {
  const id = useId();
  const units = useUnits();
  return (
    <fieldset className={styles.group}>
      <legend>Along {name}, towards the</legend>
      <div className={styles.row}>
        {plan.sides.map(({ side, name: end }) => (
          <label key={side} className={styles.chip}>
            <input
              type="radio"
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
          step={5}
          width={5}
          onChange={(at) => {
            onChange({ at });
          }}
        />
        {plan.candidate.hasTeeth ? (
          <LocalNumber
            {...toothSize(units, "both gears")}
            value={plan.candidate.module}
            unit="module"
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

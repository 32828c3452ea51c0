/** Sizes of the two gears: by steppers, or by a ratio as one types it. And the gear that is there already, if one fits. */
import { useEffect, useId, useState } from "react";
import { LIMITS } from "../../engine/drive/types";
import { gearSize, nameText } from "../../engine/wording";
import type { Candidate } from "../../store/stage/candidate";
import { sizesForRatio } from "../../store/stage/typed-ratio";
import { useUnits } from "../../store/units";
import { ChoiceField } from "../fields/choice-field";
import styles from "./add-stage.module.css";
import { LocalNumber } from "./local-number";

interface Props {
  readonly candidate: Candidate;
  readonly name: string;
  readonly newName: string;
  readonly onSizes: (sizes: readonly [number, number]) => void;
  readonly onGear: (gear: string | null) => void;
}

/** Stands for a new gear in the list; an id of the list begins with a letter of our own. */
const NEW = "new";

export function SizeFields({ candidate, name, newName, onSizes, onGear }: Props) {
  const { gear, sizes, usable, hasTeeth } = candidate;
  const units = useUnits();
  const what = hasTeeth ? "Teeth" : "Diameter";
  const size = (side: 0 | 1, of: string) => (
    <LocalNumber
      label={`${what} on ${of}`}
      value={sizes[side]}
      unit={hasTeeth ? undefined : "mm"}
      spokenUnit={hasTeeth ? "teeth" : undefined}
      whole={hasTeeth}
      least={hasTeeth ? 1 : 0}
      above={!hasTeeth}
      most={hasTeeth ? LIMITS.teeth : undefined}
      step={hasTeeth ? 1 : 5}
      steppers
      width={5}
      onChange={(value) => {
        onSizes(side === 0 ? [value, sizes[1]] : [sizes[0], value]);
      }}
    />
  );
  return (
    <fieldset className={styles.group}>
      <legend>Sizes</legend>
      {usable.length > 0 ? (
        <ChoiceField
          label={`Gear on ${name}`}
          value={gear ? `g${gear.id}` : NEW}
          choices={[
            ...usable.map((one) => ({
              value: `g${one.id}`,
              words: `${nameText(one.id)}, which is there: ${gearSize(one, units)}`,
            })),
            { value: NEW, words: "a new one" },
          ]}
          onChange={(choice) => onGear(choice === NEW ? null : choice.slice(1))}
        />
      ) : null}
      <div className={styles.row}>
        {gear ? null : size(0, name)}
        {size(1, newName)}
      </div>
      <RatioField candidate={candidate} onSizes={onSizes} />
    </fieldset>
  );
}

function RatioField({ candidate, onSizes }: Pick<Props, "candidate" | "onSizes">) {
  const id = useId();
  const [text, setText] = useState("");
  const [said, setSaid] = useState<{ readonly ok: boolean; readonly words: string } | null>(null);
  const [given, setGiven] = useState<readonly [number, number] | null>(null);
  const { sizes } = candidate;
  const units = useUnits();

  // Sizes that were changed otherwise no longer follow from what stands in the field.
  useEffect(() => {
    if (given === null || (given[0] === sizes[0] && given[1] === sizes[1])) return;
    setText("");
    setSaid(null);
    setGiven(null);
  }, [given, sizes]);

  const type = (next: string) => {
    setText(next);
    if (next.trim() === "") return setSaid(null);
    const read = sizesForRatio(next, candidate, units);
    setSaid(read);
    if (!read.ok) return setGiven(null);
    setGiven(read.sizes);
    onSizes(read.sizes);
  };

  return (
    <div className={styles.ratio}>
      <label htmlFor={id}>or a ratio</label>
      <input
        id={id}
        type="text"
        placeholder="1/2, 2:1 or 0.5"
        autoComplete="off"
        spellCheck={false}
        value={text}
        aria-invalid={said?.ok === false || undefined}
        aria-describedby={`${id}-said`}
        onChange={(event) => type(event.target.value)}
      />
      <p id={`${id}-said`} role="status" data-bad={said?.ok === false || undefined}>
        {said?.words}
      </p>
    </div>
  );
}

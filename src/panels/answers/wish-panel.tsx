/** A wish for one shaft: six kinds, the numbers that each needs, and up to three changes that do it. */
import { useCallback, useId, useMemo, useState } from "react";
import type { Vec3 } from "../../engine/solved";
import { type Way, wishAnswers } from "../../engine/wishes/wish";
import { useDocument } from "../../store/document";
import { towardsEye } from "../../store/eye";
import { LocalNumber } from "../add-stage/local-number";
import { Cautions } from "../cautions";
import { ChoiceField } from "../fields/choice-field";
import styles from "./answers.module.css";
import { ChangeList } from "./change-list";
import { Found } from "./found";
import { useAnswer } from "./while-asking";
import { firstChoice, nameOf, WISHES, type WishChoice, wishOf } from "./wish-choice";

export function WishPanel({ shaft }: { readonly shaft: string }) {
  const solved = useDocument((state) => state.solved);
  const [choice, setChoice] = useState(() => firstChoice(solved, solved.index.shafts.get(shaft) ?? 0));
  const change = useCallback((patch: Partial<WishChoice>) => setChoice((before) => ({ ...before, ...patch })), []);
  /** Something that is no number stands in a field. */
  const [isBad, setBad] = useState(false);
  const find = useMemo(() => {
    const wish = isBad ? null : wishOf(shaft, choice);
    return wish && (() => wishAnswers(solved, wish));
  }, [solved, shaft, choice, isBad]);
  const answer = useAnswer(find);
  const radios = useId();
  return (
    <>
      <fieldset className={styles.group}>
        <legend>{nameOf(solved, shaft)} should</legend>
        <div className={styles.chips}>
          {WISHES.map(({ kind, words }) => (
            <label key={kind} className={styles.chip}>
              <input
                type="radio"
                name={radios}
                checked={choice.kind === kind}
                onChange={() => {
                  setBad(false);
                  change({ kind });
                }}
              />
              {words}
            </label>
          ))}
        </div>
      </fieldset>
      <WishFields key={choice.kind} shaft={shaft} choice={choice} onChange={change} onBad={setBad} />
      {choice.kind === "torque" ? <Cautions /> : null}
      <Found
        isAsked={find !== null}
        cannot={answer && "cannot" in answer ? answer.cannot : null}
        isFound={answer !== null}
      >
        {answer && "changes" in answer ? (
          <ChangeList label="Changes that do it" shaft={shaft} changes={answer.changes} />
        ) : null}
      </Found>
    </>
  );
}

interface FieldsProps {
  readonly shaft: string;
  readonly choice: WishChoice;
  readonly onChange: (patch: Partial<WishChoice>) => void;
  readonly onBad: (isBad: boolean) => void;
}

const WAYS: readonly Way[] = ["clockwise", "counterclockwise"];
const AXES = ["x", "y", "z (up)"] as const;

function WishFields({ shaft, choice, onChange, onBad }: FieldsProps) {
  const solved = useDocument((state) => state.solved);
  const radios = useId();
  const name = nameOf(solved, shaft);
  switch (choice.kind) {
    case "this-way":
      return (
        <fieldset className={styles.group}>
          <legend>Seen from where the bench is looked at now</legend>
          {WAYS.map((way) => (
            <label key={way} className={styles.wish}>
              <input
                type="radio"
                name={radios}
                checked={choice.way === way}
                onChange={() => onChange({ way, toEye: towardsEye() })}
                // Pressed again after the bench was turned it asks anew.
                onClick={() => choice.way === way && onChange({ toEye: towardsEye() })}
              />
              {way}
            </label>
          ))}
        </fieldset>
      );
    case "speed":
      return (
        <LocalNumber
          label={`Wanted speed of ${name}`}
          shortLabel="Speed"
          value={choice.speed}
          unit="rev/min"
          spokenUnit="revolutions per minute"
          least={0}
          above
          step={10}
          steppers
          onBad={onBad}
          onChange={(speed) => onChange({ speed })}
        />
      );
    case "torque":
      return (
        <LocalNumber
          label={`Wanted torque at ${name}`}
          shortLabel="Torque"
          value={choice.torque}
          unit="N·m"
          spokenUnit="newton metres"
          least={0}
          above
          step={1}
          steppers
          onBad={onBad}
          onChange={(torque) => onChange({ torque })}
        />
      );
    case "stand":
      return <AngleFields {...{ shaft, choice, onChange, onBad }} />;
    case "here":
      return (
        <fieldset className={styles.group}>
          <legend>A point that its line should go through</legend>
          {AXES.map((axis, i) => (
            <LocalNumber
              key={axis}
              label={`Place of the point along ${axis}`}
              shortLabel={axis}
              value={choice.point[i] ?? 0}
              unit="mm"
              spokenUnit="millimetres"
              step={5}
              steppers
              onBad={onBad}
              onChange={(value) =>
                onChange({ point: choice.point.map((x, k) => (k === i ? value : x)) as unknown as Vec3 })
              }
            />
          ))}
        </fieldset>
      );
    default:
      return null;
  }
}

/** A list to choose from can be this long. */
const MOST_CHOICES = 300;
const LEVEL = "level";

function AngleFields({ shaft, choice, onChange, onBad }: FieldsProps) {
  const solved = useDocument((state) => state.solved);
  const others = solved.drive.shafts
    .flatMap(({ id }) => (id === shaft ? [] : [{ value: `s${id}`, words: nameOf(solved, id) }]))
    .slice(0, MOST_CHOICES);
  return (
    <fieldset className={styles.group}>
      <legend>Angle</legend>
      <LocalNumber
        label={`Wanted angle of ${nameOf(solved, shaft)}`}
        shortLabel="Angle"
        value={choice.degrees}
        unit="°"
        spokenUnit="degrees"
        least={0}
        most={choice.to === null ? 90 : 180}
        step={5}
        steppers
        onBad={onBad}
        onChange={(degrees) => onChange({ degrees })}
      />
      <ChoiceField
        label="Measured from"
        value={choice.to === null ? LEVEL : `s${choice.to}`}
        choices={[{ value: LEVEL, words: "the level" }, ...others]}
        onChange={(value) => onChange({ to: value === LEVEL ? null : value.slice(1) })}
      />
    </fieldset>
  );
}

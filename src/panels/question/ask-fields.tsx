/** The fields for one asked shaft: two buttons for the way, turns to fill in or a ratio to type, a speed, a torque. */
import { RotateCcw, RotateCw } from "lucide-react";
import { type ReactNode, useId, useState } from "react";
import { tellingEnd, wayWords } from "../../engine/explain/directions";
import { countedInput } from "../../engine/question/answers";
import { isComplaint } from "../../engine/question/guess";
import type { Solved } from "../../engine/solved";
import { shownUnit } from "../../engine/units/convert";
import { shaftName, turnsWords } from "../../engine/wording";
import { useUnits } from "../../store/units";
import { type Asked, type Field, NOTHING, readField, setTyped, type Typed, useGuesses } from "./guesses";
import styles from "./question.module.css";

interface FieldsProps {
  readonly truth: Solved;
  readonly asked: Asked;
  /** Whether a reveal was tried: then every field says what can't be read. */
  readonly isChecked: boolean;
  /** After the reveal a guess stays as it was. */
  readonly isLocked: boolean;
}

interface PartProps extends FieldsProps {
  readonly typed: Typed;
}

export function AskFields(props: FieldsProps) {
  const typed = useGuesses((state) => state.typed.get(props.asked.id) ?? NOTHING);
  const part = { ...props, typed };
  const { figures } = props.asked;
  return (
    <>
      {figures.has("direction") ? <WayField {...part} /> : null}
      {figures.has("ratio") ? <RatioField {...part} /> : null}
      {figures.has("speed") ? <ValueField {...part} field="speed" unit="rev/min" /> : null}
      {figures.has("torque") ? <ValueField {...part} field="torque" unit="N·m" /> : null}
    </>
  );
}

function WayField({ truth, asked: { shaft, id, name }, typed, isLocked }: PartProps) {
  const end = tellingEnd(truth, shaft);
  // Clockwise stands first, whichever sign that is.
  const ways = end === "plus" ? ([-1, 1] as const) : ([1, -1] as const);
  return (
    <fieldset className={styles.ways}>
      <legend>Which way does it turn?</legend>
      {ways.map((way, i) => {
        const Icon = i === 0 ? RotateCw : RotateCcw;
        return (
          <button
            key={way}
            type="button"
            className={styles.way}
            aria-label={`${name} ${wayWords(truth, shaft, way, end)}`}
            aria-pressed={typed.way === way}
            disabled={isLocked}
            onClick={() => setTyped(id, { way: typed.way === way ? null : way })}
          >
            <Icon size={20} aria-hidden />
            {wayWords(truth, shaft, way, end)}
          </button>
        );
      })}
    </fieldset>
  );
}

/** Said beside a field once it was left, or a reveal was tried. */
function useComplaint({ typed, isChecked }: PartProps, field: Field) {
  const units = useUnits();
  const [isLeft, setLeft] = useState(false);
  const read = readField(field, typed, units);
  const complaint = read && isComplaint(read) && (isLeft || isChecked) ? read.complaint : null;
  return { read, complaint, onBlur: () => setLeft(true), onFocus: () => setLeft(false) };
}

function RatioField(props: PartProps) {
  const { truth, asked, typed, isLocked } = props;
  const units = useUnits();
  const id = useId();
  const { read, complaint, onBlur, onFocus } = useComplaint(props, "ratio");
  const input = countedInput(truth);
  if (input === null) return null;
  const inputName = shaftName(truth.drive, input);
  const isByTurns = typed.ratio.trim() === "";
  const text = (field: "turnsIn" | "turnsOut" | "ratio", label: string, isWrong: boolean): ReactNode => (
    <input
      type="text"
      inputMode={field === "ratio" ? "text" : "decimal"}
      autoComplete="off"
      aria-label={label}
      aria-invalid={(complaint !== null && isWrong) || undefined}
      aria-describedby={complaint !== null && isWrong ? id : undefined}
      readOnly={isLocked}
      value={typed[field]}
      // Either the turns or the ratio: what is typed last counts.
      onChange={({ target: { value } }) =>
        setTyped(
          asked.id,
          field === "ratio" ? { ratio: value, turnsIn: "", turnsOut: "" } : { [field]: value, ratio: "" },
        )
      }
      onBlur={onBlur}
      onFocus={onFocus}
    />
  );
  return (
    <div className={styles.field}>
      <p className={styles.flow}>
        For {text("turnsIn", `Turns of ${inputName}`, isByTurns)} turns of {inputName}, {asked.name}{" "}
        <span className={styles.together}>makes {text("turnsOut", `Turns of ${asked.name}`, isByTurns)}</span>
      </p>
      <p className={styles.flow}>
        or as a ratio {text("ratio", `Ratio of ${asked.name}, as in 2/5, 5:2 or 0.4`, !isByTurns)}{" "}
        <span className={styles.soft}>2/5, 5:2 or 0.4</span>
      </p>
      {read && !isComplaint(read) && !isByTurns ? (
        <p className={styles.soft}>Read as: {turnsWords(inputName, asked.name, read.value, units)}.</p>
      ) : null}
      <Complaint id={id} sentence={complaint} />
    </div>
  );
}

function ValueField(props: PartProps & { readonly field: "speed" | "torque"; readonly unit: "rev/min" | "N·m" }) {
  const { asked, typed, field, unit, isLocked } = props;
  const units = useUnits();
  const id = useId();
  const { complaint, onBlur, onFocus } = useComplaint(props, field);
  return (
    <div className={styles.field}>
      <label className={styles.sentence}>
        <span>{field === "speed" ? "Its speed" : "Its torque"}</span>
        <input
          type="text"
          autoComplete="off"
          aria-label={`${field === "speed" ? "Speed" : "Torque"} of ${asked.name}, ${shownUnit(unit, units)}`}
          aria-invalid={complaint !== null || undefined}
          aria-describedby={complaint === null ? undefined : id}
          readOnly={isLocked}
          value={typed[field]}
          onChange={({ target }) => setTyped(asked.id, { [field]: target.value })}
          onBlur={onBlur}
          onFocus={onFocus}
        />
        <span>{shownUnit(unit, units)}</span>
      </label>
      <Complaint id={id} sentence={complaint} />
    </div>
  );
}

const Complaint = ({ id, sentence }: { readonly id: string; readonly sentence: string | null }) =>
  sentence === null ? null : (
    <p id={id} className={styles.complaint}>
      {sentence}
    </p>
  );

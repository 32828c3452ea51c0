/**
 * An editable number with its unit, in place. What is typed is tried at once: a good number goes to the drive while it
 * is typed, a half-typed or bad one never does and says why. Enter or leaving the field settles it as one undo step,
 * Escape takes it back.
 */
import { Minus, Plus } from "lucide-react";
import { type ClipboardEvent, type CSSProperties, type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import { beginDrag, cancelDrag, endDrag } from "../../store/document";
import { roomFor } from "./bubble-room";
import styles from "./fields.module.css";
import { LONGEST, type NumberRules, numberText, readNumber, stepped } from "./number-text";
import { useHold } from "./use-hold";

/** Significant digits shown at rest; all of them while the field is being edited. */
const SHOWN_DIGITS = 7;

export interface NumberFieldProps extends NumberRules {
  /** What the number is, e.g. "Teeth of b1"; read out, and shown unless `hideLabel`. */
  readonly label: string;
  /** A shorter label to show in the place of `label`, where the surroundings say the rest. */
  readonly shortLabel?: string;
  readonly hideLabel?: boolean;
  /** null: nothing given (an empty field). */
  readonly value: number | null;
  /** Makes the edit. Returns null if it went through, else one sentence on why it can't. */
  readonly onChange: (value: number) => string | null;
  /** Empties an optional field; left out where a number must stand. */
  readonly onClear?: () => string | null;
  readonly step?: number;
  /** The unit as read out, e.g. "millimetres". */
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

type Session = "typing" | "stepping" | null;

export function NumberField(props: NumberFieldProps) {
  const { label, value, unit, step = 1, hint } = props;
  const [draft, setDraft] = useState<string | null>(null);
  const [focused, setFocused] = useState(false);
  /** The hint put away by Escape. */
  const [hushed, setHushed] = useState(false);
  const [bubbleAt, setBubbleAt] = useState({ end: false, above: false });
  const [complaint, setComplaint] = useState<string | null>(null);
  const session = useRef<Session>(null);
  const latest = useRef(props);
  latest.current = props;
  const id = useId();

  const begin = (kind: Session) => {
    // Within a drag it is the same drag; one that something else took back (an undo, another drive) begins anew.
    beginDrag();
    session.current = kind;
  };

  const settle = () => {
    if (session.current === null) return;
    session.current = null;
    endDrag();
  };

  // A field that goes away while it is edited (its gear removed, a panel folded) settles what was typed.
  useEffect(
    () => () => {
      if (session.current !== null) endDrag();
      session.current = null;
    },
    [],
  );

  const type = (text: string) => {
    if (text.length > LONGEST) {
      setComplaint("That is far too long for one number: nothing was taken over.");
      return;
    }
    begin("typing");
    setDraft(text);
    if (text.trim() === "" && props.onClear) {
      setComplaint(props.onClear());
      return;
    }
    const read = readNumber(text, props);
    setComplaint("value" in read ? props.onChange(read.value) : read.complaint);
  };

  const leave = () => {
    setFocused(false);
    if (draft !== null && complaint !== null && value !== null) {
      setComplaint(`${complaint} Kept ${numberText(value, SHOWN_DIGITS)}${unit ? ` ${unit}` : ""}.`);
    }
    setDraft(null);
    settle();
  };

  const restore = () => {
    if (session.current !== null) cancelDrag();
    session.current = null;
    setDraft(null);
    setComplaint(null);
  };

  // What is said after leaving stays until the next thing is done.
  useEffect(() => {
    if (focused || complaint === null) return;
    const clear = () => setComplaint(null);
    document.addEventListener("pointerdown", clear);
    document.addEventListener("keydown", clear);
    return () => {
      document.removeEventListener("pointerdown", clear);
      document.removeEventListener("keydown", clear);
    };
  }, [focused, complaint]);

  const stepBy = (times: number) => {
    const { value, least, onChange } = latest.current;
    const from = value ?? Math.max(0, least ?? 0);
    const to = stepped(from, step, times, latest.current);
    setDraft(null);
    setComplaint(to === value ? null : onChange(to));
  };

  const keyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === "Enter") {
      if (draft !== null && complaint === null) setDraft(null);
      settle();
      return;
    }
    if (event.key === "Escape" && (session.current !== null || complaint !== null || (hint && !hushed))) {
      event.stopPropagation();
      if (session.current === null && complaint === null) setHushed(true);
      restore();
      return;
    }
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && session.current !== null) {
      event.preventDefault();
      event.stopPropagation();
      restore();
      return;
    }
    const times = STEPS[event.key];
    if (times === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    begin("stepping");
    stepBy(event.shiftKey ? times * 10 : times);
  };

  const keyUp = (event: KeyboardEvent<HTMLInputElement>) => {
    if (STEPS[event.key] !== undefined && session.current === "stepping") settle();
  };

  const paste = (event: ClipboardEvent<HTMLInputElement>) => {
    const text = event.clipboardData.getData("text");
    if (text.length <= LONGEST && !/\S\s*\n\s*\S/.test(text)) return;
    event.preventDefault();
    setComplaint("What you pasted is a page of text, not a number: nothing was taken over.");
  };

  const hold = useHold(
    (times) => stepBy(times),
    () => begin("stepping"),
    settle,
  );

  const shown = draft ?? (value === null ? "" : numberText(value, focused ? undefined : SHOWN_DIGITS));
  const described = [complaint ? `${id}-why` : null, hint ? `${id}-hint` : null].filter(Boolean).join(" ");
  const stepper = (times: 1 | -1) => (
    <button
      type="button"
      className={styles.stepper}
      tabIndex={-1}
      disabled={props.disabled}
      aria-label={`${label}: ${times > 0 ? "more" : "less"}`}
      {...hold(times)}
    >
      {times > 0 ? <Plus size={18} aria-hidden /> : <Minus size={18} aria-hidden />}
    </button>
  );

  return (
    <div className={styles.field} data-steppers={props.steppers ? "always" : "touch"}>
      <label className={props.hideLabel ? styles.hidden : styles.label} htmlFor={id}>
        {props.shortLabel ? (
          <>
            <span aria-hidden>{props.shortLabel}</span>
            <span className={styles.hidden}>{label}</span>
          </>
        ) : (
          label
        )}
      </label>
      <span className={styles.box} title={hint}>
        {stepper(-1)}
        <input
          id={id}
          className={styles.input}
          style={{ "--characters": props.width ?? 7 } as CSSProperties}
          type="text"
          role="spinbutton"
          inputMode={props.whole ? "numeric" : "decimal"}
          autoComplete="off"
          spellCheck={false}
          disabled={props.disabled}
          placeholder={props.placeholder}
          value={shown}
          aria-valuenow={value ?? undefined}
          aria-valuemin={props.least}
          aria-valuemax={props.most}
          aria-valuetext={
            value === null ? "empty" : `${numberText(value, SHOWN_DIGITS)} ${props.spokenUnit ?? unit ?? ""}`.trim()
          }
          aria-invalid={complaint !== null || undefined}
          aria-describedby={described || undefined}
          onChange={(event) => type(event.target.value)}
          onPaste={paste}
          onFocus={(event) => {
            setFocused(true);
            setHushed(false);
            setComplaint(null);
            setBubbleAt(roomFor(event.target));
            event.target.select();
          }}
          onBlur={leave}
          onKeyDown={keyDown}
          onKeyUp={keyUp}
        />
        {unit ? (
          <span className={styles.unit} aria-hidden>
            {unit}
          </span>
        ) : null}
        {stepper(1)}
      </span>
      {hint ? (
        <span
          id={`${id}-hint`}
          className={focused && !hushed && !complaint ? styles.bubble : styles.hidden}
          data-end={bubbleAt.end || undefined}
          data-above={bubbleAt.above || undefined}
        >
          {hint}
        </span>
      ) : null}
      <span role="alert">
        {complaint ? (
          <span
            id={`${id}-why`}
            className={styles.bubble}
            data-bad
            data-end={bubbleAt.end || undefined}
            data-above={bubbleAt.above || undefined}
          >
            {complaint}
          </span>
        ) : null}
      </span>
    </div>
  );
}

const STEPS: Readonly<Record<string, number | undefined>> = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };

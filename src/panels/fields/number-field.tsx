/**
 * An editable number with its unit, in place. Value, step and limits are in the file's unit; it shows and reads the unit that
 * is chosen, and any other that is typed with the number. What is typed is tried at once: a good number goes to the drive while it
 * is typed, a half-typed or bad one never does and says why. Enter or leaving the field settles it as one undo step,
 * Escape takes it back.
 */
import { Minus, Plus } from "lucide-react";
import {
  type ClipboardEvent,
  type CSSProperties,
  type KeyboardEvent,
  useEffect,
  useId,
  useLayoutEffect,
  useRef,
  useState,
} from "react";
import { unitSpoken } from "../../engine/explain/numbers";
import { FILE_UNITS, type Unit, type UnitChoice } from "../../engine/units/choice";
import { LONGEST } from "../../engine/units/read";
import { quantityIn } from "../../engine/wording";
import { beginDrag, cancelDrag, endDrag } from "../../store/document";
import { currentUnits, useUnits } from "../../store/units";
import { announce } from "../../store/view";
import { roomFor } from "./bubble-room";
import { Bubbles, FieldLabel } from "./field-parts";
import styles from "./fields.module.css";
import type { NumberFieldProps } from "./number-props";
import { fieldUnit, fileValue, fullText, limitIn, readNumber, restText, steppedIn, valueIn } from "./number-text";
import { SeriesList } from "./series-list";
import { useHold } from "./use-hold";

/** The same elements each time: React leaves them alone. */
const PLUS = <Plus size={18} aria-hidden />;
const MINUS = <Minus size={18} aria-hidden />;

type Session = "typing" | "stepping" | null;

export function NumberField(props: NumberFieldProps) {
  const { label, value, step = 1, hint } = props;
  const units = useUnits();
  const shownUnit = fieldUnit(props.unit, units);
  const unit = shownUnit ?? props.unit;
  const [draft, setDraft] = useState<string | null>(null);
  const [focused, setFocused] = useState(false);
  /** The hint put away by Escape. */
  const [hushed, setHushed] = useState(false);
  const [bubbleAt, setBubbleAt] = useState({ end: false, above: false });
  const [complaint, setComplaint] = useState<string | null>(null);
  /** How something was understood that was typed in another unit, or as two numbers. */
  const [meaning, setMeaning] = useState<string | null>(null);
  const session = useRef<Session>(null);
  /** What the field held before it was typed in. */
  const before = useRef({ value: props.value, digits: props.digits });
  const input = useRef<HTMLInputElement>(null);
  const latest = useRef(props);
  latest.current = props;
  const id = useId();

  const begin = (kind: Session) => {
    if (session.current === null) before.current = { value: props.value, digits: props.digits };
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
    const { also } = props;
    const read = readNumber(text, { ...props, also: also?.unit }, units);
    if ("complaint" in read) {
      setMeaning(null);
      setComplaint(read.complaint);
      return;
    }
    const isOther = also !== undefined && read.unit === also.unit;
    setComplaint(isOther ? also.onChange(read.value) : props.onChange(read.value, read.digits));
    const told = meaningWords(
      read.meaning ?? (isOther ? text.trim() : undefined),
      read.value,
      read.unit ?? props.unit,
      units,
    );
    setMeaning(told && isOther ? `${told}, taken as the ${also.name}` : told);
  };

  const tellMeaning = () => {
    if (meaning !== null && complaint === null) announce(`${meaning}.`);
    setMeaning(null);
  };

  const leave = () => {
    setFocused(false);
    if (isBad) refuse();
    else settle();
    setDraft(null);
    tellMeaning();
  };

  /** The number before, not the good beginning of a bad text: of `1/0` not 1. */
  const refuse = () => {
    const kept = session.current === null ? { value, digits: props.digits } : before.current;
    if (session.current !== null) cancelDrag();
    session.current = null;
    if (kept.value === null) return;
    props.onTakeBack?.(kept.value);
    setComplaint(`${complaint} Kept ${restText(kept.value, props.unit, units, kept.digits)}${unit ? ` ${unit}` : ""}.`);
  };

  const restore = () => {
    if (session.current !== null) cancelDrag();
    session.current = null;
    setDraft(null);
    setComplaint(null);
    setMeaning(null);
  };

  const isBad = draft !== null && complaint !== null;
  useEffect(() => latest.current.onBad?.(isBad), [isBad]);

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
    // Read anew: a held button steps on while the rendering is one behind.
    const to = steppedIn(from, step, times, { ...latest.current, also: undefined }, currentUnits());
    setDraft(null);
    setMeaning(null);
    setComplaint(to === value ? null : onChange(to));
  };

  const keyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === "Enter") {
      if (isBad) {
        // The text stays, to be mended.
        if (session.current !== null) cancelDrag();
        session.current = null;
        return;
      }
      setDraft(null);
      tellMeaning();
      settle();
      return;
    }
    if (event.key === "Escape" && (session.current !== null || complaint !== null || (hint && !hushed))) {
      event.stopPropagation();
      // Where there is something to take back, a dialog round the field stays open.
      if (session.current !== null || complaint !== null) event.preventDefault();
      else setHushed(true);
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

  const choose = (of: number) => {
    begin("stepping");
    setDraft(null);
    setMeaning(null);
    setComplaint(props.onChange(fileValue(of, props.unit, units)));
    settle();
  };

  const hold = useHold(
    (times) => stepBy(times),
    () => begin("stepping"),
    settle,
  );

  const text = (of: typeof fullText, how: UnitChoice): string =>
    value === null ? "" : of(value, props.unit, how, props.digits);
  const shown = draft ?? text(focused ? fullText : restText, units);
  const room = roomOf(shown, props.width);
  const heard = text(restText, { ...units, decimalSign: FILE_UNITS.decimalSign }).replace("≈", "about ");
  const limit = (of: number | undefined) => limitIn(of, { unit: props.unit }, units);
  const note = meaning ?? hint;
  const described = [complaint ? `${id}-why` : null, note ? `${id}-hint` : null].filter(Boolean).join(" ");

  // After the field has its room, for which it may have gone to the next line.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it moves with its room
  useLayoutEffect(() => {
    if (focused && input.current) setBubbleAt(roomFor(input.current));
  }, [focused, room]);

  const stepper = (times: 1 | -1) => (
    <button
      type="button"
      className={styles.stepper}
      tabIndex={-1}
      disabled={props.disabled}
      aria-label={`${label}: ${times > 0 ? "more" : "less"}`}
      {...hold(times)}
    >
      {times > 0 ? PLUS : MINUS}
    </button>
  );

  return (
    <div className={styles.field} data-steppers={props.steppers ? "always" : "touch"}>
      <FieldLabel of={id} label={label} shortLabel={props.shortLabel} hidden={props.hideLabel} />
      <span className={styles.box} title={hint}>
        {stepper(-1)}
        <input
          ref={input}
          id={id}
          className={styles.input}
          style={{ "--characters": room } as CSSProperties}
          type="text"
          role="spinbutton"
          inputMode={props.whole ? "numeric" : props.also ? "text" : "decimal"}
          autoComplete="off"
          spellCheck={false}
          disabled={props.disabled}
          placeholder={props.placeholder}
          value={shown}
          aria-valuenow={value === null ? undefined : valueIn(value, props.unit, units)}
          aria-valuemin={limit(props.least)}
          aria-valuemax={limit(props.most)}
          aria-valuetext={
            value === null
              ? "empty"
              : `${heard} ${shownUnit ? unitSpoken(shownUnit) : (props.spokenUnit ?? unit ?? "")}`.trim()
          }
          aria-invalid={complaint !== null || undefined}
          aria-describedby={described || undefined}
          onChange={(event) => type(event.target.value)}
          onPaste={paste}
          onFocus={(event) => {
            setFocused(true);
            setHushed(false);
            setComplaint(null);
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
        {props.series && value !== null ? (
          <SeriesList
            series={props.series}
            value={valueIn(value, props.unit, units)}
            unit={unit ?? ""}
            onChoose={choose}
          />
        ) : null}
        {stepper(1)}
      </span>
      <Bubbles
        of={id}
        note={note}
        isShown={focused && (!hushed || meaning !== null)}
        complaint={complaint}
        at={bubbleAt}
      />
    </div>
  );
}

/** "0.5 in = 12.7 mm"; null where what was typed is plain. */
const meaningWords = (
  meaning: string | undefined,
  value: number,
  unit: string | undefined,
  units: UnitChoice,
): string | null => (meaning === undefined ? null : `${meaning} = ${quantityIn(value, (unit ?? "") as Unit, units)}`);

/** Characters that a field has room for: as many as stand in it, so that none is cut off; no double has more. */
const MOST_CHARACTERS = 24;
const roomOf = (shown: string, width = 7): number =>
  // The sign for "about" is wider than a digit.
  Math.max(width, Math.min(shown.length + (shown.startsWith("≈") ? 0.5 : 0), MOST_CHARACTERS));

const STEPS: Readonly<Record<string, number | undefined>> = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };

/** The numbers of a choice: teeth in one field, then the rest in the order in which one thinks of them; and where round the shaft. */
import { RotateCcw, RotateCw } from "lucide-react";
import { type KeyboardEvent, useId } from "react";
import type { PortRole } from "../../engine/drive/types";
import type { Solved } from "../../engine/solved";
import { shownUnit } from "../../engine/units/convert";
import { shaftName } from "../../engine/wording";
import { type GrowSettings, type GrowSpot, growStore, setGrow, setGrowth } from "../../store/growing";
import { leanEnds } from "../../store/stage/candidate";
import { AZIMUTH_STEP, swung } from "../../store/stage/growth";
import type { GrowField, Growth } from "../../store/stage/growth-parts";
import { sizeText } from "../../store/stage/typed-sizes";
import { useUnits } from "../../store/units";
import { announce } from "../../store/view";
import { AngleChoice } from "../add-stage/angle-choice";
import { LocalNumber } from "../add-stage/local-number";
import { ChoiceField } from "../fields/choice-field";
import { NumberField } from "../fields/number-field";
import { toothSize } from "../fields/tooth-size";
import styles from "./grow.module.css";

interface Props {
  readonly growth: Growth;
  readonly solved: Solved;
  readonly spot: GrowSpot;
}

export function GrowFields({ growth, solved, spot }: Props) {
  const { candidate, fields, values, shaft } = growth;
  const has = (field: GrowField): boolean => fields.includes(field);
  const said = useId();
  return (
    <>
      {has("shaftAngle") && values.shaftAngle !== null && candidate ? (
        <div className={styles.angle}>
          <AngleChoice
            angle={values.shaftAngle}
            {...leanEnds(solved, candidate, growth.side)}
            onChange={(shaftAngle) => setGrowth({ shaftAngle })}
          />
        </div>
      ) : null}
      {has("role") ? <Role value={values.role} /> : null}
      <div className={styles.numbers} data-numbers>
        {has("sizes") ? <Sizes growth={growth} said={said} /> : null}
        {has("face") ? <Size growth={growth} field="face" /> : null}
        {has("module") ? <Size growth={growth} field="module" /> : null}
        {has("at") ? <Place value={values.at ?? 0} name={shaftName(solved.drive, shaft)} /> : null}
        {has("efficiency") ? <Efficiency /> : null}
        {has("speed") ? (
          <LocalNumber
            label="Speed"
            value={values.speed}
            unit="rev/min"
            step={10}
            width={5}
            onChange={(speed) => setGrowth({ speed })}
          />
        ) : null}
        {has("load") ? <Load value={values.load} /> : null}
      </div>
      <p id={said} className={styles.said} role="status">
        {growth.read?.ok ? growth.read.words : null}
      </p>
      {growth.place ? <Swing place={growth.place} {...{ solved, spot, shaft }} /> : null}
    </>
  );
}

/** `said`: the id of what is said of the text. */
function Sizes({ growth, said }: { readonly growth: Growth; readonly said: string }) {
  const id = useId();
  const { candidate, read, option } = growth;
  const units = useUnits();
  const isSmooth = candidate !== null && candidate.hasTeeth === false;
  const what = isSmooth ? `Diameters (${shownUnit("mm", units)})` : "Teeth";
  return (
    <div className={styles.sizes}>
      <label htmlFor={id}>{what}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        spellCheck={false}
        maxLength={64}
        value={growth.values.sizes}
        placeholder={isSmooth ? `${sizeText(50.8, false, units)}:${sizeText(101.6, false, units)}` : "16:32"}
        title={
          option.what === "stage" ? "One number for the new one, two as 16:32 for both, or a ratio as 1/3" : undefined
        }
        aria-invalid={read?.ok === false || undefined}
        aria-describedby={said}
        onFocus={(event) => event.target.select()}
        onChange={(event) => setGrowth({ sizes: event.target.value })}
      />
    </div>
  );
}

function Size({ growth, field }: { readonly growth: Growth; readonly field: "face" | "module" }) {
  const units = useUnits();
  const value = growth.values[field];
  if (value === null) return null;
  // Without the list of usual sizes: Tab leads from number to number.
  const { series: _, ...teeth } = toothSize(units, "the gears");
  const size =
    field === "face"
      ? ({ label: "Face", unit: "mm", step: 1 } as const)
      : ({
          ...teeth,
          shortLabel: teeth.shortLabel === "module" ? "Module" : "Pitch",
          unit: "module",
          step: 0.5,
        } as const);
  return (
    <LocalNumber
      {...size}
      value={value}
      least={0}
      above
      width={4}
      onChange={(chosen) => setGrowth({ [field]: chosen })}
    />
  );
}

const Place = ({ value, name }: { readonly value: number; readonly name: string }) => (
  <LocalNumber
    label={`Place along ${name}`}
    shortLabel="At"
    value={value}
    unit="mm"
    step={5}
    width={4}
    onChange={(at) => setGrowth({ at })}
  />
);

/** An optional number: empty is what the drive has by itself. */
function Optional({
  of,
  ...rest
}: { readonly of: "efficiency" | "load" } & Omit<Parameters<typeof NumberField>[0], "onChange" | "onClear">) {
  const set = (patch: Partial<GrowSettings>): null => {
    setGrowth(patch);
    return null;
  };
  return <NumberField {...rest} onChange={(value) => set({ [of]: value })} onClear={() => set({ [of]: undefined })} />;
}

function Efficiency() {
  const value = growStore.getState().settings.efficiency ?? null;
  return (
    <Optional
      of="efficiency"
      label="Efficiency"
      value={value}
      placeholder="1"
      least={0}
      above
      most={1}
      step={0.01}
      width={4}
    />
  );
}

const Load = ({ value }: { readonly value: number | null }) => (
  <Optional of="load" label="Load" value={value} unit="N·m" placeholder="none" least={0} step={1} width={5} />
);

const ROLES: readonly { readonly value: PortRole; readonly words: string }[] = [
  { value: "input", words: "turned by motor or hand" },
  { value: "output", words: "drives the load" },
  { value: "held", words: "held still" },
];

const Role = ({ value }: { readonly value: PortRole }) => (
  <div className={styles.row}>
    <ChoiceField label="The shaft is" value={value} choices={ROLES} onChange={(role) => setGrowth({ role })} />
  </div>
);

const STEPS: Readonly<Record<string, 1 | -1 | undefined>> = {
  ArrowRight: 1,
  ArrowDown: 1,
  ArrowLeft: -1,
  ArrowUp: -1,
};

interface SwingProps {
  readonly place: NonNullable<Growth["place"]>;
  readonly solved: Solved;
  readonly spot: GrowSpot;
  readonly shaft: number;
}

/** Where round the shaft: from one free place to the next, 15 degrees or more. */
function Swing({ place, solved, spot, shaft }: SwingProps) {
  const swing = (by: 1 | -1): void => {
    const { option, settings } = growStore.getState();
    setGrow({ pointed: null });
    setGrowth({ azimuth: swung(solved, spot, option, { ...settings, azimuth: place.azimuth }, by) });
  };
  const keyDown = (event: KeyboardEvent): void => {
    const by = STEPS[event.key];
    if (by === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    swing(by);
  };
  const words = `${place.words}, ${place.clockwise}° clockwise from the top seen from the ${place.seenFrom}`;
  return (
    <div className={styles.swing}>
      <button
        type="button"
        tabIndex={-1}
        aria-label="The free place before, counterclockwise"
        onClick={() => swing(-1)}
      >
        <RotateCcw size={18} aria-hidden />
      </button>
      <div
        className={styles.dial}
        role="slider"
        tabIndex={0}
        aria-label={`Place round ${shaftName(solved.drive, shaft)}`}
        aria-valuemin={0}
        aria-valuemax={360 - AZIMUTH_STEP}
        aria-valuenow={place.clockwise}
        aria-valuetext={words}
        title={`Seen from the ${place.seenFrom}. Point on the bench, or use the arrow keys.`}
        onKeyDown={keyDown}
        onKeyUp={(event) => STEPS[event.key] !== undefined && announce(words)}
      >
        {place.words} <span className={styles.soft}>{place.clockwise}°</span>
      </div>
      <button type="button" tabIndex={-1} aria-label="The next free place, clockwise" onClick={() => swing(1)}>
        <RotateCw size={18} aria-hidden />
      </button>
    </div>
  );
}

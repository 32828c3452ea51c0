/** What all demonstrations are made of: a slider that speaks when it is let go, figures, and the way to take a result over. */
import { type ReactNode, useState } from "react";
import type { DemoPair, Side } from "../../engine/demos/pair";
import type { Edit } from "../../engine/drive/commands/edit";
import { missingSpeed } from "../../engine/explain/missing";
import type { Solved } from "../../engine/solved";
import { announce, useView } from "../../store/view";
import { tryEdit } from "../edit";
import styles from "./demos.module.css";

export interface DemoProps {
  readonly solved: Solved;
  readonly pair: DemoPair;
}

interface SlideProps {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** The value with its unit. */
  readonly shown: string;
  readonly onChange: (value: number) => void;
  /** Told to a screen reader on release. */
  readonly said?: () => string;
}

export const Slide = ({ label, shown, value, min, max, step, onChange, said }: SlideProps) => {
  const tell = (): void => {
    if (said) announce(said());
  };
  return (
    <label className={styles.slide}>
      <span>
        {label} <output>{shown}</output>
      </span>
      <input
        type="range"
        aria-label={label}
        aria-valuetext={shown}
        {...{ value, min, max, step }}
        onChange={(event) => onChange(Number(event.target.value))}
        onPointerUp={tell}
        onKeyUp={tell}
      />
    </label>
  );
};

export type Row = readonly [name: string, value: string];

/** Names and values, one under another. */
export const Figures = ({ rows }: { readonly rows: readonly Row[] }) => (
  <dl className={styles.figures}>
    {rows.map(([name, value]) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>{value}</dd>
      </div>
    ))}
  </dl>
);

interface TakeProps {
  readonly edit: Edit;
  /** What the undo step is called. */
  readonly label: string;
  readonly done: string;
  readonly children: ReactNode;
}

/** Takes the result over into the drive, as one undo step; says why where that can't be. */
export const Take = ({ edit, label, done, children }: TakeProps) => {
  const [refused, setRefused] = useState<{ readonly edit: Edit; readonly why: string } | null>(null);
  const isPresenting = useView((state) => state.presenting);
  const take = (): void => {
    const why = tryEdit(edit, label);
    setRefused(why === null ? null : { edit, why });
    if (why === null) announce(done);
  };
  // A presentation changes nothing in the drive.
  if (isPresenting) return null;
  return (
    <>
      <button type="button" className={styles.button} onClick={take}>
        {children}
      </button>
      {refused?.edit === edit && (
        <p className={styles.reason} role="alert">
          {refused.why}
        </p>
      )}
    </>
  );
};

export const Soft = ({ children }: { readonly children: ReactNode }) => <p className={styles.soft}>{children}</p>;

/** Why a pair stands still, for the sentence after a colon; null where it turns. */
export function whyStill(solved: Solved, shafts: readonly number[]): string | null {
  for (const shaft of shafts) {
    const missing = missingSpeed(solved, shaft);
    if (missing !== null) return missing;
  }
  const { motion } = solved;
  if (shafts.some((shaft) => motion.locked[shaft])) return "its meshes lock one another (see the findings)";
  return shafts.every((shaft) => motion.speed[shaft] === 0) ? "its input stands still; give it a speed" : null;
}

/** What is missing for the pair to turn. */
export const Still = ({ solved, pair }: DemoProps) => (
  <p className={styles.reason} role="alert">
    This needs a pair that turns:{" "}
    {whyStill(solved, pair.shafts) ??
      (pair.speeds
        ? "both its shafts go round as one"
        : "its speeds are too large to show; give its input a smaller one")}
    .
  </p>
);

interface DrawingProps {
  /** Of the drawing, in its own units: left, top, width, height. */
  readonly box: readonly [number, number, number, number];
  /** What it shows, in words. */
  readonly label: string;
  readonly caption?: ReactNode;
  readonly children: ReactNode;
}

export const Drawing = ({ box, label, caption, children }: DrawingProps) => (
  <figure className={styles.figure}>
    <svg className={styles.drawing} viewBox={box.join(" ")} role="img" aria-label={label}>
      {children}
    </svg>
    {caption && <figcaption className={styles.soft}>{caption}</figcaption>}
  </figure>
);

interface SideProps {
  readonly legend: string;
  readonly pair: DemoPair;
  readonly sides?: readonly Side[];
  readonly value: Side;
  readonly onChange: (side: Side) => void;
}

const BOTH: readonly Side[] = [0, 1];

/** One of the two gears, by the names of their shafts. */
export const SideChoice = ({ legend, pair, sides = BOTH, value, onChange }: SideProps) => (
  <fieldset className={styles.list}>
    <legend>{legend}</legend>
    {sides.map((side) => (
      <button
        key={side}
        type="button"
        className={styles.button}
        aria-pressed={value === side}
        onClick={() => onChange(side)}
      >
        {pair.names[side]}
      </button>
    ))}
  </fieldset>
);

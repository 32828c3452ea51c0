/** From friction to teeth: wheels pressed together carry so much and no more; with teeth the lag is gone. */
import { useMemo, useState } from "react";
import { FRICTION_SOURCE, gripOf, lag, MATERIALS, pressInDrive } from "../../engine/demos/friction";
import type { Side } from "../../engine/demos/pair";
import { figuresIn, quantityIn } from "../../engine/wording";
import { useUnits } from "../../store/units";
import { announce } from "../../store/view";
import { Cautions } from "../cautions";
import { ChoiceField } from "../fields/choice-field";
import styles from "./demos.module.css";
import { useOnBench } from "./on-bench";
import { type DemoProps, Drawing, Figures, type Row, Slide, Soft, Still, Take } from "./parts";

/** N·m asked where the drive doesn't say what it carries. */
const FIRST_TORQUE = 5;
/** s after the load came on, for the lag. */
const SECOND = 1;

const CHOICES = MATERIALS.map(({ name }) => ({ value: name, words: name }));

export const FrictionDemo = ({ solved, pair }: DemoProps) => {
  const units = useUnits();
  const driven = (1 - pair.driver) as Side;
  const radius = pair.meanRadii[driven];
  const known =
    pair.torque !== null && pair.torque > 0
      ? (pair.torque * pair.sizes[driven] * pair.mesh.efficiency) / pair.sizes[pair.driver]
      : null;
  const usual = known ?? FIRST_TORQUE;
  /** N that would just hold the usual load with the first material. */
  const needed = Math.ceil((usual * 1000) / (MATERIALS[0].holding * radius));
  const [name, setName] = useState(MATERIALS[0].name);
  const [force, setForce] = useState(Math.round(needed / 2));
  const [asked, setAsked] = useState(usual);
  const [growth, setGrowth] = useState(0);
  const material = MATERIALS.find((one) => one.name === name) ?? MATERIALS[0];
  const grip = gripOf(material, force, radius, asked);
  const speed = Math.abs(pair.speeds?.[driven] ?? 0);
  const isToothed = growth > 0;
  const slips = grip.slips && !isToothed;
  const says = isToothed
    ? "teeth carry"
    : slips
      ? `it slips, and ${pair.names[driven]} stands still`
      : "friction carries";
  useOnBench(speed === 0 ? null : pair.drive, `Demonstration: this pair by itself; ${says}. Your drive is unchanged.`, {
    still: slips ? pair.ids[driven] : null,
    ...(pair.hasTeeth ? { growth } : {}),
  });
  const edit = useMemo(() => pressInDrive(pair, material, force), [pair, material, force]);
  if (speed === 0) return <Still solved={solved} pair={pair} />;
  const torque = (x: number): string => quantityIn(x, "N·m", units);
  const rows: readonly Row[] = [
    [`Torque asked at ${pair.names[driven]}`, torque(asked)],
    ["Torque carried", torque(isToothed ? asked : grip.carried)],
    ["Most that friction holds", torque(grip.most)],
    [`${pair.names[driven]} is behind, one second on`, quantityIn(lag(slips, speed, SECOND), "°", units)],
  ];
  const said = (): string => [says, ...rows.map((row) => row.join(": "))].join("; ");
  return (
    <>
      <ChoiceField
        label="Rims"
        value={name}
        choices={CHOICES}
        onChange={(to) => {
          setName(to);
          announce(to);
        }}
      />
      <Slide
        label="Force that presses them together"
        min={0}
        max={needed * 3}
        step={1}
        value={force}
        shown={quantityIn(force, "N", units)}
        onChange={setForce}
        said={said}
      />
      <Slide
        label={`Load: torque asked at ${pair.names[driven]}`}
        min={0}
        max={usual * 2}
        step={usual / 100}
        value={asked}
        shown={torque(asked)}
        onChange={setAsked}
        said={said}
      />
      {pair.hasTeeth && (
        <Slide
          label="Teeth"
          min={0}
          max={1}
          step={0.05}
          value={growth}
          shown={
            growth === 0 ? "none, smooth rims" : growth === 1 ? "full teeth" : `${Math.round(growth * 100)} % grown`
          }
          onChange={setGrowth}
          said={said}
        />
      )}
      <p className={slips ? styles.reason : undefined} role="status">
        {isToothed
          ? "A tooth in a gap can't slip past: whatever is asked is carried, as far as the teeth are strong enough, and nothing lags."
          : slips
            ? `It slips: more is asked than friction holds. ${pair.names[driven]} stands still, and its marks fall behind.`
            : "It holds: friction carries all that is asked, and the marks keep up."}
      </p>
      {slips && (
        <Soft>
          The readouts and your drive's other figures are of the drive without slip: there its output turns on.
        </Soft>
      )}
      <Bars
        asked={asked}
        carried={isToothed ? asked : grip.carried}
        most={isToothed ? null : grip.most}
        top={usual * 2}
      />
      <Figures rows={rows} />
      <Soft>
        At most μ N r at a radius of {quantityIn(radius, "mm", units)}: held up to μ ={" "}
        {figuresIn(material.holding, units)}, then sliding with μ = {figuresIn(material.sliding, units)}. From:{" "}
        {FRICTION_SOURCE}.
      </Soft>
      {known === null && <Soft>The drive gives no load here: the torque asked is the one chosen above.</Soft>}
      {edit && (
        <Take
          edit={edit}
          label={`grip of ${pair.mesh.id}`}
          done={`Pressed with ${quantityIn(force, "N", units)}, friction ${figuresIn(material.holding, units)}.`}
        >
          Press mine so
        </Take>
      )}
      <Cautions />
    </>
  );
};

interface BarsProps {
  readonly asked: number;
  readonly carried: number;
  /** null: no limit of friction. */
  readonly most: number | null;
  readonly top: number;
}

const WIDE = 260;
const HIGH = 84;

/** Torque carried against torque asked, and where friction ends. */
const Bars = ({ asked, carried, most, top }: BarsProps) => {
  const x = (torque: number): number => 4 + (Math.min(torque, top) / top) * (WIDE - 8);
  return (
    <Drawing
      box={[0, 0, WIDE, HIGH]}
      label="Bars: torque asked and torque carried, and a line at the most that friction holds."
    >
      <text x={4} y={16}>
        asked
      </text>
      <rect className={styles.solid} x={4} y={22} width={x(asked) - 4} height={12} />
      <text x={4} y={54}>
        carried
      </text>
      <rect className={styles.full} x={4} y={60} width={x(carried) - 4} height={12} />
      {most !== null && most <= top && <line className={styles.now} x1={x(most)} x2={x(most)} y1={18} y2={HIGH - 6} />}
    </Drawing>
  );
};

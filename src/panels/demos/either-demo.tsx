/** Either gear drives: one motor on the one shaft, then on the other; speed and torque trade places, power stays. */
import { useMemo, useState } from "react";
import { driveByOther, drivenFrom, type Traded, traded } from "../../engine/demos/either";
import type { DemoPair, Side } from "../../engine/demos/pair";
import type { UnitChoice } from "../../engine/units/choice";
import { quantityIn } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import { announce } from "../../store/view";
import { Cautions } from "../cautions";
import styles from "./demos.module.css";
import { useOnBench } from "./on-bench";
import { type DemoProps, Drawing, SideChoice, Slide, Soft, Still, Take } from "./parts";

/** N·m of the motor where the drive doesn't say what it carries. */
const FIRST_TORQUE = 10;

const sentence = (pair: DemoPair, driver: Side, { speeds, torques, powers }: Traded, units: UnitChoice): string => {
  const of = (side: Side): string =>
    `${pair.names[side]} ${quantityIn(speeds[side], "rev/min", units)} and ${quantityIn(torques[side], "N·m", units)}`;
  const other = (1 - driver) as Side;
  return `${pair.names[driver]} drives. ${of(driver)}; ${of(other)}; ${quantityIn(powers[other], "W", units)} come out.`;
};

/** By which rule the driven shaft trades: the larger gear has the torque, the smaller one the speed. */
function tradeWords({ sizes, names }: DemoPair, driver: Side): string {
  const driven = (1 - driver) as Side;
  if (sizes[0] === sizes[1]) return "Equal sizes: both turn equally fast, whichever drives.";
  const [gains, gives] = sizes[driven] > sizes[driver] ? ["torque", "speed"] : ["speed", "torque"];
  return `Driven by ${names[driver]}, ${names[driven]} gains ${gains} and gives ${gives} for it. With the motor on the other shaft it is the other way round.`;
}

export const EitherDemo = ({ solved, pair }: DemoProps) => {
  const units = useUnits();
  const [driver, setDriver] = useState<Side>(pair.driver);
  const known = pair.torque !== null && pair.torque > 0 ? pair.torque : null;
  const [torque, setTorque] = useState(known ?? FIRST_TORQUE);
  // As it was on entering: taken over, the same motor stands on the other shaft.
  const [speed] = useState(Math.abs(pair.speeds?.[pair.driver] ?? 0));
  const drive = useMemo(() => drivenFrom(pair, driver, speed), [pair, driver, speed]);
  useOnBench(drive, `Demonstration: this pair by itself, ${pair.names[driver]} drives. Your drive is unchanged.`);
  const edit = useMemo(() => driveByOther(pair, solved.drive, driver, speed), [pair, solved, driver, speed]);
  if (!drive || speed === 0) return <Still solved={solved} pair={pair} />;
  const both = ([0, 1] as const).map((side) => traded(pair.sizes, pair.mesh.efficiency, side, { speed, torque })) as [
    Traded,
    Traded,
  ];
  const now = both[driver];
  const other = (1 - driver) as Side;
  const top = known ?? FIRST_TORQUE;
  const swap = (to: Side): void => {
    setDriver(to);
    announce(sentence(pair, to, both[to], units));
  };
  const row = (name: string, values: readonly [number, number], unit: "rev/min" | "N·m" | "W") => (
    <tr>
      <th scope="row">{name}</th>
      {values.map((value, k) => (
        <td key={pair.ids[k]}>{quantityIn(value, unit, units)}</td>
      ))}
    </tr>
  );
  return (
    <>
      <SideChoice legend="Which drives" pair={pair} value={driver} onChange={swap} />
      <Slide
        label="Torque of what drives"
        min={top / 10}
        max={top * 2}
        step={top / 100}
        value={torque}
        shown={quantityIn(torque, "N·m", units)}
        onChange={setTorque}
        said={() => sentence(pair, driver, now, units)}
      />
      <Areas pair={pair} both={both} now={now} />
      <table className={styles.table}>
        <thead>
          <tr>
            <td />
            {pair.names.map((name, k) => (
              <th key={pair.ids[k]} scope="col">
                {name}
                <span>{k === driver ? "drives" : "is driven"}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {row("Speed", now.speeds, "rev/min")}
          {row("Torque", now.torques, "N·m")}
          {row("Power", now.powers, "W")}
        </tbody>
      </table>
      <p>
        {tradeWords(pair, driver)}{" "}
        {pair.mesh.efficiency < 1
          ? `Power stays, but for the ${quantityIn(now.powers[driver] - now.powers[other], "W", units)} that this mesh loses.`
          : "Power stays."}
      </p>
      {known === null && <Soft>The drive gives no load here: the torque is the one chosen above.</Soft>}
      {edit ? (
        <Take edit={edit} label={`driving from ${pair.ids[driver]}`} done={`${pair.names[driver]} drives now.`}>
          Drive mine from {pair.names[driver]}
        </Take>
      ) : (
        <NotTaken
          isCarried={pair.isCarried}
          inputs={solved.drive.ports.filter(({ role }) => role === "input").length}
        />
      )}
      <Cautions />
    </>
  );
};

const NotTaken = ({ isCarried, inputs }: { readonly isCarried: boolean; readonly inputs: number }) =>
  isCarried ? (
    <Soft>This pair rides on a carrier, so its motor stands elsewhere: there is nothing to take over.</Soft>
  ) : inputs === 1 ? null : (
    <Soft>The drive has {inputs} inputs, so it isn't clear which would move: set that in the parts list.</Soft>
  );

const WIDE = 260;
const HIGH = 160;
const LEFT = 24;
const FOOT = 30;
/** Widest and highest rectangle. */
const ACROSS = WIDE - LEFT - 12;
const UP = HIGH - FOOT - 12;

/** Power as the area of a rectangle, as wide as the shaft is fast and as high as its torque. Both cases share one scale. */
const Areas = ({
  pair,
  both,
  now,
}: {
  readonly pair: DemoPair;
  readonly both: readonly Traded[];
  readonly now: Traded;
}) => {
  const fastest = Math.max(...both.flatMap(({ speeds }) => speeds));
  const strongest = Math.max(...both.flatMap(({ torques }) => torques));
  return (
    <Drawing
      box={[0, 0, WIDE, HIGH]}
      label="For each shaft a rectangle as wide as its speed and as high as its torque: their areas, the powers, are equal but for losses."
      caption={
        <>
          Area is power. Whole line {pair.names[0]}, dashed line {pair.names[1]}.
        </>
      }
    >
      {([0, 1] as const).map((k) => {
        const [w, h] = [((now.speeds[k] ?? 0) / fastest) * ACROSS, ((now.torques[k] ?? 0) / strongest) * UP];
        const colour = shaftColour(pair.shafts[k]).variable;
        return (
          <rect
            key={k}
            className={styles.area}
            style={{ stroke: colour, fill: colour }}
            strokeDasharray={k === 1 ? "9 4" : undefined}
            x={LEFT}
            y={HIGH - FOOT - h}
            width={w}
            height={h}
          />
        );
      })}
      <path className={styles.axis} d={`M${LEFT} 8V${HIGH - FOOT}H${WIDE - 8}`} />
      <text x={LEFT + ACROSS / 2} y={HIGH - 8} textAnchor="middle">
        speed
      </text>
      <text x={-(HIGH - FOOT) / 2} y={16} transform="rotate(-90)" textAnchor="middle">
        torque
      </text>
    </Drawing>
  );
};

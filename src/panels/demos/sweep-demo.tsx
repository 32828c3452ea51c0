/** The pair at every angle between its shafts: on the bench, in numbers, and as a graph of both pitch angles. */
import { useMemo, useState } from "react";
import { buildable, type DemoPair, leanedPair, leanInDrive } from "../../engine/demos/pair";
import { type Form, type SpecialAngle, type SweptPair, specialAngles, sweptPair } from "../../engine/demos/shaft-angle";
import { figuresIn, quantityIn } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import styles from "./demos.module.css";
import { useOnBench } from "./on-bench";
import { type DemoProps, Drawing, Figures, type Row, Slide, Soft, Take } from "./parts";

const FORMS: Readonly<Record<Form, string>> = {
  cylinders: "two cylinders on parallel shafts, their apex infinitely far away",
  cones: "two cones that roll on one another",
  crown: "a cone on a flat crown",
  inside: "a cone that rolls inside a hollow cone",
  ring: "a cylinder inside a ring, the apex infinitely far away again",
  crowns: "two flat crowns face to face, touching everywhere at once",
};
const MARKS: Readonly<Record<SpecialAngle["what"], string>> = {
  parallel: "parallel",
  "right angle": "right angle",
  crown: "crown",
  ring: "ring",
  "two crowns": "two crowns",
};

/** Cones of sizes in the pair's ratio; the heel of the first keeps its radius. */
const sweep = ({ sizes, radii }: DemoPair, angle: number): SweptPair => sweptPair(sizes, angle, radii[0]);

export const SweepDemo = ({ solved, pair }: DemoProps) => {
  const units = useUnits();
  const [angle, setAngle] = useState(() => pair.shaftAngle);
  const { pitchAngles, coneDistance, form } = sweep(pair, angle);
  const degrees = (x: number): string => quantityIn(x, "°", units);
  const drive = useMemo(() => leanedPair(pair, angle), [pair, angle]);
  const drawn = buildable(pair, angle);
  const instead = drawn === angle ? "" : ` (drawn at ${degrees(drawn)}: face to face they have no place to stand)`;
  useOnBench(drive, `Demonstration: this pair by itself at ${degrees(angle)}${instead}. Your drive is unchanged.`);
  const edit = useMemo(() => leanInDrive(pair, solved, angle), [pair, solved, angle]);
  const rows: readonly Row[] = [
    [`Pitch angle, ${pair.names[0]}`, degrees(pitchAngles[0])],
    [`Pitch angle, ${pair.names[1]}`, degrees(pitchAngles[1])],
    ["Both together", degrees(pitchAngles[0] + pitchAngles[1])],
    ["Cone distance, apex to heel", Number.isFinite(coneDistance) ? quantityIn(coneDistance, "mm", units) : "infinite"],
    [
      `Ratio of sizes, ${pair.names[0]} to ${pair.names[1]}, at every angle`,
      `${figuresIn(pair.sizes[0], units)} : ${figuresIn(pair.sizes[1], units)}`,
    ],
  ];
  return (
    <>
      <Slide
        label="Shaft angle"
        min={0}
        max={180}
        step={0.5}
        value={angle}
        shown={degrees(angle)}
        onChange={setAngle}
        said={() => {
          const [a, b] = pitchAngles.map(degrees);
          return `${degrees(angle)}: ${FORMS[form]}. Pitch angles ${a} and ${b}.`;
        }}
      />
      <div className={styles.row}>
        {specialAngles(pair.sizes).map((special) => (
          <button
            key={special.what}
            type="button"
            className={styles.button}
            aria-pressed={angle === special.angle}
            onClick={() => setAngle(special.angle)}
          >
            {degrees(special.angle)} {MARKS[special.what]}
          </button>
        ))}
      </div>
      <Graph pair={pair} angle={angle} now={pitchAngles} />
      <p>
        At {degrees(angle)}: {FORMS[form]}. The ratio stays; the two pitch angles share the shaft angle so that both
        rims keep the same speed.
      </p>
      <Figures rows={rows} />
      {edit ? (
        <Take
          edit={edit}
          label={`shaft angle of ${pair.mesh.id}`}
          done={`The shafts of your drive stand at ${degrees(angle)} now.`}
        >
          Set my drive to {degrees(angle)}
        </Take>
      ) : (
        <Soft>This mesh closes a loop: its angle follows from the other meshes, so it can't be taken over.</Soft>
      )}
    </>
  );
};

/** Of the drawing, in its own units. */
const WIDE = 260;
const HIGH = 200;
const LEFT = 44;
const RIGHT = 16;
const FOOT = 48;
const TOP = 16;
const across = (degrees: number): number => LEFT + (degrees / 180) * (WIDE - LEFT - RIGHT);
const up = (degrees: number): number => HIGH - FOOT - (degrees / 180) * (HIGH - FOOT - TOP);

interface GraphProps {
  readonly pair: DemoPair;
  readonly angle: number;
  readonly now: readonly [number, number];
}

const Graph = ({ pair, angle, now }: GraphProps) => {
  const units = useUnits();
  const [z1, z2] = pair.sizes;
  const lines = useMemo(() => {
    const points = Array.from({ length: 181 }, (_, a) => [a, sweptPair([z1, z2], a, 1).pitchAngles] as const);
    return ([0, 1] as const).map((k) => points.map(([a, both]) => `${across(a)},${up(both[k]).toFixed(2)}`).join(" "));
  }, [z1, z2]);
  const marks = specialAngles(pair.sizes);
  const marked = marks.map(({ angle: a, what }) => `${MARKS[what]} at ${quantityIn(a, "°", units)}`).join(", ");
  const stroke = (k: 0 | 1) => ({ stroke: shaftColour(pair.shafts[k]).variable });
  return (
    <Drawing
      box={[0, 0, WIDE, HIGH]}
      label={`Pitch angles of both gears against the shaft angle. Marked: ${marked}.`}
      caption={
        <>
          Pitch angles: whole line {pair.names[0]}, dashed line {pair.names[1]}. Marked: {marked}.
        </>
      }
    >
      <path className={styles.axis} d={`M${LEFT} ${TOP}V${HIGH - FOOT}H${WIDE - RIGHT}`} />
      {marks.map(({ angle: a, what }) => (
        <line key={what} className={styles.mark} x1={across(a)} x2={across(a)} y1={TOP} y2={HIGH - FOOT} />
      ))}
      {[0, 90, 180].map((a) => (
        <text key={a} x={across(a)} y={HIGH - FOOT + 20} textAnchor="middle">
          {a}°
        </text>
      ))}
      <text x={across(90)} y={HIGH - 8} textAnchor="middle">
        shaft angle
      </text>
      {[90, 180].map((a) => (
        <text key={a} x={LEFT - 6} y={up(a) + 5} textAnchor="end">
          {a}°
        </text>
      ))}
      <polyline className={styles.line} style={stroke(0)} points={lines[0]} />
      <polyline className={`${styles.line} ${styles.dashed}`} style={stroke(1)} points={lines[1]} />
      <line className={styles.now} x1={across(angle)} x2={across(angle)} y1={TOP} y2={HIGH - FOOT} />
      {now.map((pitch, k) => (
        <circle key={pair.ids[k]} className={styles.dot} cx={across(angle)} cy={up(pitch)} r={4.5} />
      ))}
    </Drawing>
  );
};

/** A gear of the pair as a cup that rolls on a table: round its apex, or straight on where its ends are alike. */
import { useState } from "react";
import { cupEnd, markAt, prints } from "../../engine/demos/cup-drawing";
import type { DemoPair, Side } from "../../engine/demos/pair";
import { type CupPath, cupPath } from "../../engine/demos/rolling-cup";
import { LONGEST_FACE } from "../../engine/teeth/blank";
import { DEGREE, sinDegrees } from "../../engine/vector";
import { figuresIn, quantityIn } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import styles from "./demos.module.css";
import { type DemoProps, Drawing, Figures, type Row, SideChoice, Slide } from "./parts";

interface Cup {
  readonly wide: number;
  readonly narrow: number;
  readonly side: number;
}

/** Degrees: a flatter cone is no cup. */
const FLATTEST = 85;
/** A cup's side over the difference of its radii, where it is as flat as that: its sizes can't go below. */
const SHORTEST_SIDE = 1 / sinDegrees(FLATTEST);

/** The cup that a gear's pitch cone is between heel and toe; a cylinder where the shafts are parallel. */
function cupOf(pair: DemoPair, side: Side): Cup {
  const wide = pair.radii[side];
  const sin = sinDegrees(pair.pitchAngles[side]);
  // A face that is longer than its cone is cut off short of the apex.
  const length = sin > 0 ? Math.min(pair.width, (LONGEST_FACE * wide) / sin) : pair.width;
  return { wide, side: length, narrow: wide - length * sin };
}

const canRoll = (pair: DemoPair, side: Side): boolean => pair.pitchAngles[side] < FLATTEST && pair.width > 0;

export const CupDemo = ({ pair }: DemoProps) => {
  const units = useUnits();
  const sides = ([0, 1] as const).filter((side) => canRoll(pair, side));
  const [side, setSide] = useState<Side>(sides[0] ?? 0);
  const own = cupOf(pair, side);
  const [changed, setChanged] = useState<Cup | null>(null);
  const [lap, setLap] = useState(120);
  if (sides.length === 0) {
    return (
      <p className={styles.reason} role="alert">
        {pair.width > 0
          ? "Both gears of this pair are so nearly flat that neither is a cup to roll: lean the shafts less, or choose another pair."
          : "The faces of this pair have no part in common, so there is no cup to roll: mend that first (see the findings)."}
      </p>
    );
  }
  const cup = changed ?? own;
  // A cone's side is longer than its ends differ; the sliders keep to that.
  const shortest = cup.wide - cup.narrow;
  const set = (patch: Partial<Cup>): void => {
    const next = { ...cup, ...patch };
    const least = Math.max(next.side, (next.wide - next.narrow) * SHORTEST_SIDE);
    setChanged({ ...next, side: least });
  };
  const path = cupPath([cup.wide, cup.narrow], cup.side);
  const isStraight = path.turnsFromAxis === Infinity;
  const mm = (x: number): string => quantityIn(x, "mm", units);
  const rolled = isStraight ? (lap / 360) * 2 * Math.PI * cup.wide : lap * DEGREE * path.circles[0];
  const rows: readonly Row[] = isStraight
    ? [
        ["Its way", "straight on"],
        ["Rolled off", mm(rolled)],
        ["Turns of its own", figuresIn(rolled / (2 * Math.PI * cup.wide), units)],
      ]
    : [
        ["Radius of the circle of the wider end", mm(path.circles[0])],
        ["Radius of the circle of the narrower end", mm(path.circles[1])],
        ["Turns of its own in a lap, for an eye that goes round with its axis", figuresIn(path.turnsFromAxis, units)],
        ["The same for an eye on the ground", figuresIn(path.turnsFromGround, units)],
      ];
  const said = (): string => rows.map((row) => row.join(": ")).join("; ");
  const slider = (label: string, key: keyof Cup, min: number, max: number) => (
    <Slide
      label={label}
      min={min}
      max={max}
      step={own.wide / 200}
      value={cup[key]}
      shown={mm(cup[key])}
      onChange={(value) => set({ [key]: value })}
      said={said}
    />
  );
  return (
    <>
      {sides.length > 1 && (
        <SideChoice
          legend="Which gear rolls"
          pair={pair}
          sides={sides}
          value={side}
          onChange={(one) => {
            setSide(one);
            setChanged(null);
          }}
        />
      )}
      <Slide
        label={isStraight ? "Its own turn" : "Way round"}
        min={0}
        max={360}
        step={1}
        value={lap}
        shown={quantityIn(lap, "°", units)}
        onChange={setLap}
        said={said}
      />
      {isStraight ? (
        <Straight cup={cup} lap={lap} colour={shaftColour(pair.shafts[side]).variable} />
      ) : (
        <Round cup={cup} path={path} lap={lap} colour={shaftColour(pair.shafts[side]).variable} />
      )}
      <p>
        {isStraight
          ? "Both ends are alike, so both roll off as much in a turn: it runs straight."
          : "In a turn its wider end rolls off more than its narrower one, so it goes round: round the point where its side would end, its apex."}
      </p>
      {slider("Radius of the wider end", "wide", cup.narrow, own.wide * 2)}
      {slider("Radius of the narrower end", "narrow", own.wide / 20, cup.wide)}
      {slider("Length of its side", "side", Math.max(own.wide / 20, shortest * SHORTEST_SIDE), own.side + own.wide * 2)}
      <div className={styles.row}>
        <button type="button" className={styles.button} onClick={() => set({ narrow: cup.wide })} disabled={isStraight}>
          Make the radii equal
        </button>
        <button type="button" className={styles.button} onClick={() => setChanged(null)} disabled={changed === null}>
          As in my drive
        </button>
      </div>
      <Figures rows={rows} />
    </>
  );
};

const SIZE = 260;
const EDGE = 10;
const num = (x: number): string => x.toFixed(2);

interface SketchProps {
  readonly cup: Cup;
  /** Degrees. */
  readonly lap: number;
  readonly colour: string;
}

/** From above: both circles, the cup, the mark on its wider rim, and the prints that it left on the table. */
const Round = ({ cup, path, lap, colour }: SketchProps & { readonly path: CupPath }) => {
  const [outer, inner] = path.circles;
  const [heel, toe] = [cupEnd(outer, cup.wide), cupEnd(inner, cup.narrow)];
  const reach = Math.max(outer, heel.centre + heel.along, Math.hypot(heel.centre, heel.across));
  const k = (SIZE / 2 - EDGE) / reach;
  const mark = markAt(outer, cup.wide, lap * DEGREE);
  const isTall = !heel.side || !toe.side;
  return (
    <Drawing
      box={[-SIZE / 2, -SIZE / 2, SIZE, SIZE]}
      label="The cup on the table seen from above, the circles of its two ends round the apex, and the prints of a mark on its wider rim."
      caption={
        <>
          Seen from above. The bold line is where it touches the table; the small dots on the circle are where the mark
          on its wider rim came down.
        </>
      }
    >
      <circle className={styles.thin} r={outer * k} />
      <circle className={styles.thin} r={inner * k} />
      {prints(path, lap * DEGREE).map((angle) => (
        <circle
          key={angle}
          className={styles.dot}
          cx={Math.cos(angle) * outer * k}
          cy={-Math.sin(angle) * outer * k}
          r={4}
        />
      ))}
      <circle className={styles.dot} r={3} />
      {/* y points down in a drawing: what goes counterclockwise from above is turned by minus the angle. */}
      <g transform={`rotate(${-lap}) scale(1 -1)`}>
        <line className={styles.axial} x1={0} y1={0} x2={(heel.centre + heel.along) * k} y2={0} />
        {!isTall && heel.side && toe.side && (
          <path
            className={styles.area}
            style={{ stroke: colour, fill: colour }}
            d={`M${num(toe.side.x * k)} ${num(toe.side.y * k)}L${num(heel.side.x * k)} ${num(heel.side.y * k)}V${num(-heel.side.y * k)}L${num(toe.side.x * k)} ${num(-toe.side.y * k)}Z`}
          />
        )}
        {[toe, heel].map((end) => (
          <ellipse
            key={end.centre}
            className={styles.area}
            style={{ stroke: colour, fill: colour }}
            cx={end.centre * k}
            cy={0}
            rx={Math.max(0.5, end.along * k)}
            ry={end.across * k}
          />
        ))}
        <line className={styles.now} x1={inner * k} y1={0} x2={outer * k} y2={0} />
        <circle className={styles.dot} cx={mark.x * k} cy={mark.y * k} r={5} />
      </g>
    </Drawing>
  );
};

const TRACK = 90;

/** From above, a cylinder on its track: it goes as far as its rim rolls off. */
const Straight = ({ cup, lap, colour }: SketchProps) => {
  const length = 2 * Math.PI * cup.wide;
  const k = Math.min((SIZE - 2 * EDGE) / (length + 2 * cup.wide), (TRACK - 2 * EDGE) / cup.side);
  const x = EDGE + (cup.wide + (lap / 360) * length) * k;
  const [top, high] = [(TRACK - cup.side * k) / 2, cup.side * k];
  const mark = x - cup.wide * k * Math.sin(lap * DEGREE);
  return (
    <Drawing
      box={[0, 0, SIZE, TRACK]}
      label="The cup with equal ends on the table seen from above: it runs straight."
      caption={<>Seen from above. The bold line is where it touches the table; the dot is a mark on its rim.</>}
    >
      <path
        className={styles.thin}
        d={`M${EDGE} ${num(top)}H${SIZE - EDGE}M${EDGE} ${num(top + high)}H${SIZE - EDGE}`}
      />
      <rect
        className={styles.area}
        style={{ stroke: colour, fill: colour }}
        x={x - cup.wide * k}
        y={top}
        width={2 * cup.wide * k}
        height={high}
      />
      <line className={styles.now} x1={x} x2={x} y1={top} y2={top + high} />
      <circle className={styles.dot} cx={mark} cy={top} r={5} />
    </Drawing>
  );
};

/** Equal surface speed along the contact line, and how it scrubs where a pitch angle is spoiled. */
import { useState } from "react";
import type { DemoPair } from "../../engine/demos/pair";
import { type RollingPair, surfaceSpeeds } from "../../engine/demos/surface-speed";
import { quantityIn } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import styles from "./demos.module.css";
import { type DemoProps, Drawing, Slide, Soft, Still } from "./parts";

/** Degrees by which a pitch angle can be spoiled at the most. */
const MOST_SPOILED = 20;
/** Degrees: a steeper cone is not made a cylinder. */
const FLATTEST = 60;
/** Sliding over the surface speed at the heel that is none: what is lost in doubles. */
const NO_SLIDING = 1e-12;

export const SpeedsDemo = ({ solved, pair }: DemoProps) => {
  const units = useUnits();
  const [spoiled, setSpoiled] = useState(0);
  const speed = Math.abs(pair.speeds?.[0] ?? 0);
  if (speed === 0) return <Still solved={solved} pair={pair} />;
  if (pair.width === 0) {
    return (
      <p className={styles.reason} role="alert">
        The faces of this pair have no part in common, so they touch nowhere: mend that first (see the findings).
      </p>
    );
  }
  const rolling: RollingPair = { radii: pair.radii, pitchAngles: pair.pitchAngles, speed };
  const [first, second] = pair.pitchAngles;
  const isConical = Number.isFinite(pair.coneDistance);
  const degrees = (x: number): string => quantityIn(x, "°", units);
  const speedWords = (x: number): string => quantityIn(x, "m/s", units);
  const [heelName, toeName] = isConical ? ["Heel", "Toe"] : ["One end", "Other end"];
  const places = [
    [heelName, surfaceSpeeds(rolling, 0, spoiled)],
    ["Middle", surfaceSpeeds(rolling, pair.width / 2, spoiled)],
    [toeName, surfaceSpeeds(rolling, pair.width, spoiled)],
  ] as const;
  const atHeel = Math.abs(places[0][1].bodies[0]);
  const slide = (x: number): string => (Math.abs(x) <= NO_SLIDING * atHeel ? "none" : speedWords(Math.abs(x)));
  const said = (): string => places.map(([name, { sliding }]) => `${name}: sliding ${slide(sliding)}`).join("; ");
  const least = -(isConical ? Math.min(FLATTEST, first) : MOST_SPOILED);
  const shownAngle = degrees(first + spoiled);
  return (
    <>
      <Slide
        label={`Pitch angle of ${pair.names[0]}`}
        min={least}
        max={MOST_SPOILED}
        step={0.5}
        value={spoiled}
        shown={spoiled === 0 ? `${shownAngle}, as it should be` : `${shownAngle}, not ${degrees(first)}`}
        onChange={setSpoiled}
        said={said}
      />
      <div className={styles.row}>
        {isConical && first <= FLATTEST && (
          <button
            type="button"
            className={styles.button}
            aria-pressed={spoiled === -first}
            onClick={() => setSpoiled(-first)}
          >
            Make it a cylinder
          </button>
        )}
        <button type="button" className={styles.button} disabled={spoiled === 0} onClick={() => setSpoiled(0)}>
          As it should be
        </button>
      </div>
      <Arrows pair={pair} rolling={rolling} spoiled={spoiled} />
      <p>
        {spoiled === 0
          ? isConical
            ? "All along the contact line both surfaces run equally fast: faster at the heel than at the toe, on both alike, and not at all at the apex. So they roll."
            : "All along the contact line both surfaces run equally fast. So they roll."
          : `With that pitch angle spoiled the surfaces still agree at ${isConical ? "the heel" : "the one end"}, and nowhere else: the rest scrubs. Plain cylinders on crossing shafts would scrub so too.`}
      </p>
      <table className={styles.table}>
        <thead>
          <tr>
            <td />
            {pair.names.map((name, k) => (
              <th key={pair.ids[k]} scope="col">
                {name}
              </th>
            ))}
            <th scope="col">Sliding</th>
          </tr>
        </thead>
        <tbody>
          {places.map(([name, { bodies, sliding }]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{speedWords(bodies[0])}</td>
              <td>{speedWords(bodies[1])}</td>
              <td>{slide(sliding)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {spoiled !== 0 && (
        <Soft>
          That of {pair.names[1]} is then {degrees(second - spoiled)}, not {degrees(second)}: the shafts stay where they
          are, so what the one has too much the other has too little.
        </Soft>
      )}
      <Soft>
        Speeds square to the plane of both shafts, at {quantityIn(speed, "rev/min", units)} of {pair.names[0]}.
      </Soft>
    </>
  );
};

const WIDE = 260;
const HIGH = 170;
const LEFT = 24;
const RIGHT = 24;
const FOOT = 34;
const TOP = 14;
const ARROWS = 5;
/** Half the width of an arrow's head, and its length. */
const HEAD = [4, 9] as const;

interface ArrowsProps {
  readonly pair: DemoPair;
  readonly rolling: RollingPair;
  readonly spoiled: number;
}

/** The contact line lies; speeds of both surfaces stand on it, side by side. What one lacks of the other is sliding. */
const Arrows = ({ pair, rolling, spoiled }: ArrowsProps) => {
  const { width, coneDistance } = pair;
  const isConical = Number.isFinite(coneDistance);
  const length = isConical ? Math.max(coneDistance, width) : width;
  // The apex, or the other end, on the left; the heel on the right.
  const x = (fromHeel: number): number => WIDE - RIGHT - (fromHeel / length) * (WIDE - LEFT - RIGHT);
  const places = Array.from({ length: ARROWS }, (_, i) => (width * i) / (ARROWS - 1));
  const all = places.map((fromHeel) => ({ fromHeel, ...surfaceSpeeds(rolling, fromHeel, spoiled) }));
  const fastest = Math.max(...all.flatMap(({ bodies }) => bodies.map(Math.abs)));
  const ground = HIGH - FOOT;
  const y = (speed: number): number => ground - (speed / fastest) * (ground - TOP);
  const colour = (k: 0 | 1) => ({ stroke: shaftColour(pair.shafts[k]).variable });
  const offset = (k: 0 | 1): number => (k === 0 ? -4 : 4);
  const [heel, toe] = [all[0], all.at(-1)];
  return (
    <Drawing
      box={[0, 0, WIDE, HIGH]}
      label="The contact line, with the speeds of both surfaces standing on it as arrows side by side."
      caption={
        <>
          Whole arrows {pair.names[0]}, dashed arrows {pair.names[1]}; what lies between their ends is sliding.
        </>
      }
    >
      {heel && toe && (
        <path
          className={styles.gap}
          d={`M${x(0)} ${y(heel.bodies[0])}L${x(width)} ${y(toe.bodies[0])}V${y(toe.bodies[1])}L${x(0)} ${y(heel.bodies[1])}Z`}
        />
      )}
      {isConical && <line className={styles.axial} x1={x(length)} x2={x(0)} y1={ground} y2={ground} />}
      {isConical && spoiled === 0 && heel && (
        <line className={`${styles.thin} ${styles.mark}`} x1={x(length)} y1={ground} x2={x(0)} y2={y(heel.bodies[0])} />
      )}
      <line className={styles.now} x1={x(width)} x2={x(0)} y1={ground} y2={ground} />
      {all.map(({ fromHeel, bodies }) =>
        ([0, 1] as const).map((k) => {
          const [at, end] = [x(fromHeel) + offset(k), y(bodies[k])];
          return (
            <path
              key={`${fromHeel} ${k}`}
              className={`${styles.line} ${k === 1 ? styles.dashed : ""}`}
              style={colour(k)}
              d={`M${at} ${ground}V${end}m${-HEAD[0]} ${HEAD[1]}l${HEAD[0]} ${-HEAD[1]}l${HEAD[0]} ${HEAD[1]}`}
            />
          );
        }),
      )}
      {isConical && <circle className={styles.dot} cx={x(length)} cy={ground} r={4} />}
      {isConical && (
        <text x={x(length) - 12} y={HIGH - 10}>
          apex
        </text>
      )}
      <text x={x(0)} y={HIGH - 10} textAnchor="middle">
        {isConical ? "heel" : "one end"}
      </text>
      <text x={x(width)} y={HIGH - 10} textAnchor={isConical ? "middle" : "start"}>
        {isConical ? "toe" : "other end"}
      </text>
    </Drawing>
  );
};

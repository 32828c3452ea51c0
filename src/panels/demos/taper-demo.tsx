/** Why bevel teeth taper: one section slides from heel to toe, and every size of the tooth with it. */
import { useEffect, useMemo, useState } from "react";
import type { Side } from "../../engine/demos/pair";
import { taperOf, taperSection } from "../../engine/demos/taper";
import { hasTeeth } from "../../engine/drive/types";
import type { Solved } from "../../engine/solved";
import { toothWidth } from "../../engine/teeth/blank";
import { QUALITIES, type ToothSpec, toothSpec } from "../../engine/teeth/spec";
import { unrolledTooth } from "../../engine/teeth/unrolled";
import { figuresIn, quantityIn } from "../../engine/wording";
import { lookAway, lookClosely, setClose, useClose } from "../../store/close-look";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import { useView } from "../../store/view";
import styles from "./demos.module.css";
import { type DemoProps, Drawing, Figures, type Row, SideChoice, Slide, Soft } from "./parts";

const specOf = ({ drive, index, placement }: Solved, gear: string): ToothSpec =>
  toothSpec(drive, index, placement, index.gears.get(gear) ?? -1, QUALITIES.fine);

export const TaperDemo = ({ solved, pair }: DemoProps) => {
  const units = useUnits();
  const [side, setSide] = useState<Side>(0);
  const [part, setPart] = useState(0);
  const gear = pair.gears[side];
  const canLook = useView(({ drawing }) => drawing !== "flat");
  const isLooking = useClose(({ mesh }) => mesh === pair.mesh.id);
  useEffect(() => lookAway, []);
  const spec = useMemo(() => specOf(solved, gear.id), [solved, gear]);
  if (!hasTeeth(gear)) {
    return (
      <p className={styles.reason} role="alert">
        This pair rolls by friction and has no teeth to taper: choose a pair with teeth.
      </p>
    );
  }
  const tooth = { ...taperOf(gear, pair.coneDistance), face: toothWidth(spec) };
  const isConical = Number.isFinite(tooth.coneDistance);
  const now = taperSection(tooth, part);
  const mm = (x: number): string => quantityIn(x, "mm", units);
  const move = (to: number): void => {
    setPart(to);
    if (isLooking) setClose({ section: to });
  };
  const place =
    part === 0 ? "at the heel" : part === 1 ? "at the toe" : `${Math.round(100 * part)} % of the way to the toe`;
  const rows: readonly Row[] = [
    ["Distance from the apex", isConical ? mm(now.fromApex) : "infinite"],
    ["Of that at the heel", figuresIn(now.scale, units)],
    ["Radius", mm(now.radius)],
    ["Thickness of the tooth", mm(now.thickness)],
    ["Depth of the tooth", mm(now.depth)],
    ["Radius over distance", isConical ? figuresIn(now.radius / now.fromApex, units) : "0"],
    ["Thickness over distance", isConical ? figuresIn(now.thickness / now.fromApex, units) : "0"],
    ["Depth over distance", isConical ? figuresIn(now.depth / now.fromApex, units) : "0"],
  ];
  const colour = shaftColour(pair.shafts[side]).variable;
  return (
    <>
      <SideChoice legend="Which gear's tooth" pair={pair} value={side} onChange={setSide} />
      <Slide
        label={isConical ? "Section, heel to toe" : "Section, one end to the other"}
        min={0}
        max={1}
        step={0.01}
        value={part}
        shown={isConical ? place : `${Math.round(100 * part)} %`}
        onChange={move}
        said={() => rows.map((row) => row.join(": ")).join("; ")}
      />
      <Tooth spec={spec} tooth={tooth} fromApex={now.fromApex} colour={colour} place={place} />
      {isConical && <Along tooth={tooth} fromApex={now.fromApex} colour={colour} />}
      <p>
        {isConical
          ? "Both cones roll round one apex, so everything on them points at it: towards it a tooth gets thinner and lower in the ratio of its distance, and three quotients stay the same."
          : "On parallel shafts the apex is infinitely far: a tooth is the same along all its face. Lean the shafts, and it tapers."}
      </p>
      <Figures rows={rows} />
      {canLook ? (
        <button
          type="button"
          className={styles.button}
          aria-pressed={isLooking}
          onClick={() => {
            if (isLooking) lookAway();
            else {
              lookClosely(pair.mesh.id);
              setClose({ section: part });
            }
          }}
        >
          See the section on the bench
        </button>
      ) : (
        <Soft>The section can be seen on the bench in a full drawing only.</Soft>
      )}
    </>
  );
};

type Sizes = ReturnType<typeof taperOf>;
interface SketchProps {
  readonly tooth: Sizes;
  readonly fromApex: number;
  readonly colour: string;
}

const WIDE = 260;
const HIGH = 140;

/** The tooth there, over its outline at the heel, to one scale. */
const Tooth = ({
  spec,
  tooth,
  fromApex,
  colour,
  place,
}: SketchProps & { readonly spec: ToothSpec; readonly place: string }) => {
  const heel = useMemo(() => unrolledTooth(spec, tooth.coneDistance), [spec, tooth.coneDistance]);
  const drawn = unrolledTooth(spec, fromApex);
  if (!heel || !drawn) return null;
  const [tip, root] = [Math.max(...heel.points.map(([, y]) => y)), Math.min(...heel.points.map(([, y]) => y))];
  const widest = Math.max(...heel.points.map(([x]) => x));
  const k = Math.min((HIGH - 20) / (tip - root), (WIDE - 40) / (2 * widest));
  const pitchAt = HIGH - 10 + root * k;
  const line = ({ points }: typeof heel): string =>
    points.map(([x, y]) => `${(WIDE / 2 + x * k).toFixed(2)},${(pitchAt - y * k).toFixed(2)}`).join(" ");
  const half = (drawn.thickness / 2) * k;
  return (
    <Drawing
      box={[0, 0, WIDE, HIGH]}
      label={`The outline of a tooth ${place}, within its outline at the heel, to one scale.`}
      caption={
        <>
          The tooth there, within its outline at the heel (dotted). The bold line is its thickness on the pitch circle.
        </>
      }
    >
      <line className={styles.axial} x1={8} x2={WIDE - 8} y1={pitchAt} y2={pitchAt} />
      <polyline className={`${styles.thin} ${styles.mark}`} points={line(heel)} />
      <polyline className={styles.area} style={{ stroke: colour, fill: colour }} points={line(drawn)} />
      <line className={styles.now} x1={WIDE / 2 - half} x2={WIDE / 2 + half} y1={pitchAt} y2={pitchAt} />
    </Drawing>
  );
};

/** At the most, below and above the pitch line. */
const LONG = 90;

/** From the side, along the pitch cone: tip, pitch and root lines all run to the apex. */
const Along = ({ tooth, fromApex, colour }: SketchProps) => {
  const [tip, root] = [tooth.addendum * tooth.module, (tooth.addendum + tooth.clearance) * tooth.module];
  const k = Math.min((WIDE - 40) / tooth.coneDistance, LONG / (tip + root));
  const [apex, heel] = [WIDE - 16 - tooth.coneDistance * k, WIDE - 16];
  const middle = 12 + tip * k;
  const high = middle + root * k + 26;
  const toe = 1 - tooth.face / tooth.coneDistance;
  const at = (part: number, height: number): string =>
    `${(apex + (heel - apex) * part).toFixed(2)} ${(middle - height * part * k).toFixed(2)}`;
  const now = fromApex / tooth.coneDistance;
  return (
    <Drawing
      box={[0, 0, WIDE, high]}
      label="The tooth from the side between heel and toe: its tip, pitch and root lines all point at the apex."
      caption={<>Tip, pitch line and root all point at the apex. The bold line is the section.</>}
    >
      <path
        className={`${styles.thin} ${styles.mark}`}
        d={`M${at(0, 0)}L${at(toe, tip)}M${at(0, 0)}L${at(toe, -root)}`}
      />
      <path className={styles.axial} d={`M${at(0, 0)}L${at(1, 0)}`} />
      <path
        className={styles.area}
        style={{ stroke: colour, fill: colour }}
        d={`M${at(toe, tip)}L${at(1, tip)}L${at(1, -root)}L${at(toe, -root)}Z`}
      />
      <path className={styles.now} d={`M${at(now, tip)}L${at(now, -root)}`} />
      <circle className={styles.dot} cx={apex} cy={middle} r={4} />
      <text x={Math.max(4, apex - 8)} y={middle - 10}>
        apex
      </text>
      <text x={heel} y={high - 4} textAnchor="end">
        heel
      </text>
      <text x={apex + (heel - apex) * toe} y={high - 4} textAnchor="middle">
        toe
      </text>
    </Drawing>
  );
};

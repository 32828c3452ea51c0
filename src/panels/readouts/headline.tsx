/** The first line: whether the drive turns, and how many turns of the input give how many of each output. */
import { HIDDEN } from "../../engine/explain/directions";
import { ratioWords } from "../../engine/explain/ratio-words";
import { statusWords } from "../../engine/explain/statuses";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { shaftName } from "../../engine/wording";
import { useUnits } from "../../store/units";
import { Cautions } from "../cautions";
import styles from "./readouts.module.css";

/** Outputs whose ratio is written out. */
const MOST_RATIOS = 3;

interface HeadlineProps {
  readonly solved: Solved;
  readonly was: Solved | null;
  readonly outputs: readonly number[];
}

function turningInput({ drive, index }: Solved): number | null {
  const turning = drive.ports.filter((port) => port.role === "input" && (port.speed ?? 0) !== 0);
  return turning.length === 1 ? (index.shafts.get(turning[0]?.shaft ?? "") ?? null) : null;
}

/** All that is said of a shaft's ratio to the only input that turns; null where there is none. */
export function ratioOf(solved: Solved, shaft: number, units: UnitChoice) {
  const input = turningInput(solved);
  const ratio = solved.motion.ratios[shaft];
  if (input === null || !ratio || input === shaft) return null;
  return ratioWords(shaftName(solved.drive, input), shaftName(solved.drive, shaft), ratio, units);
}

/** The same of the drive before the last edit, for the shaft of the same id; null where it wasn't there. */
function ratioBefore(was: Solved | null, id: string | undefined, units: UnitChoice) {
  const shaft = id === undefined ? undefined : was?.index.shafts.get(id);
  return was && shaft !== undefined ? ratioOf(was, shaft, units) : null;
}

/** Whether torques show, and with them what must be said of them. */
export const carriesTorque = ({ load }: Solved): boolean =>
  load.shafts.some((shaft) => shaft.torque !== null && shaft.torque !== 0);

export function Headline({ solved, was, outputs }: HeadlineProps) {
  const status = statusWords(solved);
  const units = useUnits();
  const carries = carriesTorque(solved);
  const ratios = outputs.slice(0, MOST_RATIOS).flatMap((shaft) => {
    const words = ratioOf(solved, shaft, units);
    return words ? [{ shaft, words, before: ratioBefore(was, solved.drive.shafts[shaft]?.id, units) }] : [];
  });
  const isWell = status.term === "determined";
  return (
    <div className={styles.headline}>
      <strong
        className={styles.status}
        data-status={status.term}
        title={`${status.sentence} (In the file format: ${status.term}.)`}
      >
        {status.short}
      </strong>
      {isWell ? null : <span className={styles.sentence}>{status.sentence}</span>}
      {ratios.map(({ shaft, words, before }) => (
        <p key={shaft} className={styles.ratio}>
          <b>{words.turns}</b>
          <span className={styles.soft}>
            {" "}
            ratio{" "}
            <span aria-hidden>
              {words.fraction === null || words.fraction === words.decimal ? "" : `${words.fraction} = `}
              {words.decimal}
            </span>
            <span className="only-heard">{words.spoken}</span> ({words.convention})
          </span>
          {before && before.turns !== words.turns ? <span className={styles.was}>was {before.turns}</span> : null}
        </p>
      ))}
      {outputs.some((shaft) => solved.veil?.hides(shaft, "ratio")) ? (
        <p className={styles.ratio}>
          <span className={styles.soft}>ratio {HIDDEN}</span>
        </p>
      ) : null}
      {outputs.length > MOST_RATIOS ? (
        <span className={styles.soft}>and {outputs.length - MOST_RATIOS} more outputs</span>
      ) : null}
      {carries ? <Cautions /> : null}
    </div>
  );
}

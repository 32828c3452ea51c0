/** The room that the drive takes, the space that it must fit, and the clearance of two chosen parts. */
import { Check, TriangleAlert } from "lucide-react";
import { fitInSpace, roomTaken } from "../../engine/collisions/extents";
import { boxWords } from "../../engine/collisions/findings";
import { setSpaceCorner, setSpaceSide } from "../../engine/drive/commands/space";
import { spaceOf } from "../../engine/drive/space";
import type { Solved } from "../../engine/solved";
import { limit } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { tryEdit } from "../edit";
import { NumberField } from "../fields/number-field";
import { ClearanceChoice } from "./clearance-choice";
import styles from "./space.module.css";

const ROWS = [
  { size: "Width, left to right", from: "Left side at", noun: "width", side: "left side" },
  { size: "Depth, near to far", from: "Near side at", noun: "depth", side: "near side" },
  { size: "Height, bottom to top", from: "Bottom at", noun: "height", side: "bottom" },
] as const;
const SIDES = [0, 1, 2] as const;

export function SpacePanel() {
  const solved = useDocument((state) => state.solved);
  return (
    <div className={styles.panel}>
      <section aria-labelledby="room-heading">
        <h3 id="room-heading">Room that the drive takes</h3>
        <Room solved={solved} />
      </section>
      <section aria-labelledby="space-heading">
        <h3 id="space-heading">Space that it must fit</h3>
        <SpaceFields solved={solved} />
        <FitWords solved={solved} />
      </section>
      <section aria-labelledby="clearance-heading">
        <h3 id="clearance-heading">Clearance of two parts</h3>
        <ClearanceChoice solved={solved} />
      </section>
    </div>
  );
}

function Room({ solved }: { readonly solved: Solved }) {
  const taken = roomTaken(solved);
  if (!taken) return <p>Nothing of the drive stands anywhere yet.</p>;
  const isCarried = solved.index.frameOfShaft.some((frame) => frame >= 0);
  return (
    <>
      <dl className={styles.room}>
        {SIDES.map((k) => (
          <div key={k}>
            <dt>{ROWS[k].size}</dt>
            <dd>{limit(taken.high[k] - taken.low[k], "mm", "up", 4)}</dd>
          </div>
        ))}
      </dl>
      <p className={styles.soft}>
        Gears up to their tips and shafts as drawn{isCarried ? ", over a full turn of the carriers" : ""}. Motors,
        cranks, loads and arms of carriers are not counted: the drive doesn't say how large they are.
      </p>
    </>
  );
}

function SpaceFields({ solved }: { readonly solved: Solved }) {
  const space = spaceOf(solved.drive);
  return (
    <div className={styles.fields}>
      {SIDES.map((k) => (
        <div key={k} className={styles.row}>
          <NumberField
            label={ROWS[k].size}
            value={space?.size[k] ?? null}
            unit="mm"
            spokenUnit="millimetres"
            least={0}
            above
            most={1e9}
            step={10}
            placeholder="open"
            hint="Leave it empty where the space is open"
            onChange={(value) => tryEdit(setSpaceSide(k, value), `${ROWS[k].noun} of the space`)}
            onClear={() => tryEdit(setSpaceSide(k, null), `${ROWS[k].noun} of the space`)}
          />
          <NumberField
            label={ROWS[k].from}
            value={space?.corner[k] ?? null}
            unit="mm"
            spokenUnit="millimetres"
            step={10}
            placeholder="centred"
            hint="Where that side stands in the world; left empty, the drive stands in the middle"
            disabled={(space?.size[k] ?? null) === null}
            onChange={(value) => tryEdit(setSpaceCorner(k, value), `${ROWS[k].side} of the space`)}
            onClear={() => tryEdit(setSpaceCorner(k, null), `${ROWS[k].side} of the space`)}
          />
        </div>
      ))}
    </div>
  );
}

function FitWords({ solved }: { readonly solved: Solved }) {
  const fit = fitInSpace(solved);
  if (!fit) {
    return <p className={styles.soft}>No space is given. Type a size above; a side left empty is open.</p>;
  }
  if (fit.out.length === 0) {
    const spare = SIDES.flatMap((k) => {
      const size = fit.space.size[k];
      return size === null ? [] : [size - (fit.taken.high[k] - fit.taken.low[k])];
    });
    return (
      <p className={styles.result} data-state="fits" role="status">
        <Check aria-hidden size={20} />
        <span>
          <strong>Fits.</strong> {boxWords(fit.space.size)}; at the tightest {limit(Math.min(...spare), "mm", "down")}{" "}
          to spare between two sides.
        </span>
      </p>
    );
  }
  const finding = solved.findings.find(({ code }) => code === "out-of-space");
  return (
    <p className={styles.result} data-state="trouble" role="status">
      <TriangleAlert aria-hidden size={20} />
      <span>{finding?.message}</span>
    </p>
  );
}

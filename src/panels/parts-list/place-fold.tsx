/** Where a shaft stands: by what it is placed and carried, in words; the numbers of a shaft with a place of its own in a fold. */
import { setShaft } from "../../engine/drive/commands/shaft";
import type { Pose, Shaft, Vec3 } from "../../engine/drive/types";
import { nameText, shaftName } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { doEdit, tryEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import { NumberField } from "../fields/number-field";
import styles from "./parts-list.module.css";

interface PlaceProps {
  readonly shaft: Shaft;
  readonly index: number;
  readonly name: string;
}

export function PlaceFold({ shaft, index, name }: PlaceProps) {
  const words = useDocument(({ solved }) => {
    const nameOf = (id: string) => shaftName(solved.drive, solved.index.shafts.get(id) ?? index);
    const placedBy = solved.placement.shafts[index]?.placedBy;
    const where = shaft.coaxial
      ? `On the line of ${nameOf(shaft.coaxial)}`
      : shaft.pose
        ? "Stands where you put it"
        : placedBy
          ? `Placed by mesh ${nameText(placedBy)}`
          : "Not placed: join it to the drive by a mesh";
    return shaft.frame ? `${where}; carried round by ${nameOf(shaft.frame)}.` : `${where}.`;
  });
  return (
    <details className={styles.fold}>
      <summary>{words}</summary>
      <CarrierFields shaft={shaft} name={name} />
      {shaft.pose ? <PoseFields pose={shaft.pose} id={shaft.id} name={name} /> : null}
    </details>
  );
}

/** A list to choose from can be this long. */
const MOST_CHOICES = 300;
/** "None of them"; every other choice is its id behind a letter. */
const NONE = "none";

/** What carries the shaft round, and whose line it shares: for planetary sets and differentials. */
function CarrierFields({ shaft, name }: { readonly shaft: Shaft; readonly name: string }) {
  const shafts = useDocument((state) => state.solved.drive.shafts);
  if (shafts.length < 2 || shafts.length > MOST_CHOICES) return null;
  const others = shafts.flatMap((other, i) =>
    other.id === shaft.id ? [] : [{ value: `s${other.id}`, words: shaftName({ shafts }, i) }],
  );
  const chosen = (choice: string) => (choice === NONE ? null : choice.slice(1));
  return (
    <div className={styles.choices}>
      <ChoiceField
        label={`What carries ${name} round`}
        shortLabel="carried by"
        hint="A shaft that takes this one round with it, as a carrier its planets (frame)."
        value={shaft.frame === undefined ? NONE : `s${shaft.frame}`}
        choices={[{ value: NONE, words: "nothing: the ground" }, ...others]}
        onChange={(choice) => doEdit(setShaft(shaft.id, { frame: chosen(choice) }), `carrier of ${name}`)}
      />
      {shaft.pose ? null : (
        <ChoiceField
          label={`On whose line ${name} stands`}
          shortLabel="on the line of"
          hint="A shaft whose place and axis this one shares, as a carrier with its sun (coaxial)."
          value={shaft.coaxial === undefined ? NONE : `s${shaft.coaxial}`}
          choices={[{ value: NONE, words: "none: placed by a mesh" }, ...others]}
          onChange={(choice) => doEdit(setShaft(shaft.id, { coaxial: chosen(choice) }), `line of ${name}`)}
        />
      )}
    </div>
  );
}

const AXES = ["x", "y", "z"] as const;

function PoseFields({ pose, id, name }: { readonly pose: Pose; readonly id: string; readonly name: string }) {
  const set = (key: keyof Pose, axis: number) => (value: number) => {
    const moved = pose[key].map((old, i) => (i === axis ? value : old)) as unknown as Vec3;
    return tryEdit(setShaft(id, { pose: { ...pose, [key]: moved } }), `place of ${name}`);
  };
  return (
    <>
      <p className={styles.soft}>x to the right, y away from the first view, z up.</p>
      {ROWS.map(({ key, title, unit, hint }) => (
        <fieldset key={key} className={styles.vector}>
          <legend>{title}</legend>
          {AXES.map((axis, i) => (
            <NumberField
              key={axis}
              label={`${title} of ${name}, ${axis}`}
              shortLabel={axis}
              hint={hint}
              value={pose[key][i] ?? 0}
              unit={unit}
              step={unit ? 5 : 0.1}
              width={4}
              onChange={set(key, i)}
            />
          ))}
        </fieldset>
      ))}
    </>
  );
}

const ROWS: readonly {
  readonly key: keyof Pose;
  readonly title: string;
  readonly unit?: string;
  readonly hint: string;
}[] = [
  {
    key: "origin",
    title: "Place",
    unit: "mm",
    hint: "The point from which places along the shaft are counted (origin).",
  },
  { key: "axis", title: "Axis", hint: "The positive direction; its length does not matter (axis)." },
  {
    key: "ref",
    title: "Reference",
    hint: "Any direction not along the axis: direction 0° of what lies round the shaft (ref).",
  },
];

/** The worked solution of one shaft or mesh of this drive: line by line, words first, then the formula, then its result. */
import { type KeyboardEvent, useEffect, useMemo } from "react";
import { HIDDEN } from "../../engine/explain/directions";
import { nameText } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useDocument } from "../../store/document";
import { useIsHiding } from "../../store/question";
import { useUnits } from "../../store/units";
import { select, useView } from "../../store/view";
import { useLight } from "./lights";
import { ItemView } from "./line-view";
import { MeshForces } from "./mesh-forces";
import { inForm, itemsOf, type ShownStep, setShown, shownStore, useShown } from "./shown";
import { MOST_STEPS, stepsOf, subjectOf, titleOf } from "./subject";
import { lineAfter, Stepper, Tools } from "./tools";
import styles from "./workings.module.css";

export function Workings() {
  if (useIsHiding()) return <p className={styles.soft}>The workings are {HIDDEN}. They follow when it is revealed.</p>;
  return <WorkingsShown />;
}

function WorkingsShown() {
  const solved = useDocument((state) => state.solved);
  const selection = useView((state) => state.selection);
  const { shaft, mesh } = subjectOf(solved, selection);
  const units = useUnits();
  const ratio = useShown((state) => state.ratio);
  const lines = useShown((state) => state.lines);
  const all = useMemo(() => stepsOf(solved, { shaft, mesh }, units), [solved, shaft, mesh, units]);
  const steps = useMemo(() => all.slice(0, MOST_STEPS).map((step) => inForm(step, ratio)), [all, ratio]);
  const shown = useMemo(() => itemsOf(steps), [steps]);
  const count = shown.reduce((sum, { items }) => sum + items.length, 0);
  const at = lines === null ? null : Math.min(lines, count);
  // Another shaft or mesh is a new story.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is worked out begins it anew.
  useEffect(() => {
    if (shownStore.getState().lines !== null) setShown({ lines: 1 });
  }, [shaft, mesh]);
  useEffect(() => setShown({ count }), [count]);
  useEffect(() => () => setShown({ lines: null, count: 0 }), []);
  if (shaft < 0 && mesh === null) return <p className={styles.soft}>There is no shaft to work out.</p>;

  const press = (event: KeyboardEvent): void => {
    if (at === null || (event.target instanceof Element && event.target.closest("select"))) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Escape") setShown({ lines: null });
    else {
      const to = lineAfter(event.key, at, count);
      if (to === null) return;
      setShown({ lines: to });
    }
    event.preventDefault();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys of the buttons within, wherever among them the focus is.
    <div className={styles.workings} onKeyDown={press}>
      <h3 className={styles.title} style={{ borderInlineStartColor: shaftColour(shaft).variable }}>
        {titleOf(solved, { shaft, mesh })}
      </h3>
      <p className={styles.soft}>
        {selection ? "Worked out for what is selected." : "Select a shaft, a gear or a mesh to see its own workings."}
      </p>
      <Tools steps={steps} />
      <ol className={styles.steps}>
        {shown.map((one) =>
          at !== null && one.first >= at ? null : <Step key={one.first} {...one} at={at} isAlone={mesh !== null} />,
        )}
      </ol>
      {at === null ? null : <Stepper at={at} count={count} />}
      {at === null && all.length > MOST_STEPS ? (
        <p className={styles.soft}>
          These are the first {MOST_STEPS} of {all.length.toLocaleString("en-GB")} steps; the rest are worked in the
          same way.
        </p>
      ) : null}
      {at === null ? (
        <MeshForces
          meshes={mesh === null ? (solved.index.meshesOfShaft[shaft] ?? []) : [solved.index.meshes.get(mesh) ?? -1]}
        />
      ) : null}
    </div>
  );
}

interface StepProps extends ShownStep {
  /** How many items are shown in all; null for every one. */
  readonly at: number | null;
  /** Whether the workings are those of one mesh. */
  readonly isAlone: boolean;
}

function Step({ step, items, first, at, isAlone }: StepProps) {
  const light = useLight(step.about);
  const mesh = isAlone ? undefined : step.mesh;
  return (
    <li className={styles.step}>
      <h4 className={styles.stepTitle} {...light}>
        {step.title}
      </h4>
      {items.slice(0, at === null ? undefined : at - first).map((item, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines stand in their order and have no other name.
        <ItemView key={i} item={item} isCurrent={at === first + i + 1} />
      ))}
      {mesh !== undefined && at === null ? (
        <button type="button" className={styles.button} onClick={() => select({ kind: "mesh", id: mesh })}>
          More of mesh {nameText(mesh)}
        </button>
      ) : null}
    </li>
  );
}

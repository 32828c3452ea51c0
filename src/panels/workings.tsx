/** The worked solution of one shaft of this drive: line by line, words first, then the formula, then its result. */
import { useMemo } from "react";
import type { Formula } from "../engine/explain/formula";
import { routeOf } from "../engine/explain/route";
import type { WorkingLine, WorkingStep } from "../engine/explain/working-lines";
import { workings } from "../engine/explain/workings";
import type { Solved } from "../engine/solved";
import { shaftName } from "../engine/wording";
import { shaftColour } from "../store/colours";
import { useDocument } from "../store/document";
import { useUnits } from "../store/units";
import { hover, type Part, useView } from "../store/view";
import { MathLine, quantityMath, rowMath } from "./formula-view";
import { MeshForces } from "./mesh-forces";
import { partOf, shaftOfPart } from "./reveal";
import styles from "./workings.module.css";

/** Steps shown of a very long way; the first ones, since every later one is like them. */
const MOST_STEPS = 60;

/** The shaft that is worked out: what is selected, else the output, else the last one along the run. */
export function workedShaft(solved: Solved, selection: Part | null): number {
  const selected = selection ? shaftOfPart(solved, selection) : -1;
  if (selected >= 0) return selected;
  const output = solved.drive.ports.find((port) => port.role === "output");
  if (output) return solved.index.shafts.get(output.shaft) ?? -1;
  return routeOf(solved).order.at(-1) ?? -1;
}

export function Workings() {
  const solved = useDocument((state) => state.solved);
  const selection = useView((state) => state.selection);
  const shaft = workedShaft(solved, selection);
  const units = useUnits();
  const steps = useMemo(
    () => (shaft < 0 ? [] : workings(solved, solved.drive.shafts[shaft]?.id ?? "", units)),
    [solved, shaft, units],
  );
  if (shaft < 0) return <p className={styles.soft}>There is no shaft to work out.</p>;
  const name = shaftName(solved.drive, shaft);
  return (
    <div className={styles.workings}>
      <h3 className={styles.title} style={{ borderInlineStartColor: shaftColour(shaft).variable }}>
        How {name} turns
      </h3>
      <p className={styles.soft}>
        {selection ? "Worked out for what is selected." : "Select a shaft, a gear or a mesh to see its own workings."}
      </p>
      <ol className={styles.steps}>
        {steps.slice(0, MOST_STEPS).map((step, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: steps stand in the order of the way and have no other name.
          <Step key={i} step={step} />
        ))}
      </ol>
      {steps.length > MOST_STEPS ? (
        <p className={styles.soft}>
          These are the first {MOST_STEPS} of {steps.length.toLocaleString("en-GB")} steps; the rest are worked in the
          same way.
        </p>
      ) : null}
      <MeshForces shaft={shaft} />
    </div>
  );
}

function Step({ step }: { readonly step: WorkingStep }) {
  const light = useLight();
  return (
    <li className={styles.step}>
      <h4 className={styles.stepTitle} {...light(step.about)}>
        {step.title}
      </h4>
      {step.lines.map((line, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines stand in their order and have no other name.
        <div key={i} className={styles.line} {...light(line.about)}>
          <p>{line.words}</p>
          <LineMath line={line} />
        </div>
      ))}
    </li>
  );
}

function LineMath({ line }: { readonly line: WorkingLine }) {
  const { symbols, numbers, result, unit, missing } = line;
  const units = useUnits();
  const hasFormula = symbols.length > 0 || numbers.length > 0;
  if (!hasFormula && result === null) return missing === null ? null : <p className={styles.missing}>{missing}</p>;
  return (
    <div className={styles.formulas}>
      {symbols.length > 0 ? <MathLine>{rowMath(symbols, units)}</MathLine> : null}
      {numbers.length > 0 ? <MathLine>{rowMath([EQUALS, ...numbers], units)}</MathLine> : null}
      {result === null ? null : (
        <b className={styles.result}>
          <MathLine>
            {hasFormula ? rowMath([EQUALS], units) : null}
            {quantityMath(result, unit, units)}
          </MathLine>
        </b>
      )}
      {missing === null ? null : <p className={styles.missing}>{missing}</p>}
    </div>
  );
}

const EQUALS: Formula[number] = { kind: "operator", sign: "=" };

/** Handlers that light up, in every panel and on the bench, what a line speaks of. */
function useLight() {
  const solved = useDocument((state) => state.solved);
  return (about: readonly string[]) => {
    const part = about.map((id) => partOf(solved, id)).find((found) => found !== null) ?? null;
    return part === null
      ? {}
      : {
          "data-about": `${part.kind} ${part.id}`,
          onPointerEnter: () => hover(part),
          onPointerLeave: () => hover(null),
        };
  };
}

/** Two parts, picked on the bench or chosen here, and what lies between them. */
import { Check, Copy } from "lucide-react";
import { useEffect, useId, useMemo, useState } from "react";
import { isMeasured, type Measure, measure } from "../../engine/measure/measure";
import { AT_REST, measureLines, measureText } from "../../engine/measure/words";
import { copyText } from "../../store/clipboard";
import { useDocument } from "../../store/document";
import { type Pick, setMeasuring, useMeasuring } from "../../store/measuring";
import { announce } from "../../store/view";
import { ChoiceField } from "../fields/choice-field";
import { choiceValue, partChoices, partOfChoice } from "./choices";
import styles from "./measure.module.css";

const NONE = { value: "", words: "choose a part" };

export const Ruler = () => {
  const solved = useDocument((state) => state.solved);
  const first = useMeasuring((state) => state.first);
  const second = useMeasuring((state) => state.second);
  const heading = useId();
  const found = useMemo(() => (first && second ? measure(solved, first, second) : null), [solved, first, second]);
  const text = found && isMeasured(found) ? measureText(found) : (found?.reason ?? "");
  useEffect(() => {
    if (text) announce(text.replaceAll("\n", "; "));
  }, [text]);

  const field = (end: "first" | "second", label: string, pick: Pick | null) => (
    <ChoiceField
      label={label}
      value={choiceValue(pick)}
      choices={[NONE, ...partChoices(solved, pick, false)]}
      onChange={(value) => {
        const part = partOfChoice(value);
        setMeasuring({ [end]: part && part.kind !== "mesh" ? { kind: part.kind, id: part.id } : null });
      }}
    />
  );
  return (
    <section className={styles.group} aria-labelledby={heading}>
      <h3 id={heading}>Between two parts</h3>
      <p className={styles.soft}>Click two gears or shafts on the bench, or choose them here.</p>
      <div className={styles.ends}>
        {field("first", "From", first)}
        {field("second", "To", second)}
      </div>
      {found && !isMeasured(found) ? <p className={styles.reason}>{found.reason}</p> : null}
      {found && isMeasured(found) ? <Figures found={found} text={text} /> : null}
    </section>
  );
};

const Figures = ({ found, text }: { readonly found: Measure; readonly text: string }) => (
  <>
    <dl className={styles.figures}>
      {measureLines(found).map(({ label, value }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
    {found.isCarried ? <p className={styles.soft}>{AT_REST}</p> : null}
    <div className={styles.row}>
      <CopyText key={text} text={text} />
      <button type="button" className={styles.button} onClick={() => setMeasuring({ first: null, second: null })}>
        Measure anew
      </button>
    </div>
  </>
);

/** Copies a text, and says whether the browser let it. */
const CopyText = ({ text }: { readonly text: string }) => {
  const [outcome, setOutcome] = useState<"" | "copied" | "failed">("");
  const copy = async (): Promise<void> => setOutcome((await copyText(text)) ? "copied" : "failed");
  return (
    <>
      <button type="button" className={styles.button} onClick={() => void copy()}>
        {outcome === "copied" ? <Check aria-hidden size={18} /> : <Copy aria-hidden size={18} />} Copy as text
      </button>
      <span role="status">{outcome === "copied" ? "Copied." : null}</span>
      {outcome === "failed" ? (
        <label className={styles.byHand}>
          The browser does not let this page copy; copy it by hand:
          <textarea readOnly rows={6} value={text} onFocus={(event) => event.currentTarget.select()} />
        </label>
      ) : null}
    </>
  );
};

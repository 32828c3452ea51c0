/** What stands above the workings: which way to the ratio, all copied at once, and one line at a time for a class. */
import { ChevronLeft, ChevronRight, Copy, ListOrdered } from "lucide-react";
import { useRef, useState } from "react";
import { type CopyForm, copiedSteps } from "../../engine/explain/working-forms";
import type { WorkingStep } from "../../engine/explain/working-lines";
import { useUnits } from "../../store/units";
import { ChoiceField } from "../fields/choice-field";
import { copyAloud } from "./copy-aloud";
import { type ShownState, setShown, useShown } from "./shown";
import styles from "./workings.module.css";

const RATIOS: readonly { readonly value: ShownState["ratio"]; readonly words: string }[] = [
  { value: "teeth", words: "teeth" },
  { value: "diameters", words: "diameters" },
  { value: "circumferences", words: "base circumferences" },
  { value: "sines", words: "sines of pitch angles" },
  { value: "every", words: "every way" },
];
const FORMS: readonly { readonly value: CopyForm; readonly words: string }[] = [
  { value: "text", words: "text" },
  { value: "latex", words: "LaTeX" },
  { value: "mathml", words: "MathML" },
];

/** @param steps what is copied: the workings as they are shown */
export function Tools({ steps }: { readonly steps: readonly WorkingStep[] }) {
  const ratio = useShown((state) => state.ratio);
  const form = useShown((state) => state.copy);
  const lines = useShown((state) => state.lines);
  const units = useUnits();
  const [outcome, setOutcome] = useState("");
  const hasRatio = steps.some((step) => step.lines.some((line) => line.form));
  return (
    <div className={styles.tools}>
      {hasRatio ? (
        <ChoiceField label="Ratio by" value={ratio} choices={RATIOS} onChange={(value) => setShown({ ratio: value })} />
      ) : null}
      <div className={styles.tool}>
        <ChoiceField label="Copy as" value={form} choices={FORMS} onChange={(copy) => setShown({ copy })} />
        <button
          type="button"
          className={styles.button}
          aria-label="Copy all lines"
          onClick={async () => {
            const isCopied = await copyAloud(copiedSteps(steps, form, units), "The workings");
            setOutcome(isCopied ? "Copied." : "The browser does not let this page copy.");
          }}
        >
          <Copy size={18} aria-hidden="true" /> Copy all
        </button>
        <span>{outcome}</span>
      </div>
      <button
        type="button"
        className={styles.button}
        aria-pressed={lines !== null}
        title="One line at a time; the arrow and page keys go on and back"
        onClick={() => setShown({ lines: lines === null ? 1 : null })}
      >
        <ListOrdered size={18} aria-hidden="true" /> Line by line
      </button>
    </div>
  );
}

/** Which line each key goes to, of `count`; null for one that means nothing here. */
export function lineAfter(key: string, at: number, count: number): number | null {
  const ways: Readonly<Record<string, number>> = {
    ArrowDown: at + 1,
    ArrowRight: at + 1,
    PageDown: at + 1,
    ArrowUp: at - 1,
    ArrowLeft: at - 1,
    PageUp: at - 1,
    Home: 1,
    End: count,
  };
  const to = ways[key];
  return to === undefined ? null : Math.min(Math.max(to, 1), count);
}

/** The buttons that go on and back, and how far the class has come. */
export function Stepper({ at, count }: { readonly at: number; readonly count: number }) {
  const next = useRef<HTMLButtonElement>(null);
  return (
    <div className={styles.stepper}>
      <button
        type="button"
        className={styles.button}
        disabled={at <= 1}
        onClick={() => {
          setShown({ lines: at - 1 });
          if (at - 1 <= 1) next.current?.focus();
        }}
      >
        <ChevronLeft size={18} aria-hidden="true" /> Back
      </button>
      <span>
        Line {at} of {count}
      </span>
      <button
        type="button"
        ref={next}
        className={styles.button}
        aria-disabled={at >= count}
        onClick={() => setShown({ lines: Math.min(at + 1, count) })}
      >
        Next line <ChevronRight size={18} aria-hidden="true" />
      </button>
    </div>
  );
}

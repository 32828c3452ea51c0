/** One line of the workings, or one of its tables: words, mathematics, and a button that copies it. */
import { Check, Copy, X } from "lucide-react";
import { memo, useEffect, useRef, useState } from "react";
import { rowMath } from "../../engine/explain/formula-math";
import { formulaSpoken } from "../../engine/explain/formula-spoken";
import { copiedLine, linePieces, lineSpoken } from "../../engine/explain/working-forms";
import type { WorkingLine, WorkingTable } from "../../engine/explain/working-lines";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { announce, hover } from "../../store/view";
import { copyAloud } from "./copy-aloud";
import { MathLine } from "./formula-view";
import { chiefPart, useLight } from "./lights";
import { type Item, useShown } from "./shown";
import styles from "./workings.module.css";

interface ItemProps {
  readonly item: Item;
  /** The one that a class has come to: lit, in view, and read out. */
  readonly isCurrent: boolean;
}

export function ItemView({ item, isCurrent }: ItemProps) {
  const units = useUnits();
  const solved = useDocument((state) => state.solved);
  const place = useRef<HTMLDivElement>(null);
  const { about } = item.kind === "line" ? item.line : item.table;
  const light = useLight(about);
  // biome-ignore lint/correctness/useExhaustiveDependencies: told once, when the class comes to it.
  useEffect(() => {
    if (!isCurrent) return;
    place.current?.scrollIntoView?.({ block: "nearest" });
    hover(chiefPart(solved, about));
    const { kind } = item;
    announce(
      kind === "table"
        ? item.table.caption
        : [item.line.words, lineSpoken(item.line, units), item.line.missing ?? ""].filter(Boolean).join(": "),
    );
    return () => hover(null);
  }, [isCurrent]);
  return (
    <div ref={place} className={styles.line} data-current={isCurrent || undefined} {...light}>
      {item.kind === "line" ? <Line line={item.line} /> : <Table table={item.table} />}
    </div>
  );
}

const Line = memo(({ line }: { readonly line: WorkingLine }) => {
  const units = useUnits();
  const form = useShown((state) => state.copy);
  const [outcome, setOutcome] = useState<boolean | null>(null);
  const pieces = linePieces(line, units);
  const Sign = outcome === null ? Copy : outcome ? Check : X;
  return (
    <>
      <p className={styles.words}>
        {line.words}
        {pieces.length === 0 ? null : (
          <button
            type="button"
            className={styles.copy}
            aria-label={`Copy this line: ${line.words}`}
            title={outcome === false ? "The browser does not let this page copy" : "Copy this line"}
            onClick={async () => setOutcome(await copyAloud(copiedLine(line, form, units), "The line"))}
            onBlur={() => setOutcome(null)}
          >
            <Sign size={18} aria-hidden="true" />
          </button>
        )}
      </p>
      {pieces.length === 0 ? null : (
        <div className={styles.formulas}>
          {pieces.map(({ math, spoken }, i) => (
            <span
              // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of a line stand in their order.
              key={i}
              className={line.result !== null && i === pieces.length - 1 ? styles.result : undefined}
            >
              <MathLine math={math} spoken={spoken} />
            </span>
          ))}
        </div>
      )}
      {line.missing === null ? null : <p className={styles.missing}>{line.missing}</p>}
    </>
  );
});

const Table = memo(({ table }: { readonly table: WorkingTable }) => {
  const units = useUnits();
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard.
    <section className={styles.scroll} aria-label={table.caption} tabIndex={0}>
      <table className={styles.table}>
        <caption>{table.caption}</caption>
        <thead>
          <tr>
            {table.head.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row) => (
            <tr key={row.words}>
              <th scope="row">{row.words}</th>
              {row.cells.map((cell, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: cells stand in the order of the head.
                <td key={i}>
                  <MathLine math={rowMath(cell, units)} spoken={formulaSpoken(cell, units)} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
});

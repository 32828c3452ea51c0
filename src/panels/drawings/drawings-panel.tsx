/** Front, top and side view, a section and the schematic of the drive, drawn on another thread; what is selected in one is lit in all. */
import { Eye } from "lucide-react";
import { type ReactNode, useEffect, useMemo, useRef } from "react";
import { projectionSymbol } from "../../engine/drawing/on-paper";
import type { DrawingWishes } from "../../engine/drawing/sheet";
import { marksOf, strokeOf } from "../../engine/drawing/svg-marks";
import type { Solved } from "../../engine/solved";
import { nameText } from "../../engine/wording";
import { type DrawingChoices, setDrawings, useDrawings } from "../../store/drawings";
import { CLOSED, useIsHiding } from "../../store/question";
import { useSettled } from "../../store/settled";
import { useUnits } from "../../store/units";
import { look, type Part, select, useView } from "../../store/view";
import { AsideHead } from "../aside-head";
import { focusFirst } from "../beside";
import { type Choice, ChoiceField } from "../fields/choice-field";
import { choiceValue, partChoices, partOfChoice, partWords } from "../measure/choices";
import styles from "./drawings.module.css";
import type { Order, ShownView } from "./orders";
import { SheetView } from "./sheet-view";
import { type Drafts, type Shown, useDrafts } from "./use-drafts";

const ANGLES: readonly Choice<DrawingChoices["angle"]>[] = [
  { value: "first", words: "first angle" },
  { value: "third", words: "third angle" },
];
const GEARS: readonly Choice<DrawingChoices["gears"]>[] = [
  { value: "simplified", words: "simplified" },
  { value: "teeth", words: "true teeth" },
];
const SIZES: readonly Choice<DrawingChoices["size"]>[] = [
  { value: "small", words: "small" },
  { value: "medium", words: "medium" },
  { value: "large", words: "large" },
];
/** mm of paper for the longest side of a view: one of three, and one alone. */
const ROOMS: Readonly<Record<DrawingChoices["size"], readonly [number, number]>> = {
  small: [36, 70],
  medium: [60, 110],
  large: [100, 180],
};
/** Widths of lines over those of a sheet to keep: a small drawing wants a finer pen, and so do teeth. */
const PENS: Readonly<Record<DrawingChoices["size"], number>> = { small: 0.7, medium: 0.85, large: 1 };
const TEETH_PEN = 0.5;
const DRAWN = [
  { view: "three", title: "Three views" },
  { view: "section", title: "Section" },
  { view: "schematic", title: "Schematic" },
] as const;

/** Meshes that a list offers. */
const MOST_MESHES = 400;

/** The mesh that a section goes through: the chosen one, else the selected one; undefined for the first that has a place. */
export function sectionMesh({ index }: Solved, chosen: string | null, selection: Part | null): string | undefined {
  if (chosen !== null) return chosen;
  return selection?.kind === "mesh" && index.meshes.has(selection.id) ? selection.id : undefined;
}

export function meshChoices(solved: Solved, chosen: string | null): Choice<string>[] {
  const { drive, index } = solved;
  const words = (id: string): string => partWords(solved, { kind: "mesh", id });
  return [
    { value: "", words: "the selected mesh, or the first" },
    ...drive.meshes.slice(0, MOST_MESHES).map(({ id }) => ({ value: id, words: words(id) })),
    ...(chosen !== null && !index.meshes.has(chosen)
      ? [{ value: chosen, words: `Mesh ${nameText(chosen)}, which is gone` }]
      : []),
  ];
}

/** Fields for what any drawing is made by; the figures have them too. */
export function DrawingFields({ solved, hasSection }: { readonly solved: Solved; readonly hasSection: boolean }) {
  const { angle, gears, mesh } = useDrawings((state) => state);
  return (
    <>
      <ChoiceField label="Gears" value={gears} choices={GEARS} onChange={(gears) => setDrawings({ gears })} />
      <ChoiceField label="Projection" value={angle} choices={ANGLES} onChange={(angle) => setDrawings({ angle })} />
      {hasSection ? (
        <ChoiceField
          label="Section through"
          value={mesh ?? ""}
          choices={meshChoices(solved, mesh)}
          onChange={(value) => setDrawings({ mesh: value === "" ? null : value })}
        />
      ) : null}
    </>
  );
}

/** The symbol of ISO 5456-2 for the projection that is chosen. */
function ProjectionSymbol({ angle }: { readonly angle: DrawingChoices["angle"] }) {
  const { width } = strokeOf("visible");
  return (
    <svg className={styles.symbol} role="img" aria-label={`Symbol of ${angle} angle`} viewBox="-1 -5 22 10">
      {marksOf(projectionSymbol(angle, [0, 0])).map((mark) =>
        mark.shape === "path" ? (
          <path key={mark.path} d={mark.path} fill="none" stroke="currentColor" strokeWidth={width} />
        ) : null,
      )}
    </svg>
  );
}

function useOrder(solved: Solved): Omit<Order, "count"> {
  const { angle, gears, mesh, size } = useDrawings((state) => state);
  const units = useUnits();
  const section = useView(({ selection }) => sectionMesh(solved, mesh, selection));
  return useMemo(() => {
    const [ofThree, alone] = ROOMS[size];
    const wish = (view: DrawingWishes["view"], room: number): DrawingWishes => ({ view, angle, gears, room });
    const cut = { ...wish("section", alone), ...(section === undefined ? {} : { mesh: section }) };
    const wishes = [wish("three", ofThree), cut, wish("schematic", alone)];
    return { drive: solved.drive, units, wishes, form: "sheet" as const };
  }, [solved, units, angle, gears, section, size]);
}

/** @param aside what stands beside the choices */
export function DrawingsPanel({ aside }: { readonly aside?: ReactNode }) {
  const solved = useSettled((state) => state.solved);
  const selection = useView((state) => state.selection);
  const { size, angle, gears } = useDrawings((state) => state);
  const pen = PENS[size] * (gears === "teeth" ? TEETH_PEN : 1);
  const isHidden = useIsHiding();
  const order = useOrder(solved);
  const drafts = useDrafts(isHidden ? null : order);
  const body = useRef<HTMLDivElement>(null);
  useEffect(() => focusFirst(body.current), []);
  return (
    <section className={styles.panel} aria-label="Views of the drive">
      <AsideHead title="Drawings" />
      <State {...drafts} />
      <div ref={body} className={styles.body}>
        <div className={styles.fields}>
          <ChoiceField
            label="Selected"
            value={choiceValue(selection)}
            choices={[{ value: "", words: "nothing" }, ...partChoices(solved, selection, false)]}
            onChange={(value) => select(partOfChoice(value))}
          />
          <div className={styles.row}>
            <details className={styles.how}>
              <summary>How they are drawn</summary>
              <div className={styles.fields}>
                <DrawingFields solved={solved} hasSection />
                <ChoiceField label="Size" value={size} choices={SIZES} onChange={(size) => setDrawings({ size })} />
              </div>
            </details>
            {aside}
          </div>
        </div>
        {isHidden ? <p>{CLOSED}</p> : null}
        {(isHidden ? [] : DRAWN).map(({ view, title }) => (
          <One
            key={view}
            title={title}
            angle={view === "three" ? angle : null}
            shown={drafts.shown.get(view)}
            solved={solved}
            selection={selection}
            pen={pen}
          />
        ))}
      </div>
    </section>
  );
}

/** How far the drawing has come, in a line of its own that is always there, so that nothing jumps. */
export function State({ progress, isFailed, again }: Pick<Drafts, "progress" | "isFailed"> & { again: () => void }) {
  if (isFailed) {
    return (
      <div role="alert" className={styles.trouble}>
        <p>The drawings could not be made: what draws them did not come, or broke down. Everything else works.</p>
        <button type="button" className={styles.button} onClick={again}>
          Draw again
        </button>
      </div>
    );
  }
  return (
    <div className={styles.progress} data-busy={progress !== null || undefined}>
      {progress ? <progress aria-label="Views drawn" value={progress.done} max={progress.of} /> : null}
    </div>
  );
}

interface OneProps {
  readonly title: string;
  /** Of views that stand by one another. */
  readonly angle: DrawingChoices["angle"] | null;
  readonly shown: Shown | undefined;
  readonly solved: Solved;
  readonly selection: Part | null;
  readonly pen: number;
}

function One({ title, angle, shown, solved, selection, pen }: OneProps) {
  const sheet = shown?.good && "sheet" in shown.good ? shown.good.sheet : null;
  return (
    <section className={styles.one} aria-label={title} aria-busy={shown === undefined}>
      <h3 className={styles.title}>
        {title}
        {angle ? <ProjectionSymbol angle={angle} /> : null}
      </h3>
      {shown?.trouble ? (
        <p role="alert" className={styles.trouble}>
          {shown.trouble}
          {sheet ? " Below stands the last drawing that could be made." : ""}
        </p>
      ) : null}
      {sheet ? (
        <>
          <div className={styles.looks}>
            {sheet.views.map((view) => (
              <Look key={view.name} view={view} />
            ))}
          </div>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
          <section className={styles.paper} tabIndex={0} aria-label={`${title}, drawn`}>
            <SheetView sheet={sheet} solved={solved} selection={selection} pen={pen} />
          </section>
        </>
      ) : null}
    </section>
  );
}

/** Has the bench's eye glide to where a view is seen from. */
function Look({ view: { label, towards } }: { readonly view: ShownView }) {
  if (!towards) return null;
  // "Front" is enough to see, since the three stand in one row.
  const seen = label.replace(/ view, .*/, "");
  return (
    <button
      type="button"
      className={styles.button}
      aria-label={`${label}: look so at the bench`}
      title={`${label}: look so at the bench`}
      onClick={() => look({ name: "towards", towards })}
    >
      <Eye size={18} aria-hidden="true" />
      {seen}
    </button>
  );
}

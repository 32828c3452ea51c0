/** The controls of a close look: from where, the section, the height of the teeth, and the way back. */
import { X } from "lucide-react";
import { useEffect, useMemo } from "react";
import type { Solved } from "../engine/solved";
import { contactPath } from "../engine/teeth/contact-path";
import { lineOfAction } from "../engine/teeth/line-of-action";
import type { UnitChoice } from "../engine/units/choice";
import { DEGREE } from "../engine/vector";
import { figures, gearName, quantityIn } from "../engine/wording";
import { lookAway, lookFrom, setClose, useClose } from "../store/close-look";
import { documentStore, useDocument } from "../store/document";
import { useUnits } from "../store/units";
import { announce, useView } from "../store/view";
import css from "./close-panel.module.css";

/** Steps of the two sliders. */
const STEPS = 20;

function nameOf({ drive, index }: Solved, gear: number, units: UnitChoice): string {
  const data = drive.gears[gear];
  return data ? gearName(drive, data, index.shaftOfGear[gear] ?? -1, units) : "";
}

/** What the formula says; where less of the flanks is left (undercut, tips cut back, teeth not fully grown), what there is. */
function contactWords(
  formula: number | null,
  whole: number,
  grown: number,
  growth: number,
  sign: Parameters<typeof figures>[2],
): string {
  if (growth === 0) return "no teeth: the wheels roll on one another";
  if (growth < 1) return `contact ratio at this height ${figures(grown, 3, sign)}`;
  if (whole === 0) return "no flanks touch";
  const isLess = formula !== null && formula - whole > 0.005;
  return `contact ratio ${figures(formula ?? whole, 3, sign)}${isLess ? `, as cut ${figures(whole, 3, sign)}` : ""}`;
}

export const ClosePanel = () => {
  const id = useClose(({ mesh }) => mesh);
  const solved = useDocument((state) => state.solved);
  const units = useUnits();
  const from = useClose((state) => state.from);
  const section = useClose((state) => state.section);
  const growth = useClose((state) => state.growth);
  const action = useClose((state) => state.action);
  const drawing = useView((state) => state.drawing);
  const mesh = solved.index.meshes.get(id ?? "") ?? -1;
  const path = useMemo(() => contactPath(solved, mesh), [solved, mesh]);
  const isConical = solved.placement.gears[path?.gear ?? -1]?.apexPoint != null;
  const [a, b] = solved.index.gearsOfMesh[mesh] ?? [-1, -1];
  const pair = [a, b].map((gear) => nameOf(solved, gear, units)).join(" and ");
  const short = [a, b].map((gear) => solved.drive.gears[gear]?.id ?? "").join(" and ");
  const ends = isConical ? ["heel", "toe"] : ["one end", "the other"];
  const [firstEnd, lastEnd] = isConical ? ["the heel", "the toe"] : ["one end", "the other end"];
  const grown = useMemo(() => contactPath(solved, mesh, growth), [solved, mesh, growth]);
  const pressure = action && grown ? lineOfAction(solved, grown, 1, 0).angle / DEGREE : null;
  const formula = solved.load.meshes[mesh]?.contactRatio ?? null;
  const contact = contactWords(formula, path?.ratio ?? 0, grown?.ratio ?? 0, growth, units.decimalSign);

  useEffect(() => {
    announce(`A close look at the mesh of ${pair}: a tooth passes in about four seconds. Escape goes back.`);
    const { opened } = documentStore.getState();
    return () => {
      // Another drive that was opened has an announcement of its own.
      if (documentStore.getState().opened === opened) announce("Back at the whole drive.");
    };
  }, [pair]);

  const sectionWords =
    section === null || section === 0
      ? `at ${firstEnd}`
      : section === 1
        ? `at ${lastEnd}`
        : `${Math.round(100 * section)} % of the way from ${firstEnd} to ${lastEnd}`;
  const growthWords =
    growth === 0
      ? "smooth, as friction wheels"
      : growth === 1
        ? "full teeth"
        : `${Math.round(100 * growth)} % of their height`;
  return (
    <fieldset className={css.panel} aria-label={`Close look at ${pair}`}>
      <p className={css.title}>
        <span className={css.pair}>{short}</span>
        {path && <span className={css.soft}>{contact}</span>}
      </p>
      <button type="button" className={css.back} onClick={lookAway} title="Back to the whole drive (Escape)">
        <X size={18} aria-hidden="true" /> Back
      </button>
      {drawing !== "full" && <p className={css.soft}>Teeth and contact are drawn in the full 3D drawing only.</p>}
      <div className={css.tools}>
        <div className={css.from}>
          {(["along", "side"] as const).map((view) => (
            <button
              key={view}
              type="button"
              className={css.button}
              aria-pressed={from === view}
              onClick={() => lookFrom(view)}
            >
              {view === "along" ? "Along the contact" : "From the side"}
            </button>
          ))}
          <button
            type="button"
            className={css.button}
            aria-pressed={section !== null}
            onClick={() => setClose({ section: section === null ? 0 : null })}
          >
            Section
          </button>
          {growth > 0 && (
            <button
              type="button"
              className={css.button}
              aria-pressed={action}
              onClick={() => setClose({ action: !action })}
            >
              Line of action
            </button>
          )}
        </div>
        {section !== null && (
          <label className={css.slider}>
            <span>{ends[0]}</span>
            <input
              type="range"
              min={0}
              max={STEPS}
              value={Math.round(section * STEPS)}
              aria-label="Place of the section"
              aria-valuetext={sectionWords}
              onChange={(event) => setClose({ section: Number(event.target.value) / STEPS })}
            />
            <span>{ends[1]}</span>
          </label>
        )}
        <label className={css.slider}>
          <span>smooth</span>
          <input
            type="range"
            min={0}
            max={STEPS}
            value={Math.round(growth * STEPS)}
            aria-label="Height of the teeth"
            aria-valuetext={growthWords}
            onChange={(event) => setClose({ growth: Number(event.target.value) / STEPS })}
          />
          <span>teeth</span>
        </label>
      </div>
      {pressure !== null && (
        <p className={css.lines}>
          <b>Contact line</b>: along the tooth, where two flanks touch. <b>Line of action</b>: across it, at{" "}
          {quantityIn(pressure, "°", units)} to the common tangent; along it one tooth pushes the other. Some classrooms
          call the contact line by that name too.
        </p>
      )}
    </fieldset>
  );
};

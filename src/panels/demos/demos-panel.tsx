/** Demonstrations on one pair of the open drive: chosen here, shown on the bench and in figures, and left without a trace. */
import { type ComponentType, useEffect, useMemo, useRef } from "react";
import { demoPair } from "../../engine/demos/pair";
import { rational } from "../../engine/motion/rational";
import type { Solved } from "../../engine/solved";
import { gearSize, nameText, shaftName, turnsWords } from "../../engine/wording";
import { lookAway } from "../../store/close-look";
import { DEMO_TITLES, type DemoKind, demoStore, setDemo, useDemo } from "../../store/demo";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { type Part, viewStore } from "../../store/view";
import { AsideHead } from "../aside-head";
import { focusFirst } from "../beside";
import { ChoiceField } from "../fields/choice-field";
import { CupDemo } from "./cup-demo";
import styles from "./demos.module.css";
import { EitherDemo } from "./either-demo";
import { FrictionDemo } from "./friction-demo";
import { type DemoProps, Soft, whyStill } from "./parts";
import { SpeedsDemo } from "./speeds-demo";
import { SweepDemo } from "./sweep-demo";
import { TaperDemo } from "./taper-demo";

const DEMOS: Readonly<Record<DemoKind, ComponentType<DemoProps>>> = {
  friction: FrictionDemo,
  cup: CupDemo,
  sweep: SweepDemo,
  speeds: SpeedsDemo,
  taper: TaperDemo,
  either: EitherDemo,
};
const KINDS = Object.keys(DEMO_TITLES) as DemoKind[];

/** A list longer than this is none that anybody would look through: a mesh is then picked on the bench or in the parts list. */
const MOST_CHOICES = 400;

/** The mesh that a selected part stands for; null for none. */
function meshOf({ drive, index }: Solved, selection: Part | null): string | null {
  if (!selection) return null;
  if (selection.kind === "mesh") return index.meshes.has(selection.id) ? selection.id : null;
  if (selection.kind === "gear") return drive.meshes.find(({ gears }) => gears.includes(selection.id))?.id ?? null;
  const shaft = index.shafts.get(selection.id) ?? -1;
  return drive.meshes[index.meshesOfShaft[shaft]?.[0] ?? -1]?.id ?? null;
}

const words = (solved: Solved, mesh: number): string => {
  const [a, b] = solved.index.gearsOfMesh[mesh] ?? [-1, -1];
  const [first, second] = [solved.drive.gears[a], solved.drive.gears[b]];
  const name = (gear: number): string => shaftName(solved.drive, solved.index.shaftOfGear[gear] ?? 0);
  if (!first || !second) return "";
  return `${name(a)} with ${name(b)} (${gearSize(first)}, ${gearSize(second)})`;
};

export const DemosPanel = () => {
  const solved = useDocument((state) => state.solved);
  const kind = useDemo((state) => state.kind);
  const mesh = useDemo((state) => state.mesh);
  const body = useRef<HTMLDivElement>(null);
  const latest = useRef(solved);
  latest.current = solved;
  useEffect(() => {
    // What is shown stands elsewhere than the mesh that was looked at.
    lookAway();
    const { selection } = viewStore.getState();
    const chosen = meshOf(latest.current, selection) ?? demoStore.getState().mesh;
    if (chosen !== null) setDemo({ mesh: chosen });
    focusFirst(body.current);
    return viewStore.subscribe(({ selection }, before) => {
      if (selection === before.selection || selection?.kind === "shaft") return;
      const picked = meshOf(latest.current, selection);
      if (picked !== null) setDemo({ mesh: picked });
    });
  }, []);
  const { meshes } = solved.drive;
  // Nothing chosen yet, or another drive opened: its first pair, so that the bench knows which.
  useEffect(() => {
    const first = meshes[0];
    if (mesh === null && demoStore.getState().mesh === null && first) setDemo({ mesh: first.id });
  }, [mesh, meshes]);
  const chosen = mesh ?? meshes[0]?.id ?? null;
  const pair = useMemo(() => (chosen === null ? null : demoPair(solved, chosen)), [solved, chosen]);
  const choices = meshes.slice(0, MOST_CHOICES).map(({ id }, i) => ({ value: id, words: words(solved, i) }));
  if (chosen !== null && !choices.some(({ value }) => value === chosen)) {
    const number = solved.index.meshes.get(chosen) ?? -1;
    choices.push({ value: chosen, words: words(solved, number) || `${nameText(chosen)} (gone)` });
  }
  const Demo = DEMOS[kind];
  return (
    <section className={styles.panel} aria-label="Demonstrations on one pair">
      <AsideHead title="Demonstrations" />
      <div ref={body} className={styles.body}>
        {meshes.length === 0 ? (
          <p>There is no pair in this drive yet: join two gears, and it can be shown here.</p>
        ) : (
          <ChoiceField label="Pair" value={chosen ?? ""} choices={choices} onChange={(id) => setDemo({ mesh: id })} />
        )}
        {chosen !== null && meshes.length > 0 && !pair && (
          <p className={styles.reason} role="alert">
            {solved.index.meshes.has(chosen)
              ? "Nothing says where the shafts of this pair stand: mend that first (see the findings), or choose another pair."
              : "That pair is no longer in the drive: choose another."}
          </p>
        )}
        {pair && (
          <>
            <fieldset className={styles.list}>
              <legend className="only-heard">Which demonstration</legend>
              {KINDS.map((one) => (
                <button
                  key={one}
                  type="button"
                  className={styles.button}
                  aria-pressed={one === kind}
                  onClick={() => setDemo({ kind: one })}
                >
                  {DEMO_TITLES[one]}
                </button>
              ))}
            </fieldset>
            <Turns solved={solved} mesh={pair.mesh.id} />
            {pair.isCarried && (
              <Soft>A carrier takes this pair round: it is shown as an eye on the carrier sees it.</Soft>
            )}
            <Demo key={`${kind} ${pair.mesh.id}`} {...{ solved, pair }} />
          </>
        )}
      </div>
    </section>
  );
};

/** What the pair does to turns, or why nothing turns. */
const Turns = ({ solved, mesh }: { readonly solved: Solved; readonly mesh: string }) => {
  const units = useUnits();
  const number = solved.index.meshes.get(mesh) ?? -1;
  const row = solved.motion.rows[number];
  const [a, b] = solved.index.shaftsOfMesh[number] ?? [-1, -1];
  if (!row) return <p className={styles.reason}>This mesh has an error, so the pair can't turn: see the findings.</p>;
  const why = whyStill(solved, [a, b]);
  return (
    <p>
      {turnsWords(shaftName(solved.drive, a), shaftName(solved.drive, b), rational(...row.coefficients), units)}.
      {why && ` It stands still on the bench: ${why}.`}
    </p>
  );
};

/**
 * Add a stage: from a shaft to a new one beside it, in a ring or at an angle. What would come stands on the bench as a turning ghost
 * while it is chosen; Enter or "Put it there" makes it one undo step, Escape leaves all as it was.
 */
import { type FormEvent, useEffect, useId, useMemo, useRef, useState } from "react";
import { addStage } from "../../engine/drive/commands/stage";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { shaftName } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { type Choice, leanEnds } from "../../store/stage/candidate";
import { type Plan, planStage } from "../../store/stage/plan";
import { stageTurns, turningWords } from "../../store/stage/words";
import { currentUnits, useUnits } from "../../store/units";
import { announce, setView, useView } from "../../store/view";
import { useFocusWithin, useLeaveOnEscape } from "../beside";
import { tryEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import { PanelHead } from "../panel-head";
import styles from "./add-stage.module.css";
import { AlongFields } from "./along-fields";
import { AngleChoice } from "./angle-choice";
import { crankCaution } from "./crank-caution";
import { KindChoice } from "./kind-choice";
import { PlaceChoice } from "./place-choice";
import { SizeFields } from "./size-fields";
import { cancelAdding, useFollowSelection, useGhost } from "./while-adding";

/** A list to choose from can be this long. */
const MOST_CHOICES = 300;

export function AddStage() {
  const adding = useView((state) => state.adding);
  const shaft = useDocument(({ solved }) => (adding ? (solved.index.shafts.get(adding.shaft) ?? -1) : -1));
  // The shaft may go while a stage is being added to it: an undo, another drive.
  useEffect(() => {
    if (adding && shaft < 0) cancelAdding();
  }, [adding, shaft]);
  return adding && shaft >= 0 ? <AddStageTo shaft={shaft} wanted={adding.gear} /> : null;
}

function AddStageTo({ shaft, wanted }: { readonly shaft: number; readonly wanted?: string }) {
  const solved = useDocument((state) => state.solved);
  const [choice, setChoice] = useState<Choice | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const heading = useId();
  const name = shaftName(solved.drive, shaft);
  const plan = useMemo(() => choice && planStage(solved, shaft, choice, wanted), [solved, shaft, choice, wanted]);
  const made = plan !== null && typeof plan !== "string" ? plan : null;
  const change = (patch: Partial<Choice>) => setChoice((before) => before && { ...before, ...patch });

  useFocusWithin(form, "input[type=radio]");
  useLeaveOnEscape(cancelAdding);
  useGhost(made?.chosen?.solved ?? null);
  useFollowSelection();
  // biome-ignore lint/correctness/useExhaustiveDependencies: on another shaft the places of the first mean nothing.
  useEffect(() => {
    change({ gear: undefined, azimuth: undefined, side: undefined, at: undefined });
  }, [shaft, wanted]);

  const put = (event: FormEvent) => {
    event.preventDefault();
    if (!made?.chosen?.solved || form.current?.querySelector("[aria-invalid=true]")) return;
    const { drive } = made.chosen.solved;
    const id = drive.shafts[drive.shafts.length - 1]?.id ?? "";
    const why = tryEdit(addStage(made.chosen.fields), `adding shaft ${id}`);
    setRefused(why);
    if (why !== null) return;
    setView({ adding: null, ghost: null, selection: { kind: "shaft", id } });
    announce(`Shaft ${id} added: ${turnsOf(solved, made, currentUnits())}.`);
  };

  return (
    <form ref={form} className={styles.panel} aria-labelledby={heading} noValidate onSubmit={put}>
      <PanelHead id={heading} title="Add a stage" closeName="Cancel adding a stage" onClose={cancelAdding} />
      <div className={styles.body}>
        <FromShaft solved={solved} shaft={shaft} />
        <KindChoice kind={choice?.kind ?? null} onChange={(kind) => setChoice(kept(choice, kind))} />
        {typeof plan === "string" ? <p role="alert">{plan}</p> : null}
        {made ? <Details plan={made} solved={solved} name={name} onChange={change} /> : null}
      </div>
      <footer className={styles.foot}>
        <output className={styles.live}>
          {refused ?? (made ? <LiveLine solved={solved} plan={made} /> : "Choose a kind of stage.")}
        </output>
        <Caution solved={made?.chosen?.solved ?? solved} />
        <div className={styles.row}>
          <button type="submit" className={styles.put} aria-disabled={!made?.chosen || undefined}>
            Put it there
          </button>
          <button type="button" className={styles.cancel} onClick={cancelAdding}>
            Cancel
          </button>
        </div>
      </footer>
    </form>
  );
}

/** Another kind keeps what both have in common. */
const kept = (before: Choice | null, kind: Choice["kind"]): Choice => ({
  kind,
  azimuth: before?.azimuth,
  module: before?.module,
  ...(before && before.kind.isFriction === kind.isFriction && before.gear === undefined ? { sizes: before.sizes } : {}),
});

interface DetailsProps {
  readonly plan: Plan;
  readonly solved: Solved;
  readonly name: string;
  readonly onChange: (patch: Partial<Choice>) => void;
}

function Details({ plan, solved, name, onChange }: DetailsProps) {
  const { candidate } = plan;
  const { shaft, gear } = candidate;
  return (
    <>
      <PlaceChoice plan={plan} shaft={shaft} name={name} onChange={(azimuth) => onChange({ azimuth })} />
      {candidate.kind.needsShaftAngle ? (
        <AngleChoice
          angle={candidate.shaftAngle}
          {...leanEnds(solved, candidate, plan.side)}
          onChange={(shaftAngle) => onChange({ shaftAngle })}
        />
      ) : null}
      <SizeFields
        candidate={candidate}
        name={name}
        newName={newName(plan)}
        onSizes={(sizes) => onChange({ sizes })}
        onGear={(id) => onChange({ gear: id, sizes: undefined })}
      />
      {gear ? null : <AlongFields plan={plan} name={name} onChange={onChange} />}
    </>
  );
}

const newName = ({ places }: Plan): string => {
  const solved = places.find((place) => place.solved)?.solved;
  return solved ? shaftName(solved.drive, solved.drive.shafts.length - 1) : "the new shaft";
};

const turnsOf = (solved: Solved, plan: Plan, units: UnitChoice): string =>
  stageTurns(solved, plan.candidate, newName(plan), units);

function LiveLine({ solved, plan }: { readonly solved: Solved; readonly plan: Plan }) {
  const next = plan.chosen?.solved;
  const units = useUnits();
  if (!next) return <>No place is free for it as it stands: change its sizes, or where it goes along the shaft.</>;
  return (
    <>
      <b>{turnsOf(solved, plan, units)}</b>; {turningWords(next, next.drive.shafts.length - 1, units)}.
    </>
  );
}

function Caution({ solved }: { readonly solved: Solved }) {
  const caution = useMemo(() => crankCaution(solved), [solved]);
  return caution ? <p className={styles.caution}>{caution}</p> : null;
}

function FromShaft({ solved, shaft }: { readonly solved: Solved; readonly shaft: number }) {
  const { shafts } = solved.drive;
  if (shafts.length === 1 || shafts.length > MOST_CHOICES) {
    return <p>From {shaftName(solved.drive, shaft)} to a new shaft.</p>;
  }
  return (
    <ChoiceField
      label="From shaft"
      value={shafts[shaft]?.id ?? ""}
      choices={shafts.map(({ id }, i) => ({ value: id, words: shaftName(solved.drive, i) }))}
      onChange={(id) => setView({ adding: { shaft: id }, selection: { kind: "shaft", id } })}
    />
  );
}

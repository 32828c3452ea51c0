/** Two parts to choose, and their least distance at rest and over a full turn of carriers. */
import { Check, TriangleAlert } from "lucide-react";
import { useMemo, useState } from "react";
import { type ChosenPart, clearance } from "../../engine/collisions/clearance";
import { momentWords } from "../../engine/collisions/findings";
import type { Solved } from "../../engine/solved";
import { gearName, quantity, shaftName } from "../../engine/wording";
import { viewStore } from "../../store/view";
import { type Choice, ChoiceField } from "../fields/choice-field";
import styles from "./space.module.css";

/** A longer list would be slow to open, and no one would read it. */
const MOST_LISTED = 400;

const keyOf = ({ kind, id }: ChosenPart): string => `${kind} ${id}`;

/** All parts that can be chosen, the selected one always among them. */
function choicesOf({ drive, index }: Solved): readonly Choice<string>[] {
  const gears = drive.gears.map((gear, i) => ({
    value: keyOf({ kind: "gear", id: gear.id }),
    words: `Gear ${gearName(drive, gear, index.shaftOfGear[i] ?? -1)}`,
  }));
  const shafts = drive.shafts.map((shaft, i) => ({
    value: keyOf({ kind: "shaft", id: shaft.id }),
    words: `Shaft ${shaftName(drive, i)}`,
  }));
  const all = [...gears, ...shafts];
  const { selection } = viewStore.getState();
  const own = selection && all.find(({ value }) => value === `${selection.kind} ${selection.id}`);
  const listed = all.slice(0, MOST_LISTED);
  return own && !listed.includes(own) ? [own, ...listed] : listed;
}

const partOf = (key: string): ChosenPart => {
  const kind = key.startsWith("gear ") ? "gear" : "shaft";
  return { kind, id: key.slice(kind.length + 1) };
};

export function ClearanceChoice({ solved }: { readonly solved: Solved }) {
  const choices = useMemo(() => choicesOf(solved), [solved]);
  const [chosen, setChosen] = useState<readonly [string, string]>(() => firstTwo(choices));
  const isThere = (key: string): boolean => choices.some(({ value }) => value === key);
  const [first, second] = chosen.every(isThere) ? chosen : firstTwo(choices);
  if (choices.length < 2) return <p className={styles.soft}>There are no two parts to choose from yet.</p>;
  const isCut = solved.drive.gears.length + solved.drive.shafts.length > MOST_LISTED;
  return (
    <>
      <div className={styles.pair}>
        <ChoiceField label="From" value={first} choices={choices} onChange={(value) => setChosen([value, second])} />
        <ChoiceField label="To" value={second} choices={choices} onChange={(value) => setChosen([first, value])} />
      </div>
      {isCut ? (
        <p className={styles.soft}>
          The first {MOST_LISTED} parts are listed; one that is selected on the bench beforehand is always among them.
        </p>
      ) : null}
      <Told solved={solved} first={first} second={second} />
    </>
  );
}

function firstTwo(choices: readonly Choice<string>[]): readonly [string, string] {
  const { selection } = viewStore.getState();
  const own = selection && choices.find(({ value }) => value === `${selection.kind} ${selection.id}`);
  const first = own?.value ?? choices[0]?.value ?? "";
  return [first, choices.find(({ value }) => value !== first)?.value ?? ""];
}

interface ToldProps {
  readonly solved: Solved;
  readonly first: string;
  readonly second: string;
}

function Told({ solved, first, second }: ToldProps) {
  const told = useMemo(() => clearance(solved, partOf(first), partOf(second)), [solved, first, second]);
  if ("reason" in told) {
    return (
      <p className={styles.soft} role="status">
        {told.reason}
      </p>
    );
  }
  const { gap, rest, turns, isWhole } = told;
  const isApart = gap >= 0;
  const size = (mm: number): string =>
    mm < 0 ? `${quantity(-mm, "mm", 4)} within one another` : quantity(mm, "mm", 4);
  const alsoAtRest = turns.length > 0 ? `; at rest ${size(rest)}` : "";
  const Icon = isApart ? Check : TriangleAlert;
  return (
    <p className={styles.result} data-state={isApart ? "fits" : "trouble"} role="status">
      <Icon aria-hidden size={20} />
      <span>
        <strong>{isApart ? `${size(gap)} clear` : `They stand ${size(gap)}`}</strong> {momentWords(solved, turns)}
        {turns.length > 0 ? ", where they come nearest" : ""}
        {alsoAtRest}.{isWhole ? "" : " Carriers within carriers were followed only so far: they may come nearer."}
      </span>
    </p>
  );
}

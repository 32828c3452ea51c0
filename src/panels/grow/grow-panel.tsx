/**
 * What grows from a `+` on the bench: the choices at that place, their numbers, where round the shaft. The ghost on the bench tells
 * direction and ratio before anything is put down; Enter puts it down as one undo step, Escape leaves.
 */
import { X } from "lucide-react";
import { type FormEvent, type KeyboardEvent, useEffect, useId, useMemo, useRef, useState } from "react";
import { gearName, shaftName } from "../../engine/wording";
import { documentStore, useDocument } from "../../store/document";
import {
  type GrowSpot,
  growFrom,
  growNext,
  growSpots,
  growStore,
  onGrowPress,
  setGrow,
  spotKey,
  useGrow,
} from "../../store/growing";
import { growOptions } from "../../store/stage/grow-options";
import { growthOf } from "../../store/stage/growth";
import type { Growth } from "../../store/stage/growth-parts";
import { sideName } from "../../store/stage/sides";
import { useUnits } from "../../store/units";
import { announce, setView, useView, viewStore } from "../../store/view";
import { crankCaution } from "../add-stage/crank-caution";
import { cancelAdding, useGhost } from "../add-stage/while-adding";
import { useFocusWithin, useLeaveOnEscape } from "../beside";
import { tryEdit } from "../edit";
import styles from "./grow.module.css";
import { GrowChoices } from "./grow-choices";
import { GrowFields } from "./grow-fields";

export function Grow() {
  const adding = useView((state) => state.adding);
  const isThere = useDocument(({ solved }) => adding !== null && solved.index.shafts.has(adding.shaft));
  const isGearThere = useDocument(({ solved }) => adding?.gear === undefined || solved.index.gears.has(adding.gear));
  const isGone = adding !== null && !(isThere && isGearThere);
  // The part may go while something grows from it: an undo, another drive.
  useEffect(() => {
    if (isGone) cancelAdding();
  }, [isGone]);
  if (!adding?.grow || isGone) return null;
  const spot: GrowSpot = { shaft: adding.shaft, gear: adding.gear, side: adding.grow.side };
  return <GrowAt key={spotKey(spot)} spot={spot} />;
}

function GrowAt({ spot }: { readonly spot: GrowSpot }) {
  const solved = useDocument((state) => state.solved);
  const { option, peek, pointed, settings } = useGrow((state) => state);
  const units = useUnits();
  const [refused, setRefused] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const heading = useId();
  const azimuth = pointed ?? settings.azimuth;
  const growth = useMemo(
    () => growthOf(solved, spot, peek ?? option, { ...settings, azimuth }, units),
    [solved, spot, peek, option, settings, azimuth, units],
  );
  const options = useMemo(() => growOptions(solved, spot), [solved, spot]);
  const chosen = options.find(({ id }) => id === option)?.id ?? options[0]?.id ?? null;
  const isMany = useMemo(() => growSpots(solved, viewStore.getState().selection).length > 1, [solved]);
  const caution = useMemo(() => growth?.next && crankCaution(growth.next), [growth]);

  useFocusWithin(form, "input[type=radio]");
  useLeaveOnEscape(cancelAdding);
  useGhost(growth?.next ?? null);
  useFollowSelection();

  const put = (): void => {
    if (!growth?.edit || form.current?.querySelector("[aria-invalid=true]")) return;
    setRefused(putDown(growth));
  };
  const latest = useRef(put);
  latest.current = put;
  useEffect(() => onGrowPress(() => latest.current()), []);

  const choose = (id: string): void => setGrow({ option: id, peek: null });
  const keyDown = (event: KeyboardEvent): void => {
    const isTyped = event.target instanceof HTMLInputElement && event.target.type !== "radio";
    if (isTyped || event.target instanceof HTMLSelectElement || event.ctrlKey || event.metaKey || event.altKey) return;
    const named = options.find(({ key }) => key === event.key.toUpperCase());
    if (named) {
      event.preventDefault();
      choose(named.id);
      const radios = form.current?.querySelectorAll<HTMLInputElement>("input[type=radio]") ?? [];
      [...radios].find(({ value }) => value === named.id)?.focus();
    } else if (event.key.toUpperCase() === "G") {
      event.preventDefault();
      growNext(documentStore.getState().solved, viewStore.getState().selection);
    } else if (/^[\d.,]$/.test(event.key)) {
      // A number typed at a choice goes to its first field: no key to get there.
      form.current?.querySelector<HTMLInputElement>("[data-numbers] input")?.focus();
    }
  };

  return (
    <form
      ref={form}
      className={styles.panel}
      aria-labelledby={heading}
      noValidate
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        put();
      }}
      onKeyDown={keyDown}
    >
      <header className={styles.head}>
        <h2 id={heading}>{spotName(spot, solved)}</h2>
        {isMany ? (
          <button
            type="button"
            className={styles.next}
            title="Grow from the next place (key G)"
            onClick={() => growNext(solved, viewStore.getState().selection)}
          >
            Next place
          </button>
        ) : null}
        <button
          type="button"
          className={styles.close}
          aria-label="Leave without growing anything"
          onClick={cancelAdding}
        >
          <X size={20} aria-hidden />
        </button>
      </header>
      <GrowChoices options={options} chosen={chosen} onChoose={choose} />
      {growth ? <GrowFields growth={growth} solved={solved} spot={spot} /> : null}
      <footer className={styles.foot}>
        <output className={styles.live}>
          {refused ? <p>{refused}</p> : null}
          {growth?.words.map((words, i) => (i === 0 ? <b key={words}>{words} </b> : <span key={words}>{words}</span>))}
          {growth?.blocked ? (
            <p className={styles.blocked} data-bad={growth.edit === null || undefined}>
              {growth.edit
                ? `Not where it was asked for, but ${growth.place?.words}: ${growth.blocked}`
                : growth.blocked}
            </p>
          ) : null}
        </output>
        {caution ? <p className={styles.caution}>{caution}</p> : null}
        <button type="submit" className={styles.put} aria-disabled={!growth?.edit || undefined}>
          Put it there
        </button>
      </footer>
    </form>
  );
}

function spotName({ shaft, gear, side }: GrowSpot, solved: Growth["next"] & object): string {
  const i = solved.index.shafts.get(shaft) ?? 0;
  const own = gear === undefined ? undefined : solved.drive.gears[solved.index.gears.get(gear) ?? -1];
  if (own) return `From gear ${gearName(solved.drive, own, i)}`;
  return `At the ${sideName(solved, i, side ?? 1)} of ${shaftName(solved.drive, i)}`;
}

/** Makes it one undo step and selects what is new; null, or the sentence on why it was refused. */
function putDown({ edit, next, option, shaft, words }: Growth): string | null {
  if (!edit || !next) return null;
  const { drive } = next;
  const own = drive.shafts[shaft]?.id ?? "";
  const isNewShaft = option.what === "stage" || option.what === "idler";
  const id = isNewShaft ? (drive.shafts.at(-1)?.id ?? "") : (drive.gears.at(-1)?.id ?? "");
  const label =
    option.what === "port" ? `what stands at ${own}` : isNewShaft ? `adding shaft ${id}` : `adding gear ${id}`;
  const why = tryEdit(edit, label);
  if (why !== null) return why;
  const selection = isNewShaft ? ({ kind: "shaft", id } as const) : ({ kind: "gear", id } as const);
  setView({ adding: null, ghost: null, ...(option.what === "port" ? {} : { selection }) });
  const what = option.what === "port" ? `Set for shaft ${own}` : `${isNewShaft ? "Shaft" : "Gear"} ${id} added`;
  announce(`${what}. ${words[0] ?? ""}`.trim());
  return null;
}

/** Another part picked in the list is the one to grow from. */
function useFollowSelection(): void {
  useEffect(
    () =>
      viewStore.subscribe(({ selection, adding }, before) => {
        if (!adding?.grow || !selection || selection === before.selection) return;
        const [spot] = growSpots(documentStore.getState().solved, selection);
        const { pointed } = growStore.getState();
        if (spot && pointed === null) growFrom(spot);
      }),
    [],
  );
}

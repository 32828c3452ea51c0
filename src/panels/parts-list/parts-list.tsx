/** The parts list: every shaft, gear, mesh and port with its units, all numbers editable in place. */
import { OctagonX, X } from "lucide-react";
import { useCallback, useEffect, useId, useMemo, useState } from "react";
import { useStore } from "zustand";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { useView } from "../../store/view";
import { hush, refusalStore } from "../edit";
import { revealStore, shaftOfPart } from "../reveal";
import { DrivenBy } from "./driven-by";
import styles from "./parts-list.module.css";
import { ShaftBlock } from "./shaft-block";

/** Shafts shown at first, and further ones at each "show more". */
const PAGE = 40;
/** Up to this many shafts all stand open at first; in longer lists only what is led to. */
const ALL_OPEN = 12;

const NO_MESHES: readonly number[] = [];

/** For each shaft the meshes that stand in its block. */
function meshesByShaft(solved: Solved): ReadonlyMap<number, readonly number[]> {
  const map = new Map<number, number[]>();
  solved.drive.meshes.forEach((mesh, i) => {
    const shaft = shaftOfPart(solved, { kind: "mesh", id: mesh.id });
    const list = map.get(shaft);
    if (list) list.push(i);
    else map.set(shaft, [i]);
  });
  return map;
}

/** Keeps an equal list the same object, so that blocks that nothing happened to are not drawn again. */
function useSteadyMeshes(solved: Solved): (shaft: number) => readonly number[] {
  const map = useMemo(() => meshesByShaft(solved), [solved]);
  const [kept] = useState(() => new Map<number, readonly number[]>());
  return (shaft) => {
    const now = map.get(shaft) ?? NO_MESHES;
    const before = kept.get(shaft);
    if (before && before.length === now.length && before.every((mesh, i) => mesh === now[i])) return before;
    kept.set(shaft, now);
    return now;
  };
}

export function PartsList() {
  const solved = useDocument((state) => state.solved);
  const opened = useDocument((state) => state.opened);
  const selection = useView((state) => state.selection);
  const wish = useStore(revealStore);
  const [shown, setShown] = useState(PAGE);
  const [folds, setFolds] = useState<ReadonlyMap<string, boolean>>(new Map());
  const [search, setSearch] = useState("");
  const meshes = useSteadyMeshes(solved);
  const { shafts } = solved.drive;

  // biome-ignore lint/correctness/useExhaustiveDependencies: a drive just opened begins with a list as at first.
  useEffect(() => {
    setShown(PAGE);
    setFolds(new Map());
    setSearch("");
  }, [opened]);

  const fold = useCallback(
    (shaft: string, open: boolean) => setFolds((before) => new Map(before).set(shaft, open)),
    [],
  );

  const chosen = selection ? shaftOfPart(solved, selection) : -1;
  const chosenId = shafts[chosen]?.id;
  const led = wish.part ? shaftOfPart(solved, wish.part) : -1;
  // biome-ignore lint/correctness/useExhaustiveDependencies: each wish unfolds once; folding it again later is the reader's right.
  useEffect(() => {
    const shaft = shafts[led];
    if (shaft) fold(shaft.id, true);
  }, [wish.count]);
  // What is selected unfolds; nothing folds by itself, or the list would slip away under the pointer.
  useEffect(() => {
    if (chosen >= 0 && chosenId !== undefined) fold(chosenId, true);
  }, [chosen, chosenId, fold]);

  const found = useMemo(() => matches(solved, search), [solved, search]);
  const listed = found.slice(0, shown);
  // What is selected or led to is in the list, however long the list.
  for (const extra of [chosen, led]) if (extra >= 0 && !listed.includes(extra)) listed.push(extra);
  const isOpen = (shaft: number): boolean => {
    const id = shafts[shaft]?.id ?? "";
    return folds.get(id) ?? shafts.length <= ALL_OPEN;
  };

  return (
    <div className={styles.list}>
      <DrivenBy />
      <Refusal />
      {shafts.length > ALL_OPEN ? <Search search={search} onSearch={setSearch} count={found.length} /> : null}
      <ul className={styles.shafts} aria-label="Shafts">
        {listed.map((shaft) => (
          <ShaftBlock key={shafts[shaft]?.id} shaft={shaft} meshes={meshes(shaft)} open={isOpen(shaft)} onFold={fold} />
        ))}
      </ul>
      {found.length > shown ? (
        <button type="button" className={styles.button} onClick={() => setShown(shown + PAGE)}>
          Show {Math.min(PAGE, found.length - shown)} more of {found.length.toLocaleString("en-GB")} shafts
        </button>
      ) : null}
    </div>
  );
}

/** Why a command could not be carried out. */
function Refusal() {
  const sentence = useStore(refusalStore, (state) => state.sentence);
  return (
    <div className={styles.refusal} role="alert" hidden={sentence === null}>
      {sentence === null ? null : (
        <>
          <OctagonX size={20} aria-hidden />
          <p>{sentence}</p>
          <button type="button" className={styles.icon} aria-label="Close this message" onClick={hush}>
            <X size={20} aria-hidden />
          </button>
        </>
      )}
    </div>
  );
}

function matches({ drive }: Solved, search: string): readonly number[] {
  const wanted = search.trim().toLowerCase();
  const all = drive.shafts.map((_, i) => i);
  if (wanted === "") return all;
  return all.filter((i) => {
    const shaft = drive.shafts[i];
    return shaft?.id.toLowerCase().includes(wanted) || shaftName(drive, i).toLowerCase().includes(wanted);
  });
}

interface SearchProps {
  readonly search: string;
  readonly onSearch: (search: string) => void;
  readonly count: number;
}

function Search({ search, onSearch, count }: SearchProps) {
  const id = useId();
  return (
    <div className={styles.search}>
      <label htmlFor={id}>Find a shaft</label>
      <input
        id={id}
        type="search"
        autoComplete="off"
        spellCheck={false}
        value={search}
        onChange={(event) => onSearch(event.target.value)}
      />
      {search.trim() !== "" ? <output className={styles.soft}>{count.toLocaleString("en-GB")} found</output> : null}
    </div>
  );
}

import { ChevronDown, ChevronRight } from "lucide-react";
import { type KeyboardEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { itemWords, type TreeItem, treeOf } from "../../engine/explain/tree";
import type { Solved } from "../../engine/solved";
import { shaftColour } from "../../store/colours";
import { useDocument } from "../../store/document";
import { hover, type Part, select, useView } from "../../store/view";
import { focusFirst } from "../beside";
import { reveal } from "../reveal";
import styles from "./structure.module.css";
import { type Row, rowsOf, stepFor, typedTo } from "./walk";

/** Up to so many shafts the whole tree stands open at first. */
const ALL_OPEN = 12;
/** Rows drawn before and after the one that one is at: a drive may have tens of thousands of parts. */
const DRAWN = 150;
/** ms within which letters belong to one word. */
const TYPING = 700;

const partOf = ({ kind, id }: TreeItem): Part => ({ kind, id });

/** The gear under which a mesh stands: a stage is added to gears and shafts, not to meshes. */
const gearAbove = (solved: Solved, item: TreeItem): Part => {
  const id = item.kind === "mesh" ? solved.drive.gears[item.under]?.id : undefined;
  return id === undefined ? partOf(item) : { kind: "gear", id };
};

/** Commands of the page that work on what is selected: the row is selected first, and the key goes on to them. */
const selects = (press: KeyboardEvent): "stage" | "remove" | null => {
  if (press.key === "Delete" || press.key === "Backspace") return "remove";
  return press.key.toLowerCase() === "a" ? "stage" : null;
};

export const StructureTree = () => {
  const solved = useDocument((state) => state.solved);
  const selection = useView((state) => state.selection);
  const tree = useMemo(() => treeOf(solved), [solved]);
  const [folds, setFolds] = useState<ReadonlyMap<string, boolean>>(new Map());
  const isAllOpen = solved.drive.shafts.length <= ALL_OPEN;
  const rows = useMemo(() => rowsOf(tree, ({ key }) => folds.get(key) ?? isAllOpen), [tree, folds, isAllOpen]);
  const [active, setActive] = useState<{ readonly key: string; readonly row: number }>(() => ({ key: "", row: 0 }));
  const host = useRef<HTMLDivElement>(null);
  /** Whether the focus is in the tree, also while the row that had it has just gone. */
  const isWithin = useRef(false);
  const typed = useRef({ word: "", time: 0 });

  const found = rows.findIndex(({ item }) => item.key === active.key);
  const at = found >= 0 ? found : Math.max(0, Math.min(active.row, rows.length - 1));
  const from = Math.max(0, at - DRAWN);
  const drawn = rows.slice(from, at + DRAWN);

  const atKey = rows[at]?.item.key ?? "";
  // biome-ignore lint/correctness/useExhaustiveDependencies: the focus follows the row that one is at, and whoever takes its place.
  useLayoutEffect(() => {
    if (isWithin.current) host.current?.querySelector<HTMLElement>('[tabindex="0"]')?.focus();
  }, [atKey, rows]);
  useEffect(() => {
    focusFirst(host.current, '[tabindex="0"]');
    isWithin.current = host.current?.contains(document.activeElement) ?? false;
    return () => hover(null);
  }, []);

  const goTo = (row: number): void => {
    const item = rows[row]?.item;
    if (item) setActive({ key: item.key, row });
  };
  const fold = (items: readonly TreeItem[], isOpen: boolean): void =>
    setFolds((before) => new Map([...before, ...items.map(({ key }) => [key, isOpen] as const)]));

  const type = (letter: string, time: number): void => {
    const word = time - typed.current.time < TYPING ? typed.current.word + letter : letter;
    typed.current = { word, time };
    const to = typedTo(
      word,
      rows.map(({ item }) => itemWords(solved, item).name),
      at,
    );
    if (to >= 0) goTo(to);
  };

  const press = (event: KeyboardEvent<HTMLDivElement>): void => {
    const row = rows[at];
    if (!row || event.ctrlKey || event.metaKey || event.altKey) return;
    const isTyping = event.timeStamp - typed.current.time < TYPING && typed.current.word !== "";
    const command = selects(event);
    if (command && !(isTyping && command === "stage")) {
      select(command === "stage" ? gearAbove(solved, row.item) : partOf(row.item));
      return;
    }
    const step = stepFor(event.key, rows, at);
    if (step?.do === "go") goTo(step.row);
    else if (step?.do === "open-level")
      fold(
        rows.filter(({ parent }) => parent === row.parent).map(({ item }) => item),
        true,
      );
    else if (step) fold([row.item], step.do === "open");
    else if (event.key === "Enter") reveal(partOf(row.item));
    else if (event.key === " " && !isTyping) select(partOf(row.item));
    else if (event.key.length === 1) type(event.key, event.timeStamp);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div
      ref={host}
      className={styles.tree}
      role="tree"
      aria-label="Structure"
      aria-describedby="structure-help"
      onKeyDown={press}
      onFocus={() => {
        isWithin.current = true;
      }}
      onBlur={(event) => {
        // A row that goes takes the focus with it and names no heir.
        if (event.relatedTarget) isWithin.current = host.current?.contains(event.relatedTarget) ?? false;
        hover(null);
      }}
    >
      {drawn.map((row, i) => (
        <TreeRow
          key={row.item.key}
          solved={solved}
          row={row}
          isActive={from + i === at}
          isSelected={selection?.kind === row.item.kind && selection.id === row.item.id}
          onGo={() => goTo(from + i)}
          onFold={(isOpen) => fold([row.item], isOpen)}
        />
      ))}
    </div>
  );
};

interface RowProps {
  readonly solved: Solved;
  readonly row: Row;
  readonly isActive: boolean;
  readonly isSelected: boolean;
  readonly onGo: () => void;
  readonly onFold: (isOpen: boolean) => void;
}

const TreeRow = ({ solved, row, isActive, isSelected, onGo, onFold }: RowProps) => {
  const { item, level, position, setSize, isOpen } = row;
  const { name, sort, facts } = useMemo(() => itemWords(solved, item), [solved, item]);
  const part = partOf(item);
  const Fold = isOpen ? ChevronDown : ChevronRight;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the tree takes the keys for all its rows.
    <div
      className={styles.row}
      role="treeitem"
      tabIndex={isActive ? 0 : -1}
      aria-level={level}
      aria-posinset={position}
      aria-setsize={setSize}
      aria-expanded={isOpen ?? undefined}
      aria-selected={isSelected}
      style={{ paddingInlineStart: `${(level - 1) * 16}px` }}
      onFocus={() => {
        onGo();
        hover(part);
      }}
      onClick={() => {
        onGo();
        select(part);
      }}
      onPointerEnter={() => hover(part)}
      onPointerLeave={() => hover(null)}
    >
      <span
        className={styles.fold}
        aria-hidden
        data-leaf={isOpen === null || undefined}
        onClick={(event) => {
          if (isOpen === null) return;
          event.stopPropagation();
          onFold(!isOpen);
        }}
      >
        {isOpen === null ? null : <Fold size={18} />}
      </span>
      <span className={styles.words}>
        <span className={styles.name}>
          {item.kind === "shaft" ? (
            <span className={styles.swatch} aria-hidden style={{ background: shaftColour(item.index).variable }} />
          ) : null}
          <b>{name}</b> <span className={styles.sort}>{sort}</span>
        </span>
        <span className={styles.facts}>{facts.join("; ")}</span>
      </span>
    </div>
  );
};

/** Walking a tree by keys, after the tree view pattern of the WAI-ARIA Authoring Practices. Pure. */
import type { TreeItem } from "../../engine/explain/tree";

/** An item as it stands in the list of those that are seen. */
export interface Row {
  readonly item: TreeItem;
  /** From 1. */
  readonly level: number;
  readonly position: number;
  readonly setSize: number;
  /** Null on an item that has nothing under it. */
  readonly isOpen: boolean | null;
  /** Place of the item above it in the tree among the rows; -1 at the top. */
  readonly parent: number;
}

/** The items that are seen: those whose parents are all open, from top to bottom. Linear, and no recursion: trees may be deep. */
export function rowsOf(tree: readonly TreeItem[], isOpen: (item: TreeItem) => boolean): Row[] {
  const rows: Row[] = [];
  const waiting: {
    readonly items: readonly TreeItem[];
    next: number;
    readonly parent: number;
    readonly level: number;
  }[] = [{ items: tree, next: 0, parent: -1, level: 1 }];
  for (let at = waiting.at(-1); at; at = waiting.at(-1)) {
    const item = at.items[at.next];
    if (!item) {
      waiting.pop();
      continue;
    }
    at.next++;
    const open = item.children.length === 0 ? null : isOpen(item);
    const { level, parent, items, next } = at;
    rows.push({ item, level, position: next, setSize: items.length, isOpen: open, parent });
    if (open) waiting.push({ items: item.children, next: 0, parent: rows.length - 1, level: level + 1 });
  }
  return rows;
}

export type Step =
  | { readonly do: "go"; readonly row: number }
  | { readonly do: "open" | "close"; readonly row: number }
  | { readonly do: "open-level"; readonly row: number };

/** What a key does from a row; null for a key that is none of the tree's. A step that leads nowhere goes to the row itself. */
export function stepFor(key: string, rows: readonly Row[], at: number): Step | null {
  const row = rows[at];
  if (!row) return null;
  const go = (to: number): Step => ({ do: "go", row: Math.max(0, Math.min(rows.length - 1, to)) });
  switch (key) {
    case "ArrowDown":
      return go(at + 1);
    case "ArrowUp":
      return go(at - 1);
    case "Home":
      return go(0);
    case "End":
      return go(rows.length - 1);
    case "ArrowRight":
      if (row.isOpen === false) return { do: "open", row: at };
      return go(row.isOpen ? at + 1 : at);
    case "ArrowLeft":
      if (row.isOpen) return { do: "close", row: at };
      return go(row.parent < 0 ? at : row.parent);
    case "*":
      return { do: "open-level", row: at };
    default:
      return null;
  }
}

/**
 * The row that typed letters lead to: the next whose name begins with them, after the present one where they are one letter (or one
 * letter again and again), from it on where they are more; the search goes round. -1 where none does.
 */
export function typedTo(typed: string, names: readonly string[], at: number): number {
  const wanted = typed.toLocaleLowerCase();
  const isOne = [...wanted].every((sign) => sign === wanted[0]);
  const sought = isOne ? (wanted[0] ?? "") : wanted;
  const begin = at + (isOne ? 1 : 0);
  for (let k = 0; k < names.length; k++) {
    const i = (begin + k) % names.length;
    if (names[i]?.toLocaleLowerCase().startsWith(sought)) return i;
  }
  return -1;
}

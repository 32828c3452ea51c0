import { Download, Save, Undo2, Upload } from "lucide-react";
import { useDeferredValue, useEffect, useMemo, useRef, useState } from "react";
import { useStore } from "zustand";
import type { Head } from "../../exchange/saved-database";
import { LONGEST_NAME } from "../../exchange/saved-drives";
import { linkStore } from "../../exchange/saved-link";
import { documentStore } from "../../store/document";
import { ClosedTabs } from "./closed-tabs";
import css from "./saved.module.css";
import { SavedCard } from "./saved-card";
import {
  exportAll,
  importFiles,
  openList,
  paintSome,
  type SavedState,
  saveAgain,
  saveAs,
  savedStore,
  undelete,
} from "./saved-store";
import { quoted, roomWords } from "./words";

const useSaved = <T,>(selector: (state: SavedState) => T): T => useStore(savedStore, selector);

/** Cards that are there at once; and so many more each so many ms, that the page answers meanwhile. */
const FIRST_CARDS = 24;
const MORE_CARDS = 60;
const CARD_PAUSE = 30;

/** ms before the first missing pictures are made, and between some and the next. */
const PAINT_START = 300;
const PAINT_PAUSE = 30;

/** Letters without marks and case, so that "armel" finds "Ärmel". */
const folded = (text: string): string => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

/** What the dialog of saved drives holds. */
export const SavedBody = () => {
  const heads = useSaved((state) => state.heads);
  const undo = useRef<HTMLButtonElement>(null);
  useEffect(openList, []);
  usePainting(heads?.length ?? 0);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the key for undo, wherever the focus is; there is a button for it.
    <div
      className={css.body}
      onKeyDown={(event) => {
        const isTyping = event.target instanceof HTMLInputElement;
        if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !isTyping) void undelete();
      }}
    >
      <SaveForm />
      <Told undo={undo} />
      {heads === null ? <p className={css.soft}>Reading the saved drives…</p> : <List heads={heads} undo={undo} />}
      {heads === null ? null : <ClosedTabs />}
      <Foot count={heads?.length ?? 0} />
    </div>
  );
};

/** Pictures that are missing (of drives that were imported) are made bit by bit while the list is open. */
const usePainting = (count: number): void => {
  const tried = useRef(new Set<string>());
  useEffect(() => {
    let timer = 0;
    let isOver = false;
    const paint = async (): Promise<void> => {
      const isMore = await paintSome(tried.current);
      if (isMore && !isOver) timer = window.setTimeout(paint, PAINT_PAUSE);
    };
    if (count > 0) timer = window.setTimeout(paint, PAINT_START);
    return () => {
      isOver = true;
      clearTimeout(timer);
    };
  }, [count]);
};

const SaveForm = () => {
  const link = useStore(linkStore, (state) => state.link);
  const title = useStore(documentStore, (state) => state.drive.title);
  const [draft, setDraft] = useState<string | null>(null);
  const name = draft ?? (link ? link.name : title);
  return (
    <form
      className={css.save}
      onSubmit={(event) => {
        event.preventDefault();
        void saveAs(name).then((isDone) => isDone && setDraft(null));
      }}
    >
      <label>
        <span>Name for the drive on the bench</span>
        <input
          className={css.field}
          value={name}
          maxLength={LONGEST_NAME}
          autoComplete="off"
          spellCheck={false}
          placeholder="Untitled drive"
          onChange={(event) => setDraft(event.target.value)}
        />
      </label>
      {link && (draft === null || draft === link.name) ? (
        <button type="button" data-strong onClick={() => void saveAgain()}>
          <Save aria-hidden size={18} />
          Save over {quoted(link.name)}
        </button>
      ) : null}
      <button type="submit" data-strong={link === null || undefined}>
        {link ? "Save as another" : "Save"}
      </button>
    </form>
  );
};

const Told = ({ undo }: { readonly undo: React.RefObject<HTMLButtonElement | null> }) => {
  const told = useSaved((state) => state.told);
  const last = useSaved((state) => state.deleted.at(-1));
  return (
    <div className={css.told} role={told?.tone === "alert" ? "alert" : "status"} data-tone={told?.tone}>
      {told ? <p>{told.text}</p> : null}
      {last ? (
        <button ref={undo} type="button" onClick={() => void undelete()}>
          <Undo2 aria-hidden size={18} />
          Undo deleting {quoted(last.head.name)}
        </button>
      ) : null}
    </div>
  );
};

interface ListProps {
  readonly heads: readonly Head[];
  readonly undo: React.RefObject<HTMLButtonElement | null>;
}

const List = ({ heads, undo }: ListProps) => {
  const [sought, setSought] = useState("");
  const onBench = useStore(linkStore, (state) => state.link?.id);
  const words = useDeferredValue(sought);
  const found = useMemo(() => {
    const parts = folded(words).split(/\s+/).filter(Boolean);
    if (parts.length === 0) return heads;
    return heads.filter(({ name }) => {
      const text = folded(name);
      return parts.every((part) => text.includes(part));
    });
  }, [heads, words]);
  const shown = useGrowing(found.length);
  const focusUndo = useMemo(() => () => requestAnimationFrame(() => undo.current?.focus()), [undo]);
  if (heads.length === 0) {
    return <p className={css.soft}>No drive is saved in this browser yet. Name the one on the bench, and save it.</p>;
  }
  return (
    <section aria-label="List of saved drives">
      <div className={css.search}>
        <input
          type="search"
          className={css.field}
          aria-label="Search by name"
          placeholder="Search by name"
          value={sought}
          onChange={(event) => setSought(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== "Escape" || sought === "") return;
            event.preventDefault();
            event.stopPropagation();
            setSought("");
          }}
        />
        <span role="status">{countWords(heads.length, found.length)}</span>
      </div>
      {found.length === 0 ? <p className={css.soft}>No saved drive has that in its name.</p> : null}
      <ul className={css.list}>
        {found.slice(0, shown).map((head) => (
          <SavedCard key={head.id} head={head} isOnBench={head.id === onBench} onRemoved={focusUndo} />
        ))}
      </ul>
    </section>
  );
};

/** How many of so many cards are there by now. */
const useGrowing = (count: number): number => {
  const [shown, setShown] = useState(FIRST_CARDS);
  useEffect(() => {
    if (shown >= count) return;
    const timer = setTimeout(() => setShown(shown + MORE_CARDS), CARD_PAUSE);
    return () => clearTimeout(timer);
  }, [shown, count]);
  return shown;
};

const countWords = (all: number, found: number): string => {
  const drives = all === 1 ? "1 drive" : `${all} drives`;
  return found === all ? drives : `${found} of ${drives}`;
};

const Foot = ({ count }: { readonly count: number }) => {
  const room = useSaved((state) => state.room);
  const picker = useRef<HTMLInputElement>(null);
  return (
    <footer className={css.foot}>
      <div>
        <button type="button" aria-disabled={count === 0 || undefined} onClick={() => count > 0 && void exportAll()}>
          <Download aria-hidden size={18} />
          Export all
        </button>
        <button type="button" onClick={() => picker.current?.click()}>
          <Upload aria-hidden size={18} />
          Import…
        </button>
        <input
          ref={picker}
          type="file"
          hidden
          multiple
          accept=".json,application/json"
          onChange={(event) => {
            const files = [...(event.target.files ?? [])];
            // So that the same file can be chosen again.
            event.target.value = "";
            if (files.length > 0) void importFiles(files);
          }}
        />
      </div>
      <p className={css.soft}>They stay in this browser, on this machine. {room ? roomWords(room) : ""}</p>
    </footer>
  );
};

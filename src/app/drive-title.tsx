import { useEffect, useState } from "react";
import { setTitle } from "../engine/drive/commands/shaft";
import { perform, useDocument } from "../store/document";
import css from "./header.module.css";

/** Letters; a title is one line. */
const LONGEST = 200;

/** The drive's title, edited where it stands. Enter or leaving the field makes it one undo step, Escape takes it back. */
export const DriveTitle = () => {
  const title = useDocument((state) => state.drive.title);
  const [draft, setDraft] = useState<string | null>(null);

  useEffect(() => {
    document.title = `${title || "Untitled drive"} · Turnwise`;
  }, [title]);

  const settle = (): void => {
    const wanted = draft?.trim();
    setDraft(null);
    if (wanted === undefined || wanted === title) return;
    perform(setTitle(wanted), "the title");
  };

  return (
    <input
      className={css.title}
      aria-label="Title of the drive"
      placeholder="Untitled drive"
      maxLength={LONGEST}
      autoComplete="off"
      spellCheck={false}
      value={draft ?? title}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={settle}
      onKeyDown={(event) => {
        if (event.key === "Enter") event.currentTarget.blur();
        if (event.key === "Escape" && draft !== null) {
          event.stopPropagation();
          setDraft(null);
        }
      }}
    />
  );
};

import { useEffect, useState } from "react";
import { parseDrive } from "../../engine/drive/parse";
import type { Drive } from "../../engine/drive/types";
import { type Kept, leftInClosedTabs } from "../../exchange/slots";
import { openDrive } from "../../store/document";
import { announce, setView } from "../../store/view";
import { showDialog } from "../dialogs/dialog-store";
import css from "./saved.module.css";
import { contentWords } from "./words";

interface Left {
  readonly at: number;
  readonly drive: Drive;
}

const read = (kept: readonly Kept[]): readonly Left[] =>
  kept.flatMap(({ text, at }) => {
    const { drive } = parseDrive(text);
    return drive ? [{ at, drive }] : [];
  });

const open = ({ drive }: Left): void => {
  showDialog(null);
  openDrive(drive, { keepHistory: true, label: "opening a drive of a closed tab" });
  setView({ selection: null, adding: null, ghost: null });
  announce(`Opened ${drive.title || "the drive"}. Undo brings back the drive before.`);
};

/** Drives that were on the bench of tabs which are closed now: a new tab goes on with the last of them alone. */
export const ClosedTabs = () => {
  const [left, setLeft] = useState<readonly Left[]>([]);
  useEffect(() => {
    let isOver = false;
    leftInClosedTabs().then(
      (kept) => isOver || setLeft(read(kept)),
      () => undefined,
    );
    return () => {
      isOver = true;
    };
  }, []);
  if (left.length === 0) return null;
  return (
    <section className={css.closed}>
      <h3>On the bench in tabs that are closed</h3>
      <p className={css.soft}>The last eight are kept. Save those that you want to find again.</p>
      <ul className={css.list}>
        {left.map((one) => (
          <li key={one.at} className={css.card}>
            <button type="button" className={css.open} onClick={() => open(one)}>
              <strong>{one.drive.title || "Untitled drive"}</strong>
              <span>
                {contentWords({ gears: one.drive.gears.length, shafts: one.drive.shafts.length, at: one.at })}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};

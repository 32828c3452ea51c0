import { type ComponentType, useEffect, useState } from "react";
import { noticeStore, notify, type RefusedFile, refuse, useNotices } from "../../exchange/notices";
import { dialogStore, showDialog, useDialog } from "./dialog-store";
import css from "./dialogs.module.css";

type Boxes = typeof import("./boxes");

/** The dialogs did not come: what was wanted is put away, and offered again. */
const missed = (): void => {
  const { open } = dialogStore.getState();
  const { refused } = noticeStore.getState();
  showDialog(null);
  refuse(null);
  notify({
    tone: "alert",
    text: refused
      ? `${refused.name} was not opened, and nothing was changed; the list of its faults could not be loaded.`
      : "The dialog could not be loaded. Everything else works without it.",
    action: {
      words: "Try again",
      run: () => {
        refuse(refused);
        showDialog(open);
      },
    },
  });
};

/** The dialog that is open, if one is; all of them come with the first. */
export const Dialogs = () => {
  const open = useDialog();
  const refused: RefusedFile | null = useNotices((state) => state.refused);
  const [boxes, setBoxes] = useState<Boxes | null>(null);
  const isWanted = open !== null || refused !== null;

  useEffect(() => {
    if (isWanted && !boxes) import("./boxes").then(setBoxes, missed);
  }, [isWanted, boxes]);

  if (!boxes) {
    return isWanted ? (
      <p className={css.waiting} role="status">
        The dialog is on its way.
      </p>
    ) : null;
  }
  if (refused) return <boxes.RefusedDialog file={refused} />;
  const Open: ComponentType | null = open && boxes.BOXES[open];
  return Open && <Open />;
};

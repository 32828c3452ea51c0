import { type ComponentType, useEffect, useState } from "react";
import { type RefusedFile, useNotices } from "../../exchange/notices";
import { announce } from "../../store/view";
import { showDialog, useDialog } from "./dialog-store";

type Boxes = typeof import("./boxes");

/** The dialog that is open, if one is; all of them come with the first. */
export const Dialogs = () => {
  const open = useDialog();
  const refused: RefusedFile | null = useNotices((state) => state.refused);
  const [boxes, setBoxes] = useState<Boxes | null>(null);
  const isWanted = open !== null || refused !== null;

  useEffect(() => {
    if (!isWanted || boxes) return;
    import("./boxes").then(setBoxes, () => {
      showDialog(null);
      announce("The dialog could not be loaded. Try again.");
    });
  }, [isWanted, boxes]);

  if (!boxes) return null;
  if (refused) return <boxes.RefusedDialog file={refused} />;
  const Open: ComponentType | null = open && boxes.BOXES[open];
  return Open && <Open />;
};

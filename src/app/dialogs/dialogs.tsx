import { useNotices } from "../../exchange/notices";
import { useDialog } from "./dialog-store";
import { KeysDialog } from "./keys-dialog";
import { MenuDialog } from "./menu-dialog";
import { RefusedDialog } from "./refused-dialog";
import { SamplesDialog } from "./samples-dialog";

/** The dialog that is open, if one is. */
export const Dialogs = () => {
  const open = useDialog();
  const refused = useNotices((state) => state.refused);
  if (refused) return <RefusedDialog file={refused} />;
  if (open === "keys") return <KeysDialog />;
  if (open === "samples") return <SamplesDialog />;
  if (open === "menu") return <MenuDialog />;
  return null;
};

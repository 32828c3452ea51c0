import { SpacePanel } from "../../panels/space/space-panel";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";

/** The space that the drive must fit, and the clearance of two parts. */
export const SpaceDialog = () => (
  <Dialog title="Space and clearance" onClose={() => showDialog(null)}>
    <SpacePanel />
  </Dialog>
);

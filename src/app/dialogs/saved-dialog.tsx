import { OnDemand } from "../on-demand";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";

const load = async () => (await import("../saved/saved-body")).SavedBody;

const WORDS = {
  waiting: "The saved drives are on their way.",
  failed: "The list of saved drives could not be loaded. The drives are still there, and everything else works.",
  again: "Load the list again",
};

/** Drives saved in the browser, by name; what is in it comes when it is first opened. */
export const SavedDialog = () => (
  <Dialog title="Saved drives" onClose={() => showDialog(null)}>
    <OnDemand load={load} words={WORDS} />
  </Dialog>
);

import type { ComponentType } from "react";
import { OnDemand } from "../../on-demand";
import { Dialog } from "../dialog";
import { showDialog } from "../dialog-store";

const load = async (): Promise<ComponentType> => (await import("./share-contents")).ShareContents;

const WORDS = {
  waiting: "The link is being made.",
  failed: "The link could not be made, since a part of the page could not be loaded. Everything else works without it.",
  again: "Try again",
};

/** Handing the drive on as a link, and opening one that was handed on; what makes links comes when it is first shown. */
export const ShareDialog = () => (
  <Dialog title="Share this drive" onClose={() => showDialog(null)}>
    <OnDemand load={load} words={WORDS} />
  </Dialog>
);

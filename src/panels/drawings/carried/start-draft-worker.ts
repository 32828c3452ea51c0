/** A worker that draws, in the one file to carry: its script is within the page. */
import Drafter from "../draft-worker?worker&inline";

export const startDraftWorker = (): Worker => new Drafter();

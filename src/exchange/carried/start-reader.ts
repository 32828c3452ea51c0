/** A worker that reads texts, in the one file to carry: its script is within the page. */
import Reader from "../read-worker?worker&inline";

export const startReader = (): Worker => new Reader();

/**
 * What follows `#` in the address: the drive of a link is opened at the start of the page and whenever the address
 * changes. Then it is taken out of the address, which else would contradict the next edit.
 */
import { notify } from "../exchange/notices";
import { showDialog } from "./dialogs/dialog-store";

/** Where the page's own skip links lead (layout.tsx). */
export const OWN_PLACES: readonly string[] = ["#parts", "#bench"];

/** Counts the links that came, so that the last one wins however long its opener takes. */
let count = 0;

const takeOut = (): void => {
  try {
    window.history.replaceState(window.history.state, "", window.location.href.replace(/#.*$/s, ""));
  } catch {
    // A page that may not change its address opens the link again when it is loaded again, no more.
  }
};

/** Whether a drive stands in the address, or what is meant to be one. */
export const hasLink = (): boolean => window.location.hash.length > 1 && !OWN_PLACES.includes(window.location.hash);

/** Opens the drive of the address, if one stands there. `isFirst` tells whether nobody has made or opened a drive yet. */
export const openAddress = async (isFirst: () => boolean): Promise<void> => {
  if (!hasLink()) return;
  const { hash } = window.location;
  count += 1;
  const mine = count;
  try {
    const { openHash } = await import("../exchange/share/open-link");
    if (mine !== count) return;
    // An open dialog would hide what is told.
    showDialog(null);
    openHash(hash, isFirst());
    takeOut();
  } catch {
    // The link stays in the address, so that loading the page again tries it again.
    notify({
      tone: "alert",
      text: "The link was not opened, since a part of the page could not be loaded: load the page again.",
    });
  }
};

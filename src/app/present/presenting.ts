/** Beginning and ending a presentation: on the whole screen where the browser lets the page have it, else in the whole window. */
import { setView, viewStore } from "../../store/view";

const nothing = (): void => undefined;

/** What had the focus before. */
let from: Element | null = null;

export const startPresenting = (): void => {
  from = document.activeElement;
  setView({ presenting: true });
  // A refusal is no fault: the window serves as well.
  document.documentElement.requestFullscreen?.({ navigationUI: "hide" }).catch(nothing);
};

export const stopPresenting = (): void => {
  setView({ presenting: false });
  if (document.fullscreenElement === document.documentElement) document.exitFullscreen().catch(nothing);
  giveBack();
};

/** ms between tries, and how many: what had the focus takes it only once it is seen again, some frames on. */
const AGAIN = 40;
const TRIES = 50;

/** Gives the focus back to what had it; where that was a menu, or nothing, to the bench. */
function giveBack(tries = TRIES): void {
  setTimeout(() => {
    if (viewStore.getState().presenting) return;
    const back = from instanceof HTMLElement && from !== document.body && from.isConnected ? from : null;
    const { activeElement: now } = document;
    // Somebody went on elsewhere meanwhile.
    if (tries < TRIES && now !== null && now !== document.body && now !== back && now.id !== "bench") return;
    back?.focus();
    if (back && document.activeElement === back) return;
    if (back && tries > 0) giveBack(tries - 1);
    else document.getElementById("bench")?.focus();
  }, AGAIN);
}

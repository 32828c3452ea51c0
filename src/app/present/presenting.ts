/** Beginning and ending a presentation: on the whole screen where the browser lets the page have it, else in the whole window. */
import { setView } from "../../store/view";

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
  // Once the page is seen again; where a menu or nothing had it, the bench gets it.
  setTimeout(() => {
    const back = from instanceof HTMLElement && from !== document.body && from.isConnected ? from : null;
    back?.focus();
    if (document.activeElement !== back) document.getElementById("bench")?.focus();
  });
};

/** A notice that is in no hurry: it waits for its turn, and comes back where another one took its place. */
import { type Notice, noticeStore, notify } from "../../exchange/notices";
import { isDragging } from "../../store/document";

/** ms between two looks whether the place is free. */
const LOOK = 1000;
/** ms after which a polite notice has been read, and may give way. */
const READ = 10_000;

/** Shows `notice` until it is answered or closed; never in the middle of a drag, and never in the place of an alert. */
export const offerWhenFree = (notice: Notice): void => {
  let since = Date.now();
  let isShown = false;

  const look = (): void => {
    const { notice: other } = noticeStore.getState();
    if (isDragging() || other === notice) return;
    if (other === null || (other.tone === "polite" && Date.now() - since >= READ)) notify(notice);
  };
  const stop = noticeStore.subscribe(({ notice: now }) => {
    since = Date.now();
    if (isShown && now === null) {
      clearInterval(timer);
      stop();
    }
    isShown = now === notice;
  });
  const timer = setInterval(look, LOOK);
  look();
};

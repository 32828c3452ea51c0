/** Has the browser keep the page's files, and offers a newer version when it is there. Nothing is loaded anew unasked. */
import { keepOpenDrive } from "../../exchange/autosave";
import { notify } from "../../exchange/notices";
import { pageFolder, type Word } from "./cache-name";
import { offerWhenFree } from "./offer";

/** ms between two looks for a newer version while the page stays open; the browser looks by itself when a page is loaded. */
const LOOK_AGAIN = 3_600_000;
/** ms for the newer version to take over; after that the page is loaded anew all the same. */
const PATIENCE = 3000;

const say = (worker: ServiceWorker | null, word: Word): void => worker?.postMessage(word);

/** Keeps the drive, lets the newer version take over, and loads the page anew. Where the drive can't be kept, all stays. */
const changeOver = async (registration: ServiceWorkerRegistration): Promise<void> => {
  if (!(await keepOpenDrive())) {
    notify({
      tone: "alert",
      text: "The new version waits, because your drive could not be kept: save it as a file, then load the page again.",
    });
    return;
  }
  // Null where another tab has let it take over already.
  const { waiting } = registration;
  if (waiting) {
    await new Promise((settle) => {
      navigator.serviceWorker.addEventListener("controllerchange", settle, { once: true });
      setTimeout(settle, PATIENCE);
      say(waiting, "take over");
    });
  }
  window.location.reload();
};

export const watchVersions = async (): Promise<void> => {
  let registration: ServiceWorkerRegistration;
  try {
    registration = await navigator.serviceWorker.register(new URL("service-worker.js", pageFolder()), {
      updateViaCache: "none",
    });
  } catch {
    // The browser does not let pages keep their files, or the host has no such file: the page works while there is a net.
    return;
  }
  say(registration.active, "tidy");

  let offered: ServiceWorker | null = null;
  const offer = (): void => {
    const { active, waiting } = registration;
    if (!active || !waiting || waiting === offered) return;
    offered = waiting;
    offerWhenFree({
      tone: "polite",
      text: "There is a new version. Your drive stays open.",
      action: { words: "Use the new version", run: () => void changeOver(registration) },
    });
  };
  const follow = (): void => registration.installing?.addEventListener("statechange", offer);
  registration.addEventListener("updatefound", follow);
  follow();
  offer();

  let looked = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible" || Date.now() - looked < LOOK_AGAIN) return;
    looked = Date.now();
    registration.update().catch(() => undefined);
  });
};

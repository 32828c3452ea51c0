import "./theme.css";
import { createRoot } from "react-dom/client";
import { autosave, cameUp, recover } from "../exchange/autosave";
import { notify } from "../exchange/notices";
import { onDrivesFile, onLessonFile } from "../exchange/open";
import { documentStore, openDrive } from "../store/document";
import { hasLink, openAddress } from "./address";
import { App } from "./app";
import { run } from "./commands/command";
import { newCommand } from "./commands/file-commands";
import { listenForKeys } from "./commands/keys";
import { COMMANDS } from "./commands/list";
import { showDialog } from "./dialogs/dialog-store";
import { followFolds } from "./folds";
import { followPlace } from "./lesson/going-on";
import { withLessons } from "./lesson/with-lessons";
import { PHONE } from "./media";
import { openingDrive } from "./opening-drive";
import { loadPhoneTabs } from "./phone-sheet";
import { followTheme } from "./theme";
import { followVersions } from "./versions/follow-versions";

/** ms that the page waits for the drive from before; a storage that answers later brings it in all the same. */
const PATIENCE = 400;

/** ms that a link waits for the drive from before: longer than for a tab that is asleep and may hold it (tab-locks.ts). */
const BEFORE_LINK = 5000;

/** ms that the page waits for the link of its address to be opened: nobody who follows a link wants to see another drive first. */
const LINK_PATIENCE = 2000;

/** ms after which a drive that was brought back is taken to be no danger to the page. */
const HEALTHY = 5000;

const waited = (ms: number): Promise<void> => new Promise((settle) => setTimeout(settle, ms));

/** A file of several drives goes to the saved ones, which then stand open to choose from. */
const importDrives = (file: File): void => {
  showDialog("saved");
  import("./saved/saved-store")
    .then(({ importFiles }) => importFiles([file]))
    .catch(() =>
      notify({
        tone: "alert",
        text: `${file.name} was not imported, since a part of the page could not be loaded: load the page again.`,
      }),
    );
};

const beginLesson = (text: string, name: string): void => {
  withLessons(({ startLesson }) =>
    import("../exchange/lessons").then(({ lessonFrom }) => {
      const lesson = lessonFrom(text, name);
      if (lesson) startLesson(lesson);
    }),
  );
};

const start = async (): Promise<void> => {
  followTheme();
  openDrive(openingDrive());
  const { drive: atStart } = documentStore.getState();
  const isFirst = (): boolean => documentStore.getState().drive === atStart;
  followFolds();
  // Where this fails the sheet asks again, and says so.
  if (window.matchMedia(PHONE).matches) loadPhoneTabs().catch(() => undefined);
  const recovered = recover(() => run(newCommand));
  // A link wins over the drive from before, which it leaves one undo step away: that must be there first.
  const before = Promise.race([recovered, waited(hasLink() ? BEFORE_LINK : PATIENCE)]);
  if (!hasLink()) await before;
  autosave();
  await Promise.race([before.then(() => openAddress(isFirst)), waited(LINK_PATIENCE)]);
  window.addEventListener("hashchange", () => void openAddress(isFirst));
  onDrivesFile(importDrives);
  onLessonFile(beginLesson);
  listenForKeys(COMMANDS);
  followPlace();
  const root = document.getElementById("root");
  if (!root) return;
  createRoot(root).render(<App />);
  // A page that was left, or has run for a while, had no trouble with its drive.
  window.addEventListener("pagehide", cameUp);
  setTimeout(cameUp, HEALTHY);
  // The page of a server; neither that of the development server nor the one file to carry.
  if (import.meta.env.MODE === "production") void followVersions();
};

void start();

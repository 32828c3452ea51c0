/** Leaving a presentation brings the page back as it was: what is looked at, from where, in which theme, running or not. */
import { keepEye } from "../../bench/camera";
import { setShown, shownStore } from "../../panels/workings/shown";
import { clockStore } from "../../store/clock";
import { documentStore } from "../../store/document";
import { lessonStore } from "../../store/lesson-state";
import { setView, viewStore } from "../../store/view";

/** Remembers all that; what is returned brings it back. Another drive that was opened meanwhile keeps its own eye and selection. */
export function keepPage(): () => void {
  const { selection, theme, aside, sideTab, sheet, panels } = viewStore.getState();
  const { playing } = clockStore.getState();
  const { ratio, lines } = shownStore.getState();
  const { opened } = documentStore.getState();
  const led = lessonStore.getState();
  const backToEye = keepEye();
  return () => {
    setView({ theme, hover: null });
    // After the workings that were presented have gone, which show every line again.
    setTimeout(() => setShown({ ratio, lines }));
    // A lesson that has gone on meanwhile has the page as its step says.
    const { lesson, at } = lessonStore.getState();
    if (lesson && (lesson !== led.lesson || at !== led.at)) return;
    setView({ sideTab, sheet, panels });
    clockStore.setState({ playing });
    if (documentStore.getState().opened === opened) {
      setView({ selection, aside });
      backToEye();
    }
  };
}

/** Where a lesson stands beside the bench while one is walked through; or the offer of the open drive's own. */
import { useLesson } from "../../store/lesson-state";
import { useView } from "../../store/view";
import { Guarded } from "../guarded";
import css from "../layout.module.css";
import { OnDemand } from "../on-demand";
import { OwnOffer } from "./own-offer";

const loadCard = async () => (await import("./lesson-here")).LessonHere;

const WORDS = {
  waiting: "The lesson is on its way.",
  failed: "The lesson could not be loaded. Everything else works without it.",
  again: "Load the lesson again",
};

export const LessonSlot = () => {
  const isOn = useLesson((state) => state.lesson !== null);
  const isOffered = useLesson((state) => state.isOffered);
  // A presentation shows it as a panel of its own.
  const isPresenting = useView((state) => state.presenting);
  if (isPresenting) return null;
  if (isOn) {
    return (
      <div className={css.lesson}>
        <Guarded region="The lesson">
          <OnDemand load={loadCard} words={WORDS} />
        </Guarded>
      </div>
    );
  }
  return isOffered ? <OwnOffer /> : null;
};

import { notNow } from "../../store/lesson-state";
import css from "./own-offer.module.css";
import { withLessons } from "./with-lessons";

/** The open drive came with a lesson of its own: begun by whoever learns, put away by whoever is at work on it. */
export const OwnOffer = () => (
  <section className={css.offer} aria-label="Lesson of this drive">
    <p>This drive comes with a lesson of its own.</p>
    <button type="button" className={css.main} onClick={() => withLessons(({ startOwnLesson }) => startOwnLesson())}>
      Walk through it
    </button>
    <button type="button" className={css.button} onClick={notNow}>
      Not now
    </button>
  </section>
);

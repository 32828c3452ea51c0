import { useView } from "../store/view";
import { Guarded } from "./guarded";
import css from "./layout.module.css";
import { OnDemand } from "./on-demand";
import { AddStage, Answers } from "./regions";

/** A desk does without the tabs at first; main.tsx asks for them early on a phone. */
export const loadPhoneTabs = async () => (await import("./phone-tabs")).PhoneTabs;

const TABS_WORDS = {
  waiting: "The sheet is on its way.",
  failed: "The sheet with readouts and parts could not be loaded.",
  again: "Load the sheet again",
};

/** The one sheet of a phone: readouts, parts, workings and findings as tabs, or the stage that is being added. */
export const PhoneSheet = () => {
  const adding = useView((state) => state.adding !== null);
  const asking = useView((state) => state.asking !== null);
  return (
    <section
      className={css.sheet}
      aria-label={adding ? "Add a stage" : asking ? "Changes" : "Readouts, parts, workings and findings"}
      id="parts"
      tabIndex={-1}
    >
      {adding ? (
        <div className={css.scroll}>
          <Guarded region="Adding a stage">
            <AddStage />
          </Guarded>
        </div>
      ) : asking ? (
        <div className={css.scroll}>
          <Guarded region="Looking for changes">
            <Answers />
          </Guarded>
        </div>
      ) : (
        <Guarded region="The sheet">
          <OnDemand load={loadPhoneTabs} words={TABS_WORDS} />
        </Guarded>
      )}
    </section>
  );
};

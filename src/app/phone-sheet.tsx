import { useEffect } from "react";
import { revealStore } from "../panels/reveal";
import { setView, useView } from "../store/view";
import { Guarded } from "./guarded";
import css from "./layout.module.css";
import { OnDemand } from "./on-demand";
import { AddStage, Answers, ASIDES, Grow } from "./regions";

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
  const growing = useView((state) => state.adding?.grow !== undefined);
  const asking = useView((state) => state.asking !== null);
  const aside = useView((state) => state.aside);
  const beside = aside && !adding && !asking ? ASIDES[aside] : null;
  const title = adding ? "Add a stage" : asking ? "Changes" : beside?.title;
  // What leads to a part leads to the parts list, and there is one sheet.
  useEffect(() => revealStore.subscribe(() => setView({ aside: null })), []);
  return (
    <section
      className={css.sheet}
      aria-label={title ?? "Readouts, parts, workings and findings"}
      id="parts"
      tabIndex={-1}
    >
      {adding ? (
        <div className={css.scroll}>
          <Guarded region="Adding a stage">{growing ? <Grow /> : <AddStage />}</Guarded>
        </div>
      ) : asking ? (
        <div className={css.scroll}>
          <Guarded region="Looking for changes">
            <Answers />
          </Guarded>
        </div>
      ) : beside ? (
        <Guarded key={beside.title} region={beside.title}>
          <beside.Panel />
        </Guarded>
      ) : (
        <Guarded region="The sheet">
          <OnDemand load={loadPhoneTabs} words={TABS_WORDS} />
        </Guarded>
      )}
    </section>
  );
};

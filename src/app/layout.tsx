/** The one page: header, parts list, bench with its transport bar, workings and findings, readouts; on a phone a sheet. */

import { useLesson } from "../store/lesson-state";
import { useView } from "../store/view";
import { Header } from "./header";
import css from "./layout.module.css";
import { BenchRegion, PartsRegion, ReadoutsRegion, SideRegion } from "./layout-regions";
import { LessonSlot } from "./lesson/lesson-slot";
import { PHONE, useMedia } from "./media";
import { Notices } from "./notices";
import { PhoneSheet } from "./phone-sheet";

export const Layout = () => {
  const phone = useMedia(PHONE);
  const panels = useView((state) => state.panels);
  const isBeside = useView(
    ({ adding, asking, aside }) => (adding !== null && !adding.grow) || asking !== null || aside !== null,
  );
  const isWide = useView(({ adding, asking, aside }) => !adding && !asking && aside === "drawings");
  const isLesson = useLesson((state) => state.lesson !== null);
  return (
    <div
      className={css.page}
      data-layout={phone ? "phone" : "desk"}
      data-parts={panels.parts ? "open" : "folded"}
      data-side={panels.side || isBeside ? "open" : "folded"}
      data-wide={isWide || undefined}
      data-lesson={isLesson || undefined}
    >
      <a className={css.skip} href="#parts">
        To the parts list
      </a>
      <a className={css.skip} href="#bench">
        To the bench
      </a>
      <Header phone={phone} />
      <Notices />
      {/* The bench keeps its place among its sisters, so that turning a phone does not build it anew. */}
      <LessonSlot />
      {phone ? null : <PartsRegion />}
      <BenchRegion phone={phone} />
      {phone ? null : <SideRegion />}
      {phone ? <PhoneSheet /> : <ReadoutsRegion />}
    </div>
  );
};

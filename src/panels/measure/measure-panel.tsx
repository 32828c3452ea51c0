/** Measures between two parts, and the notes pinned to the drive. */
import { useEffect, useRef } from "react";
import { beginMeasuring } from "../../store/measuring";
import { AsideHead } from "../aside-head";
import { focusFirst } from "../beside";
import styles from "./measure.module.css";
import { NoteList } from "./note-list";
import { Ruler } from "./ruler";

export const MeasurePanel = () => {
  const body = useRef<HTMLDivElement>(null);
  useEffect(() => {
    beginMeasuring();
    focusFirst(body.current);
  }, []);
  return (
    <section className={styles.panel} aria-label="Measures and notes">
      <AsideHead title="Measure and notes" />
      <div ref={body} className={styles.body}>
        <Ruler />
        <NoteList />
      </div>
    </section>
  );
};

/**
 * Changes asked for: a wish for a shaft, a pair between two shafts, a loop made to fit, planets round a carrier. What is looked at
 * stands on the bench as a ghost; what is chosen is one undo step; Escape leaves all as it was.
 */
import { useEffect, useId, useRef } from "react";
import type { Solved } from "../../engine/solved";
import { nameText } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { type Asking, useView } from "../../store/view";
import { useFocusWithin, useLeaveOnEscape } from "../beside";
import { PanelHead } from "../panel-head";
import styles from "./answers.module.css";
import { FitPanel } from "./fit-panel";
import { JoinPanel } from "./join-panel";
import { RepeatPanel } from "./repeat-panel";
import { leaveAsking, useFollowPicked } from "./while-asking";
import { nameOf } from "./wish-choice";
import { WishPanel } from "./wish-panel";

const isThere = ({ index }: Solved, asking: Asking): boolean =>
  asking.kind === "fit" ? index.meshes.has(asking.mesh) : index.shafts.has(asking.shaft);

const titleOf = (solved: Solved, asking: Asking): string => {
  switch (asking.kind) {
    case "wish":
      return "Wishes";
    case "join":
      return "Join two shafts";
    case "fit":
      return `Fit mesh ${nameText(asking.mesh)}`;
    case "repeat":
      return `Repeat ${nameOf(solved, asking.shaft)} round the carrier`;
  }
};

export function Answers() {
  const asking = useView((state) => state.asking);
  const isGone = useDocument(({ solved }) => asking !== null && !isThere(solved, asking));
  // What was asked about may go meanwhile: an undo, another drive.
  useEffect(() => {
    if (isGone) leaveAsking();
  }, [isGone]);
  return asking && !isGone ? <AnswersTo asking={asking} /> : null;
}

function AnswersTo({ asking }: { readonly asking: Asking }) {
  const title = useDocument(({ solved }) => titleOf(solved, asking));
  const panel = useRef<HTMLElement>(null);
  const heading = useId();
  useFocusWithin(panel, "[data-body] :is(input, select, button)");
  useLeaveOnEscape(leaveAsking);
  useFollowPicked();
  return (
    <section ref={panel} className={styles.panel} aria-labelledby={heading}>
      <PanelHead id={heading} title={title} closeName={`Close: ${title}`} onClose={leaveAsking} />
      <div className={styles.body} data-body>
        {asking.kind === "wish" ? <WishPanel key={asking.shaft} shaft={asking.shaft} /> : null}
        {asking.kind === "join" ? <JoinPanel key={asking.shaft} shaft={asking.shaft} to={asking.to} /> : null}
        {asking.kind === "fit" ? <FitPanel mesh={asking.mesh} /> : null}
        {asking.kind === "repeat" ? <RepeatPanel shaft={asking.shaft} /> : null}
      </div>
    </section>
  );
}

/** Repeating a planet round its carrier: which numbers can be assembled, and what would touch. */
import { useMemo } from "react";
import { repeatChoices } from "../../engine/wishes/repeat";
import { useDocument } from "../../store/document";
import styles from "./answers.module.css";
import { ChangeList } from "./change-list";
import { Found } from "./found";
import { useAnswer } from "./while-asking";

export function RepeatPanel({ shaft }: { readonly shaft: string }) {
  const solved = useDocument((state) => state.solved);
  const find = useMemo(() => () => repeatChoices(solved, shaft), [solved, shaft]);
  const answer = useAnswer(find);
  const choices = answer && "choices" in answer ? answer.choices : [];
  return (
    <Found isAsked isFound={answer !== null} cannot={answer && "cannot" in answer ? answer.cannot : null}>
      {answer && "summary" in answer ? <p role="status">{answer.summary}</p> : null}
      <ChangeList label="Numbers of planets" shaft={shaft} changes={choices.flatMap(({ change }) => change ?? [])} />
      {choices.some(({ why }) => why) ? (
        <ul className={styles.also} aria-label="Numbers that can't be">
          {choices.flatMap(({ why }) => (why ? [<li key={why}>{why}</li>] : []))}
        </ul>
      ) : null}
    </Found>
  );
}

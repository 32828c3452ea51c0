/** Joining two placed shafts: the other shaft, a ratio if one is wanted, and the pairs that fit; or the nearest moves. */
import { useId, useMemo, useState } from "react";
import { parseRatio } from "../../engine/design/parse-ratio";
import { type JoinAnswer, joinChoices } from "../../engine/wishes/join";
import type { JoinMove } from "../../engine/wishes/join-choice";
import { useDocument } from "../../store/document";
import { setView } from "../../store/view";
import { doEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import styles from "./answers.module.css";
import { ChangeList } from "./change-list";
import { Found } from "./found";
import { useAnswer } from "./while-asking";
import { nameOf } from "./wish-choice";

interface Props {
  readonly shaft: string;
  readonly to?: string;
}

const MOST_CHOICES = 300;
const NONE = "none";

export function JoinPanel({ shaft, to }: Props) {
  const solved = useDocument((state) => state.solved);
  const [text, setText] = useState("");
  const id = useId();
  const typed = text.trim() === "" ? null : parseRatio(text);
  const isBad = typed !== null && !typed.ok;
  const find = useMemo(() => {
    if (to === undefined || isBad) return null;
    const read = text.trim() === "" ? null : parseRatio(text);
    return (): JoinAnswer => joinChoices(solved, shaft, to, read?.ok ? { ratio: read.ratio } : {});
  }, [solved, shaft, to, text, isBad]);
  const answer = useAnswer(find);
  const others = solved.drive.shafts.flatMap((other, i) =>
    other.id === shaft || !solved.placement.shafts[i]
      ? []
      : [{ value: `s${other.id}`, words: nameOf(solved, other.id) }],
  );
  return (
    <>
      <ChoiceField
        label={`Join ${nameOf(solved, shaft)} with`}
        value={to === undefined ? NONE : `s${to}`}
        choices={[{ value: NONE, words: "choose a shaft, or pick it on the bench" }, ...others.slice(0, MOST_CHOICES)]}
        onChange={(value) =>
          setView({ asking: value === NONE ? { kind: "join", shaft } : { kind: "join", shaft, to: value.slice(1) } })
        }
      />
      <div className={styles.ratio}>
        <label htmlFor={id}>Ratio, if one is wanted</label>
        <input
          id={id}
          type="text"
          autoComplete="off"
          spellCheck={false}
          maxLength={60}
          placeholder="1/2 or 2:1"
          value={text}
          aria-invalid={isBad || undefined}
          aria-describedby={`${id}-read`}
          onChange={(event) => setText(event.target.value)}
        />
        <p id={`${id}-read`} data-bad={isBad || undefined}>
          {typed === null ? "" : typed.ok ? `${typed.words} (${typed.convention}).` : typed.message}
        </p>
      </div>
      <Found
        isAsked={find !== null}
        isFound={answer !== null}
        cannot={answer && "cannot" in answer ? answer.cannot : null}
      >
        {answer && "choices" in answer ? (
          <ChangeList label="Pairs that fit" shaft={shaft} changes={answer.choices.map(({ change }) => change)} />
        ) : null}
        {answer && "moves" in answer ? <Moves moves={answer.moves} /> : null}
      </Found>
    </>
  );
}

/** What would make a pair fit; made here where the shaft stands by itself. */
function Moves({ moves }: { readonly moves: readonly JoinMove[] }) {
  if (moves.length === 0) return null;
  return (
    <ul className={styles.changes} aria-label="Moves after which a pair fits">
      {moves.map(({ words, edit, millimetres, degrees }) => (
        <li key={words} className={styles.change}>
          <p>{words}</p>
          {edit ? (
            <div className={styles.row}>
              <button
                type="button"
                className={styles.put}
                onClick={() =>
                  doEdit(edit, millimetres > 0 ? "moving a shaft" : `turning a shaft by ${degrees}°`, `Done: ${words}`)
                }
              >
                Make this move
              </button>
            </div>
          ) : (
            <p className={styles.soft}>A mesh places this shaft: change that mesh's azimuth, teeth or angle.</p>
          )}
        </li>
      ))}
    </ul>
  );
}

/** What the question hides of each shaft: a table of ticks, each one undo step. */
import { endQuestion, setHidden } from "../../engine/drive/commands/question";
import { FIGURES, questionOf } from "../../engine/drive/question";
import { isGiven } from "../../engine/question/veil";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";
import { doEdit } from "../edit";
import styles from "./question.module.css";

/** Beyond these a table is no longer looked through; ports and the shafts near them come first in most drives. */
const MOST_SHAFTS = 100;

export function TeacherSide({ truth }: { readonly truth: Solved }) {
  const { drive } = truth;
  const question = questionOf(drive);
  return (
    <>
      <p className={styles.soft}>
        What is ticked is hidden on the bench and in every panel, and asked here. It is kept in the file and in the
        link. Speed and ratio give each other away: hiding one hides both.
      </p>
      <div className={styles.scroll}>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Hide of</th>
              {FIGURES.map((figure) => (
                <th key={figure} scope="col">
                  {figure}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {drive.shafts.slice(0, MOST_SHAFTS).map(({ id }, shaft) => {
              const name = shaftName(drive, shaft);
              const port = drive.ports.find((one) => one.shaft === id);
              return (
                <tr key={id}>
                  <th scope="row">{name}</th>
                  {FIGURES.map((figure) => (
                    <td key={figure}>
                      {isGiven(port, figure) ? (
                        <span className={styles.soft} title="The drive itself gives it">
                          given
                        </span>
                      ) : (
                        <input
                          type="checkbox"
                          aria-label={`Hide the ${figure} of ${name}`}
                          checked={question.get(id)?.has(figure) ?? false}
                          onChange={({ target }) => {
                            const verb = target.checked ? "hiding" : "showing";
                            doEdit(setHidden(id, figure, target.checked), `${verb} the ${figure} of ${name}`);
                          }}
                        />
                      )}
                    </td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {drive.shafts.length > MOST_SHAFTS ? (
        <p className={styles.soft}>
          These are the first {MOST_SHAFTS} of {drive.shafts.length.toLocaleString("en-GB")} shafts.
        </p>
      ) : null}
      {question.size > 0 ? (
        <button
          type="button"
          className={styles.button}
          onClick={() => doEdit(endQuestion, "taking the question away", "The question is taken away.")}
        >
          Take the question away
        </button>
      ) : null}
    </>
  );
}

import { Fragment, useState } from "react";
import { keyWords, setSingleKeys, singleKeysOn } from "../commands/keys";
import { COMMANDS } from "../commands/list";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import css from "./keys-dialog.module.css";

/** What the keys of the bench and the fields do; they are not commands, since they need a place. */
const ELSEWHERE: readonly (readonly [keys: string, words: string])[] = [
  ["Up, Down", "In a number field: one more, one less; with Shift ten"],
  ["Enter, Escape", "In a field: keep, or take back what was typed"],
  ["Tab, Shift + Tab", "To the next or the last control"],
];

/** The list of keys, made from the commands themselves. */
export const KeysDialog = () => {
  const [single, setSingle] = useState(singleKeysOn);
  return (
    <Dialog title="Keys" onClose={() => showDialog(null)}>
      <dl className={css.keys}>
        {COMMANDS.map(({ id, words, keys }) => (
          <Fragment key={id}>
            <dt>{keys.map(keyWords).join(" or ")}</dt>
            <dd>{words.replace("…", "")}</dd>
          </Fragment>
        ))}
        {ELSEWHERE.map(([keys, words]) => (
          <Fragment key={keys}>
            <dt>{keys}</dt>
            <dd>{words}</dd>
          </Fragment>
        ))}
      </dl>
      <label className={css.choice}>
        <input
          type="checkbox"
          checked={single}
          onChange={(event) => {
            setSingleKeys(event.target.checked);
            setSingle(singleKeysOn());
          }}
        />
        Single keys (those without Ctrl) are on
      </label>
    </Dialog>
  );
};

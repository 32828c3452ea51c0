import { Fragment, useId, useState } from "react";
import { keyWords, setSingleKeys, singleKeysOn } from "../commands/keys";
import { COMMAND_GROUPS } from "../commands/list";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import { type KeyPlace, PLACES } from "./key-places";
import css from "./keys-dialog.module.css";

/** The commands by their groups, then the places with keys of their own. */
const SECTIONS: readonly KeyPlace[] = [
  ...COMMAND_GROUPS.map(({ title, commands }) => ({
    title,
    lines: commands.map(({ words, keys }) => ({ presses: keys, words: words.replace("…", "") })),
  })),
  ...PLACES,
];

const Section = ({ title, lines }: KeyPlace) => {
  const heading = useId();
  return (
    <section className={css.group} aria-labelledby={heading}>
      <h3 id={heading}>{title}</h3>
      <dl className={css.keys}>
        {lines.map(({ presses, words, during }) => (
          <div key={words} className={css.line}>
            <dt>
              {presses.map((press, i) => (
                <Fragment key={press}>
                  {i > 0 ? " or " : ""}
                  <kbd>{keyWords(press)}</kbd>
                </Fragment>
              ))}
            </dt>
            <dd>{during ? `During ${during}: ${words}` : words}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
};

/** The list of keys, made from the commands themselves. */
export const KeysDialog = () => {
  const [single, setSingle] = useState(singleKeysOn);
  return (
    <Dialog title="Keys" isReading onClose={() => showDialog(null)}>
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
      {SECTIONS.map((section) => (
        <Section key={section.title} {...section} />
      ))}
    </Dialog>
  );
};

/** Either gear may drive: a switch of which shaft turns the drive now. */
import { driveFrom } from "../../engine/drive/commands/port";
import { nameText, shaftName } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { doEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import styles from "./parts-list.module.css";

/** A list to choose from can be this long; beyond it the shaft's own row does the same. */
const MOST_CHOICES = 300;
/** The choice that stands for "none or several inputs"; an id never begins with a blank in this list. */
const NONE = " ";

export function DrivenBy() {
  // What an edit leaves alone stays the same object: these alone are drawn here.
  const shafts = useDocument((state) => state.solved.drive.shafts);
  const ports = useDocument((state) => state.solved.drive.ports);
  if (shafts.length < 2 || shafts.length > MOST_CHOICES) return null;
  const inputs = ports.filter((port) => port.role === "input");
  const now = inputs.length === 1 ? inputs[0]?.shaft : undefined;
  const choices = shafts.map((shaft, i) => ({ value: shaft.id, words: shaftName({ shafts }, i) }));
  const none = { value: NONE, words: inputs.length > 1 ? "several shafts" : "nothing yet" };
  return (
    <div className={styles.drivenBy}>
      <ChoiceField
        label="Driven now by"
        hint="Either gear of a pair may drive: the input moves to the shaft you choose, the load to where it was."
        value={now ?? NONE}
        choices={now === undefined ? [none, ...choices] : choices}
        onChange={(id) => {
          if (id === NONE) return;
          const name = choices.find((choice) => choice.value === id)?.words ?? nameText(id);
          doEdit(driveFrom(id), `drive from ${name}`, `Driven now by ${name}`);
        }}
      />
    </div>
  );
}

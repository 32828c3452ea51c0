import { type RefusedFile, refuse } from "../../exchange/notices";
import { Dialog } from "./dialog";
import css from "./refused-dialog.module.css";

/** More would not be read; the count says how many there are. */
const SHOWN = 20;

/** Why a file was not opened: its faults, each with its place in the file. */
export const RefusedDialog = ({ file }: { readonly file: RefusedFile }) => {
  const { name, faults } = file;
  const more = faults.length - SHOWN;
  return (
    <Dialog title="Not a drive" onClose={() => refuse(null)}>
      <p>
        {name} was not opened, and nothing was changed: {faults.length === 1 ? "one place" : `${faults.length} places`}{" "}
        in it must be put right first.
      </p>
      <ol className={css.faults}>
        {faults.slice(0, SHOWN).map(({ pointer, message }) => (
          <li key={`${pointer} ${message}`}>
            <code>{pointer || "the whole file"}</code>
            <span>{message}</span>
          </li>
        ))}
      </ol>
      {more > 0 ? <p>And {more} more.</p> : null}
    </Dialog>
  );
};

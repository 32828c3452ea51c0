import { SAMPLES } from "../../exchange/sample-list";
import { openSample, type Sample } from "../../exchange/samples";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import css from "./samples-dialog.module.css";

const pick = async (sample: Sample): Promise<void> => {
  showDialog(null);
  await openSample(sample);
};

/** The samples, each with what to notice in it. */
export const SamplesDialog = () => (
  <Dialog title="Samples" onClose={() => showDialog(null)}>
    <p className={css.lead}>Each opens in the place of the drive on the bench; Undo brings yours back.</p>
    <ul className={css.list}>
      {SAMPLES.map((sample) => (
        <li key={sample.file}>
          <button type="button" onClick={() => void pick(sample)}>
            <strong>{sample.title}</strong>
            <span>{sample.notice}</span>
          </button>
        </li>
      ))}
    </ul>
  </Dialog>
);

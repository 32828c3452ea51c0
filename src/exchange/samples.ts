/** The samples: drives under `samples/`, each chosen against a misconception, fetched when one is picked. */

import { textBeside } from "./beside-text";
import { notify } from "./notices";
import { openText } from "./open";

export interface Sample {
  /** The file `samples/<file>.drive.json`. */
  readonly file: string;
  readonly title: string;
  /** One sentence on what to notice; the same as the drive's notes. */
  readonly notice: string;
}

/** Opens a sample; returns whether it came. */
export const openSample = async (sample: Sample): Promise<boolean> => {
  try {
    const opened = await openText(await textBeside(`samples/${sample.file}.drive.json`), sample.title);
    if (opened) notify({ tone: "polite", text: sample.notice });
    return opened;
  } catch {
    notify({
      tone: "alert",
      text: `The sample "${sample.title}" could not be fetched: try again when you are online.`,
    });
    return false;
  }
};

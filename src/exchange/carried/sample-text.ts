/** The text of a sample's file, in the one file to carry: there all of them are within the page. */
import { SAMPLE_TEXTS } from "virtual:carried-samples";

export const sampleText = async (file: string): Promise<string> => {
  const text = SAMPLE_TEXTS[file];
  if (text === undefined) throw new Error(`There is no sample ${file}.`);
  return text;
};

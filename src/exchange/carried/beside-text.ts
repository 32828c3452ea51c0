/** The text of a file beside the page, in the one file to carry: there all of them are within the page. */
import { CARRIED_TEXTS } from "virtual:carried-texts";

export const textBeside = async (path: string): Promise<string> => {
  const text = CARRIED_TEXTS[path];
  if (text === undefined) throw new Error(`There is no ${path}.`);
  return text;
};

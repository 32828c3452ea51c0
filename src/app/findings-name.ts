import { useSettled } from "../store/settled";

/** The findings' name with how many there are, counted when edits pause. */
export const useFindingsName = (): string => {
  const count = useSettled(({ solved }) => solved.findings.length);
  return count > 0 ? `Findings (${count})` : "Findings";
};

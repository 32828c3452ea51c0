import { useDocument } from "../store/document";

/** The findings' name with how many there are. */
export const useFindingsName = (): string => {
  const count = useDocument((state) => state.solved.findings.length);
  return count > 0 ? `Findings (${count})` : "Findings";
};

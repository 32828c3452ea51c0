export const ENDING = ".drive.json";

/** A file name for a drive: its title in small letters, digits and hyphens, at most 60 of them. */
export const fileName = (title: string): string => {
  const stem = title
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .slice(0, 60)
    .replace(/^-+|-+$/g, "");
  return `${stem || "drive"}${ENDING}`;
};

/** The name of a file as it can stand in a sentence: at most 60 characters, no marks that turn the text round. */
export const shownName = (name: string): string => {
  const clean = name.replace(/\p{C}/gu, "").trim() || "This file";
  return clean.length > 60 ? `${clean.slice(0, 40)}…${clean.slice(-16)}` : clean;
};

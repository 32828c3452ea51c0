export const ENDING = ".drive.json";

/** A title as it may stand in a file's name: small letters, digits and hyphens, at most 60 of them. */
const stemOf = (title: string): string => {
  const stem = title
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .slice(0, 60)
    .replace(/^-+|-+$/g, "");
  return stem || "drive";
};

/** A file name for a drive. */
export const fileName = (title: string): string => `${stemOf(title)}${ENDING}`;

/** A file name for a figure of a drive: "well-hoist-section.svg". */
export const figureName = (title: string, what: string, ending: "svg" | "png" | "gif"): string =>
  `${stemOf(title)}-${stemOf(what)}.${ending}`;

/** The name of a file as it can stand in a sentence: at most 60 characters, no marks that turn the text round. */
export const shownName = (name: string): string => {
  const clean = name.replace(/\p{C}/gu, "").trim() || "This file";
  return clean.length > 60 ? `${clean.slice(0, 40)}…${clean.slice(-16)}` : clean;
};

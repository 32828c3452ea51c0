/** Words of the dialog of saved drives. */
import type { Head } from "../../exchange/saved-database";
import type { Room } from "../../exchange/saved-drives";

/** A name as it stands in a sentence: long ones are cut in the middle, for copies differ at the end. */
export const quoted = (name: string): string =>
  `“${name.length > 60 ? `${name.slice(0, 40)}…${name.slice(-16)}` : name}”`;

export const listNames = (names: readonly string[]): string =>
  names.length > 3
    ? `${names.slice(0, 2).map(quoted).join(", ")} and ${names.length - 2} more`
    : names.map(quoted).join(names.length === 2 ? " and " : ", ");

const counted = (count: number, one: string): string => `${count.toLocaleString("en")} ${one}${count === 1 ? "" : "s"}`;

const dates = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" });

/** "4 gears on 3 shafts, 25 Nov 2026, 18:10" */
export const contentWords = ({ gears, shafts, at }: Pick<Head, "gears" | "shafts" | "at">): string =>
  `${counted(gears, "gear")} on ${counted(shafts, "shaft")}, ${dates.format(at)}`;

/** "3.1 MB", decimal, two figures or more. */
export const sizeWords = (bytes: number): string => {
  const [size, unit] = bytes >= 1e9 ? [bytes / 1e9, "GB"] : bytes >= 1e6 ? [bytes / 1e6, "MB"] : [bytes / 1e3, "kB"];
  return `${size >= 10 ? Math.round(size).toLocaleString("en") : size.toFixed(1)} ${unit}`;
};

/** How full the storage is, and whether the browser keeps it. */
export const roomWords = ({ used, most, isPersistent }: Room): string => {
  const full =
    used === null || most === null || most === 0
      ? "This browser does not say how full its storage is."
      : `This page takes ${sizeWords(used)} of the ${sizeWords(most)} that the browser allows it (${partWords(used / most)}).`;
  if (isPersistent === null) return full;
  return isPersistent
    ? `${full} The browser has promised to keep the drives.`
    : `${full} When the disk runs short the browser may clear them: export them now and then.`;
};

const partWords = (part: number): string => (part < 0.01 ? "under 1%" : `${Math.round(part * 100)}%`);

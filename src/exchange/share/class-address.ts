/** Where the links of a page lead: to itself, or, where it was opened from a file, to the address that the class uses. */
import { readAddress } from "./link";

const KEY = "turnwise.class-address";

type PageLocation = Pick<Location, "protocol" | "href">;

/** A page that came from a file, which nobody else can reach. */
export const isFromFile = ({ protocol }: PageLocation): boolean => protocol !== "http:" && protocol !== "https:";

/** An address that means the machine which asks for it: another one that follows the link comes to itself. */
export const isThisMachine = ({ href }: Pick<PageLocation, "href">): boolean => {
  try {
    return /^(localhost|.*\.localhost|127(\.\d+){3}|\[::1\])$/.test(new URL(href).hostname);
  } catch {
    return false;
  }
};

/** The address of the class as it is kept; null where none is. */
export const classAddress = (): string | null => {
  try {
    return readAddress(localStorage.getItem(KEY) ?? "");
  } catch {
    return null;
  }
};

/** Keeps an address that `readAddress` gave; null forgets it. Where storage is forbidden it is asked for again. */
export const keepClassAddress = (address: string | null): void => {
  try {
    if (address === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, address);
  } catch {
    // Nothing is kept.
  }
};

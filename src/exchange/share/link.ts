/** Links and codes as texts: what an address holds, what somebody pasted, and what goes on the clipboard. */
import { LONGEST_CODE } from "./code";

/** What was found: a code, nothing of the sort, or more than is looked at. */
export type Found = { readonly code: string } | "none" | "too long";

/** Where a code begins. What stands around it (an address, a bracket, what a program appended) is passed over. */
const CODE = /(?:^|[^A-Za-z0-9_-])(d[1-9]\d{0,3}\.[A-Za-z0-9_-]*)/;

/** More is looked at than a code may have, for an address, signs of the line's end and the like. */
const MOST_LOOKED_AT = 2 * LONGEST_CODE;

/** The code in what was pasted: a code, or a link that ends in one; blanks and line ends that mail puts in are passed over. */
export function findCode(text: string): Found {
  if (text.length > MOST_LOOKED_AT) return "too long";
  const bare = text.replace(/[\s\u00ad\u200b\u2060\ufeff]+/g, "");
  // In a link the code stands after #, whatever the address before it looks like.
  const code = CODE.exec(bare.slice(bare.indexOf("#") + 1))?.[1];
  return code === undefined ? "none" : { code };
}

/** The code after `#` of an address; null where nothing stands there. */
export function codeOfHash(hash: string): Found | null {
  const text = hash.replace(/^#/, "");
  if (text === "") return null;
  if (text.length > MOST_LOOKED_AT) return "too long";
  const code = /^d[1-9]\d{0,3}\.[A-Za-z0-9_-]*/.exec(text)?.[0];
  return code === undefined ? "none" : { code };
}

/** An address without what follows `?` and `#`, to which `#` and a code are put. */
export function linkTo(address: string, code: string): string {
  return `${address.replace(/[?#].*$/s, "")}#${code}`;
}

/** An address that links can be made from, as it is kept; null where the text is none. `school.example/gears` is taken for https. */
export function readAddress(text: string): string | null {
  const trimmed = text.trim();
  if (trimmed === "" || trimmed.length > 500 || /\s/.test(trimmed)) return null;
  try {
    const url = new URL(/^[a-z][a-z0-9+.-]*:\/\//i.test(trimmed) ? trimmed : `https://${trimmed}`);
    if (url.protocol !== "https:" && url.protocol !== "http:") return null;
    if (url.username !== "" || url.password !== "") return null;
    url.search = "";
    url.hash = "";
    return url.href;
  } catch {
    return null;
  }
}

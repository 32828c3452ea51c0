/** Whether two drives say the same: plain data compared value by value, with parts that are shared passed over. */
import type { Drive } from "./types";

function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b))
    return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((one, i) => same(one, b[i]));
  const [own, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  // A key that is left out and one that is undefined are written alike.
  return [...new Set([...Object.keys(own), ...Object.keys(other)])].every((key) => same(own[key], other[key]));
}

export const isSameDrive = (a: Drive, b: Drive): boolean => same(a, b);

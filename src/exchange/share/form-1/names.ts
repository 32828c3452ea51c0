/**
 * Which id or name most likely comes next, so that it need not be written. Part of form 1: both sides must guess alike for
 * ever, so nothing here may change, nor follow what the app now calls new parts.
 */

/** Longer names have no successor: else a short code could stand for any number of long ones. */
const LONGEST = 100;
const COUNTED = /^(.*?)([1-9]\d{0,8}|0)$/su;

/** `P1` → `P2`, `Planet 9` → `Planet 10`, `A` → `B`, `Z` → `AA`; nothing → `A`; any other: empty, which no id is. */
export function successor(name: string): string {
  if (name.length > LONGEST) return "";
  const counted = COUNTED.exec(name);
  if (counted) return `${counted[1]}${Number(counted[2]) + 1}`;
  if (!/^[A-Z]{0,6}$/.test(name)) return "";
  const kept = name.replace(/Z+$/, "");
  const first = "A".repeat(name.length - kept.length);
  return kept === ""
    ? `A${first}`
    : kept.slice(0, -1) + String.fromCharCode(kept.charCodeAt(kept.length - 1) + 1) + first;
}

/** `b2` for the second gear on shaft B, `p1-2` for that on P1; `number` counts from 1. */
export function gearOfShaft(shaft: string, number: number): string {
  const stem = /^[\p{L}\p{N}]{1,6}$/u.test(shaft) ? shaft.toLowerCase() : "g";
  return `${stem}${/\d$/.test(stem) ? "-" : ""}${number}`;
}

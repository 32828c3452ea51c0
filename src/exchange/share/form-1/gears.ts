/** Gears in form 1. A number that is that of the gear before is not written again. */
import type { Gear } from "../../../engine/drive/types";
import { fileGear } from "../../../engine/drive/write";
import type { ByteReader, ByteWriter } from "../bytes";
import { gearOfShaft, successor } from "./names";
import { type Part, readJson, restOf, writeJson } from "./rest";
import { idAt, indexIn } from "./shafts";

/** Kind and apex, by number: the lowest three bits of the head. Never another order; there is no room for more. */
const FORMS = [
  { kind: "spur" },
  { kind: "internal" },
  { kind: "bevel", apex: "+" },
  { kind: "bevel", apex: "-" },
  { kind: "wheel" },
  { kind: "internal-wheel" },
  { kind: "cone", apex: "+" },
  { kind: "cone", apex: "-" },
] as const;
const FIRST_TOOTHLESS = 4;

/** The other bits of the head. The id is that of `gearOfShaft` unless `ID` is set; an empty id is `successor` of the one before. */
const ID = 8;
const DIGITS = 1 << 14;
const REST = 1 << 15;
/** A gear of a kind that form 1 does not know: its shaft and then all of it as JSON. */
const WHOLE = 1 << 16;

type Size = "at" | "face" | "module" | "bore" | "phase" | Profile;
type Profile = "pressureAngle" | "addendum" | "clearance" | "shift" | "backlash";
interface SizeRule {
  readonly key: Size;
  readonly bit: number;
  /** What it is where the bit is not set, or on the first gear where it is that of the gear before. */
  readonly usual: number;
  readonly asBefore: boolean;
  readonly toothed: boolean;
}
const SIZES: readonly SizeRule[] = [
  { key: "at", bit: 1 << 4, usual: 0, asBefore: false, toothed: false },
  { key: "face", bit: 1 << 5, usual: 10, asBefore: true, toothed: false },
  { key: "module", bit: 1 << 6, usual: 2, asBefore: true, toothed: true },
  { key: "bore", bit: 1 << 7, usual: 0, asBefore: true, toothed: false },
  { key: "phase", bit: 1 << 8, usual: 0, asBefore: false, toothed: false },
  { key: "pressureAngle", bit: 1 << 9, usual: 20, asBefore: true, toothed: true },
  { key: "addendum", bit: 1 << 10, usual: 1, asBefore: true, toothed: true },
  { key: "clearance", bit: 1 << 11, usual: 0.25, asBefore: true, toothed: true },
  { key: "shift", bit: 1 << 12, usual: 0, asBefore: false, toothed: true },
  { key: "backlash", bit: 1 << 13, usual: 0, asBefore: true, toothed: true },
];

const KNOWN = new Set([
  "id",
  "shaft",
  "kind",
  "apex",
  "teeth",
  "diameter",
  "diameterDigits",
  ...SIZES.map(({ key }) => key),
]);

const firstSizes = (): Map<Size, number> => new Map(SIZES.map(({ key, usual }) => [key, usual]));

export function writeGears(to: ByteWriter, gears: readonly Gear[], shaftIndex: ReadonlyMap<string, number>): void {
  const before = firstSizes();
  const onShaft = new Map<string, number>();
  let idBefore = "";
  let shaftBefore = 0;
  for (const gear of gears) {
    const { id, shaft } = gear;
    const index = indexIn(shaftIndex, shaft);
    const number = (onShaft.get(shaft) ?? 0) + 1;
    onShaft.set(shaft, number);
    const isUsual = id === gearOfShaft(shaft, number);
    const form = FORMS.findIndex((one) => one.kind === gear.kind && (!("apex" in one) || one.apex === gear.apex));
    const isToothless = form >= FIRST_TOOTHLESS;
    const digits = "diameterDigits" in gear ? gear.diameterDigits : undefined;
    const rest = restOf(gear, KNOWN);
    let head = Math.max(form, 0) + (isUsual ? 0 : ID) + (digits === undefined ? 0 : DIGITS) + (rest ? REST : 0);
    const written: number[] = [];
    for (const { key, bit, usual, asBefore, toothed } of SIZES) {
      const value = key in gear ? (gear as unknown as Readonly<Record<Size, number>>)[key] : usual;
      if (form < 0 || (toothed && isToothless) || Object.is(value, asBefore ? before.get(key) : usual)) continue;
      head += bit;
      written.push(value);
      before.set(key, value);
    }
    if (form < 0) head = WHOLE;
    to.whole(head);
    if (!isUsual && form >= 0) to.text(id === successor(idBefore) ? "" : id);
    to.step(index - shaftBefore);
    if (form < 0) writeJson(to, fileGear(gear));
    else {
      to.number("teeth" in gear ? gear.teeth : gear.diameter);
      for (const value of written) to.number(value);
      if (digits !== undefined) to.text(digits);
      if (rest) writeJson(to, rest);
    }
    idBefore = id;
    shaftBefore = index;
  }
}

/** The gears, and the exact digits of diameters by the gear's index. */
export function readGears(
  from: ByteReader,
  count: number,
  shafts: readonly Part[],
  digits: Map<number, string>,
): Part[] {
  const gears: Part[] = [];
  const before = firstSizes();
  const onShaft = new Map<string, number>();
  let idBefore = "";
  let shaftBefore = 0;
  for (let i = 0; i < count; i++) {
    const head = from.whole();
    const given = head & ID ? from.text() : null;
    shaftBefore += from.step();
    const shaft = idAt(shafts, shaftBefore);
    const number = (onShaft.get(shaft) ?? 0) + 1;
    onShaft.set(shaft, number);
    if (head & WHOLE) {
      const gear = readJson(from);
      gears.push(gear);
      idBefore = String(gear.id);
      continue;
    }
    const id = given === null ? gearOfShaft(shaft, number) : given === "" ? successor(idBefore) : given;
    const form = head & 7;
    const isToothless = form >= FIRST_TOOTHLESS;
    const gear: Part = { id, shaft, ...FORMS[form], [isToothless ? "diameter" : "teeth"]: from.number() };
    for (const { key, bit, usual, asBefore, toothed } of SIZES) {
      if (toothed && isToothless) continue;
      const value = head & bit ? from.number() : asBefore ? before.get(key) : usual;
      if (head & bit) before.set(key, value as number);
      gear[key] = value;
    }
    if (head & DIGITS) digits.set(i, from.text());
    gears.push(head & REST ? Object.assign(gear, readJson(from)) : gear);
    idBefore = id;
  }
  return gears;
}

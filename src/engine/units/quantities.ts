/** The quantities that can be told in several units: which unit is shown for a choice, and every name that is read. */
import { divide, ONE, type Rational, rational } from "../motion/rational";
import type { ShownUnit, Unit, UnitChoice } from "./choice";
import {
  type Conversion,
  DIAMETRAL_PITCH,
  FOOT_PER_MINUTE,
  HORSEPOWER,
  INCH,
  KILOGRAM_FORCE,
  METRIC_HORSEPOWER,
  OUNCE_FORCE,
  OUNCE_FORCE_INCH,
  POUND_FORCE,
  POUND_FORCE_FOOT,
  POUND_FORCE_INCH,
  RADIAN,
  RADIAN_PER_SECOND,
  SAME,
  times,
} from "./factors";

export interface Quantity {
  /** "a length": what a complaint calls it. */
  readonly name: string;
  /** Two ways to write one, for a complaint. */
  readonly examples: readonly [string, string];
  readonly shown: (units: UnitChoice) => ShownUnit;
  /** Every shown unit but the file's own. */
  readonly conversions: Readonly<Partial<Record<ShownUnit, Conversion>>>;
  /** Names as typed, blanks, dots, stars and hyphens left out; in upper and lower case as they are written right. */
  readonly names: Readonly<Record<string, Conversion>>;
}

const thousandth = times("0.001");
const thousand = times("1000");
const over = (factor: Rational, by: bigint): Conversion => times(divide(factor, rational(by)));

/** One conversion under several names. */
const named = (conversion: Conversion, ...names: readonly string[]): Readonly<Record<string, Conversion>> =>
  Object.fromEntries(names.map((name) => [name, conversion]));

const METRIC_LENGTHS = {
  ...named(SAME, "mm", "millimetre", "millimetres", "millimeter", "millimeters"),
  ...named(times("10"), "cm"),
  ...named(thousand, "m", "metre", "metres", "meter", "meters"),
  ...named(thousandth, "µm", "μm", "um"),
};
const inch = times(INCH);

export const LENGTH: Quantity = {
  name: "a length",
  examples: ["12 mm", "0.5 in"],
  shown: (units) => units.length,
  conversions: { in: inch },
  names: {
    ...METRIC_LENGTHS,
    ...named(inch, "in", "inch", "inches", '"', "″", "”", "''"),
    ...named(times("304.8"), "ft", "foot", "feet", "'", "′"),
    ...named(times("0.0254"), "thou", "mil"),
  },
};

const MODULE: Quantity = {
  name: "a module or a diametral pitch",
  examples: ["2 mm", "12 /in"],
  shown: (units) => (units.tooth === "pitch" ? "/in" : "mm"),
  conversions: { "/in": DIAMETRAL_PITCH },
  names: {
    ...named(SAME, "mm", "module", "millimetre", "millimetres"),
    ...named(inch, "in", "inch", '"'),
    ...named(DIAMETRAL_PITCH, "/in", "1/in", "in1", "/inch", "1/inch", "DP", "P", "perin", "perinch"),
  },
};

const SPEED: Quantity = {
  name: "a speed of turning",
  examples: ["60 rev/min", "6.3 rad/s"],
  shown: (units) => units.speed,
  conversions: { "rad/s": RADIAN_PER_SECOND },
  names: {
    ...named(SAME, "rev/min", "rpm", "r/min", "/min", "1/min", "min1", "revolutions/minute"),
    ...named(times("60"), "rev/s", "r/s", "rps", "/s", "1/s", "s1", "Hz"),
    ...named(RADIAN_PER_SECOND, "rad/s", "rads1"),
    ...named(over(ONE, 6n), "°/s", "deg/s"),
  },
};

const TORQUE: Quantity = {
  name: "a torque",
  examples: ["7.5 N·m", "50 N x 150 mm"],
  shown: (units) => units.torque,
  conversions: { lbf·ft: times(POUND_FORCE_FOOT) },
  names: {
    ...named(SAME, "Nm"),
    ...named(times("0.01"), "Ncm"),
    ...named(thousandth, "Nmm", "mNm"),
    ...named(thousand, "kNm"),
    ...named(times(POUND_FORCE_FOOT), "lbfft", "lbft", "ftlbf", "ftlb", "ftlbs"),
    ...named(times(POUND_FORCE_INCH), "lbfin", "lbin", "inlbf", "inlb", "inlbs"),
    ...named(times(OUNCE_FORCE_INCH), "ozfin", "ozin", "inozf", "inoz"),
    ...named(times(KILOGRAM_FORCE), "kgfm", "kgm"),
    ...named(over(KILOGRAM_FORCE, 100n), "kgfcm", "kgcm"),
  },
};

const POWER: Quantity = {
  name: "a power",
  examples: ["18 W", "12 V 1.5 A"],
  shown: (units) => units.power,
  conversions: { kW: thousand, hp: times(HORSEPOWER) },
  names: {
    ...named(SAME, "W", "watt", "watts"),
    ...named(thousandth, "mW"),
    ...named(thousand, "kW"),
    ...named(times("1e6"), "MW"),
    ...named(times(HORSEPOWER), "hp", "horsepower"),
    ...named(times(METRIC_HORSEPOWER), "PS"),
  },
};

export const FORCE: Quantity = {
  name: "a force",
  examples: ["50 N", "11 lbf"],
  shown: (units) => units.force,
  conversions: { lbf: times(POUND_FORCE) },
  names: {
    ...named(SAME, "N", "newton", "newtons"),
    ...named(thousandth, "mN"),
    ...named(thousand, "kN"),
    ...named(times(POUND_FORCE), "lbf", "lb", "lbs"),
    ...named(times(OUNCE_FORCE), "ozf", "oz"),
    ...named(times(KILOGRAM_FORCE), "kgf", "kp"),
  },
};

const ANGLE: Quantity = {
  name: "an angle",
  examples: ["90°", "1.57 rad"],
  shown: () => "°",
  conversions: {},
  names: { ...named(SAME, "°", "deg", "degree", "degrees"), ...named(RADIAN, "rad") },
};

const SURFACE_SPEED: Quantity = {
  name: "a surface speed",
  examples: ["1.5 m/s", "300 ft/min"],
  // Inches go with feet a minute, as the trade has it; common practice.
  shown: (units) => (units.length === "in" ? "ft/min" : "m/s"),
  conversions: { "ft/min": times(FOOT_PER_MINUTE) },
  names: named(SAME, "m/s"),
};

export const QUANTITIES: Readonly<Partial<Record<Unit, Quantity>>> = {
  mm: LENGTH,
  module: MODULE,
  "rev/min": SPEED,
  N·m: TORQUE,
  W: POWER,
  N: FORCE,
  "°": ANGLE,
  "m/s": SURFACE_SPEED,
};

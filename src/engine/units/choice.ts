/**
 * Which units a reader has chosen, and how numbers are written for them. The engine reckons in the units of the file, and
 * a number keeps them until it is printed: whoever prints takes a `UnitChoice`.
 */

/** Units of the drive file and of what is solved; `module` is a module in mm, which can be told as a diametral pitch. */
export type Unit = "rev/min" | "N·m" | "W" | "mm" | "module" | "°" | "N" | "m/s" | "turns" | "";

/** Units as they stand beside a number on screen. */
export type ShownUnit = Exclude<Unit, "module"> | "kW" | "hp" | "in" | "/in" | "rad/s" | "lbf·ft" | "lbf" | "ft/min";

export type Figures = 3 | 4 | 5 | 6;
export type DecimalSign = "." | ",";

export interface UnitChoice {
  readonly length: "mm" | "in";
  /** How the size of teeth is told: module, mm, or diametral pitch, teeth for each inch of pitch diameter. */
  readonly tooth: "module" | "pitch";
  readonly speed: "rev/min" | "rad/s";
  readonly torque: "N·m" | "lbf·ft";
  /** `W` turns to kW by itself from 10,000 W on, where a number is told and not typed. */
  readonly power: "W" | "kW" | "hp";
  readonly force: "N" | "lbf";
  /** Whose teeth stand over the line in the fraction of a ratio: 50/20 from 20 to 50 teeth, or 20/50. */
  readonly ratio: "output" | "input";
  /** Significant figures. */
  readonly figures: Figures;
  readonly decimalSign: DecimalSign;
}

/** The units of the file itself, four figures, a decimal point: what the command line uses, and findings until a page chooses (`speakIn` in wording.ts). */
export const FILE_UNITS: UnitChoice = {
  length: "mm",
  tooth: "module",
  speed: "rev/min",
  torque: "N·m",
  power: "W",
  force: "N",
  ratio: "output",
  figures: 4,
  decimalSign: ".",
};

/**
 * What one of each unit is in the file's unit, exactly. The inch is 25.4 mm, the pound 0.453 592 37 kg and standard gravity
 * 9.806 65 m/s² by definition; all else follows. NIST Special Publication 811 (2008 edition), appendix B, gives the
 * same to seven figures.
 */
import { divide, fromDecimal, multiply, ONE, type Rational, rational } from "../motion/rational";

/** A number that a unit is told in, and how it becomes one of the file's unit. */
export type Conversion =
  /** file = shown × factor */
  | { readonly kind: "times"; readonly factor: Rational }
  /** file = factor / shown: a diametral pitch. */
  | { readonly kind: "over"; readonly factor: Rational }
  /** The same where the factor is no fraction, but π to 50 places: nothing that follows from it is exact. */
  | { readonly kind: "angle"; readonly factor: Rational };

export const times = (factor: Rational | string): Conversion => ({
  kind: "times",
  factor: typeof factor === "string" ? fromDecimal(factor) : factor,
});

export const SAME: Conversion = { kind: "times", factor: ONE };

/** mm */
export const INCH = fromDecimal("25.4");
const FOOT = multiply(INCH, rational(12n));
const METRES = rational(1n, 1000n);
const GRAVITY = fromDecimal("9.80665");
/** N */
export const KILOGRAM_FORCE = GRAVITY;
export const POUND_FORCE = multiply(fromDecimal("0.45359237"), GRAVITY);
export const OUNCE_FORCE = divide(POUND_FORCE, rational(16n));
/** N·m */
export const POUND_FORCE_INCH = multiply(POUND_FORCE, multiply(INCH, METRES));
export const POUND_FORCE_FOOT = multiply(POUND_FORCE, multiply(FOOT, METRES));
export const OUNCE_FORCE_INCH = multiply(OUNCE_FORCE, multiply(INCH, METRES));
/** W: the mechanical horsepower, 550 ft·lbf/s, 745.699 87 W. */
export const HORSEPOWER = multiply(POUND_FORCE_FOOT, rational(550n));
/** W: the metric horsepower, 75 kgf·m/s, 735.498 75 W. */
export const METRIC_HORSEPOWER = multiply(KILOGRAM_FORCE, rational(75n));
/** m/s */
export const FOOT_PER_MINUTE = divide(multiply(FOOT, METRES), rational(60n));

const PI = fromDecimal("3.14159265358979323846264338327950288419716939937510");
/** rev/min for 1 rad/s: 60 / 2π. */
export const RADIAN_PER_SECOND: Conversion = { kind: "angle", factor: divide(rational(30n), PI) };
/** Degrees for 1 rad. */
export const RADIAN: Conversion = { kind: "angle", factor: divide(rational(180n), PI) };
/** Module in mm from a diametral pitch in 1/in: m = 25.4 / P. */
export const DIAMETRAL_PITCH: Conversion = { kind: "over", factor: INCH };

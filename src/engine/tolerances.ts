/** Every tolerance of the engine: its unit and the reason for it. */

/** Parts of a module (of the smaller diameter for friction): a loop misfit up to this is rounding in the file. format.md */
export const FITS_MODULE = 1e-6;
/** Parts of a module: a loop misfit up to this is a warning, beyond it an error. format.md */
export const MISFIT_MODULE = 0.02;
/** Degrees: likewise for angles. format.md */
export const MISFIT_DEGREES = 0.1;
/** On cos of a pitch angle: a crown gear, whose virtual teeth are without number. format.md */
export const CROWN_COSINE = 1e-9;
/** mm of distance and radians of direction: a shaft stands on its carrier's axis. format.md */
export const ON_AXIS = 1e-6;
/** A pitch angle nearer than this to 0 or 180, degrees: the cone has no sensible apex left. Our own limit. */
export const LEAST_PITCH_ANGLE = 1e-3;
/** Relative: sums of doubles of this size against their terms are zero (a few hundred rounding steps). */
export const ZERO_RELATIVE = 1e-9;
/** Parts of a pitch: of two placings of a tooth that differ by less the smaller rotation is taken. format.md */
export const SAME_PITCH = 1e-9;
/** Relative: a sum of doubles below this part of its terms is rounding (64 units in the last place). */
export const ROUNDING = 2 ** -46;
/** Radians: angles that come by two roads and differ by less differ by rounding of doubles alone. */
export const SAME_ANGLE = 1e-12;
/** Sine of the angle between a pose's axis and its ref: below this ref marks no azimuth. Our own limit. */
export const ALONG_AXIS = 1e-9;
/** Cone distances beyond this many pitch radii leave too few digits of a double to reckon a place from the apex. */
export const FARTHEST_APEX = 1e8;

/** Findings: what the engine has to say of a drive, as data with one sentence each. */

export type Severity = "error" | "warning" | "note";

/** Every code that a finding can carry. Part of the format: each is listed with cause and cure in README.md. */
export const FINDING_CODES = {
  // placement
  unreached: "error",
  "loop-misfit": "error or warning",
  "cone-mismatch": "error",
  "cone-degenerate": "error",
  "ring-too-small": "error",
  "module-mismatch": "error",
  "pressure-angle-mismatch": "error",
  "shift-sum": "error",
  "no-common-face": "error",
  // motion
  "no-shared-frame": "error",
  locked: "error",
  contradiction: "error",
  free: "note",
  "ratio-long": "note",
  "out-of-range": "note",
  // load
  "self-locking": "error",
  "equal-sharing": "note",
  "input-short": "warning",
  slips: "warning",
  // checks
  undercut: "warning or note",
  interference: "warning",
  "contact-ratio": "warning",
  "face-width": "warning",
  "ratio-range": "warning",
  "pitch-speed": "warning",
  "gears-overlap": "error",
  // teeth
  "loop-phase": "warning or note",
  "tips-foul": "error",
  "pointed-tip": "warning",
  "tip-trimmed": "note",
  "tooth-form": "warning",
  "bore-too-large": "warning",
  "face-too-long": "warning",
  "coarse-teeth": "note",
  // collisions
  collision: "warning",
  "collisions-unchecked": "note",
  "out-of-space": "warning",
} as const;

export type FindingCode = keyof typeof FINDING_CODES;

export interface Finding {
  readonly severity: Severity;
  readonly code: FindingCode;
  /** Ids of the shafts, gears and meshes that it is about, the first the chief one. */
  readonly at: readonly string[];
  /** One sentence: where, what, what to do, and where a limit comes from. */
  readonly message: string;
}

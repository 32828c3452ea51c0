/** What one check is: a function that adds its findings to a list. */
import type { Finding } from "../findings";
import type { Drive, DriveIndex, Load, Motion, Placement } from "../solved";

/** All that a check may look at. */
export interface Checked {
  readonly drive: Drive;
  readonly index: DriveIndex;
  readonly placement: Placement;
  readonly motion: Motion;
  readonly load: Load;
}

/** Adds what it finds; looks at everything once, in document order. */
export type Check = (checked: Checked, add: (finding: Finding) => void) => void;

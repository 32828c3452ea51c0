/** The size of teeth, as module or as diametral pitch: what its field is called, and the sizes that cutters are made for. */
import { ISO_54_MODULES } from "../../engine/design/iso-54";
import type { UnitChoice } from "../../engine/units/choice";
import { DIAMETRAL_PITCHES } from "../../engine/units/module-series";
import type { NumberFieldProps } from "./number-props";

/** Words and usual sizes for the field of `what`: "b1", "both gears". */
export const toothSize = (
  { tooth }: UnitChoice,
  what: string,
): Pick<NumberFieldProps, "label" | "shortLabel" | "hint" | "series"> =>
  tooth === "pitch"
    ? {
        label: `Diametral pitch of ${what}`,
        shortLabel: "pitch",
        hint: "Diametral pitch: teeth for each inch of pitch diameter, at the heel on a bevel gear; kept as the module 25.4 mm / P. Mates must agree.",
        series: { label: `Usual diametral pitches for ${what}`, lists: DIAMETRAL_PITCHES },
      }
    : {
        label: `Module of ${what}`,
        shortLabel: "module",
        hint: "Size of the teeth: pitch diameter over teeth, at the heel on a bevel gear (module). Mates must agree.",
        series: { label: `Modules of ISO 54 for ${what}`, lists: ISO_54_MODULES },
      };

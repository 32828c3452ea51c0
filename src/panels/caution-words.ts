/** The usual cautions, said wherever torque, forces or power show. */
export const CAUTIONS = [
  "Turnwise shows motion, ratio and torque without losses or with the losses you state. It is a sketching and teaching aid, not a rating to any standard.",
  "Guard meshing gears and turning shafts: where they run together they draw in fingers, hair and sleeves.",
  "Stop the drive and lock it out before you reach in.",
  "A model driven by power needs a guard and a supply of low torque.",
  "Printed gears shatter: keep faces and hands away from a loaded one.",
  "Ratings belong to the current gear standards and to a qualified engineer, and local codes rule.",
] as const;

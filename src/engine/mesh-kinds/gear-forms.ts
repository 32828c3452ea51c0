/** What each kind of gear is by itself, before it meshes with anything. */
import type { GearKind } from "../drive/types";

export interface GearForm {
  /** "bevel gear" */
  readonly name: string;
  /** Degrees: 0 an outside cylinder, 180 a ring; null where the mesh decides (bevel gear, cone). */
  readonly pitchAngle: 0 | 180 | null;
  readonly hasTeeth: boolean;
}

export const GEAR_FORMS: Readonly<Record<GearKind, GearForm>> = {
  spur: { name: "spur gear", pitchAngle: 0, hasTeeth: true },
  internal: { name: "ring", pitchAngle: 180, hasTeeth: true },
  bevel: { name: "bevel gear", pitchAngle: null, hasTeeth: true },
  wheel: { name: "friction wheel", pitchAngle: 0, hasTeeth: false },
  "internal-wheel": { name: "smooth ring", pitchAngle: 180, hasTeeth: false },
  cone: { name: "friction cone", pitchAngle: null, hasTeeth: false },
};

/** What toothed pairs share: forces from the pressure angle, the contact ratio, and agreement of mates. */

import type { Gear, ToothedGear } from "../drive/types";
import type { Finding } from "../findings";
import { CROWN_COSINE } from "../tolerances";
import { DEGREE } from "../vector";
import { nameText, quantity, toothSizeName, toothSizeWords } from "../wording";
import type { Pair, PairForces } from "./contract";

/** A toothed pair's gears, as such. The parser lets no others meet. */
export const toothed = (gear: Gear): ToothedGear => {
  if (!("teeth" in gear)) throw new TypeError(`Gear ${nameText(gear.id)} has no teeth.`);
  return gear;
};

/**
 * Separating force S = Ft tan α lies in the axial plane, square to the pitch cone: radial S cos δ, axial S sin δ.
 * Source: vector geometry; Shigley, Mechanical Engineering Design, bevel gear forces. Ring: δ = 180, radial negative.
 */
export function toothForces(pair: Pair, tangentialForce: number): PairForces {
  return resolve(pair, tangentialForce * Math.tan(pair.gears[0].pressureAngle * DEGREE));
}

/** A force square to the pitch surface, N, in its parts towards each gear's axis and along its outward axis. */
export function resolve(pair: Pair, separating: number): PairForces {
  const part = (side: 0 | 1) => {
    const delta = pair.shape.pitchAngles[side];
    const isParallel = delta === 0 || delta === Math.PI;
    const cos = Math.cos(delta);
    // On a crown gear the separating force points along the axis and nowhere else.
    return {
      radial: Math.abs(cos) < CROWN_COSINE ? 0 : separating * cos,
      axial: isParallel ? 0 : separating * Math.sin(delta),
    };
  };
  const [first, second] = [part(0), part(1)];
  return { radial: [first.radial, second.radial], axial: [first.axial, second.axial] };
}

/** One gear's transverse section at the pitch point: cos δ / r, its curvature (0 a rack, negative a ring), and its addendum. */
export interface Section {
  /** 1/mm, of the (virtual) pitch circle. */
  readonly curvature: number;
  /** mm from the pitch circle to the tip, away from the gear's own body. */
  readonly addendum: number;
}

/** The section of a gear in a pair: of the spur gear itself, or of the virtual spur gear on a bevel's back cone (Tredgold). */
export function sectionOf(pair: Pair, side: 0 | 1): Section {
  const gear = toothed(pair.gears[side]);
  const cos = Math.cos(pair.shape.pitchAngles[side]);
  // On a cylindrical ring a positive shift moves the profile outward, and so the tip away from the pinion.
  const shift = pair.shape.pitchAngles[side] === Math.PI ? -gear.shift : gear.shift;
  return {
    curvature: Math.abs(cos) < CROWN_COSINE ? 0 : cos / pair.shape.radii[side],
    addendum: gear.module * (gear.addendum + shift),
  };
}

/**
 * Distance along the line of action from the pitch point to where the gear's tip circle crosses it, mm; null where the
 * tip lies within the base circle. sqrt(ra² - rb²) - r sin α for an outside gear (Khurmi & Gupta, Theory of Machines,
 * ch. 12), written with the curvature k = 1/r so that rack and ring are the same formula:
 * (2h + k h²) / (sqrt(sin²α + 2 k h + k² h²) + sin α).
 */
export function tipReach({ curvature: k, addendum: h }: Section, pressureAngle: number): number | null {
  const sin = Math.sin(pressureAngle);
  const under = sin * sin + 2 * k * h + k * k * h * h;
  if (under < 0 || 1 + k * h <= 0) return null;
  return (2 * h + k * h * h) / (Math.sqrt(under) + sin);
}

/** Distance from the pitch point to the gear's own tangent point on the line of action, mm: how far a mate's tip may reach. */
export const tangentReach = ({ curvature: k }: Section, pressureAngle: number): number =>
  k > 0 ? Math.sin(pressureAngle) / k : Infinity;

/** Path of contact over base pitch, each end cut at the mate's tangent point. format.md, contactRatio. */
export function toothContactRatio(pair: Pair): number | null {
  const alpha = pair.gears[0].pressureAngle * DEGREE;
  const sections = [sectionOf(pair, 0), sectionOf(pair, 1)] as const;
  const reach = [tipReach(sections[0], alpha), tipReach(sections[1], alpha)] as const;
  if (reach[0] === null || reach[1] === null) return null;
  const path =
    Math.min(reach[0], tangentReach(sections[1], alpha)) + Math.min(reach[1], tangentReach(sections[0], alpha));
  return Math.max(0, path) / (Math.PI * toothed(pair.gears[0]).module * Math.cos(alpha));
}

/** Mates must agree in module and pressure angle. */
export function agreement(pair: Pair): Finding[] {
  const findings: Finding[] = [];
  const [first, second] = [toothed(pair.gears[0]), toothed(pair.gears[1])];
  const at = [pair.mesh.id, first.id, second.id];
  if (first.module !== second.module) {
    findings.push({
      severity: "error",
      code: "module-mismatch",
      at,
      message: `Gears ${nameText(first.id)} (${toothSizeWords(first.module, 9)}) and ${nameText(second.id)} (${toothSizeWords(second.module, 9)}) can't mesh: give both the same ${toothSizeName()}, for their teeth must have one pitch.`,
    });
  }
  if (first.pressureAngle !== second.pressureAngle) {
    findings.push({
      severity: "error",
      code: "pressure-angle-mismatch",
      at,
      message: `Gears ${nameText(first.id)} (pressure angle ${quantity(first.pressureAngle, "°", 9)}) and ${nameText(second.id)} (${quantity(second.pressureAngle, "°", 9)}) can't mesh: give both the same pressure angle.`,
    });
  }
  return findings;
}

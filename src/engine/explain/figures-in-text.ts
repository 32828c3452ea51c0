/**
 * Figures of a drive within a text that somebody wrote: `{speed of B}` stands for what the solver says now. What the drive's question hides
 * stays hidden, and braces that name nothing we know stay as they were typed.
 */
import type { Gear } from "../drive/types";
import { divide, isZero } from "../motion/rational";
import type { PlacedMesh, Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { gearSize, shaftName, turnsWords } from "../wording";
import { HIDDEN, NOT_FIXED, turning } from "./directions";
import { coneHeights } from "./heights";
import { shown } from "./numbers";

/** What can be asked of a shaft, of a gear, of a mesh; and of two shafts. */
export const TEXT_FIGURES = {
  shaft: ["speed", "way", "torque", "power"],
  gear: ["size", "radius", "pitch angle", "cone distance", "cone height"],
  mesh: ["shaft angle", "slip torque"],
  shafts: ["turns"],
} as const;

type Of<K extends keyof typeof TEXT_FIGURES> = (typeof TEXT_FIGURES)[K][number];

const DEGREES = 180 / Math.PI;
const UNFIT = "no cone";

/** The text with its figures; `unknown` lists the braces that were left, as typed. */
export function textWithFigures(
  text: string,
  solved: Solved,
  units: UnitChoice,
): { readonly text: string; readonly unknown: readonly string[] } {
  const unknown: string[] = [];
  const filled = text.replaceAll(/\{([^{}]*)\}/g, (typed: string, inner: string) => {
    const words = figureWords(inner.trim(), solved, units);
    if (words === null) unknown.push(typed);
    return words ?? typed;
  });
  return { text: filled, unknown };
}

function figureWords(wish: string, solved: Solved, units: UnitChoice): string | null {
  const at = wish.indexOf(" of ");
  if (at < 0) return null;
  const [what, id] = [wish.slice(0, at), wish.slice(at + 4)];
  const { index } = solved;
  if (isOneOf(TEXT_FIGURES.shaft, what)) {
    const shaft = index.shafts.get(id);
    return shaft === undefined ? null : ofShaft(what, shaft, solved, units);
  }
  if (isOneOf(TEXT_FIGURES.gear, what)) {
    const gear = solved.drive.gears[index.gears.get(id) ?? -1];
    return gear ? ofGear(what, gear, solved, units) : null;
  }
  if (isOneOf(TEXT_FIGURES.mesh, what)) {
    const mesh = index.meshes.get(id);
    return mesh === undefined ? null : ofMesh(what, mesh, solved, units);
  }
  return isOneOf(TEXT_FIGURES.shafts, what) ? ofShafts(id, solved, units) : null;
}

const isOneOf = <T extends string>(all: readonly T[], word: string): word is T =>
  (all as readonly string[]).includes(word);

const size = (value: number | null | undefined): number | null => (value == null ? null : Math.abs(value));

function ofShaft(what: Of<"shaft">, shaft: number, solved: Solved, units: UnitChoice): string {
  const { motion, load, veil } = solved;
  switch (what) {
    case "way":
      return turning(solved, shaft);
    case "speed":
      return veil?.hides(shaft, "speed") ? HIDDEN : shown(size(motion.speed[shaft]), "rev/min", units, NOT_FIXED);
    case "torque":
      return veil?.hides(shaft, "torque") ? HIDDEN : shown(size(load.shafts[shaft]?.torque), "N·m", units);
    case "power":
      return veil?.hides(shaft, "power") ? HIDDEN : shown(size(load.shafts[shaft]?.power), "W", units);
  }
}

/** The mesh that a gear's cone is told in: its first. */
function meshOf(
  gear: Gear,
  { drive, placement }: Solved,
): { readonly placed: PlacedMesh; readonly side: 0 | 1 } | null {
  const mesh = drive.meshes.findIndex(({ gears }) => gears.includes(gear.id));
  const placed = placement.meshes[mesh];
  return placed ? { placed, side: drive.meshes[mesh]?.gears[0] === gear.id ? 0 : 1 } : null;
}

function ofGear(what: Of<"gear">, gear: Gear, solved: Solved, units: UnitChoice): string {
  if (what === "size") return gearSize(gear, units);
  const at = meshOf(gear, solved);
  if (!at) return NOT_FIXED;
  const { shape } = at.placed;
  if (what === "radius") return shown(shape.radii[at.side], "mm", units);
  if (what === "pitch angle") return shown(shape.pitchAngles[at.side] * DEGREES, "°", units);
  const value = what === "cone distance" ? shape.coneDistances[at.side] : coneHeights(shape)[at.side];
  return Number.isFinite(value) ? shown(Math.abs(value), "mm", units) : UNFIT;
}

function ofMesh(what: Of<"mesh">, mesh: number, { placement, load, veil }: Solved, units: UnitChoice): string {
  const placed = placement.meshes[mesh];
  if (what === "shaft angle") return placed ? shown(placed.shape.shaftAngle * DEGREES, "°", units) : NOT_FIXED;
  const { slipTorque = null } = load.meshes[mesh] ?? {};
  return veil && slipTorque === null ? HIDDEN : shown(slipTorque, "N·m", units);
}

function ofShafts(ids: string, { drive, index, motion, veil }: Solved, units: UnitChoice): string | null {
  const [first, second, ...more] = ids.split(" and ").map((id) => index.shafts.get(id.trim()));
  if (first === undefined || second === undefined || more.length > 0) return null;
  if ([first, second].some((shaft) => veil?.hides(shaft, "ratio") || veil?.hides(shaft, "speed"))) return HIDDEN;
  const [from, to] = [motion.speeds[first] ?? null, motion.speeds[second] ?? null];
  if (!from || !to || isZero(from)) return NOT_FIXED;
  return turnsWords(shaftName(drive, first), shaftName(drive, second), divide(to, from), units);
}

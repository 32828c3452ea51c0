/** What the working of a mesh says of sizes: pitch diameters, centre distance, pitch angles and cone distance. */
import { type Gear, hasTeeth, pitchDiameter } from "../drive/types";
import type { PlacedMesh, Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { DEGREE } from "../vector";
import { nameText } from "../wording";
import { call, EQUALS, type Formula, fraction, LESS, number, PLUS, symbol, TIMES, type Token } from "./formula";
import { said, type WorkingLine, worked } from "./working-lines";

/** One gear of the mesh with what the lines say of it. */
export interface MeshEnd {
  readonly gear: Gear;
  readonly shaft: number;
  /** 0 or 1 in the mesh's list of gears. */
  readonly side: 0 | 1;
}

export interface MeshWalk {
  readonly mesh: number;
  /** The gear on the shaft that the way comes from. */
  readonly near: MeshEnd;
  readonly far: MeshEnd;
}

export function meshWalk(solved: Solved, mesh: number, near: 0 | 1): MeshWalk | null {
  const end = (side: 0 | 1): MeshEnd | null => {
    const gear = solved.drive.gears[solved.index.gearsOfMesh[mesh]?.[side] ?? -1];
    const shaft = solved.index.shaftsOfMesh[mesh]?.[side];
    return gear && shaft !== undefined ? { gear, shaft, side } : null;
  };
  const [first, second] = [end(near), end(near === 0 ? 1 : 0)];
  return first && second ? { mesh, near: first, far: second } : null;
}

/** z of a gear, or d of a smooth wheel: what its ratio is made of. */
export const sizeSymbol = (gear: Gear): Token => symbol(hasTeeth(gear) ? "z" : "d", gear.id);
export const sizeNumber = (gear: Gear): Token => (hasTeeth(gear) ? number(gear.teeth) : number(gear.diameter, "mm"));

export const shaftId = (solved: Solved, shaft: number): string => solved.drive.shafts[shaft]?.id ?? "";
/** n of a shaft, counted in turns a minute; ω, in radians a second. */
export const speedSymbol = (solved: Solved, shaft: number, units: UnitChoice): Token =>
  symbol(units.speed === "rad/s" ? "ω" : "n", shaftId(solved, shaft));

const MM_PER_INCH = 25.4;

/** d = m z or d = z / P, with 25.4 where teeth are told by one system and lengths by the other. */
function diameterFormula(teeth: Token, size: Formula, { tooth, length }: UnitChoice): Formula {
  if (tooth === "pitch") return [fraction(length === "in" ? [teeth] : [number(MM_PER_INCH), TIMES, teeth], size)];
  const product = [...size, TIMES, teeth];
  return length === "in" ? [fraction(product, [number(MM_PER_INCH)])] : product;
}

/** Pitch diameters, and what follows from them: centre distance, or pitch angles and cone distance. */
export function sizeLines({ near, far }: MeshWalk, placed: PlacedMesh, units: UnitChoice): WorkingLine[] {
  const lines: WorkingLine[] = [];
  for (const { gear } of [near, far]) {
    const d = symbol("d", gear.id);
    const what = `Pitch diameter of ${nameText(gear.id)}${placed.kind.needsShaftAngle ? " at the heel" : ""}`;
    lines.push(
      hasTeeth(gear)
        ? worked(
            what,
            [d, EQUALS, ...diameterFormula(symbol("z", gear.id), [symbol(units.tooth === "pitch" ? "P" : "m")], units)],
            diameterFormula(number(gear.teeth), [number(gear.module, "module")], units),
            pitchDiameter(gear),
            "mm",
            [gear.id],
          )
        : worked(`${what}, given`, [d], [], pitchDiameter(gear), "mm", [gear.id]),
    );
  }
  return [
    ...lines,
    ...(placed.kind.needsShaftAngle ? coneLines(near, far, placed) : [distanceLine(near, far, placed)]),
  ];
}

function distanceLine(near: MeshEnd, far: MeshEnd, placed: PlacedMesh): WorkingLine {
  const [large, small] = pitchDiameter(near.gear) >= pitchDiameter(far.gear) ? [near, far] : [far, near];
  const isRing = placed.shape.shaftAngle !== 0;
  const sign = isRing ? LESS : PLUS;
  return worked(
    `Distance between the axes, ${isRing ? "one inside the other" : "side by side"}`,
    [symbol("a"), EQUALS, fraction([symbol("d", large.gear.id), sign, symbol("d", small.gear.id)], [number(2)])],
    [fraction([number(pitchDiameter(large.gear), "mm"), sign, number(pitchDiameter(small.gear), "mm")], [number(2)])],
    placed.shape.centreDistance,
    "mm",
    [placed.pair.mesh.id, near.gear.id, far.gear.id],
  );
}

/** tan δ = sin Σ / (z2/z1 + cos Σ) for the smaller gear, where the sum below the line is never 0 or less; the other has the rest of Σ. */
function coneLines(near: MeshEnd, far: MeshEnd, placed: PlacedMesh): WorkingLine[] {
  const [small, large] = pitchDiameter(near.gear) <= pitchDiameter(far.gear) ? [near, far] : [far, near];
  const about = [placed.pair.mesh.id, near.gear.id, far.gear.id];
  const shaftAngle = placed.shape.shaftAngle / DEGREE;
  // Whole degrees that went through radians come back a hair off.
  const sigma = Number(shaftAngle.toPrecision(12));
  const delta = (end: MeshEnd): number => placed.shape.pitchAngles[end.side] / DEGREE;
  const radius = placed.shape.radii[small.side];
  const deltaSymbol = (end: MeshEnd): Token => symbol("δ", end.gear.id);
  return [
    worked(
      `Pitch angle of ${nameText(small.gear.id)}`,
      [
        deltaSymbol(small),
        EQUALS,
        call("arctan", [
          fraction(
            [call("sin", [symbol("Σ")])],
            [fraction([sizeSymbol(large.gear)], [sizeSymbol(small.gear)]), PLUS, call("cos", [symbol("Σ")])],
          ),
        ]),
      ],
      [
        call("arctan", [
          fraction(
            [call("sin", [number(sigma, "°")])],
            [fraction([sizeNumber(large.gear)], [sizeNumber(small.gear)]), PLUS, call("cos", [number(sigma, "°")])],
          ),
        ]),
      ],
      delta(small),
      "°",
      [small.gear.id],
    ),
    worked(
      `Pitch angle of ${nameText(large.gear.id)}, the rest of the shaft angle`,
      [deltaSymbol(large), EQUALS, symbol("Σ"), LESS, deltaSymbol(small)],
      [number(sigma, "°"), LESS, number(delta(small), "°")],
      delta(large),
      "°",
      [large.gear.id],
    ),
    worked(
      "Cone distance, from the common apex to the heel, the same for both",
      [
        symbol("R"),
        EQUALS,
        fraction([symbol("d", small.gear.id)], [number(2), TIMES, call("sin", [deltaSymbol(small)])]),
      ],
      [fraction([number(2 * radius, "mm")], [number(2), TIMES, call("sin", [number(delta(small), "°")])])],
      placed.shape.coneDistances[small.side],
      "mm",
      about,
    ),
    said(
      "The heights of the cones follow from the shaft angle; the ratio doesn't, it is made of the sizes alone",
      about,
    ),
  ];
}

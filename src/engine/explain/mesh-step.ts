/**
 * The working of one mesh between two shafts that turn in the same frame: sizes, equal surface speed, ratio, direction, speed,
 * torque, power. Khurmi & Gupta, Theory of Machines, ch. 13; Mott, Machine Elements in Mechanical Design, ch. 8.
 */
import { type Gear, hasTeeth, pitchDiameter } from "../drive/types";
import { isZero, rational, toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { PlacedMesh, Solved } from "../solved";
import { cosDegrees, DEGREE, sinDegrees } from "../vector";
import { gearName, gearSize, nameText, quantity, shaftName, turnsWords } from "../wording";
import { nearSideWords, sameWay, turning } from "./directions";
import { call, EQUALS, fraction, group, LESS, number, PLUS, symbol, TIMES, type Token } from "./formula";
import { missingSpeed, missingTorque } from "./missing";
import { lacking, said, type WorkingLine, type WorkingStep, worked } from "./working-lines";

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

/** m/s for 1 mm at 1 rev/min: π d n / 60,000. */
const SURFACE_SPEED = Math.PI / 60_000;

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
export const sizeNumber = (gear: Gear): Token =>
  hasTeeth(gear) ? number(gear.teeth) : number(gear.diameter, "mm");

const shaftId = (solved: Solved, shaft: number): string => solved.drive.shafts[shaft]?.id ?? "";
export const speedSymbol = (solved: Solved, shaft: number): Token => symbol("n", shaftId(solved, shaft));

/** Pitch diameters, and what follows from them: centre distance, or pitch angles and cone distance. */
export function sizeLines({ near, far }: MeshWalk, placed: PlacedMesh): WorkingLine[] {
  const lines: WorkingLine[] = [];
  for (const { gear } of [near, far]) {
    const d = symbol("d", gear.id);
    const what = `Pitch diameter of ${nameText(gear.id)}${placed.kind.needsShaftAngle ? " at the heel" : ""}`;
    lines.push(
      hasTeeth(gear)
        ? worked(
            what,
            [d, EQUALS, symbol("m"), TIMES, symbol("z", gear.id)],
            [number(gear.module, "mm"), TIMES, number(gear.teeth)],
            pitchDiameter(gear),
            "mm",
            [gear.id],
          )
        : worked(`${what}, given`, [d], [], pitchDiameter(gear), "mm", [gear.id]),
    );
  }
  return [...lines, ...(placed.kind.needsShaftAngle ? coneLines(near, far, placed) : [distanceLine(near, far, placed)])];
}

function distanceLine(near: MeshEnd, far: MeshEnd, placed: PlacedMesh): WorkingLine {
  const [large, small] = pitchDiameter(near.gear) >= pitchDiameter(far.gear) ? [near, far] : [far, near];
  const isRing = placed.shape.shaftAngle !== 0;
  const sign = isRing ? LESS : PLUS;
  return worked(
    `Distance between the axes, ${isRing ? "one inside the other" : "side by side"}`,
    [symbol("a"), EQUALS, fraction([symbol("d", large.gear.id), sign, symbol("d", small.gear.id)], [number(2)])],
    [
      fraction(
        [number(pitchDiameter(large.gear), "mm"), sign, number(pitchDiameter(small.gear), "mm")],
        [number(2)],
      ),
    ],
    placed.shape.centreDistance,
    "mm",
    [near.gear.id, far.gear.id],
  );
}

/** tan δ = sin Σ / (z2/z1 + cos Σ) for the smaller gear, where the sum below the line is never 0 or less; the other has the rest of Σ. */
function coneLines(near: MeshEnd, far: MeshEnd, placed: PlacedMesh): WorkingLine[] {
  const [small, large] = pitchDiameter(near.gear) <= pitchDiameter(far.gear) ? [near, far] : [far, near];
  const about = [near.gear.id, far.gear.id];
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
    said("The heights of the cones follow from the shaft angle; the ratio doesn't, it is made of the sizes alone", about),
  ];
}

/** Surface speed of both pitch circles, which must be equal. */
function surfaceLines(solved: Solved, { mesh, near, far }: MeshWalk, isCone: boolean): WorkingLine[] {
  const meshId = solved.drive.meshes[mesh]?.id ?? "";
  const about = [meshId, near.gear.id, far.gear.id];
  const turn = (end: MeshEnd): readonly Token[] => [symbol("d", end.gear.id), TIMES, speedSymbol(solved, end.shaft)];
  const rule = said(
    `Where the pitch ${isCone ? "cones" : "circles"} touch, both surfaces move at one speed, so the larger gear turns more slowly`,
    about,
  );
  return [
    rule,
    ...[near, far].map((end) => {
      const words = `Surface speed of ${nameText(end.gear.id)}${isCone ? " at the heel" : ""}`;
      const speed = solved.motion.speed[end.shaft] ?? null;
      const symbols = [symbol("v"), EQUALS, symbol("π"), TIMES, ...turn(end)];
      if (speed === null) return lacking(words, symbols, missingSpeed(solved, end.shaft) ?? "", [end.gear.id]);
      const d = pitchDiameter(end.gear);
      return worked(
        words,
        symbols,
        // mm and minutes to metres and seconds.
        [
          fraction([symbol("π"), TIMES, number(d, "mm"), TIMES, number(Math.abs(speed), "rev/min")], [number(60_000)]),
        ],
        SURFACE_SPEED * d * Math.abs(speed),
        "m/s",
        [end.gear.id],
      );
    }),
  ];
}

function ratioLines(solved: Solved, { mesh, near, far }: MeshWalk): WorkingLine[] {
  const about = [solved.drive.meshes[mesh]?.id ?? "", near.gear.id, far.gear.id];
  const [first, second] = [exactSize(near.gear), exactSize(far.gear)];
  const turns = rational(first.n * second.d, first.d * second.n);
  const words = hasTeeth(near.gear) ? "output teeth over input teeth" : "output diameter over input diameter";
  return [
    worked(
      `Ratio of the mesh, ${words}`,
      [symbol("i"), EQUALS, fraction([sizeSymbol(far.gear)], [sizeSymbol(near.gear)])],
      [fraction([sizeNumber(far.gear)], [sizeNumber(near.gear)])],
      1 / toNumber(turns),
      "",
      about,
    ),
    said(turnsWords(shaftName(solved.drive, near.shaft), shaftName(solved.drive, far.shaft), turns), about),
  ];
}

function directionLine(solved: Solved, { mesh, near, far }: MeshWalk, placed: PlacedMesh): WorkingLine {
  const name = (end: MeshEnd): string => shaftName(solved.drive, end.shaft);
  const way = sameWay(solved, near.shaft, far.shaft);
  const arrows = nearSideWords(solved, mesh);
  const parts = [
    placed.kind.words.direction.replace(/\.$/, ""),
    `${name(near)} turns ${turning(solved, near.shaft)}`,
    `${name(far)} ${way ? `turns ${way}: ` : "turns "}${turning(solved, far.shaft)}`,
    ...(arrows ? [`at the mesh ${arrows}`] : []),
  ].map((part) => part.replace("turns stands still", "stands still").replace("turns not fixed yet", "isn't fixed yet"));
  return said(`Direction: ${parts.join("; ")}`, [solved.drive.meshes[mesh]?.id ?? "", ...[near, far].map((end) => end.gear.id)]);
}

function speedLine(solved: Solved, { near, far }: MeshWalk): WorkingLine {
  const [given, found] = [solved.motion.speed[near.shaft] ?? null, solved.motion.speed[far.shaft] ?? null];
  const words = `Speed of ${shaftName(solved.drive, far.shaft)}`;
  const symbols = [
    speedSymbol(solved, far.shaft),
    EQUALS,
    speedSymbol(solved, near.shaft),
    TIMES,
    fraction([sizeSymbol(near.gear)], [sizeSymbol(far.gear)]),
  ];
  const about = [shaftId(solved, far.shaft)];
  if (given === null || found === null) {
    return lacking(words, symbols, missingSpeed(solved, far.shaft) ?? missingSpeed(solved, near.shaft) ?? "", about);
  }
  const numbers = [
    number(Math.abs(given), "rev/min"),
    TIMES,
    fraction([sizeNumber(near.gear)], [sizeNumber(far.gear)]),
  ];
  if (solved.motion.locked[far.shaft]) return said(`${words}: 0 rev/min, for the drive is jammed here`, about);
  return worked(words, symbols, numbers, Math.abs(found), "rev/min", about);
}

/** Torque and power through the mesh, from the gear that drives to the gear that is driven. */
export function loadLines(solved: Solved, { mesh, near, far }: MeshWalk): WorkingLine[] {
  const load = solved.load.meshes[mesh];
  const given = solved.drive.meshes[mesh];
  const about = [given?.id ?? "", near.gear.id, far.gear.id];
  const torques = load?.torques ?? null;
  const [from, to] = load?.driver === far.side ? [far, near] : [near, far];
  const torque = (end: MeshEnd): Token => symbol("T", end.gear.id);
  const efficiency = given?.efficiency ?? 1;
  const words = `Torque that ${nameText(from.gear.id)} hands on to ${nameText(to.gear.id)}`;
  const symbols = [
    torque(to),
    EQUALS,
    torque(from),
    TIMES,
    fraction([sizeSymbol(to.gear)], [sizeSymbol(from.gear)]),
    ...(efficiency === 1 ? [] : [TIMES, symbol("η")]),
  ];
  if (!torques) {
    const times = toNumber(exactSize(to.gear)) / toNumber(exactSize(from.gear));
    const losses = efficiency === 1 ? "no losses" : `losses leave ${quantity(efficiency, "")} of it`;
    const unknown = lacking(words, symbols, missingTorque(solved), about);
    return [unknown, said(`Whatever the load: torque × ${quantity(times * efficiency, "")}, ${losses}`, about)];
  }
  const [taken, handed] = [Math.abs(torques[from.side]), Math.abs(torques[to.side])];
  if (taken === 0 && handed === 0) return [said("Nothing is carried through this mesh: its torques are 0", about)];
  const lines = [
    worked(
      words,
      symbols,
      [
        number(taken, "N·m"),
        TIMES,
        fraction([sizeNumber(to.gear)], [sizeNumber(from.gear)]),
        ...(efficiency === 1 ? [] : [TIMES, number(efficiency)]),
      ],
      handed,
      "N·m",
      about,
    ),
  ];
  const speed = solved.motion.speed[to.shaft] ?? null;
  const isRiding = (solved.motion.rows[mesh]?.carrier ?? []).some((carrier) => carrier >= 0);
  if (speed === null || isRiding) return lines;
  const kept = efficiency === 1 ? "the same on both sides" : `${quantity(100 * efficiency, "")} % of what went in`;
  lines.push(
    worked(
      `Power handed on, ${kept}`,
      [symbol("P"), EQUALS, torque(to), TIMES, group(number(2), TIMES, symbol("π"), TIMES, speedSymbol(solved, to.shaft))],
      [
        fraction(
          [number(handed, "N·m"), TIMES, number(2), TIMES, symbol("π"), TIMES, number(Math.abs(speed), "rev/min")],
          [number(60)],
        ),
      ],
      (handed * 2 * Math.PI * Math.abs(speed)) / 60,
      "W",
      about,
    ),
  );
  return lines;
}

/** All lines of one mesh. */
export function meshStep(solved: Solved, walk: MeshWalk): WorkingStep | null {
  const placed = solved.placement.meshes[walk.mesh];
  const mesh = solved.drive.meshes[walk.mesh];
  if (!placed || !mesh) return null;
  const name = (end: MeshEnd): string => gearName(solved.drive, end.gear, end.shaft);
  const isStill = isZero(solved.motion.speeds[walk.near.shaft] ?? { n: 1n, d: 1n });
  const lines = [
    ...sizeLines(walk, placed),
    ...surfaceLines(solved, walk, placed.kind.needsShaftAngle),
    ...ratioLines(solved, walk),
    directionLine(solved, walk, placed),
    speedLine(solved, walk),
    ...(isStill && solved.motion.locked[walk.near.shaft] ? [] : loadLines(solved, walk)),
  ];
  return {
    title: `Mesh ${nameText(mesh.id)}: ${name(walk.near)} drives ${name(walk.far)}`,
    about: [mesh.id, walk.near.gear.id, walk.far.gear.id],
    lines,
  };
}

/** "20 drives 50", "60 mm drives 120 mm": the mesh between two cards. */
export const driveWords = (from: Gear, to: Gear): string => {
  const size = (gear: Gear): string => (hasTeeth(gear) ? String(gear.teeth) : gearSize(gear));
  return `${size(from)} drives ${size(to)}`;
};

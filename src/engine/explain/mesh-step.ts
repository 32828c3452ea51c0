/**
 * The working of one mesh between two shafts that turn in the same frame: sizes, equal surface speed, ratio, direction, speed,
 * torque, power. Khurmi & Gupta, Theory of Machines, ch. 13; Mott, Machine Elements in Mechanical Design, ch. 8.
 */
import { pitchDiameter } from "../drive/types";
import type { PlacedMesh, Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { gearName, nameText, quantityIn, shaftName } from "../wording";
import { nearSideWords, sameWay, turning } from "./directions";
import { EQUALS, type Formula, fraction, number, symbol, TIMES, type Token } from "./formula";
import { loadLines } from "./mesh-loads";
import { ratioLines } from "./mesh-ratio";
import { type MeshEnd, type MeshWalk, shaftId, sizeLines, sizeNumber, sizeSymbol, speedSymbol } from "./mesh-sizes";
import { missingSpeed } from "./missing";
import { lacking, said, type WorkingLine, type WorkingStep, worked } from "./working-lines";

/** m/s for 1 mm at 1 rev/min: π d n / 60,000. */
const SURFACE_SPEED = Math.PI / 60_000;

/**
 * v = π d n with n in turns a minute, v = d ω / 2 with ω in radians a second; below the line what makes mm and minutes metres
 * and seconds, or inches and seconds feet and minutes.
 */
function surfaceSpeed(d: Token, speed: Token, { speed: told, length }: UnitChoice): Formula {
  if (told === "rev/min")
    return [fraction([symbol("π"), TIMES, d, TIMES, speed], [number(length === "in" ? 12 : 60_000)])];
  return length === "in"
    ? [fraction([d, TIMES, speed, TIMES, number(60)], [number(2), TIMES, number(12)])]
    : [fraction([d, TIMES, speed], [number(2), TIMES, number(1000)])];
}

/** Surface speed of both pitch circles, which must be equal. */
function surfaceLines(
  solved: Solved,
  { mesh, near, far }: MeshWalk,
  isCone: boolean,
  units: UnitChoice,
): WorkingLine[] {
  const meshId = solved.drive.meshes[mesh]?.id ?? "";
  const about = [meshId, near.gear.id, far.gear.id];
  const surface = (end: MeshEnd): Formula => {
    const [d, speed] = [symbol("d", end.gear.id), speedSymbol(solved, end.shaft, units)];
    return units.speed === "rad/s" ? [fraction([d, TIMES, speed], [number(2)])] : [symbol("π"), TIMES, d, TIMES, speed];
  };
  const isAlike = pitchDiameter(near.gear) === pitchDiameter(far.gear);
  const rule = said(
    `Where the pitch ${isCone ? "cones" : "circles"} touch, both surfaces move at one speed, so ${isAlike ? "gears of one size turn equally fast" : "the larger gear turns more slowly"}`,
    about,
  );
  return [
    rule,
    ...[near, far].map((end) => {
      const words = `Surface speed of ${nameText(end.gear.id)}${isCone ? " at the heel" : ""}`;
      const speed = solved.motion.speed[end.shaft] ?? null;
      const symbols = [symbol("v"), EQUALS, ...surface(end)];
      if (speed === null) return lacking(words, symbols, missingSpeed(solved, end.shaft) ?? "", [end.gear.id]);
      const d = pitchDiameter(end.gear);
      return worked(
        words,
        symbols,
        surfaceSpeed(number(d, "mm"), number(Math.abs(speed), "rev/min"), units),
        SURFACE_SPEED * d * Math.abs(speed),
        "m/s",
        [end.gear.id],
      );
    }),
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
  return said(`Direction: ${parts.join("; ")}`, [
    solved.drive.meshes[mesh]?.id ?? "",
    ...[near, far].map((end) => end.gear.id),
  ]);
}

function speedLine(solved: Solved, { near, far }: MeshWalk, units: UnitChoice): WorkingLine {
  const [given, found] = [solved.motion.speed[near.shaft] ?? null, solved.motion.speed[far.shaft] ?? null];
  const words = `Speed of ${shaftName(solved.drive, far.shaft)}`;
  const symbols = [
    speedSymbol(solved, far.shaft, units),
    EQUALS,
    speedSymbol(solved, near.shaft, units),
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
  if (solved.motion.locked[far.shaft]) {
    return said(`${words}: ${quantityIn(0, "rev/min", units)}, for the drive is jammed here`, about);
  }
  return worked(words, symbols, numbers, Math.abs(found), "rev/min", about);
}

/** All lines of one mesh. */
export function meshStep(solved: Solved, walk: MeshWalk, units: UnitChoice): WorkingStep | null {
  const placed = solved.placement.meshes[walk.mesh];
  const mesh = solved.drive.meshes[walk.mesh];
  if (!placed || !mesh) return null;
  const name = (end: MeshEnd): string => gearName(solved.drive, end.gear, end.shaft, units);
  const lines = [
    ...sizeLines(walk, placed, units),
    ...surfaceLines(solved, walk, placed.kind.needsShaftAngle, units),
    ...ratioLines(solved, walk, placed, units),
    directionLine(solved, walk, placed),
    speedLine(solved, walk, units),
    ...(solved.motion.locked[walk.far.shaft] ? [] : loadLines(solved, walk, units)),
  ];
  return {
    title: `Mesh ${nameText(mesh.id)}: ${name(walk.near)} drives ${name(walk.far)}`,
    about: [mesh.id, walk.near.gear.id, walk.far.gear.id],
    mesh: mesh.id,
    lines,
  };
}

/** The lines of a mesh whose axes a carrier takes round: sizes and the ratio that an eye on the carrier sees. */
export function carriedStep(
  solved: Solved,
  walk: MeshWalk,
  placed: PlacedMesh,
  carrier: string,
  units: UnitChoice,
): WorkingStep {
  const { id } = placed.pair.mesh;
  const about = [id, walk.near.gear.id, walk.far.gear.id];
  const name = (end: MeshEnd): string => gearName(solved.drive, end.gear, end.shaft, units);
  return {
    title: `Mesh ${nameText(id)}: ${name(walk.near)} with ${name(walk.far)}, carried by ${carrier}`,
    about,
    lines: [
      ...sizeLines(walk, placed, units),
      said(`The ratio holds for an eye riding on ${carrier}, to which both axes stand`, about),
      ...ratioLines(solved, walk, placed, units),
    ],
  };
}

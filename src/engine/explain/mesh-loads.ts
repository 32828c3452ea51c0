/** What the working of a mesh says of torque and power. */
import { toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { figuresIn, nameText } from "../wording";
import { EQUALS, fraction, number, symbol, TIMES, type Token } from "./formula";
import { type MeshEnd, type MeshWalk, sizeNumber, sizeSymbol, speedSymbol } from "./mesh-sizes";
import { missingTorque } from "./missing";
import { powerLine } from "./power-line";
import { lacking, said, type WorkingLine, worked } from "./working-lines";

/** Torque and power through the mesh, from the gear that drives to the gear that is driven. */
export function loadLines(solved: Solved, { mesh, near, far }: MeshWalk, units: UnitChoice): WorkingLine[] {
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
  const [taken, handed] = torques ? [Math.abs(torques[from.side]), Math.abs(torques[to.side])] : [0, 0];
  if (taken === 0 && handed === 0) {
    const times = (toNumber(exactSize(to.gear)) / toNumber(exactSize(from.gear))) * efficiency;
    const losses = efficiency === 1 ? "no losses" : `losses counted (efficiency ${figuresIn(efficiency, units)})`;
    return [
      torques
        ? said("Nothing is carried through this mesh: its torques are 0", about)
        : lacking(words, symbols, missingTorque(solved), about),
      said(`Whatever the load: torque × ${figuresIn(times, units)}, ${losses}`, about),
    ];
  }
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
  const kept = efficiency === 1 ? "the same on both sides" : `${figuresIn(100 * efficiency, units)} % of what went in`;
  lines.push(
    powerLine(
      `Power handed on, ${kept}`,
      [symbol("P"), speedSymbol(solved, to.shaft, units), torque(to)],
      [Math.abs(speed), handed],
      units,
      about,
    ),
  );
  return lines;
}

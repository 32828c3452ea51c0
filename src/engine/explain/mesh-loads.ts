/** What the working of a mesh says of torque and power. P = 2 π n T with n in turns a second. */
import { toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { Solved } from "../solved";
import { figures, nameText } from "../wording";
import { EQUALS, fraction, number, symbol, TIMES, type Token } from "./formula";
import { type MeshEnd, type MeshWalk, sizeNumber, sizeSymbol, speedSymbol } from "./mesh-sizes";
import { missingTorque } from "./missing";
import { lacking, said, type WorkingLine, worked } from "./working-lines";

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
  const [taken, handed] = torques ? [Math.abs(torques[from.side]), Math.abs(torques[to.side])] : [0, 0];
  if (taken === 0 && handed === 0) {
    const times = (toNumber(exactSize(to.gear)) / toNumber(exactSize(from.gear))) * efficiency;
    const losses = efficiency === 1 ? "no losses" : `losses counted (efficiency ${figures(efficiency)})`;
    return [
      torques
        ? said("Nothing is carried through this mesh: its torques are 0", about)
        : lacking(words, symbols, missingTorque(solved), about),
      said(`Whatever the load: torque × ${figures(times)}, ${losses}`, about),
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
  const kept = efficiency === 1 ? "the same on both sides" : `${figures(100 * efficiency)} % of what went in`;
  lines.push(
    worked(
      `Power handed on, ${kept}`,
      [symbol("P"), EQUALS, number(2), TIMES, symbol("π"), TIMES, speedSymbol(solved, to.shaft), TIMES, torque(to)],
      [
        fraction(
          [number(2), TIMES, symbol("π"), TIMES, number(Math.abs(speed), "rev/min"), TIMES, number(handed, "N·m")],
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

/** What grows without a mate of its own: a gear alone, an idler between two that mesh, a motor or a load. */
import { isRefused } from "../../engine/drive/commands/edit";
import { addGear } from "../../engine/drive/commands/gear";
import { insertIdler } from "../../engine/drive/commands/idler";
import { setPort } from "../../engine/drive/commands/port";
import { USUAL_SPEED } from "../../engine/drive/defaults";
import { hasTeeth, type Mesh } from "../../engine/drive/types";
import { MESH_KINDS } from "../../engine/mesh-kinds/list";
import { equals, isZero, negate } from "../../engine/motion/rational";
import { solve } from "../../engine/solve";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";
import type { GrowSettings, GrowSpot } from "../growing";
import { freePlace } from "./along";
import { candidateOf } from "./candidate";
import { idlerMesh } from "./grow-options";
import { type Base, capital, type Growth, NO_VALUES, refused, tryOnce } from "./growth-parts";
import { turningWords } from "./words";

export function gearGrowth(solved: Solved, base: Base, spot: GrowSpot, settings: GrowSettings): Growth {
  const kind = MESH_KINDS.find(({ pairs }) => pairs[0] === "spur" && pairs[1] === "spur");
  if (!kind) return refused(base, "There are no spur gears here.");
  const text = settings.sizes?.trim() ?? "";
  const teeth = /^\d+$/.test(text) ? Number(text) : 20;
  const candidate = candidateOf(solved, base.shaft, {
    kind,
    gear: null,
    sizes: [teeth, teeth],
    module: settings.module,
  });
  const at = settings.at ?? freePlace(solved, base.shaft, spot.side ?? 1, candidate.firstForm);
  const face = settings.face ?? candidate.firstForm.face;
  const edit = addGear(spot.shaft, { kind: "spur", teeth, module: candidate.module, face, at });
  const rest = {
    fields: ["sizes", "face", "module", "at"] as const,
    values: { ...NO_VALUES, sizes: settings.sizes ?? String(teeth), face, module: candidate.module, at },
  };
  if (text !== "" && !/^\d+$/.test(text)) {
    const words = `“${text.slice(0, 20)}” is not a number of teeth: type a whole number, as in 20.`;
    return refused({ ...base, read: { ok: false, words } }, words, rest);
  }
  const tried = tryOnce(solved, edit, JSON.stringify([spot, "gear", settings]));
  if (tried.blocked !== null || !tried.solved) return refused(base, tried.blocked ?? "It can't stand there.", rest);
  const name = shaftName(solved.drive, base.shaft);
  return { ...base, ...rest, edit, next: tried.solved, words: [`A gear of ${teeth} teeth that turns with ${name}.`] };
}

export function idlerGrowth(solved: Solved, base: Base, spot: GrowSpot, settings: GrowSettings): Growth {
  const id = idlerMesh(solved, spot.gear ?? "");
  const mesh = solved.drive.meshes[solved.index.meshes.get(id ?? "") ?? -1];
  if (!mesh) return refused(base, "This gear meshes with nothing yet: there is no place between.");
  const sizes = mesh.gears.map((gear) => solved.drive.gears[solved.index.gears.get(gear) ?? -1]);
  const usual = Math.min(...sizes.map((gear) => (gear && hasTeeth(gear) ? gear.teeth : 20)));
  const text = settings.sizes?.trim() ?? "";
  const rest = { fields: ["sizes"] as const, values: { ...NO_VALUES, sizes: settings.sizes ?? String(usual) } };
  const teeth = text === "" ? usual : Number(text);
  if (!Number.isInteger(teeth) || teeth < 1) {
    const words = `“${text.slice(0, 20)}” is not a number of teeth: type a whole number, as in 20.`;
    return refused({ ...base, read: { ok: false, words } }, words, rest);
  }
  const edit = insertIdler(mesh.id, { teeth });
  const tried = tryOnce(solved, edit, JSON.stringify([spot, "idler", settings.sizes]));
  if (tried.blocked !== null || !tried.solved) return refused(base, tried.blocked ?? "It can't stand there.", rest);
  return { ...base, ...rest, edit, next: tried.solved, words: idlerWords(solved, tried.solved, mesh, base) };
}

/** Which of the two shafts it turns the other way, as the solutions before and after have it: either may, or neither. */
function idlerWords(solved: Solved, next: Solved, mesh: Mesh, { shaft: own, units }: Base): string[] {
  const shafts = mesh.gears.map((gear) => solved.index.shaftOfGear[solved.index.gears.get(gear) ?? -1] ?? -1);
  const isReversed = (shaft: number): boolean => {
    const [was, now] = [solved.motion.speeds[shaft], next.motion.speeds[shaft]];
    return Boolean(was && now && !isZero(was) && equals(now, negate(was)));
  };
  const reversed = shafts.find(isReversed);
  const told = reversed ?? shafts.find((shaft) => shaft !== own) ?? own;
  const keeps = "an idler's teeth change no ratio";
  return [
    reversed === undefined
      ? `${capital(keeps)}.`
      : `${shaftName(solved.drive, reversed)} turns the other way than now, and as fast: ${keeps}.`,
    `${capital(turningWords(next, told, units))}.`,
  ];
}

export function portGrowth(solved: Solved, base: Base, settings: GrowSettings): Growth {
  const { drive, index } = solved;
  const id = drive.shafts[base.shaft]?.id ?? "";
  const port = drive.ports[index.portOfShaft[base.shaft] ?? -1];
  const role = settings.role ?? port?.role ?? (drive.ports.some((one) => one.role === "input") ? "output" : "input");
  const speed = settings.speed ?? port?.speed ?? USUAL_SPEED;
  const load = settings.load ?? (role === "output" ? (port?.torque ?? null) : null);
  const sizes = port?.role === role ? { torque: port.torque, power: port.power } : {};
  const edit =
    role === "held"
      ? setPort(id, { role })
      : role === "input"
        ? setPort(id, { role, speed, ...sizes })
        : setPort(id, settings.load === undefined ? { role, ...sizes } : { role, torque: settings.load });
  const rest = {
    fields: ["role", ...(role === "input" ? ["speed" as const] : role === "output" ? ["load" as const] : [])] as const,
    values: { ...NO_VALUES, role, speed, load },
  };
  const result = edit(drive);
  if (isRefused(result)) return refused(base, result.refused, rest);
  const next = solve(result, solved);
  return { ...base, ...rest, edit, next, words: [`${capital(turningWords(next, base.shaft, base.units))}.`] };
}

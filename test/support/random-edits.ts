/**
 * Random edits by seed: every edit command of src/engine/drive/commands, with arguments that mostly fit the drive and now and then
 * don't (a part that isn't there, a number out of range), as a person's hand or a wrong program would send them.
 */
import { duplicateStage } from "../../src/engine/drive/commands/duplicate";
import type { Edit } from "../../src/engine/drive/commands/edit";
import { addGear, type GearPatch, type NewGear, setGear } from "../../src/engine/drive/commands/gear";
import { changeStep, keepStep, moveStep, removeStep } from "../../src/engine/drive/commands/lesson-steps";
import { joinMesh, type MeshPatch, setMesh, swapSizes } from "../../src/engine/drive/commands/mesh";
import { driveFrom, type NewPort, setPort } from "../../src/engine/drive/commands/port";
import { setHidden } from "../../src/engine/drive/commands/question";
import { removeGear, removeMesh, removeShaft } from "../../src/engine/drive/commands/remove";
import { addShaft, rename, type ShaftPatch, setNotes, setShaft, setTitle } from "../../src/engine/drive/commands/shaft";
import { addStage, type StageFields } from "../../src/engine/drive/commands/stage";
import { FREE_HANDLES } from "../../src/engine/drive/lesson-schema";
import { FIGURES } from "../../src/engine/drive/question";
import { type Drive, GEAR_KINDS, type Vec3 } from "../../src/engine/drive/types";
import { MESH_KINDS } from "../../src/engine/mesh-kinds/list";
import type { picker } from "./random-drives";

type Pick = ReturnType<typeof picker>;

export interface RandomEdit {
  /** The command's name and its arguments, to be read where a test fails. */
  readonly words: string;
  readonly edit: Edit;
}

/** More parts than this and the drive is only changed and cut, so that fifty edits stay quick. */
const LARGE = 40;

/** One of them, or undefined: in a patch that takes the number back to its default. */
const maybe = <T>(pick: Pick, make: () => T, part = 0.5): T | undefined => (pick.random() < part ? make() : undefined);
/** A number of the range, now and then one that no drive takes. */
const around = (pick: Pick, least: number, most: number): number => {
  const wild = [Number.NaN, Number.POSITIVE_INFINITY, -1, 0, 1e-320, 1e308, least - 1e-9, most + 1];
  if (pick.random() < 0.04) return pick.of(wild);
  const x = least + pick.random() * (most - least);
  return pick.random() < 0.7 ? Math.round(x) : x;
};
const direction = (pick: Pick): Vec3 => [pick.whole(-2, 2), pick.whole(-2, 2), pick.random() < 0.9 ? 1 : 0];

const WORDS = ["", "Mill", "Kite winch", "Ärmel – 3/4\u202f”", 'a "quoted" \\ name', "😀 \n two lines", "\ud800"];
const DIGITS = ["33.333333333333333333333", "1e-3", "0.1000000000000000000000000000001"];

const idOf = (pick: Pick, list: readonly { readonly id: string }[]): string =>
  list.length === 0 || pick.random() < 0.03 ? "nobody" : pick.of(list).id;

const gearPatch = (pick: Pick): GearPatch => ({
  ...(pick.random() < 0.5 ? { teeth: around(pick, 6, 80) } : {}),
  ...(pick.random() < 0.2 ? { module: maybe(pick, () => around(pick, 1, 6), 0.9) } : {}),
  ...(pick.random() < 0.2 ? { diameter: around(pick, 10, 200) } : {}),
  ...(pick.random() < 0.2 ? { at: maybe(pick, () => around(pick, -200, 200), 0.9) } : {}),
  ...(pick.random() < 0.2 ? { face: maybe(pick, () => around(pick, 1, 40), 0.9) } : {}),
  ...(pick.random() < 0.1 ? { pressureAngle: maybe(pick, () => around(pick, 14, 30), 0.9) } : {}),
  ...(pick.random() < 0.1 ? { shift: maybe(pick, () => around(pick, -1, 1), 0.9) } : {}),
  ...(pick.random() < 0.1 ? { bore: around(pick, 0, 30), phase: around(pick, -360, 360) } : {}),
  ...(pick.random() < 0.1 ? { apex: pick.of(["+", "-"] as const) } : {}),
  ...(pick.random() < 0.05 ? { diameter: 33.333333333333336, diameterDigits: pick.of(DIGITS) } : {}),
  ...(pick.random() < 0.05 ? { "x-note": pick.of([null, -0, ["a", { b: 1.5 }], "text"]) } : {}),
});

const newGear = (pick: Pick): NewGear => {
  const kind = pick.of(GEAR_KINDS);
  const isToothed = kind === "spur" || kind === "internal" || kind === "bevel";
  const at = around(pick, -200, 200);
  return (
    isToothed
      ? { kind, teeth: around(pick, 8, 90), module: pick.of([1, 1.5, 2, 3]), at }
      : { kind, diameter: around(pick, 10, 200), at }
  ) as NewGear;
};

const meshPatch = (pick: Pick): MeshPatch => ({
  ...(pick.random() < 0.6 ? { azimuth: maybe(pick, () => around(pick, -360, 360), 0.9) } : {}),
  ...(pick.random() < 0.3 ? { shaftAngle: maybe(pick, () => around(pick, 10, 170), 0.9) } : {}),
  ...(pick.random() < 0.3 ? { efficiency: maybe(pick, () => around(pick, 0.5, 1), 0.9) } : {}),
  ...(pick.random() < 0.1 ? { normalForce: around(pick, 0, 500), friction: around(pick, 0, 1) } : {}),
});

const port = (pick: Pick): NewPort | null => {
  if (pick.random() < 0.2) return null;
  const role = pick.of(["input", "held", "output"] as const);
  return {
    role,
    ...(role === "input" || pick.random() < 0.05 ? { speed: around(pick, -3000, 3000) } : {}),
    ...(role === "input" && pick.random() < 0.1 ? { speed: 0.001, speedDigits: pick.of(DIGITS) } : {}),
    ...(pick.random() < 0.3 ? { torque: around(pick, 0, 50) } : {}),
    ...(pick.random() < 0.1 ? { power: around(pick, 0, 2000) } : {}),
  };
};

const shaftPatch = (pick: Pick, drive: Drive): ShaftPatch => ({
  ...(pick.random() < 0.4 ? { name: pick.of(WORDS) } : {}),
  ...(pick.random() < 0.3
    ? {
        pose:
          maybe(pick, () => ({ origin: direction(pick), axis: direction(pick), ref: direction(pick) }), 0.8) ?? null,
      }
    : {}),
  ...(pick.random() < 0.2 ? { coaxial: maybe(pick, () => idOf(pick, drive.shafts), 0.7) ?? null } : {}),
  ...(pick.random() < 0.2 ? { frame: maybe(pick, () => idOf(pick, drive.shafts), 0.7) ?? null } : {}),
});

const stage = (pick: Pick, drive: Drive): StageFields => {
  const shaft = idOf(pick, drive.shafts);
  const own = drive.gears.filter((gear) => gear.shaft === shaft);
  return {
    shaft,
    kind: pick.of(MESH_KINDS).id,
    ...(own.length > 0 && pick.random() < 0.5 ? { gear: pick.of(own).id } : {}),
    ...(pick.random() < 0.3 ? { swapped: true } : {}),
    ...(pick.random() < 0.6 ? { teeth: [around(pick, 8, 40), around(pick, 12, 90)] as const } : {}),
    ...(pick.random() < 0.3 ? { shaftAngle: around(pick, 20, 160) } : {}),
    ...(pick.random() < 0.5 ? { azimuth: around(pick, 0, 359) } : {}),
    ...(pick.random() < 0.1 ? { module: around(pick, 1, 5), face: around(pick, 2, 30) } : {}),
  };
};

/** A random edit of this drive. */
export const randomEdit = (pick: Pick, drive: Drive): RandomEdit => {
  const call = <A extends readonly unknown[]>(command: (...args: A) => Edit, ...args: A): RandomEdit => ({
    words: `${command.name}(${args.map((arg) => JSON.stringify(arg)).join(", ")})`,
    edit: command(...args),
  });
  const { shafts, gears, meshes } = drive;
  const growing = [
    () => call(addStage, stage(pick, drive)),
    () => call(addStage, stage(pick, drive)),
    () => call(duplicateStage, idOf(pick, shafts)),
    () => call(addShaft, shaftPatch(pick, drive)),
    () => call(addGear, idOf(pick, shafts), newGear(pick)),
    () => call(joinMesh, idOf(pick, gears), idOf(pick, gears), meshPatch(pick)),
  ];
  const others = [
    () => call(setTitle, pick.of(WORDS)),
    () => call(setNotes, pick.of(WORDS)),
    () => call(setHidden, idOf(pick, shafts), pick.of(FIGURES), pick.random() < 0.6),
    () => call(rename, idOf(pick, shafts), pick.of(WORDS)),
    () =>
      call(keepStep, {
        text: pick.of(WORDS) || "Look.",
        lit: { shaft: idOf(pick, shafts) },
        turns: pick.random() < 0.5,
      }),
    () => call(changeStep, pick.whole(-1, 3), { free: maybe(pick, () => pick.of(FREE_HANDLES)) }),
    () => call(moveStep, pick.whole(-1, 3), pick.random() < 0.5 ? 1 : -1),
    () => call(removeStep, pick.whole(-1, 3)),
    () => call(setShaft, idOf(pick, shafts), shaftPatch(pick, drive)),
    () => call(setGear, idOf(pick, gears), gearPatch(pick), { mates: pick.of(["module", "none"] as const) }),
    () => call(setGear, idOf(pick, gears), gearPatch(pick), {}),
    () => call(setMesh, idOf(pick, meshes), meshPatch(pick)),
    () => call(swapSizes, idOf(pick, meshes)),
    () => call(setPort, idOf(pick, shafts), port(pick)),
    () => call(driveFrom, idOf(pick, shafts)),
    () => call(removeShaft, idOf(pick, shafts)),
    () => call(removeGear, idOf(pick, gears)),
    () => call(removeMesh, idOf(pick, meshes)),
  ];
  const isLarge = shafts.length + gears.length + meshes.length > LARGE;
  return (isLarge || pick.random() < 0.6 ? pick.of(others) : pick.of(growing))();
};

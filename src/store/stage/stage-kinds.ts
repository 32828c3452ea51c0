/** The kinds of stage in the words of the panel, in the order in which they are offered. */
import type { MeshKind } from "../../engine/mesh-kinds/contract";
import { MESH_KINDS } from "../../engine/mesh-kinds/list";

export interface StageKind {
  readonly mesh: MeshKind;
  readonly group: "Teeth" | "Friction";
  readonly words: string;
  /** What of it is read out only, the heading saying the rest to the eye. */
  readonly heard?: string;
  readonly hint: string;
}

const WORDS: readonly (readonly [
  id: string,
  group: StageKind["group"],
  words: string,
  hint: string,
  heard?: string,
])[] = [
  ["spur-pair", "Teeth", "Beside it", "Two gears side by side on parallel shafts; they turn opposite ways."],
  ["ring-pair", "Teeth", "Inside a ring", "A gear inside a ring on parallel shafts; both turn the same way."],
  ["bevel-pair", "Teeth", "At an angle", "Two bevel gears on shafts that meet."],
  ["wheel-pair", "Friction", "Wheel", "Two smooth wheels pressed together; they can slip.", "beside it, by friction"],
  ["cone-pair", "Friction", "Cone", "Two smooth cones on shafts that meet; they can slip.", "at an angle, by friction"],
  [
    "ring-wheel-pair",
    "Friction",
    "Ring",
    "A smooth wheel pressed into a smooth ring; it can slip.",
    "round it, by friction",
  ],
];

/** Every kind that the engine has: those that have no words here yet stand last under their own name. */
export const STAGE_KINDS: readonly StageKind[] = [
  ...WORDS.flatMap(([id, group, words, hint, heard]) => {
    const mesh = MESH_KINDS.find((kind) => kind.id === id);
    return mesh ? [{ mesh, group, words, hint, heard }] : [];
  }),
  ...MESH_KINDS.filter((mesh) => !WORDS.some(([id]) => id === mesh.id)).map((mesh) => ({
    mesh,
    group: mesh.isFriction ? ("Friction" as const) : ("Teeth" as const),
    words: mesh.words.name,
    hint: mesh.words.direction,
  })),
];

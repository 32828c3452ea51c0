/** The one list of kinds of mesh. A new kind is its file beside this one and its line here. */
import type { GearKind } from "../drive/types";
import { bevelPair } from "./bevel-pair";
import { conePair } from "./cone-pair";
import type { MeshKind } from "./contract";
import { ringPair } from "./ring-pair";
import { ringWheelPair } from "./ring-wheel-pair";
import { spurPair } from "./spur-pair";
import { wheelPair } from "./wheel-pair";

export const MESH_KINDS: readonly MeshKind[] = [spurPair, ringPair, bevelPair, wheelPair, ringWheelPair, conePair];

const byPair = new Map<string, MeshKind>();
for (const kind of MESH_KINDS) {
  const [a, b] = kind.pairs;
  byPair.set(`${a} ${b}`, kind);
  byPair.set(`${b} ${a}`, kind);
}

/** The kind of mesh that joins these two kinds of gear, in either order; undefined where none does. */
export const kindOf = (a: GearKind, b: GearKind): MeshKind | undefined => byPair.get(`${a} ${b}`);

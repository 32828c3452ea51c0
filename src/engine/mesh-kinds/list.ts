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

const mates = new Map<GearKind, Map<GearKind, MeshKind>>();
for (const kind of MESH_KINDS) {
  const [a, b] = kind.pairs;
  mates.set(a, (mates.get(a) ?? new Map()).set(b, kind));
  mates.set(b, (mates.get(b) ?? new Map()).set(a, kind));
}

/** The kind of mesh that joins these two kinds of gear, in either order; undefined where none does. */
export const kindOf = (a: GearKind, b: GearKind): MeshKind | undefined => mates.get(a)?.get(b);

/** Which shafts have their axis and their ref from one shaft, so that they must follow where those are given anew. */
import type { Solved } from "../solved";

type Standing = Pick<Solved, "drive" | "index" | "placement">;

export interface Aligned {
  /** Ids of shafts that share the first one's axis and ref: itself, coaxial ones, those placed by parallel pairs, and so on. */
  readonly shafts: readonly string[];
  /** Ids of the meshes that were placed from any of them. */
  readonly meshes: readonly string[];
}

/**
 * All that has its azimuths from the ref of this shaft. A pair at an angle ends the chain: the ref beyond it comes from where its
 * axes lie, not from the ref before it. Linear in the drive.
 */
export function alignedWith({ drive, index, placement }: Standing, shaft: number): Aligned {
  const lists = new Map<number, { readonly shaft: number; readonly mesh: number }[]>();
  const hang = (from: number, entry: { readonly shaft: number; readonly mesh: number }): void => {
    const list = lists.get(from);
    if (list) list.push(entry);
    else lists.set(from, [entry]);
  };
  drive.shafts.forEach(({ pose, coaxial }, i) => {
    const placed = placement.shafts[i];
    if (!placed || pose) return;
    if (coaxial !== undefined) {
      hang(index.shafts.get(coaxial) ?? -1, { shaft: i, mesh: -1 });
      return;
    }
    const mesh = index.meshes.get(placed.placedBy) ?? -1;
    const [a, b] = index.shaftsOfMesh[mesh] ?? [-1, -1];
    hang(a === i ? b : a, { shaft: i, mesh });
  });
  const shafts: string[] = [];
  const meshes: string[] = [];
  const family = [shaft];
  for (const one of family) {
    const id = drive.shafts[one]?.id;
    if (id !== undefined) shafts.push(id);
    for (const next of lists.get(one) ?? []) {
      const id = drive.meshes[next.mesh]?.id;
      if (id !== undefined) meshes.push(id);
      if (next.mesh < 0 || placement.meshes[next.mesh]?.kind.needsShaftAngle === false) family.push(next.shaft);
    }
  }
  return { shafts, meshes };
}

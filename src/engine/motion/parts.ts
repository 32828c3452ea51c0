/** Which shafts are joined, through meshes or by being carried: each joined part turns and carries load on its own. */
import type { DriveIndex } from "../solved";

/** For each shaft the number of its part, counted from 0 in document order of the first shaft of each. */
export function joinedParts(index: DriveIndex, shafts: number): Int32Array {
  const parent = Int32Array.from({ length: shafts }, (_, i) => i);
  const top = (at: number): number => {
    let i = at;
    while (parent[i] !== i) {
      parent[i] = parent[parent[i] as number] as number;
      i = parent[i] as number;
    }
    return i;
  };
  for (const [a, b] of index.shaftsOfMesh) parent[top(a)] = top(b);
  index.frameOfShaft.forEach((frame, shaft) => {
    if (frame !== -1) parent[top(shaft)] = top(frame);
  });
  const part = new Int32Array(shafts);
  const seen = new Map<number, number>();
  for (let shaft = 0; shaft < shafts; shaft++) {
    const root = top(shaft);
    const number = seen.get(root) ?? seen.size;
    seen.set(root, number);
    part[shaft] = number;
  }
  return part;
}

/** Which shafts are joined, through meshes or by being carried: each joined part turns and carries load on its own. */
import type { DriveIndex } from "../solved";

/** For each shaft the number of its part, counted from 0 in document order of the first shaft of each. */
export function joinedParts(index: DriveIndex, shafts: number): Int32Array {
  const parent = new Int32Array(shafts);
  for (let shaft = 0; shaft < shafts; shaft++) parent[shaft] = shaft;
  const top = (at: number): number => {
    let i = at;
    while (parent[i] !== i) {
      parent[i] = parent[parent[i] as number] as number;
      i = parent[i] as number;
    }
    return i;
  };
  for (let end = 0; end < index.shaftAt.length; end += 2)
    parent[top(index.shaftAt[end] as number)] = top(index.shaftAt[end + 1] as number);
  for (let shaft = 0; shaft < shafts; shaft++) {
    const frame = index.frameOfShaft[shaft] as number;
    if (frame !== -1) parent[top(shaft)] = top(frame);
  }
  const part = new Int32Array(shafts);
  const numberOf = new Int32Array(shafts).fill(-1);
  let parts = 0;
  for (let shaft = 0; shaft < shafts; shaft++) {
    const root = top(shaft);
    if (numberOf[root] === -1) numberOf[root] = parts++;
    part[shaft] = numberOf[root] as number;
  }
  return part;
}

/** What friction pairs share: the normal force in the place of the teeth's separating force. */
import type { MeshKind } from "./contract";
import { resolve } from "./tooth-action";

export const pressed: Pick<MeshKind, "isFriction" | "forces" | "contactRatio"> = {
  isFriction: true,
  forces: (pair) => (pair.mesh.normalForce === undefined ? null : resolve(pair, pair.mesh.normalForce)),
  contactRatio: () => null,
};

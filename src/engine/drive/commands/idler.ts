/** Put an idler between two gears that mesh: it turns the second the other way, and its teeth change no ratio. */
import { kindOf } from "../../mesh-kinds/list";
import { makeMesh, makeShaft } from "../defaults";
import { bareId } from "../describe";
import { type Gear, hasTeeth } from "../types";
import { type Edit, gearOf, isRefused, limited, meshOf, missing, refuse, replaced, shaftOf } from "./edit";
import { newGear } from "./gear";
import { freshMeshId, freshShaftId } from "./ids";

export interface IdlerFields {
  /** Whole; as many as the smaller of the two gears has, unless given. */
  readonly teeth?: number;
}

/**
 * The mesh goes on from the idler to the gear that it led to, at the azimuth that it had, back towards the middle where that is a ring
 * round both; the new mesh, as efficient as that one, stands before it in the list, so that it places the idler first. Refused where the shafts meet at an angle, on friction pairs, and on shifted teeth, whose three
 * shifts can't agree (version 1 of the format asks for a sum of 0).
 */
export const insertIdler =
  (id: string, fields: IdlerFields = {}): Edit =>
  (drive) => {
    const mesh = meshOf(drive, id);
    if (!mesh) return missing("mesh", id);
    const [a, b] = mesh.gears.map((gear) => gearOf(drive, gear)) as [Gear, Gear];
    const kind = kindOf(a.kind, b.kind);
    if (!kind || kind.needsShaftAngle || !hasTeeth(a) || !hasTeeth(b)) {
      return refuse(`An idler goes between toothed gears on parallel shafts, and ${bareId(id)} joins no such pair.`);
    }
    if (a.shift !== 0 || b.shift !== 0) {
      return refuse(
        `Gears ${bareId(a.id)} and ${bareId(b.id)} have profile shift, which no idler can match on both sides; set it to 0 first.`,
      );
    }
    const frame = shaftOf(drive, a.shaft)?.frame ?? shaftOf(drive, b.shaft)?.frame;
    const shaft = makeShaft({ id: freshShaftId(drive), frame });
    const withShaft = { ...drive, shafts: [...drive.shafts, shaft] };
    const { module, face, pressureAngle } = a;
    const teeth = fields.teeth ?? Math.min(a.teeth, b.teeth);
    const idler = newGear(withShaft, shaft.id, { kind: "spur", teeth, module, face, pressureAngle, at: 0 });
    if (isRefused(idler)) return idler;
    // A ring takes the idler, as it took its pinion: the outside gear of the two meets the idler first.
    const [near, far] = a.kind === idler.kind ? [a, b] : [b, a];
    const { efficiency } = mesh;
    const first = makeMesh({ id: freshMeshId(drive), gears: [near.id, idler.id], azimuth: mesh.azimuth, efficiency });
    const azimuth = far.kind === idler.kind ? mesh.azimuth : (mesh.azimuth + 180) % 360;
    const second = makeMesh({ ...mesh, gears: [idler.id, far.id], azimuth });
    const meshes = replaced(drive.meshes, mesh, second);
    meshes.splice(meshes.indexOf(second), 0, first);
    return limited({ ...withShaft, gears: [...drive.gears, idler], meshes });
  };

/** What can grow from a place: the choices that stand there, each with its key. */
import { hasTeeth } from "../../engine/drive/types";
import type { MeshKind } from "../../engine/mesh-kinds/contract";
import { GEAR_FORMS } from "../../engine/mesh-kinds/gear-forms";
import { MESH_KINDS } from "../../engine/mesh-kinds/list";
import type { Solved } from "../../engine/solved";
import type { GrowSpot } from "../growing";
import { STAGE_KINDS } from "./stage-kinds";

export interface GrowOption {
  readonly id: string;
  readonly what: "stage" | "idler" | "gear" | "port";
  /** Of a stage. */
  readonly kind?: MeshKind;
  readonly key: string;
  readonly words: string;
  readonly hint: string;
}

/** By place in the order of the kinds of stage: beside, in a ring, at an angle. */
const KEYS = ["S", "R", "B"] as const;

/** The mesh that an idler would come into: the last of the gear's on parallel shafts; null for none. */
export function idlerMesh({ drive, index }: Solved, gear: string): string | null {
  const mesh = drive.meshes.findLast(({ gears, shaftAngle }) => gears.includes(gear) && shaftAngle === undefined);
  const own = drive.gears[index.gears.get(gear) ?? -1];
  return mesh && own && hasTeeth(own) ? mesh.id : null;
}

/** Smooth wheels go on as smooth wheels, toothed gears as toothed ones. */
function isToothed({ drive, index }: Solved, { shaft, gear }: GrowSpot): boolean {
  const own = gear !== undefined ? drive.gears[index.gears.get(gear) ?? -1] : undefined;
  const last = own ?? drive.gears.findLast((one) => one.shaft === shaft);
  return !last || GEAR_FORMS[last.kind].hasTeeth;
}

export function growOptions(solved: Solved, spot: GrowSpot): readonly GrowOption[] {
  const group = isToothed(solved, spot) ? "Teeth" : "Friction";
  const own = spot.gear === undefined ? undefined : solved.drive.gears[solved.index.gears.get(spot.gear) ?? -1];
  const stages = STAGE_KINDS.filter((kind) => kind.group === group && MESH_KINDS.includes(kind.mesh)).map(
    ({ mesh, words, heard, hint }, i): GrowOption => ({
      id: mesh.id,
      what: "stage",
      kind: mesh,
      key: KEYS[i] ?? "",
      words: heard ? `${words} ${heard}` : words,
      hint: own && !mesh.pairs.includes(own.kind) ? `${hint} It begins with a new gear on the shaft.` : hint,
    }),
  );
  // What the selected gear itself takes as a mate stands first.
  const takes = ({ kind }: GrowOption): number => (own && kind?.pairs.includes(own.kind) ? 0 : 1);
  const sorted = own ? [...stages].sort((a, b) => takes(a) - takes(b)) : stages;
  if (own) {
    if (idlerMesh(solved, own.id) === null) return sorted;
    const hint = "An idler between this gear and its mate: it turns the mate the other way, the ratio stays.";
    return [...sorted, { id: "idler", what: "idler", key: "I", words: "Between", hint }];
  }
  return [
    ...sorted,
    { id: "gear", what: "gear", key: "W", words: "A gear alone", hint: "One more gear on this shaft, without a mate." },
    {
      id: "port",
      what: "port",
      key: "P",
      words: "Motor or load",
      hint: "What turns this shaft, or what it drives: the speed of a motor or a crank, the torque of a load.",
    },
  ];
}

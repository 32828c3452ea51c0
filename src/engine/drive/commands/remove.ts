/** Taking parts away: a shaft with all that hangs on it alone, a gear, a mesh; and with each the notes pinned to it and what a question hides of it. */
import { makePort, makeShaft } from "../defaults";
import { bareId } from "../describe";
import type { Drive, Port } from "../types";
import { type Edit, gearOf, meshOf, missing, portOf, refuse, shaftOf } from "./edit";
import { withoutLostNotes } from "./notes";
import { withoutLostHidden } from "./question";
import { reachedShafts } from "./reach";

/** Takes a mesh away. A shaft that it placed stays in the drive, unreached, until another mesh or a pose places it. */
export const removeMesh =
  (id: string): Edit =>
  (drive) => {
    const mesh = meshOf(drive, id);
    return mesh
      ? withoutLostNotes(drive, { ...drive, meshes: drive.meshes.filter((other) => other !== mesh) })
      : missing("mesh", id);
  };

/** Takes a gear and its meshes away; shafts stay. */
export const removeGear =
  (id: string): Edit =>
  (drive) =>
    gearOf(drive, id)
      ? withoutLostNotes(drive, {
          ...drive,
          gears: drive.gears.filter((gear) => gear.id !== id),
          meshes: drive.meshes.filter(({ gears }) => !gears.includes(id)),
        })
      : missing("gear", id);

/**
 * Takes a shaft away with its gears, their meshes and its port, and every shaft that was placed by way of it alone. An
 * output that goes with them moves to the shaft before, where that has no port. What it carried is carried by its own
 * carrier. Refused where no pose would be left.
 */
export const removeShaft =
  (id: string): Edit =>
  (drive) => {
    if (!shaftOf(drive, id)) return missing("shaft", id);
    const gone = hangingOn(drive, id);
    const shafts = drive.shafts.filter((shaft) => !gone.has(shaft.id));
    if (!shafts.some(({ pose }) => pose)) {
      return refuse(
        `Shaft ${bareId(id)} holds the place of the whole drive; give another shaft a pose first, or begin a new drive.`,
      );
    }
    const carrierOf = new Map(drive.shafts.map((shaft) => [shaft.id, shaft.frame]));
    const standing = (frame: string | undefined): string | undefined => {
      let carrier = frame;
      while (carrier !== undefined && gone.has(carrier)) carrier = carrierOf.get(carrier);
      return carrier;
    };
    const goneGears = new Set(drive.gears.filter(({ shaft }) => gone.has(shaft)).map((gear) => gear.id));
    const left: Drive = {
      ...drive,
      shafts: shafts.map((shaft) =>
        shaft.frame !== undefined && gone.has(shaft.frame)
          ? makeShaft({ ...shaft, frame: standing(shaft.frame) })
          : shaft,
      ),
      gears: drive.gears.filter((gear) => !goneGears.has(gear.id)),
      meshes: drive.meshes.filter(({ gears }) => !gears.some((gear) => goneGears.has(gear))),
      ports: portsLeft(drive, id, gone),
    };
    return withoutLostHidden(drive, withoutLostNotes(drive, left));
  };

/** Ids of the shaft and of all that was reached with it and isn't without it, and of what is coaxial with any of them. */
function hangingOn(drive: Drive, id: string): Set<string> {
  const before = reachedShafts(drive);
  const after = reachedShafts({
    ...drive,
    shafts: drive.shafts.filter((shaft) => shaft.id !== id),
    gears: drive.gears.filter(({ shaft }) => shaft !== id),
  });
  after.delete(id);
  const gone = new Set([id]);
  for (const shaft of before) if (!after.has(shaft)) gone.add(shaft);
  const followers = new Map<string, string[]>();
  for (const shaft of drive.shafts) {
    if (shaft.coaxial !== undefined) followers.set(shaft.coaxial, [...(followers.get(shaft.coaxial) ?? []), shaft.id]);
  }
  for (const shaft of gone) for (const follower of followers.get(shaft) ?? []) gone.add(follower);
  return gone;
}

function portsLeft(drive: Drive, id: string, gone: ReadonlySet<string>): Port[] {
  const output = drive.ports.find(({ shaft, role }) => role === "output" && gone.has(shaft));
  const heir = output && shaftBefore(drive, id, gone);
  return drive.ports.flatMap((port) => {
    if (port === output && heir !== undefined) return [makePort({ ...port, shaft: heir })];
    return gone.has(port.shaft) ? [] : [port];
  });
}

/** The first shaft without a port that meshed with this one and stays. */
function shaftBefore(drive: Drive, id: string, gone: ReadonlySet<string>): string | undefined {
  const shaftOfGear = new Map(drive.gears.map((gear) => [gear.id, gear.shaft]));
  for (const { gears } of drive.meshes) {
    const shafts = gears.map((gear) => shaftOfGear.get(gear) ?? "");
    const other = shafts[0] === id ? shafts[1] : shafts[1] === id ? shafts[0] : undefined;
    if (other !== undefined && !gone.has(other) && !portOf(drive, other)) return other;
  }
  return undefined;
}

/** Takes away whatever kind of part it is. */
export const removePart = (part: { readonly kind: "shaft" | "gear" | "mesh"; readonly id: string }): Edit =>
  ({ shaft: removeShaft, gear: removeGear, mesh: removeMesh })[part.kind](part.id);

/** One pair of a drive by itself, as it stands: what the demonstrations work on, so that no whole drive is solved for them. */
import { type Edit, isRefused } from "../drive/commands/edit";
import { leanMesh } from "../drive/commands/lean";
import { makeDrive, makePort, makeShaft } from "../drive/defaults";
import { type Drive, type Gear, hasTeeth, type Mesh, pitchDiameter, type Shaft } from "../drive/types";
import { alignedWith } from "../placement/aligned";
import type { Solved } from "../solved";
import { DEGREE } from "../vector";
import { shaftName } from "../wording";

export type Side = 0 | 1;

/** In all lists, the first and the second gear of the mesh. */
export interface DemoPair {
  readonly mesh: Mesh;
  readonly gears: readonly [Gear, Gear];
  /** Indices of the shafts in the drive, their ids, and what a sentence calls them. */
  readonly shafts: readonly [number, number];
  readonly ids: readonly [string, string];
  readonly names: readonly [string, string];
  /** Teeth; diameters in mm where there are none. */
  readonly sizes: readonly [number, number];
  readonly hasTeeth: boolean;
  /** mm, pitch radii (at the heel). */
  readonly radii: readonly [number, number];
  /** mm, where force acts: on a cone in the middle of the contact line. */
  readonly meanRadii: readonly [number, number];
  /** Degrees: 0 on a cylinder, 180 on a ring. */
  readonly pitchAngles: readonly [number, number];
  /** Degrees between the outward axes, 0 to 180. */
  readonly shaftAngle: number;
  /** mm; Infinity on parallel shafts. */
  readonly coneDistance: number;
  /** mm, working width of the faces. */
  readonly width: number;
  /** rev/min about the shafts' positive axes, in the frame in which the pair rolls; null where one of them isn't fixed, or beyond `MOST`. */
  readonly speeds: readonly [number, number] | null;
  /** N·m on the driver's shaft, a size; null where that isn't known, or beyond `MOST`. */
  readonly torque: number | null;
  /** Which of them drives; where nothing is carried that of the input, else the first. */
  readonly driver: Side;
  /** Which gear stands on the shaft that this mesh places; null where it closes a loop. */
  readonly leans: Side | null;
  /** A carrier takes one of the shafts round. */
  readonly isCarried: boolean;
  /** The pair by itself: the shaft that stays is posed as it stands, and the driver turns as it does. */
  readonly drive: Drive;
}

/** The largest speed (rev/min) and torque (N·m) that are shown: products with radii and with one another stay in the range of doubles. */
const MOST = 1e100;

/** Colours of shafts repeat after so many; the pair keeps its own where its places in the list are alike modulo this. */
const PALETTE = 8;

/** The pair of a mesh; null where the mesh is not there any more, or its shafts are not placed. */
export function demoPair(solved: Solved, id: string): DemoPair | null {
  const { drive, index, placement, load } = solved;
  const number = index.meshes.get(id) ?? -1;
  const [mesh, placed] = [drive.meshes[number], placement.meshes[number]];
  const [a, b] = index.shaftsOfMesh[number] ?? [-1, -1];
  const [first, second] = [drive.shafts[a], drive.shafts[b]];
  if (!mesh || !placed || !first || !second) return null;
  const { gears, shape } = placed.pair;
  const leans = placement.shafts[b]?.placedBy === id ? 1 : placement.shafts[a]?.placedBy === id ? 0 : null;
  const { driver, torques } = load.meshes[number] ?? { driver: null, torques: null };
  const speeds = spins(solved, number, [a, b]);
  const isInput = (shaft: number): boolean => drive.ports[index.portOfShaft[shaft] ?? -1]?.role === "input";
  const side = driver ?? (isInput(b) ? 1 : 0);
  const sizeOf = (gear: Gear): number => (hasTeeth(gear) ? gear.teeth : pitchDiameter(gear));
  return {
    mesh,
    gears,
    shafts: [a, b],
    ids: [first.id, second.id],
    names: [shaftName(drive, a), shaftName(drive, b)],
    sizes: [sizeOf(gears[0]), sizeOf(gears[1])],
    hasTeeth: hasTeeth(gears[0]) && hasTeeth(gears[1]),
    radii: shape.radii,
    meanRadii: placed.kind.forceRadii(placed.pair, placed.width),
    pitchAngles: [shape.pitchAngles[0] / DEGREE, shape.pitchAngles[1] / DEGREE],
    shaftAngle: mesh.shaftAngle ?? shape.shaftAngle / DEGREE,
    coneDistance: placed.kind.needsShaftAngle ? shape.coneDistances[0] : Infinity,
    width: placed.width,
    speeds,
    torque: driver === null || !torques || Math.abs(torques[side]) > MOST ? null : Math.abs(torques[side]),
    driver: side,
    leans,
    isCarried: first.frame !== undefined || second.frame !== undefined,
    drive: alone(solved, number, leans ?? 1, speeds && { side, speed: speeds[side] }),
  };
}

/** Speed less that of the carrier on whose axis the shaft turns, where the pair rolls in that carrier's frame. */
function spins({ motion }: Solved, mesh: number, shafts: readonly [number, number]): readonly [number, number] | null {
  const row = motion.rows[mesh];
  if (!row) return null;
  const spin = (side: Side): number | null => {
    const own = motion.speed[shafts[side]] ?? null;
    const carrier = row.carrier[side];
    const taken = carrier < 0 ? 0 : (motion.speed[carrier] ?? null);
    return own === null || taken === null ? null : own - row.carrierSign[side] * taken;
  };
  const [a, b] = [spin(0), spin(1)];
  return a === null || b === null || Math.abs(a) > MOST || Math.abs(b) > MOST ? null : [a, b];
}

function alone(
  { drive, index, placement }: Solved,
  mesh: number,
  leans: Side,
  driven: { readonly side: Side; readonly speed: number } | null,
): Drive {
  const pair = index.shaftsOfMesh[mesh] ?? [0, 0];
  const stays = pair[1 - leans];
  const own = pair.map((shaft): Shaft => {
    const { id, name } = drive.shafts[shaft] as Shaft;
    const placed = shaft === stays ? placement.shafts[shaft] : null;
    return makeShaft({
      id,
      name,
      ...(placed ? { pose: { origin: placed.origin, axis: placed.axis, ref: placed.ref } } : {}),
    });
  });
  const data = drive.meshes[mesh] as Mesh;
  const ports = driven ? [makePort({ shaft: own[driven.side]?.id ?? "", role: "input", speed: driven.speed })] : [];
  return makeDrive({
    shafts: inTheirPlaces(own, pair),
    gears: drive.gears.filter(({ id }) => data.gears.includes(id)),
    meshes: [data],
    ports,
  });
}

/** Both shafts where their colours are those that they have in the drive; the places between are held by shafts that stand nowhere. */
function inTheirPlaces(own: readonly Shaft[], places: readonly number[]): readonly Shaft[] {
  const list: Shaft[] = [];
  const order = (places[0] ?? 0) < (places[1] ?? 0) ? [0, 1] : [1, 0];
  for (const side of order) {
    const shaft = own[side];
    if (!shaft) continue;
    while (list.length % PALETTE !== (places[side] ?? 0) % PALETTE) {
      let id = `place ${list.length}`;
      while (own.some((other) => other.id === id)) id += "'";
      list.push(makeShaft({ id }));
    }
    list.push(shaft);
  }
  return list;
}

/** Degrees at which equal cones are shown in the place of 180: two flat crowns face to face have no place to stand. */
export const NEARLY_FACING = 179;

/** The angle at which a pair can be built: that asked for, but for equal cones at 180. */
export const buildable = (pair: DemoPair, angle: number): number =>
  angle === 180 && pair.radii[0] === pair.radii[1] ? NEARLY_FACING : angle;

/**
 * The pair by itself at another angle between its shafts.
 * @param angle degrees, 0 to 180
 * @returns null where it can't be built so.
 */
export function leanedPair(pair: DemoPair, angle: number): Drive | null {
  const leans = pair.leans ?? 1;
  const aligned = { shafts: [pair.ids[leans]], meshes: [] };
  const leaned = leanMesh(pair.mesh.id, { angle: buildable(pair, angle), leans, aligned })(pair.drive);
  return isRefused(leaned) ? null : leaned;
}

/** The same angle for the drive itself; null where the mesh closes a loop, so that its angle follows from others. */
export function leanInDrive(pair: DemoPair, solved: Solved, angle: number): Edit | null {
  if (pair.leans === null) return null;
  const aligned = alignedWith(solved, pair.shafts[pair.leans]);
  return leanMesh(pair.mesh.id, { angle, leans: pair.leans, aligned });
}

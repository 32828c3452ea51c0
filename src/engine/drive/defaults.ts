/** What a drive file may leave out, and makers that fill it in. Parser and edit commands make every part here. */
import type { Drive, Extras, Gear, Mesh, Port, PortRole, Pose, Shaft, ToothedGear, ToothlessGear, Vec3 } from "./types";

/** Values of keys that a file leaves out. Lengths in mm, angles in degrees; factors are of the module. */
export const DEFAULTS = {
  title: "",
  notes: "",
  name: "",
  at: 0,
  face: 10,
  apex: "+",
  pressureAngle: 20,
  /** ISO 53 for cylindrical gears: addendum 1, dedendum 1.25. */
  addendum: 1,
  clearance: 0.25,
  shift: 0,
  bore: 0,
  backlash: 0,
  phase: 0,
  azimuth: 0,
  efficiency: 1,
} as const;

/** What begins every drive file. */
export const FORMAT = "turnwise.drive";
export const VERSION = 1;

export type ShaftFields = Pick<Shaft, "id"> & Partial<Shaft>;
export type GearFields =
  | (Pick<ToothedGear, "id" | "shaft" | "kind" | "teeth" | "module"> & Partial<ToothedGear>)
  | (Pick<ToothlessGear, "id" | "shaft" | "kind" | "diameter"> & Partial<ToothlessGear>);
export type MeshFields = Pick<Mesh, "id" | "gears"> & Partial<Mesh>;
export type PortFields = Pick<Port, "shaft" | "role"> & Partial<Port>;
export type DriveFields = Pick<Drive, "shafts" | "gears"> & Partial<Drive>;

export const isExtra = (key: string): key is `x-${string}` => key.startsWith("x-");

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** Copies the `x-` keys of `from`, in their order, as they are. */
function keepExtras<T extends Extras>(part: Writable<T>, from: Extras): T {
  for (const key in from) {
    if (isExtra(key) && Object.hasOwn(from, key)) (part as Record<string, unknown>)[key] = from[key];
  }
  return part;
}

/** The same number, but never -0: no sum or text should show it. */
const plain = (x: number): number => x + 0;
const plainVector = (a: Vec3): Vec3 => [plain(a[0]), plain(a[1]), plain(a[2])];
/** A pose takes `x-` keys too, as every object of the file does. */
const plainPose = (pose: Pose): Pose =>
  keepExtras<Pose & Extras>(
    { origin: plainVector(pose.origin), axis: plainVector(pose.axis), ref: plainVector(pose.ref) },
    pose as Pose & Extras,
  );

export function makeShaft(fields: ShaftFields): Shaft {
  const shaft: Writable<Shaft> = { id: fields.id, name: fields.name ?? DEFAULTS.name };
  if (fields.pose !== undefined) shaft.pose = plainPose(fields.pose);
  if (fields.coaxial !== undefined) shaft.coaxial = fields.coaxial;
  if (fields.frame !== undefined) shaft.frame = fields.frame;
  return keepExtras(shaft, fields);
}

export function makeGear(fields: GearFields): Gear {
  // Written out twice rather than spread from a common part: a file may hold 40,000 of them.
  if ("teeth" in fields) {
    const gear: Writable<ToothedGear> = {
      id: fields.id,
      shaft: fields.shaft,
      at: plain(fields.at ?? DEFAULTS.at),
      kind: fields.kind,
      teeth: fields.teeth,
      module: fields.module,
      face: fields.face ?? DEFAULTS.face,
      apex: fields.apex ?? DEFAULTS.apex,
      pressureAngle: fields.pressureAngle ?? DEFAULTS.pressureAngle,
      addendum: plain(fields.addendum ?? DEFAULTS.addendum),
      clearance: plain(fields.clearance ?? DEFAULTS.clearance),
      shift: plain(fields.shift ?? DEFAULTS.shift),
      bore: plain(fields.bore ?? DEFAULTS.bore),
      backlash: plain(fields.backlash ?? DEFAULTS.backlash),
      phase: plain(fields.phase ?? DEFAULTS.phase),
    };
    return keepExtras<ToothedGear>(gear, fields);
  }
  const gear: Writable<ToothlessGear> = {
    id: fields.id,
    shaft: fields.shaft,
    at: plain(fields.at ?? DEFAULTS.at),
    kind: fields.kind,
    diameter: fields.diameter,
    face: fields.face ?? DEFAULTS.face,
    apex: fields.apex ?? DEFAULTS.apex,
    // A gear without teeth has none of these; they stand at their defaults.
    pressureAngle: DEFAULTS.pressureAngle,
    addendum: DEFAULTS.addendum,
    clearance: DEFAULTS.clearance,
    shift: DEFAULTS.shift,
    bore: plain(fields.bore ?? DEFAULTS.bore),
    backlash: DEFAULTS.backlash,
    phase: plain(fields.phase ?? DEFAULTS.phase),
  };
  if (fields.diameterDigits !== undefined) gear.diameterDigits = fields.diameterDigits;
  return keepExtras<ToothlessGear>(gear, fields);
}

export function makeMesh(fields: MeshFields): Mesh {
  const mesh: Writable<Mesh> = {
    id: fields.id,
    gears: [fields.gears[0], fields.gears[1]],
    azimuth: plain(fields.azimuth ?? DEFAULTS.azimuth),
    efficiency: fields.efficiency ?? DEFAULTS.efficiency,
  };
  if (fields.shaftAngle !== undefined) mesh.shaftAngle = fields.shaftAngle;
  if (fields.normalForce !== undefined) mesh.normalForce = plain(fields.normalForce);
  if (fields.friction !== undefined) mesh.friction = plain(fields.friction);
  return keepExtras(mesh, fields);
}

export function makePort(fields: PortFields): Port {
  const port: Writable<Port> = { shaft: fields.shaft, role: fields.role };
  if (fields.speed !== undefined) port.speed = plain(fields.speed);
  if (fields.speedDigits !== undefined) port.speedDigits = fields.speedDigits;
  if (fields.torque !== undefined) port.torque = plain(fields.torque);
  if (fields.power !== undefined) port.power = plain(fields.power);
  return keepExtras(port, fields);
}

export function makeDrive(fields: DriveFields): Drive {
  const drive: Writable<Drive> = {
    title: fields.title ?? DEFAULTS.title,
    notes: fields.notes ?? DEFAULTS.notes,
    shafts: fields.shafts,
    gears: fields.gears,
    meshes: fields.meshes ?? [],
    ports: fields.ports ?? [],
  };
  return keepExtras(drive, fields);
}

/** Pose of the first shaft of a new drive: along x at the origin, azimuth 0 upward. */
export const FIRST_POSE: Pose = { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] };

/** rev/min that an input gets where nothing else says how fast. */
export const USUAL_SPEED = 60;

/** What **New** gives: a motor shaft with one gear of 20 teeth, module 2, turning at 60 rev/min. */
export const newDrive = (): Drive =>
  makeDrive({
    title: "New drive",
    shafts: [makeShaft({ id: "A", name: "Motor", pose: FIRST_POSE })],
    gears: [makeGear({ id: "a1", shaft: "A", kind: "spur", teeth: 20, module: 2 })],
    ports: [makePort({ shaft: "A", role: "input" satisfies PortRole, speed: USUAL_SPEED })],
  });

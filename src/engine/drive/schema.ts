/**
 * The drive file, version 1, as one schema: the parser checks with it, the writer takes its order of keys and its
 * defaults from it, and `public/drive.schema.json` is made from it. What a schema can't say (ids that exist, kinds that
 * go together) stands in `rules.ts`. Every message says what is expected; `parse.ts` adds where and what was found.
 */
import * as v from "valibot";
import { DEFAULTS, FORMAT, VERSION } from "./defaults";
import { list, record, recordOf, row } from "./schema-parts";
import { GEAR_KINDS, LIMITS } from "./types";

const A_NUMBER = "a number";
const finite = (description: string) => v.pipe(v.number(A_NUMBER), v.finite(A_NUMBER), v.description(description));
const ABOVE_ZERO = "a number above 0";
const positive = (description: string) =>
  v.pipe(v.number(ABOVE_ZERO), v.finite(ABOVE_ZERO), v.gtValue(0, ABOVE_ZERO), v.description(description));
const ZERO_OR_MORE = "a number, 0 or more";
const notNegative = (description: string) =>
  v.pipe(v.number(ZERO_OR_MORE), v.finite(ZERO_OR_MORE), v.minValue(0, ZERO_OR_MORE), v.description(description));
const angle = (most: number, description: string) => {
  const expected = `degrees above 0 and below ${most}`;
  return v.pipe(
    v.number(expected),
    v.finite(expected),
    v.gtValue(0, expected),
    v.ltValue(most, expected),
    v.description(description),
  );
};
const text = (description: string) => v.pipe(v.string("a text"), v.description(description));
const AN_ID = "an id, a text of one character or more";
const reference = (description: string) => v.pipe(v.string(AN_ID), v.minLength(1, AN_ID), v.description(description));

const VECTOR = row(v.pipe(v.number(A_NUMBER), v.finite(A_NUMBER)), 3, "a list of three numbers, [x, y, z]");

const POSE = record(
  {
    origin: v.pipe(VECTOR, v.description("Point on the axis at position 0, mm.")),
    axis: v.pipe(VECTOR, v.description("Positive direction; any length but 0.")),
    ref: v.pipe(VECTOR, v.description("Any direction not along the axis: its part square to the axis is azimuth 0.")),
  },
  { name: "a pose" },
);

const SHAFT_ID = "an id, a text of one character or more other than ground, which names what carries every root shaft";

export const SHAFT = record(
  {
    id: v.pipe(
      v.string(SHAFT_ID),
      v.minLength(1, SHAFT_ID),
      v.notValue("ground", SHAFT_ID),
      v.description("Unique among the shafts."),
    ),
    name: v.optional(text("Name in words."), DEFAULTS.name),
    pose: v.optional(v.pipe(POSE, v.description("Where a root shaft stands; left out on a shaft that a mesh places."))),
    coaxial: v.optional(reference("Id of the shaft whose origin, axis and ref this one shares.")),
    frame: v.optional(reference("Id of the shaft that carries this one; left out for ground.")),
  },
  {
    name: "a shaft",
    apart: [{ keys: ["pose", "coaxial"], because: "leave one of them out, since each says where the shaft stands" }],
  },
);

const WHICH_GEAR = {
  id: reference("Unique among the gears."),
  shaft: reference("Id of the shaft that it sits on."),
  at: v.optional(
    finite("mm along the shaft of the mid-face plane, or on bevel gears and cones of the outer pitch circle (heel)."),
    DEFAULTS.at,
  ),
};

const TEETH_RANGE = `a whole number from 1 to ${LIMITS.teeth.toLocaleString("en")}`;
const teeth = v.pipe(
  v.number(TEETH_RANGE),
  v.finite(TEETH_RANGE),
  v.integer(TEETH_RANGE),
  v.minValue(1, TEETH_RANGE),
  v.maxValue(LIMITS.teeth, TEETH_RANGE),
  v.description("Number of teeth."),
);
const module = positive("Module, mm; on a bevel gear the outer (heel) transverse one.");
const diameter = positive("Pitch diameter, mm; on a cone at the heel. Read as an exact decimal.");
const face = v.optional(positive("Face width, mm."), DEFAULTS.face);
const apex = v.optional(
  v.pipe(
    v.picklist(["+", "-"], '"+" or "-"'),
    v.description("Outward axis: the reverse of the shaft's axis for +, the axis itself for -."),
  ),
  DEFAULTS.apex,
);
const bore = v.optional(notNegative("Bore diameter, mm; 0 for none."), DEFAULTS.bore);
const phase = v.optional(
  finite("Degrees by which it is turned on its shaft, right-handed about the shaft's positive axis."),
  DEFAULTS.phase,
);
const PROFILE = {
  pressureAngle: v.optional(angle(45, "Pressure angle, degrees."), DEFAULTS.pressureAngle),
  addendum: v.optional(notNegative("Factor of the module."), DEFAULTS.addendum),
  clearance: v.optional(notNegative("Factor of the module; the dedendum is addendum + clearance."), DEFAULTS.clearance),
  shift: v.optional(
    finite("Profile shift, factor of the module; on a ring positive moves the profile outward."),
    DEFAULTS.shift,
  ),
};
const backlash = v.optional(
  notNegative("mm by which this gear's own teeth are thinned at its pitch circle."),
  DEFAULTS.backlash,
);

const NO_TEETH = Object.fromEntries(
  ["teeth", "module", "pressureAngle", "addendum", "clearance", "shift", "backlash"].map((key) => [
    key,
    "a gear without teeth has only its diameter",
  ]),
);
const NO_APEX = { apex: "only bevel gears and cones have an apex" };
const NO_DIAMETER = { diameter: "the diameter of a toothed gear is its teeth times its module" };

export const GEAR = recordOf(
  "kind",
  [
    record(
      { ...WHICH_GEAR, kind: v.picklist(["spur", "internal"]), teeth, module, face, ...PROFILE, bore, backlash, phase },
      { name: "a spur or internal gear", strange: { ...NO_DIAMETER, ...NO_APEX } },
    ),
    record(
      { ...WHICH_GEAR, kind: v.picklist(["bevel"]), teeth, module, face, apex, ...PROFILE, bore, backlash, phase },
      { name: "a bevel gear", strange: NO_DIAMETER },
    ),
    record(
      { ...WHICH_GEAR, kind: v.picklist(["wheel", "internal-wheel"]), diameter, face, bore, phase },
      { name: "a wheel without teeth", strange: { ...NO_TEETH, ...NO_APEX } },
    ),
    record(
      { ...WHICH_GEAR, kind: v.picklist(["cone"]), diameter, face, apex, bore, phase },
      { name: "a cone without teeth", strange: NO_TEETH },
    ),
  ],
  { ...WHICH_GEAR, face, bore, phase },
  {
    name: "a gear",
    expected: `${GEAR_KINDS.slice(0, -1).join(", ")} or ${GEAR_KINDS.at(-1)}`,
    reserved: ["helical", "worm", "wormwheel", "rack"],
  },
);

const EFFICIENCY = "a number above 0 and not above 1";

export const MESH = record(
  {
    id: reference("Unique among the meshes."),
    gears: v.pipe(
      row(reference("Id of a gear."), 2, "a list of two gear ids"),
      v.description("The two gears, on two shafts, of kinds that go together."),
    ),
    shaftAngle: v.optional(
      angle(180, "Degrees between the two outward axes; required on bevel gears and cones, nowhere else."),
    ),
    azimuth: v.optional(
      finite("Degrees: where the newly placed shaft lies, right-handed about the placed one's axis from its ref."),
      DEFAULTS.azimuth,
    ),
    efficiency: v.optional(
      v.pipe(
        v.number(EFFICIENCY),
        v.gtValue(0, EFFICIENCY),
        v.maxValue(1, EFFICIENCY),
        v.description("Power that the driven gear gives over that taken from the driving one, in the mesh's frame."),
      ),
      DEFAULTS.efficiency,
    ),
    normalForce: v.optional(notNegative("Friction pairs only: force that presses the two together, N.")),
    friction: v.optional(notNegative("Friction pairs only: coefficient of friction.")),
  },
  { name: "a mesh" },
);

const portShaft = reference("Id of the shaft; at most one port a shaft.");
const SIZES = {
  torque: v.optional(notNegative("N·m: an output's load, or what an input can give.")),
  power: v.optional(notNegative("W, in the place of torque.")),
};
const ONE_SIZE = {
  keys: ["torque", "power"],
  because: "leave one of them out, since with the speed each gives the other",
} as const;
const NO_SPEED = "only an input has a speed of its own";

export const PORT = recordOf(
  "role",
  [
    record(
      {
        shaft: portShaft,
        role: v.picklist(["input"]),
        speed: finite("rev/min about the shaft's positive axis. Read as an exact decimal."),
        ...SIZES,
      },
      { name: "an input", apart: [ONE_SIZE] },
    ),
    record(
      { shaft: portShaft, role: v.picklist(["held"]) },
      {
        name: "a held port",
        strange: {
          speed: `${NO_SPEED}, and what is held stands still`,
          torque: "what holds it gives whatever torque it needs",
          power: "what stands still takes no power",
        },
      },
    ),
    record(
      { shaft: portShaft, role: v.picklist(["output"]), ...SIZES },
      { name: "an output", apart: [ONE_SIZE], strange: { speed: `${NO_SPEED}, and that of an output follows` } },
    ),
  ],
  { shaft: portShaft },
  { name: "a port", expected: "input, held or output" },
);

export const DRIVE_FILE = record(
  {
    format: v.literal(FORMAT, `"${FORMAT}"`),
    version: v.pipe(v.literal(VERSION, `the number ${VERSION}`), v.description("Version of the format.")),
    title: v.optional(text("Title of the drive."), DEFAULTS.title),
    notes: v.optional(text("Notes in words."), DEFAULTS.notes),
    shafts: list(SHAFT, LIMITS.shafts, "shafts"),
    gears: list(GEAR, LIMITS.gears, "gears"),
    meshes: v.optional(list(MESH, LIMITS.meshes, "meshes")),
    // At most one port a shaft, so no more ports than shafts.
    ports: v.optional(list(PORT, LIMITS.shafts, "ports")),
  },
  { name: "a drive" },
);

/** A value that the schema has passed. */
export type DriveFile = v.InferInput<typeof DRIVE_FILE>;

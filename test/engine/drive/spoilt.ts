/** Ways to spoil a drive file, each with the place and the words of the fault that it must give. */
import { mixer, press } from "./files";

export interface Spoil {
  readonly name: string;
  /** Begins from the mixer unless `press` is named. */
  readonly of?: "press";
  // biome-ignore lint/suspicious/noExplicitAny: tests spoil any part of it
  readonly spoil: (file: any) => unknown;
  readonly pointer: string;
  readonly message: string;
}

/** The spoilt file: what `spoil` gives back where that is an object or a text, else the example that it changed. */
export function spoilt({ of, spoil }: Spoil): unknown {
  const file = of === "press" ? press() : mixer();
  const other = spoil(file);
  return typeof other === "object" && other !== null && "instead" in other ? other.instead : file;
}

const RANGE = "expected a whole number from 1 to 100,000.";
const teeth = (value: unknown, found: string): Spoil => ({
  name: `teeth ${found}`,
  spoil: (f) => {
    f.gears[0].teeth = value;
  },
  pointer: "/gears/0/teeth",
  message: `Gear a1: teeth is ${found}; ${RANGE}`,
});
const set = (
  path: string,
  value: unknown,
  message: string,
  more: { of?: "press"; name?: string; pointer?: string } = {},
): Spoil => ({
  name: more.name ?? `${path} = ${JSON.stringify(value)?.slice(0, 40) ?? "left out"}`,
  ...(more.of ? { of: more.of } : {}),
  spoil: (f) => {
    const steps = path.split("/").slice(1);
    const last = steps.pop() ?? "";
    const target = steps.reduce((o, step) => o[step], f);
    if (value === undefined) delete target[last];
    else Object.defineProperty(target, last, { value, enumerable: true, configurable: true, writable: true });
  },
  pointer: more.pointer ?? path,
  message,
});
const instead = (name: string, value: unknown, message: string): Spoil => ({
  name,
  spoil: () => ({ instead: value }),
  pointer: "",
  message,
});

/** What the schema by itself refuses. */
export const AGAINST_SCHEMA: readonly Spoil[] = [
  instead("a list for a drive", [], "The file holds an empty list; expected an object, a drive."),
  instead("null for a drive", null, "The file holds null; expected an object, a drive."),
  instead("a text for a drive", "drive", 'The file holds "drive"; expected an object, a drive.'),
  set("/format", "other", 'format is "other"; expected "turnwise.drive".'),
  set("/format", undefined, 'format is missing; expected "turnwise.drive".'),
  set("/version", undefined, "version is missing; expected the number 1."),
  set("/version", "1", 'version is "1"; expected the number 1.'),
  set("/version", 0, "version is 0; expected the number 1."),
  set("/title", 7, "title is 7; expected a text."),
  set("/shafts", {}, "shafts is an object; expected a list of shafts."),
  set("/gears", undefined, "gears is missing; expected a list of gears."),
  set("/meshes", null, "meshes is null; expected a list of meshes."),
  set("/ports/0", [1], "Port number 1: it is a list of 1; expected an object, a port."),
  set("/shafts/1", "B", 'Shaft number 2: it is "B"; expected an object, a shaft.'),
  set(
    "/shafts/1/id",
    "",
    'Shaft number 2: id is ""; expected an id, a text of one character or more other than ground, which names what carries every root shaft.',
  ),
  set(
    "/shafts/1/id",
    "ground",
    'Shaft ground: id is "ground"; expected an id, a text of one character or more other than ground, which names what carries every root shaft.',
  ),
  set("/shafts/0/name", null, "Shaft A: name is null; expected a text."),
  set("/shafts/0/pose/ref", undefined, "Shaft A: ref is missing; expected a list of three numbers, [x, y, z]."),
  set("/shafts/0/pose/origin", [0, 0], "Shaft A: origin is a list of 2; expected a list of three numbers, [x, y, z]."),
  set("/shafts/0/pose/origin/1", "0", 'Shaft A: item 2 is "0"; expected a number.'),
  set(
    "/shafts/0/coaxial",
    "B",
    "Shaft A: pose and coaxial stand together; leave one of them out, since each says where the shaft stands.",
  ),
  teeth(12.5, "12.5"),
  teeth(0, "0"),
  teeth(-20, "-20"),
  teeth("12", '"12"'),
  teeth(100_001, "100001"),
  teeth(null, "null"),
  teeth([20], "a list of 1"),
  teeth(undefined, "missing"),
  teeth(Number.POSITIVE_INFINITY, "a number beyond 1.8e308, which is more than can be reckoned with"),
  set("/gears/0/module", 0, "Gear a1: module is 0; expected a number above 0."),
  set("/gears/0/module", -2, "Gear a1: module is -2; expected a number above 0."),
  set("/gears/0/face", 0, "Gear a1: face is 0; expected a number above 0."),
  set("/gears/0/at", "0", 'Gear a1: at is "0"; expected a number.'),
  set("/gears/0/pressureAngle", 45, "Gear a1: pressureAngle is 45; expected degrees above 0 and below 45."),
  set("/gears/0/addendum", -1, "Gear a1: addendum is -1; expected a number, 0 or more."),
  set("/gears/0/clearance", -0.25, "Gear a1: clearance is -0.25; expected a number, 0 or more."),
  set("/gears/0/bore", -5, "Gear a1: bore is -5; expected a number, 0 or more."),
  set("/gears/0/backlash", -0.1, "Gear a1: backlash is -0.1; expected a number, 0 or more."),
  set("/gears/2/apex", "up", 'Gear b2: apex is "up"; expected "+" or "-".'),
  set(
    "/gears/0/apex",
    "+",
    "Gear a1: apex does not belong to a spur or internal gear; only bevel gears and cones have an apex.",
  ),
  set(
    "/gears/0/diameter",
    40,
    "Gear a1: diameter does not belong to a spur or internal gear; the diameter of a toothed gear is its teeth times its module.",
  ),
  set(
    "/gears/0/teeth",
    20,
    "Gear a1: teeth does not belong to a wheel without teeth; a gear without teeth has only its diameter.",
    { of: "press" },
  ),
  set(
    "/gears/0/module",
    2,
    "Gear a1: module does not belong to a wheel without teeth; a gear without teeth has only its diameter.",
    { of: "press" },
  ),
  set("/gears/0/diameter", undefined, "Gear a1: diameter is missing; expected a number above 0.", { of: "press" }),
  set("/gears/0/diameter", 0, "Gear a1: diameter is 0; expected a number above 0.", { of: "press" }),
  set(
    "/gears/0/kind",
    "sprocket",
    'Gear a1: kind is "sprocket"; expected spur, internal, bevel, wheel, internal-wheel or cone.',
  ),
  set(
    "/gears/0/kind",
    undefined,
    "Gear a1: kind is missing; expected spur, internal, bevel, wheel, internal-wheel or cone.",
  ),
  ...["helical", "worm", "wormwheel", "rack"].map((kind) =>
    set(
      "/gears/0/kind",
      kind,
      `Gear a1: kind ${kind} is not built yet; expected spur, internal, bevel, wheel, internal-wheel or cone.`,
    ),
  ),
  set(
    "/gears/0/teath",
    20,
    'Gear a1: "teath" is not a key of a spur or internal gear; expected id, shaft, at, kind, teeth, module, face, pressureAngle, addendum, clearance, shift, bore, backlash, phase, or a name that begins with x-.',
  ),
  set(
    "/gears/0/__proto__",
    { teeth: 7 },
    'Gear a1: "__proto__" is not a key of a spur or internal gear; expected id, shaft, at, kind, teeth, module, face, pressureAngle, addendum, clearance, shift, bore, backlash, phase, or a name that begins with x-.',
  ),
  set(
    "/comment",
    "hello",
    '"comment" is not a key of a drive; expected format, version, title, notes, shafts, gears, meshes, ports, or a name that begins with x-.',
  ),
  set("/meshes/0/gears", ["a1"], "Mesh m1: gears is a list of 1; expected a list of two gear ids."),
  set("/meshes/0/gears", "a1 b1", 'Mesh m1: gears is "a1 b1"; expected a list of two gear ids.'),
  set("/meshes/0/azimuth", null, "Mesh m1: azimuth is null; expected a number."),
  ...[0, 180, -90, 270].map((angle) =>
    set("/meshes/1/shaftAngle", angle, `Mesh m2: shaftAngle is ${angle}; expected degrees above 0 and below 180.`),
  ),
  ...[0, 1.01, -0.5].map((e) =>
    set("/meshes/1/efficiency", e, `Mesh m2: efficiency is ${e}; expected a number above 0 and not above 1.`),
  ),
  set("/meshes/0/friction", -0.3, "Mesh m1: friction is -0.3; expected a number, 0 or more.", { of: "press" }),
  set("/ports/0/role", "motor", 'Port number 1: role is "motor"; expected input, held or output.'),
  set("/ports/0/speed", undefined, "Port number 1: speed is missing; expected a number."),
  set("/ports/0/torque", -1, "Port number 1: torque is -1; expected a number, 0 or more."),
  set(
    "/ports/1/speed",
    10,
    "Port number 2: speed does not belong to an output; only an input has a speed of its own, and that of an output follows.",
  ),
  set(
    "/ports/1/speed",
    0,
    "Port number 2: speed does not belong to a held port; only an input has a speed of its own, and what is held stands still.",
    { of: "press" },
  ),
  set(
    "/ports/1/power",
    10,
    "Port number 2: torque and power stand together; leave one of them out, since with the speed each gives the other.",
  ),
];

const ring = (f: { shafts: unknown[] }, key: string, pairs: readonly (readonly [string, string])[]): void => {
  for (const [id, to] of pairs) f.shafts.push({ id, [key]: to });
};

/** What only the rules refuse: the schema has nothing against it. */
export const AGAINST_RULES: readonly Spoil[] = [
  set("/shafts/1/id", "A", "The id A is taken by /shafts/0 already; expected one that no other of the shafts has."),
  set("/gears/1/id", "a1", "The id a1 is taken by /gears/0 already; expected one that no other of the gears has."),
  set("/meshes/1/id", "m1", "The id m1 is taken by /meshes/0 already; expected one that no other of the meshes has."),
  set("/gears/0/shaft", "Z", "Gear a1: shaft names Z, which is no shaft; expected the id of a shaft of this drive."),
  set(
    "/gears/0/shaft",
    "__proto__",
    "Gear a1: shaft names __proto__, which is no shaft; expected the id of a shaft of this drive.",
  ),
  set(
    "/gears/0/shaft",
    "A\u202eB\n",
    'Gear a1: shaft names "A\\u202eB\\u000a", which is no shaft; expected the id of a shaft of this drive.',
  ),
  set(
    "/gears/0/shaft",
    "q".repeat(100_000),
    `Gear a1: shaft names "${"q".repeat(40)}…" (100,000 characters), which is no shaft; expected the id of a shaft of this drive.`,
  ),
  set("/meshes/0/gears/1", "zz", "Mesh m1 names zz, which is no gear; expected the id of a gear of this drive."),
  set("/meshes/0/gears", ["a1", "a1"], "Mesh m1 joins gear a1 to itself; expected two gears on two shafts."),
  {
    ...set(
      "/gears/2/kind",
      "spur",
      "Mesh m1 joins b1 and b2, which sit on one shaft, B; expected gears on two shafts.",
      { pointer: "/meshes/0/gears" },
    ),
    spoil: (f) => {
      f.gears[2] = { id: "b2", shaft: "B", kind: "spur", teeth: 16, module: 3 };
      f.meshes = [{ id: "m1", gears: ["b1", "b2"] }];
    },
    name: "two gears of one shaft",
  },
  {
    ...set(
      "/meshes/0/gears/1",
      "b2",
      "Mesh m1 joins a gear of kind spur and one of kind bevel, which do not go together; expected spur with spur or internal.",
      { pointer: "/meshes/0/gears" },
    ),
    name: "spur with bevel",
  },
  {
    ...set("", 0, "Mesh m1 joins two gears of kind internal, which do not go together; expected internal with spur.", {
      pointer: "/meshes/0/gears",
    }),
    name: "ring with ring",
    spoil: (f) => {
      f.gears[0].kind = "internal";
      f.gears[1].kind = "internal";
    },
  },
  set(
    "/meshes/1/shaftAngle",
    undefined,
    "Mesh m2: shaftAngle is missing; expected degrees above 0 and below 180 between the two axes.",
  ),
  set(
    "/meshes/1/shaftAngle",
    undefined,
    "Mesh m2: shaftAngle is missing; expected degrees above 0 and below 180 between the two axes.",
    { of: "press", name: "no shaft angle on cones" },
  ),
  set("/meshes/0/shaftAngle", 90, "Mesh m1: shaftAngle stands on gears whose shafts are parallel; leave it out."),
  set(
    "/meshes/0/normalForce",
    200,
    "Mesh m1: normalForce stands on toothed gears; leave it out, since only friction pairs press on one another.",
  ),
  set(
    "/meshes/1/friction",
    0.3,
    "Mesh m2: friction stands on toothed gears; leave it out, since only friction pairs press on one another.",
  ),
  set(
    "/shafts/0/pose",
    undefined,
    "No shaft has a pose; expected at least one that says where it stands, to place the others from.",
    { pointer: "/shafts" },
  ),
  set("/shafts/0/pose/axis", [0, 0, 0], "Shaft A: axis has zero length; expected a direction such as [1, 0, 0]."),
  set(
    "/shafts/0/pose/ref",
    [0, 0, 0],
    "Shaft A: ref has zero length; expected a direction that is not along the axis.",
  ),
  set(
    "/shafts/0/pose/ref",
    [-3, 0, 0],
    "Shaft A: ref lies along the axis; expected a direction at an angle to it, since it marks azimuth 0.",
  ),
  set(
    "/shafts/0/pose/ref",
    [1e200, 1e190, 0],
    "Shaft A: ref lies along the axis; expected a direction at an angle to it, since it marks azimuth 0.",
  ),
  set(
    "/shafts/1/coaxial",
    "Z",
    "Shaft B: coaxial names Z, which is no shaft; expected the id of a shaft of this drive.",
  ),
  set(
    "/shafts/1/frame",
    "ground",
    "Shaft B: frame names ground, which is no shaft; leave frame out on a shaft that the ground carries.",
  ),
  set(
    "/shafts/1/frame",
    "B",
    "Shaft B carries itself; expected another shaft's id, or no frame where the ground carries it.",
  ),
  {
    name: "a frame that carries itself in three steps",
    spoil: (f) =>
      ring(f, "frame", [
        ["P", "Q"],
        ["Q", "R"],
        ["R", "P"],
        ["S", "P"],
      ]),
    pointer: "/shafts/3/frame",
    message: "Shafts P, Q and R carry one another in a circle; leave frame out on one of them.",
  },
  set("/shafts/1/coaxial", "B", "Shaft B is coaxial with itself; expected another shaft's id, or a pose instead."),
  {
    name: "coaxial in a circle, entered from outside",
    spoil: (f) =>
      ring(f, "coaxial", [
        ["S", "R"],
        ["P", "Q"],
        ["Q", "R"],
        ["R", "P"],
      ]),
    pointer: "/shafts/4/coaxial",
    message: "Shafts R, P and Q take their place from one another in a circle; give one of them a pose instead.",
  },
  set("/ports/1/shaft", "A", "Shaft A has a port already, /ports/0; expected at most one port a shaft."),
  set(
    "/ports/1/shaft",
    "Z",
    "Port number 2: shaft names Z, which is no shaft; expected the id of a shaft of this drive.",
  ),
];

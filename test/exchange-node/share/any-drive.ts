/** Drives with everything that the format allows and nobody writes: odd ids, texts of any sign, any double, nested `x-` keys. */
import fc from "fast-check";
import { makeGear, makeMesh, makePort, makeShaft } from "../../../src/engine/drive/defaults";
import type { Drive, Extras, Gear, Port, Pose } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { ALL_PAIRS, randomTree } from "../../support/random-drives";

/** UTF-16 units of any value, half surrogate pairs included. */
const text = fc.string({
  unit: fc.oneof(
    fc.constantFrom("a", "Z", "9", " ", "é", "😀", "\0", "\ud800"),
    fc.nat(0xffff).map((unit) => String.fromCharCode(unit)),
  ),
});
const double = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer(),
  fc.integer().map((whole) => whole / 1000),
  fc.constantFrom(5e-324, 1.7976931348623157e308, 9007199254740994, 1e21, 1e-7, 200, 199, -1, 0.1),
);
const positive = double.map((value) => Math.abs(value) || 1);
const notNegative = double.map(Math.abs);
const fraction = fc.double({ min: 1e-300, max: 1, noNaN: true });
const extras: fc.Arbitrary<Extras> = fc.oneof(
  { weight: 3, arbitrary: fc.constant({}) },
  {
    weight: 1,
    arbitrary: fc.dictionary(
      text.map((key) => `x-${key}`),
      fc.oneof(
        fc.jsonValue({ maxDepth: 4 }),
        fc.constantFrom(-0, [], JSON.parse('{"__proto__": {"x": -0}, "2": 1, "1": 2}')),
      ),
      { maxKeys: 3, noNullPrototype: true },
    ),
  },
);
const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined });

const pose: fc.Arbitrary<Pose> = fc
  .tuple(double, double, double, extras)
  .map(([x, y, z, more]) => ({ ...more, origin: [x, y, z], axis: [0, -2.5, 0], ref: [0.1, 0.2, 0.3] }) as Pose);

const gearSizes = fc.record({
  at: maybe(double),
  face: maybe(positive),
  bore: maybe(notNegative),
  phase: maybe(double),
});
const profile = fc.record({
  module: maybe(positive),
  pressureAngle: maybe(fc.double({ min: 0.001, max: 44.9, noNaN: true })),
  addendum: maybe(notNegative),
  clearance: maybe(notNegative),
  shift: maybe(double),
  backlash: maybe(notNegative),
});
const digits = fc.constantFrom("12.3456789012345678901234567890", "0.1000000000000000000001E2");

/** Without the keys that have no value. */
const given = <T extends object>(part: T): Partial<T> =>
  Object.fromEntries(Object.entries(part).filter(([, value]) => value !== undefined)) as Partial<T>;

/** The text of a file that holds such a drive. */
export const anyDrive: fc.Arbitrary<string> = fc
  .record({
    seed: fc.nat(),
    shafts: fc.integer({ min: 1, max: 7 }),
    title: text,
    notes: text,
    ids: fc.option(
      fc.uniqueArray(
        text.filter((id) => id !== "" && id !== "ground"),
        { minLength: 14, maxLength: 14 },
      ),
      {
        nil: undefined,
      },
    ),
    names: fc.array(text, { minLength: 7, maxLength: 7 }),
    poses: fc.array(maybe(pose), { minLength: 7, maxLength: 7 }),
    sizes: fc.array(gearSizes, { minLength: 12, maxLength: 12 }),
    profiles: fc.array(profile, { minLength: 12, maxLength: 12 }),
    efficiencies: fc.array(maybe(fraction), { minLength: 7, maxLength: 7 }),
    azimuths: fc.array(maybe(double), { minLength: 7, maxLength: 7 }),
    port: fc.record({ speed: double, torque: maybe(notNegative), power: maybe(notNegative), digits: maybe(digits) }),
    diameterDigits: maybe(digits),
    more: fc.array(extras, { minLength: 30, maxLength: 30 }),
    carried: fc.boolean(),
  })
  .map((parts) => {
    const tree = randomTree(parts.seed, parts.shafts, 4, { pairs: ALL_PAIRS });
    const more = parts.more.values();
    const extra = (): Extras => more.next().value ?? {};
    const idOf = (id: string): string => parts.ids?.[tree.shafts.findIndex((shaft) => shaft.id === id)] ?? id;
    const shafts = tree.shafts.map((shaft, i) => {
      const place = i === 0 ? { pose: shaft.pose as Pose } : given({ pose: parts.poses[i] });
      const frame = parts.carried && i > 1 ? { frame: idOf("s1") } : {};
      return makeShaft({ id: idOf(shaft.id), name: parts.names[i] ?? "", ...place, ...frame, ...extra() });
    });
    const gears = tree.gears.map((gear, i): Gear => {
      const toothed = "teeth" in gear;
      const exact =
        toothed || !parts.diameterDigits
          ? {}
          : { diameter: Number(parts.diameterDigits), diameterDigits: parts.diameterDigits };
      const sizes = { ...given(parts.sizes[i] ?? {}), ...(toothed ? given(parts.profiles[i] ?? {}) : {}), ...exact };
      return makeGear({ ...gear, ...sizes, shaft: idOf(gear.shaft), ...extra() } as Parameters<typeof makeGear>[0]);
    });
    const meshes = tree.meshes.map((mesh, i) =>
      makeMesh({ ...mesh, ...given({ efficiency: parts.efficiencies[i], azimuth: parts.azimuths[i] }), ...extra() }),
    );
    const { speed, torque, power, digits: speedDigits } = parts.port;
    const size = torque === undefined ? given({ power }) : { torque };
    const exact = speedDigits ? { speed: Number(speedDigits), speedDigits } : { speed };
    const ports: Port[] = [makePort({ shaft: idOf("s0"), role: "input", ...exact, ...size, ...extra() })];
    if (parts.shafts > 1)
      ports.push(makePort({ shaft: idOf("s1"), role: parts.seed % 2 ? "held" : "output", ...extra() }));
    const drive: Drive = { title: parts.title, notes: parts.notes, shafts, gears, meshes, ports, ...extra() };
    return writeDrive(drive);
  });

/** Drive files for the tests: one worked example, and random ones that are right in every rule of the format. */
import fc from "fast-check";
import MIXER from "../../support/mixer.drive.json";

/** Fresh each time, so that a test may spoil it. A plain object, as `JSON.parse` gives it. */
// biome-ignore lint/suspicious/noExplicitAny: tests spoil any part of it
export const mixer = (): any => structuredClone(MIXER);

/** A friction drive that takes the wheels and cones of the format. */
// biome-ignore lint/suspicious/noExplicitAny: tests spoil any part of it
export const press = (): any => ({
  format: "turnwise.drive",
  version: 1,
  title: "Apple press",
  shafts: [
    { id: "A", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } },
    { id: "B" },
    { id: "C", coaxial: "A" },
    { id: "D", frame: "C" },
  ],
  gears: [
    { id: "a1", shaft: "A", kind: "wheel", diameter: 60 },
    { id: "b1", shaft: "B", kind: "wheel", diameter: 120 },
    { id: "a2", shaft: "A", at: 40, kind: "cone", diameter: 30, apex: "+" },
    { id: "d1", shaft: "D", kind: "cone", diameter: 30, apex: "-" },
  ],
  meshes: [
    { id: "m1", gears: ["a1", "b1"], normalForce: 200, friction: 0.3 },
    { id: "m2", gears: ["a2", "d1"], shaftAngle: 90 },
  ],
  ports: [
    { shaft: "A", role: "input", speed: 90 },
    { shaft: "C", role: "held" },
  ],
});

type Loose = Record<string, unknown>;
/** A record whose keys depend on what went before. */
const parts = (fields: Readonly<Record<string, fc.Arbitrary<unknown>>>): fc.Arbitrary<Loose> =>
  fc.record({ ...fields });

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const above = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
const notNegative = fc.double({ min: 0, max: 1e6, noNaN: true });
const angle = (most: number) => fc.double({ min: 0, max: most, minExcluded: true, maxExcluded: true, noNaN: true });
const id = fc.oneof(
  fc.string({ minLength: 1, maxLength: 8, unit: "binary" }),
  fc.constant("__proto__"),
  fc.constant("constructor"),
);
const ids = (least: number, most: number) =>
  fc.uniqueArray(
    id.filter((text) => text !== "ground"),
    { minLength: least, maxLength: most },
  );
const extras = fc.dictionary(
  fc.string({ maxLength: 5, unit: "binary" }).map((key) => `x-${key}`),
  fc.jsonValue({ maxDepth: 3 }),
  { maxKeys: 2, noNullPrototype: true },
);
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });

const KINDS = ["spur", "internal", "bevel", "wheel", "internal-wheel", "cone"] as const;
/** The kinds that go together, as the format lists them; set down apart from the engine's own list. */
const MATES: Readonly<Record<string, readonly string[]>> = {
  spur: ["spur", "internal"],
  internal: ["spur"],
  bevel: ["bevel"],
  wheel: ["wheel", "internal-wheel"],
  "internal-wheel": ["wheel"],
  cone: ["cone"],
};

const vector = fc.tuple(finite, finite, finite);
const pose = fc.record({
  origin: vector,
  axis: fc.constantFrom([1, 0, 0], [0, -2.5, 0], [0, 0, 1e-3]),
  ref: fc.constantFrom([1, 1, 1], [-3, 2, 7]),
});

const gearOf = (gearId: string, shafts: readonly string[]) =>
  fc.constantFrom(...KINDS).chain((kind) => {
    const isToothed = !kind.includes("wheel") && kind !== "cone";
    const isConical = kind === "bevel" || kind === "cone";
    return parts({
      id: fc.constant(gearId),
      shaft: fc.constantFrom(...shafts),
      kind: fc.constant(kind),
      at: maybe(finite),
      face: maybe(above),
      bore: maybe(notNegative),
      phase: maybe(finite),
      ...(isConical ? { apex: maybe(fc.constantFrom("+", "-")) } : {}),
      ...(isToothed
        ? {
            teeth: fc.integer({ min: 1, max: 100_000 }),
            module: above,
            pressureAngle: maybe(angle(45)),
            addendum: maybe(notNegative),
            clearance: maybe(notNegative),
            shift: maybe(finite),
            backlash: maybe(notNegative),
          }
        : { diameter: above }),
      extras,
    });
  });

const merge = ({ extras: more, ...rest }: Loose): Loose => {
  const merged: Loose = {};
  for (const [key, value] of Object.entries({ ...rest, ...(more as Loose) }))
    if (value !== undefined) merged[key] = value;
  return merged;
};

/** A value of a drive file that keeps every rule; keys that may be left out often are. */
export const driveFiles: fc.Arbitrary<Loose> = ids(1, 6).chain((shaftIds) =>
  ids(0, 8)
    .chain((gearIds) => fc.tuple(...gearIds.map((gearId) => gearOf(gearId, shaftIds))))
    .chain((gears) =>
      fc.record({
        title: maybe(fc.string({ unit: "binary" })),
        notes: maybe(fc.string({ unit: "binary" })),
        shafts: fc.tuple(
          ...shaftIds.map((shaft, i) =>
            parts({
              id: fc.constant(shaft),
              name: maybe(fc.string({ unit: "binary", maxLength: 6 })),
              // An earlier shaft only, so that no circle comes about.
              ...(i === 0 ? { pose } : { coaxial: maybe(fc.constantFrom(...shaftIds.slice(0, i))) }),
              ...(i === 0 ? {} : { frame: maybe(fc.constantFrom(...shaftIds.slice(0, i))) }),
              extras,
            }),
          ),
        ),
        gears: fc.constant(gears),
        meshes: fc.array(fc.tuple(fc.nat(), fc.nat(), fc.boolean()), { maxLength: 6 }).map((picks) =>
          picks.flatMap(([p, q, full], i) => {
            const a = gears[p % Math.max(gears.length, 1)];
            const b = gears[q % Math.max(gears.length, 1)];
            if (!a || !b || a.shaft === b.shaft || !MATES[String(a.kind)]?.includes(String(b.kind))) return [];
            const isConical = a.kind === "bevel" || a.kind === "cone";
            const isPressed = !("teeth" in a);
            return [
              {
                id: `m${i}`,
                gears: [a.id, b.id],
                ...(isConical ? { shaftAngle: 1 + (p % 178) } : {}),
                ...(full ? { azimuth: q % 360, efficiency: 0.97 } : {}),
                ...(isPressed && full ? { normalForce: 12.5, friction: 0 } : {}),
              },
            ];
          }),
        ),
        ports: fc.subarray([...shaftIds]).chain((ported) =>
          fc.tuple(
            ...ported.map((shaft) =>
              fc.oneof(
                fc.record({
                  shaft: fc.constant(shaft),
                  role: fc.constant("input"),
                  speed: finite,
                  torque: maybe(notNegative),
                }),
                fc.record({ shaft: fc.constant(shaft), role: fc.constant("held") }),
                fc.record({ shaft: fc.constant(shaft), role: fc.constant("output"), power: maybe(notNegative) }),
              ),
            ),
          ),
        ),
        extras,
      }),
    )
    .map(
      (file) =>
        merge({
          format: "turnwise.drive",
          version: 1,
          ...file,
          shafts: (file.shafts as Loose[]).map(merge),
          gears: (file.gears as Loose[]).map(merge),
          ports: (file.ports as Loose[]).map(merge),
        }) as Loose,
    ),
);

/** Any edits in any order leave a drive that the parser passes, or are refused with a sentence. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { duplicateStage } from "../../../src/engine/drive/commands/duplicate";
import { type Edit, isRefused } from "../../../src/engine/drive/commands/edit";
import { addGear, type GearPatch, type NewGear, setGear } from "../../../src/engine/drive/commands/gear";
import { leanMesh } from "../../../src/engine/drive/commands/lean";
import { joinMesh, type MeshPatch, setMesh, swapSizes } from "../../../src/engine/drive/commands/mesh";
import { addNote, changeNote, removeNote } from "../../../src/engine/drive/commands/notes";
import { driveFrom, type NewPort, setPort } from "../../../src/engine/drive/commands/port";
import { removePart } from "../../../src/engine/drive/commands/remove";
import { addShaft, rename, type ShaftPatch, setShaft, setTitle } from "../../../src/engine/drive/commands/shaft";
import { addStage, type StageFields } from "../../../src/engine/drive/commands/stage";
import { newDrive } from "../../../src/engine/drive/defaults";
import { parseDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { MESH_KINDS } from "../../../src/engine/mesh-kinds/list";
import { alignedWith } from "../../../src/engine/placement/aligned";
import { indexDrive } from "../../../src/engine/placement/index-drive";
import { place } from "../../../src/engine/placement/place";

/** A number that is fit in most places, and now and then one that is fit in none. */
const number = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 1, max: 40 }) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(0, -0, 0.5, -3, 90, 180, 100_001, 1e300, Number.NaN, Number.POSITIVE_INFINITY),
  },
);
const side = fc.constantFrom("+" as const, "-" as const);
const some = <T>(fields: { [K in keyof T]: fc.Arbitrary<T[K]> }) => fc.record(fields, { requiredKeys: [] });
const numbers = <K extends string>(...keys: K[]) =>
  Object.fromEntries(keys.map((key) => [key, fc.option(number, { nil: undefined })])) as Record<
    K,
    fc.Arbitrary<number | undefined>
  >;

const gearPatch = some({
  ...numbers("teeth", "module", "diameter", "face", "at", "phase", "bore", "shift", "pressureAngle"),
  apex: side,
});
const meshPatch = some(numbers("shaftAngle", "azimuth", "efficiency", "normalForce", "friction"));
const port = fc.record(
  { role: fc.constantFrom("input", "held", "output"), ...numbers("speed", "torque", "power") },
  { requiredKeys: ["role"] },
);
const vector = fc.tuple(number, number, number);
const pose = fc.record({ origin: vector, axis: vector, ref: vector });
const pick = fc.nat();

type Pick = (drive: Drive) => Edit;
const shaftAt = (drive: Drive, i: number): string => drive.shafts[i % drive.shafts.length]?.id ?? "none";
const gearAt = (drive: Drive, i: number): string => drive.gears[i % Math.max(1, drive.gears.length)]?.id ?? "none";
const meshAt = (drive: Drive, i: number): string => drive.meshes[i % Math.max(1, drive.meshes.length)]?.id ?? "none";

const stage = fc
  .record(
    {
      kind: fc.constantFrom(...MESH_KINDS.map(({ id }) => id)),
      pick,
      useGear: fc.option(pick),
      ...numbers("module", "azimuth", "at", "face"),
      teeth: fc.tuple(number, number),
      swapped: fc.boolean(),
      apexes: fc.option(fc.tuple(side, side), { nil: undefined }),
    },
    { requiredKeys: ["kind", "pick", "useGear"] },
  )
  .map(
    ({ pick: i, useGear, ...fields }): Pick =>
      (drive) => {
        const there = useGear === null ? undefined : drive.gears[useGear % Math.max(1, drive.gears.length)];
        return addStage({
          ...(fields as Partial<StageFields>),
          kind: fields.kind,
          shaft: there?.shaft ?? shaftAt(drive, i),
          gear: there?.id,
        });
      },
  );

const edits: fc.Arbitrary<Pick> = fc.oneof(
  { weight: 6, arbitrary: stage },
  fc.tuple(pick, gearPatch, fc.boolean()).map(
    ([i, patch, alone]): Pick =>
      (drive) =>
        setGear(gearAt(drive, i), patch as GearPatch, { mates: alone ? "none" : "module" }),
  ),
  fc.tuple(pick, meshPatch).map(
    ([i, patch]): Pick =>
      (drive) =>
        setMesh(meshAt(drive, i), patch as MeshPatch),
  ),
  fc.tuple(pick, fc.option(port)).map(
    ([i, next]): Pick =>
      (drive) =>
        setPort(shaftAt(drive, i), next as NewPort | null),
  ),
  fc.tuple(pick, pick, fc.option(pose), fc.constantFrom("pose", "coaxial", "frame")).map(
    ([i, j, where, what]): Pick =>
      (drive) =>
        setShaft(shaftAt(drive, i), { [what]: what === "pose" ? where : where && shaftAt(drive, j) } as ShaftPatch),
  ),
  fc.tuple(pick, fc.boolean()).map(
    ([i, carried]): Pick =>
      (drive) =>
        addShaft({ coaxial: shaftAt(drive, i), frame: carried ? shaftAt(drive, i + 1) : null }),
  ),
  fc.tuple(pick, fc.constantFrom("spur", "internal", "bevel", "wheel", "internal-wheel", "cone"), number, number).map(
    ([i, kind, a, b]): Pick =>
      (drive) =>
        addGear(shaftAt(drive, i), (a > 20 ? { kind, teeth: a, module: b } : { kind, diameter: b }) as NewGear),
  ),
  fc.tuple(pick, pick, meshPatch).map(
    ([i, j, fields]): Pick =>
      (drive) =>
        joinMesh(gearAt(drive, i), gearAt(drive, j), fields as MeshPatch),
  ),
  fc.tuple(pick, fc.oneof(fc.constantFrom(0, 180, 90), number), fc.constantFrom(0 as const, 1 as const)).map(
    ([i, angle, leans]): Pick =>
      (drive) => {
        const index = indexDrive(drive);
        const id = meshAt(drive, i);
        const shaft = index.shaftsOfMesh[index.meshes.get(id) ?? -1]?.[leans] ?? -1;
        return leanMesh(id, {
          angle,
          leans,
          aligned: alignedWith({ drive, index, placement: place(drive, index) }, shaft),
        });
      },
  ),
  pick.map(
    (i): Pick =>
      (drive) =>
        swapSizes(meshAt(drive, i)),
  ),
  pick.map(
    (i): Pick =>
      (drive) =>
        driveFrom(shaftAt(drive, i)),
  ),
  pick.map(
    (i): Pick =>
      (drive) =>
        duplicateStage(shaftAt(drive, i)),
  ),
  pick.map(
    (i): Pick =>
      (drive) =>
        removePart({ kind: "shaft", id: shaftAt(drive, i) }),
  ),
  pick.map(
    (i): Pick =>
      (drive) =>
        removePart({ kind: "gear", id: gearAt(drive, i) }),
  ),
  pick.map(
    (i): Pick =>
      (drive) =>
        removePart({ kind: "mesh", id: meshAt(drive, i) }),
  ),
  fc.tuple(pick, fc.string({ unit: "binary" })).map(
    ([i, name]): Pick =>
      (drive) =>
        rename(shaftAt(drive, i), name),
  ),
  fc
    .tuple(pick, fc.string({ unit: "binary", maxLength: 6 }), fc.constantFrom("shaft", "gear", "mesh", "point"), vector)
    .map(
      ([i, text, part, point]): Pick =>
        (drive) => {
          const ids = { shaft: shaftAt(drive, i), gear: gearAt(drive, i), mesh: meshAt(drive, i) };
          return addNote(text, part === "point" ? { part, point } : { part, id: ids[part] });
        },
    ),
  fc.tuple(fc.nat({ max: 3 }), fc.option(fc.string({ maxLength: 6 }))).map(
    ([entry, text]): Pick =>
      () =>
        text === null ? removeNote(entry) : changeNote(entry, { text }),
  ),
  fc.string({ unit: "binary" }).map(
    (title): Pick =>
      () =>
        setTitle(title),
  ),
);

it("300 random runs of up to 30 edits", () => {
  let done = 0;
  let refusals = 0;
  fc.assert(
    fc.property(fc.array(edits, { minLength: 5, maxLength: 30 }), (run) => {
      let drive = newDrive();
      for (const choose of run) {
        const result = choose(drive)(drive);
        if (isRefused(result)) {
          refusals += 1;
          expect(result.refused).toMatch(/^[A-Z][^\n]{10,500}\.$/);
          continue;
        }
        done += 1;
        expect(parseDrive(writeDrive(result))).toStrictEqual({ drive: result });
        drive = result;
      }
    }),
    { numRuns: 300 },
  );
  // Neither road may be empty, or the test would say nothing.
  expect(done).toBeGreaterThan(1000);
  expect(refusals).toBeGreaterThan(300);
});

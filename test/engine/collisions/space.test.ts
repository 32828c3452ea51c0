import { describe, expect, it } from "vitest";
import { bodiesOf } from "../../../src/engine/collisions/bodies";
import { fitInSpace, roomTaken } from "../../../src/engine/collisions/extents";
import { isRefused } from "../../../src/engine/drive/commands/edit";
import { setSpace, setSpaceCorner, setSpaceSide } from "../../../src/engine/drive/commands/space";
import { makeDrive, makeMesh, makeShaft } from "../../../src/engine/drive/defaults";
import { readDrive } from "../../../src/engine/drive/parse";
import { type Sides, spaceOf } from "../../../src/engine/drive/space";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { solve } from "../../../src/engine/solve";
import { differential, toothed, toothless } from "../../support/random-drives";

/** A gear of 20 teeth, module 2 (tip diameter 44) on an upright shaft: 44 mm across, as high as its rod. */
const single = (space?: unknown): Drive =>
  makeDrive({
    shafts: [makeShaft({ id: "A", name: "Post", pose: { origin: [100, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } })],
    gears: [toothed("a", "A", "spur", 20, 2)],
    ...(space === undefined ? {} : { "x-space": space }),
  });

const done = (result: ReturnType<ReturnType<typeof setSpace>>): Drive => {
  if (isRefused(result)) throw new Error(result.refused);
  return result;
};

/** Both sides of a comparison rounded alike: mm to the sixth place. */
const toSixth = (x = Number.NaN): number => Math.round(x * 1e6) / 1e6;

describe("the room that a drive takes", () => {
  it("goes up to the tips of the teeth and the ends of the rods", () => {
    const solved = solve(single());
    const taken = roomTaken(solved);
    const rod = bodiesOf(solved).find(({ kind }) => kind === "shaft")?.profile;
    expect(taken?.low.map(toSixth)).toEqual([78, -22, toSixth(rod?.low)]);
    expect(taken?.high.map(toSixth)).toEqual([122, 22, toSixth(rod?.high)]);
  });

  it("goes all the way round with carriers: a closed form", () => {
    // A planet of radius 10 on a circle of radius 50, at rest on the right.
    const drive = makeDrive({
      shafts: [
        makeShaft({ id: "S", pose: { origin: [0, 0, 0], axis: [0, 0, 1], ref: [1, 0, 0] } }),
        makeShaft({ id: "C", coaxial: "S" }),
        makeShaft({ id: "P", frame: "C" }),
      ],
      gears: [toothless("s", "S", "wheel", 80), toothless("p", "P", "wheel", 20)],
      meshes: [makeMesh({ id: "m", gears: ["s", "p"], azimuth: 0 })],
    });
    const taken = roomTaken(solve(drive));
    for (const k of [0, 1] as const) {
      expect(taken?.low[k]).toBeCloseTo(-60, 6);
      expect(taken?.high[k]).toBeCloseTo(60, 6);
    }
  });

  it("holds every point of every body at every turn of a carrier, and no more (differential, brute force)", () => {
    const solved = solve(differential(30, 16, 2));
    const taken = roomTaken(solved);
    let [low, high] = [Infinity, -Infinity];
    for (const { profile, origin, axis, shaft } of bodiesOf(solved)) {
      const isCarried = (solved.index.frameOfShaft[shaft] ?? -1) >= 0;
      const [ax, ay, az] = axis;
      const h = Math.abs(ax) < 0.6 ? [1, 0, 0] : [0, 1, 0];
      const d = (h[0] ?? 0) * ax + (h[1] ?? 0) * ay + (h[2] ?? 0) * az;
      const raw = [(h[0] ?? 0) - d * ax, (h[1] ?? 0) - d * ay, (h[2] ?? 0) - d * az];
      const size = Math.hypot(...raw);
      const u = raw.map((x) => x / size);
      const v = [
        ay * (u[2] ?? 0) - az * (u[1] ?? 0),
        az * (u[0] ?? 0) - ax * (u[2] ?? 0),
        ax * (u[1] ?? 0) - ay * (u[0] ?? 0),
      ];
      profile.radii.forEach((r, i) => {
        for (let t = 0; t < 720; t++) {
          const [p, q] = [r * Math.cos((t * Math.PI) / 360), r * Math.sin((t * Math.PI) / 360)];
          const at = [0, 1, 2].map((k) => {
            return (origin[k] ?? 0) + (profile.places[i] ?? 0) * (axis[k] ?? 0) + p * (u[k] ?? 0) + q * (v[k] ?? 0);
          });
          // The carrier's line is x: a full turn takes a point to its distance from that line.
          const top = isCarried ? Math.hypot(at[1] ?? 0, at[2] ?? 0) : (at[2] ?? 0);
          high = Math.max(high, top);
          low = Math.min(low, isCarried ? -top : (at[2] ?? 0));
        }
      });
    }
    expect(taken?.high[2]).toBeGreaterThanOrEqual(high - 1e-9);
    expect(taken?.high[2]).toBeLessThan(high + 1e-2);
    expect(taken?.low[2]).toBeLessThanOrEqual(low + 1e-9);
    expect(taken?.low[2]).toBeGreaterThan(low - 1e-2);
  });
});

describe("the space that it must fit", () => {
  const fitted = (size: Sides, corner?: Sides) =>
    fitInSpace(solve(done(setSpace({ size, ...(corner ? { corner } : {}) })(single()))));

  it("is put so that the drive stands in its middle, and may be open on any side", () => {
    const wide = fitted([60, null, null]);
    expect(wide?.stands).toEqual([[70, 130], null, null]);
    expect(wide?.out).toEqual([]);
    const narrow = fitted([40, null, null]);
    expect(narrow?.out.map(({ most }) => Math.round(most * 1e6) / 1e6)).toEqual([2]);
    expect(narrow?.out[0]).toMatchObject({ low: [2, 0, 0], high: [2, 0, 0] });
  });

  it("stands where its corner is fixed, side by side", () => {
    const out = fitted([60, 60, null], [80, null, null])?.out;
    expect(out?.map(({ body, low, high }) => [body.kind, low, high])).toEqual([["gear", [2, 0, 0], [0, 0, 0]]]);
    expect(fitted([60, 60, null], [78, null, null])?.out).toEqual([]);
  });

  it("makes a finding that names what sticks out, by how much on each side", () => {
    const { findings } = solve(done(setSpace({ size: [40, 900, null], corner: [90, null, null] })(single())));
    const finding = findings.find(({ code }) => code === "out-of-space");
    expect(finding).toMatchObject({ severity: "warning", at: ["a", "A"].slice(0, finding?.at.length) });
    expect(finding?.message).toContain("12 mm on the left (gear a (20 teeth, on Post))");
    expect(finding?.message).not.toContain("on the right");
    expect(finding?.message).toContain("the space is 40 × 900 × any mm");
    expect(
      solve(done(setSpace({ size: [44, 44, null] })(single()))).findings.some(({ code }) => code === "out-of-space"),
    ).toBe(false);
  });

  it("is kept in the file as x-space, and comes back as it was", () => {
    const drive = done(setSpace({ size: [900, null, 400], corner: [null, null, -20] })(single()));
    const again = readDrive(JSON.parse(writeDrive(drive))).drive;
    expect(again?.["x-space"]).toEqual({ size: [900, null, 400], corner: [null, null, -20] });
    expect(again && spaceOf(again)).toEqual({ size: [900, null, 400], corner: [null, null, -20] });
    const plain = done(setSpace({ size: [900, null, null] })(single()));
    expect(plain["x-space"]).toEqual({ size: [900, null, null] });
  });

  it("is changed side by side, and goes when every side is open", () => {
    let drive = done(setSpaceSide(0, 900)(single()));
    expect(spaceOf(drive)?.size).toEqual([900, null, null]);
    drive = done(setSpaceSide(2, 300)(drive));
    drive = done(setSpaceCorner(2, 0)(drive));
    expect(spaceOf(drive)).toEqual({ size: [900, null, 300], corner: [null, null, 0] });
    // A side that is opened forgets its corner.
    drive = done(setSpaceSide(2, null)(drive));
    expect(spaceOf(drive)).toEqual({ size: [900, null, null], corner: [null, null, null] });
    drive = done(setSpaceSide(0, null)(drive));
    expect(drive).toEqual(single());
    expect("x-space" in drive).toBe(false);
  });

  it("refuses what is no size, with a reason", () => {
    for (const bad of [0, -5, Number.NaN, Infinity, 2e9]) {
      expect(setSpaceSide(1, bad)(single())).toHaveProperty("refused", expect.stringContaining("depth of the space"));
    }
    expect(setSpaceCorner(0, 5)(single())).toHaveProperty("refused", expect.stringContaining("size"));
    expect(setSpaceCorner(0, Number.NaN)(single({ size: [5, null, null] }))).toHaveProperty("refused");
  });

  it.each([
    5,
    null,
    [],
    {},
    { size: [1, 2] },
    { size: ["900", null, null] },
    { size: [null, null, null] },
    { size: [-1, null, null] },
    { size: [1, null, null], corner: [0] },
  ])("leaves be what another program keeps there: %j", (kept) => {
    expect(spaceOf(single(kept))).toBeNull();
    expect(solve(single(kept)).findings.some(({ code }) => code === "out-of-space")).toBe(false);
  });
});

import { describe, expect, it } from "vitest";
import { duplicateStage } from "../../../src/engine/drive/commands/duplicate";
import { type Edit, isRefused } from "../../../src/engine/drive/commands/edit";
import { addGear, setGear } from "../../../src/engine/drive/commands/gear";
import { joinMesh, setMesh, swapSizes } from "../../../src/engine/drive/commands/mesh";
import { driveFrom, setPort } from "../../../src/engine/drive/commands/port";
import { removeGear, removeMesh, removePart, removeShaft } from "../../../src/engine/drive/commands/remove";
import { addShaft, rename, setNotes, setShaft, setTitle } from "../../../src/engine/drive/commands/shaft";
import { addStage } from "../../../src/engine/drive/commands/stage";
import { FIRST_POSE, newDrive } from "../../../src/engine/drive/defaults";
import { parseDrive, readDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { mixer, press } from "./files";

const read = (value: unknown): Drive => {
  const { drive, faults } = readDrive(value);
  if (!drive) throw new Error(JSON.stringify(faults));
  return drive;
};
/** Makes the edits one after another; each result must be a drive that the parser gives back as it is. */
const edit = (drive: Drive, ...edits: readonly Edit[]): Drive =>
  edits.reduce((before, one) => {
    const frozen = writeDrive(before);
    const after = one(before);
    if (isRefused(after)) throw new Error(after.refused);
    expect(writeDrive(before)).toBe(frozen);
    expect(parseDrive(writeDrive(after))).toStrictEqual({ drive: after });
    return after;
  }, drive);
const refusal = (drive: Drive, one: Edit): string => {
  const result = one(drive);
  return isRefused(result) ? result.refused : "not refused";
};
const gear = (drive: Drive, id: string) => drive.gears.find((one) => one.id === id);
const shaft = (drive: Drive, id: string) => drive.shafts.find((one) => one.id === id);
const mesh = (drive: Drive, id: string) => drive.meshes.find((one) => one.id === id);
const ids = (list: readonly { readonly id: string }[]): string => list.map(({ id }) => id).join(" ");

describe("numbers of gears", () => {
  it("changes one gear and leaves the rest the same objects", () => {
    const drive = read(mixer());
    const after = edit(drive, setGear("b1", { teeth: 60, at: 5 }));
    expect(gear(after, "b1")).toMatchObject({ teeth: 60, at: 5, module: 2 });
    expect(after.gears[0]).toBe(drive.gears[0]);
    expect(after.shafts).toBe(drive.shafts);
  });

  it("takes module and pressure angle on to all mates in the chain, not through shafts", () => {
    const drive = edit(
      newDrive(),
      addStage({ shaft: "A", gear: "a1", kind: "spur-pair" }),
      addStage({ shaft: "B", gear: "b1", kind: "spur-pair" }),
      addStage({ shaft: "C", kind: "spur-pair" }),
    );
    const after = edit(drive, setGear("c1", { module: 3, pressureAngle: 25 }));
    expect(after.gears.map((one) => [one.id, "module" in one && one.module, one.pressureAngle])).toEqual([
      ["a1", 3, 25],
      ["b1", 3, 25],
      ["c1", 3, 25],
      ["c2", 2, 20],
      ["d1", 2, 20],
    ]);
    const alone = edit(drive, setGear("c1", { module: 3 }, { mates: "none" }));
    expect(alone.gears.map((one) => "module" in one && one.module)).toEqual([2, 2, 3, 2, 2]);
  });

  it("puts a number that is left undefined back to its default", () => {
    expect(gear(edit(read(mixer()), setGear("a1", { face: undefined })), "a1")?.face).toBe(10);
  });

  it("keeps the digits of a diameter while it stays, and drops them with it", () => {
    const drive = edit(
      read(press()),
      setGear("a1", { diameter: Number("60.1234567890123456789"), diameterDigits: "60.1234567890123456789" }),
    );
    expect(gear(edit(drive, setGear("a1", { face: 4 })), "a1")).toHaveProperty(
      "diameterDigits",
      "60.1234567890123456789",
    );
    expect(gear(edit(drive, setGear("a1", { diameter: 61 })), "a1")).not.toHaveProperty("diameterDigits");
  });

  it.each([
    [{ teeth: 12.5 }, "Gear a1: teeth is 12.5; expected a whole number from 1 to 100,000."],
    [{ module: 0 }, "Gear a1: module is 0; expected a number above 0."],
    [{ at: Number.NaN }, "Gear a1: at is not a number; expected a number."],
    [
      { diameter: 40 },
      "Gear a1: diameter does not belong to a spur or internal gear; the diameter of a toothed gear is its teeth times its module.",
    ],
    [{ teeth: undefined }, "Gear a1: teeth is missing; expected a whole number from 1 to 100,000."],
  ])("refuses %j", (patch, sentence) => {
    expect(refusal(read(mixer()), setGear("a1", patch))).toBe(sentence);
  });

  it("says which gear is gone", () => {
    expect(refusal(newDrive(), setGear("zz", {}))).toBe("There is no gear zz in this drive any more; choose another.");
  });

  it("adds a gear under a fresh id", () => {
    const after = edit(newDrive(), addGear("A", { kind: "bevel", teeth: 16, module: 2, at: 30 }));
    expect(after.gears[1]).toMatchObject({ id: "a2", shaft: "A", kind: "bevel", at: 30, apex: "+" });
    expect(refusal(newDrive(), addGear("A", { kind: "spur", teeth: 0, module: 2 }))).toMatch(/^Gear a2: teeth is 0;/);
  });
});

describe("meshes", () => {
  it("changes numbers, takes them away, and refuses those of another kind", () => {
    const drive = edit(read(mixer()), setMesh("m2", { shaftAngle: 70, efficiency: 0.95, azimuth: 45 }));
    expect(mesh(drive, "m2")).toMatchObject({ shaftAngle: 70, efficiency: 0.95, azimuth: 45 });
    expect(mesh(edit(drive, setMesh("m2", { efficiency: undefined })), "m2")?.efficiency).toBe(1);
    expect(refusal(drive, setMesh("m2", { shaftAngle: undefined }))).toMatch(/^Mesh m2: shaftAngle is missing;/);
    expect(refusal(drive, setMesh("m1", { shaftAngle: 90 }))).toMatch(
      /^Mesh m1: shaftAngle stands on gears whose shafts are parallel/,
    );
    expect(refusal(drive, setMesh("m1", { friction: 0.3 }))).toMatch(/^Mesh m1: friction stands on toothed gears/);
    expect(refusal(drive, setMesh("m2", { shaftAngle: 180 }))).toMatch(/^Mesh m2: shaftAngle is 180;/);
    expect(mesh(edit(read(press()), setMesh("m1", { normalForce: undefined })), "m1")).not.toHaveProperty(
      "normalForce",
    );
  });

  it("joins two gears that are there", () => {
    const drive = edit(
      newDrive(),
      addShaft({ pose: { ...FIRST_POSE, origin: [0, 0, 60] } }),
      addGear("B", { kind: "spur", teeth: 40, module: 2 }),
      joinMesh("a1", "b1", { efficiency: 0.98 }),
    );
    expect(drive.meshes).toEqual([{ id: "m1", gears: ["a1", "b1"], azimuth: 0, efficiency: 0.98 }]);
    expect(refusal(drive, joinMesh("b1", "a1"))).toBe("Gears b1 and a1 mesh already, in m1; choose another pair.");
    expect(refusal(drive, joinMesh("a1", "a1"))).toBe(
      "Mesh m2 joins gear a1 to itself; expected two gears on two shafts.",
    );
    const two = edit(drive, addGear("B", { kind: "spur", teeth: 20, module: 2, at: 30 }));
    expect(refusal(two, joinMesh("b1", "b2"))).toBe(
      "Mesh m2 joins b1 and b2, which sit on one shaft, B; expected gears on two shafts.",
    );
    const bevel = edit(two, addGear("A", { kind: "bevel", teeth: 20, module: 2, at: 30 }));
    expect(refusal(bevel, joinMesh("a2", "b2"))).toMatch(
      /a gear of kind bevel and one of kind spur, which do not go together/,
    );
  });

  it("trades the sizes of a pair, but never those of a ring", () => {
    const after = edit(read(mixer()), swapSizes("m1"));
    expect([gear(after, "a1"), gear(after, "b1")]).toMatchObject([{ teeth: 50 }, { teeth: 20 }]);
    expect(edit(after, swapSizes("m1"))).toStrictEqual(read(mixer()));
    expect(edit(read(press()), swapSizes("m1")).gears).toMatchObject([{ diameter: 120 }, { diameter: 60 }, {}, {}]);
    const ring = edit(newDrive(), addStage({ shaft: "A", gear: "a1", kind: "ring-pair", teeth: [20, 60] }));
    expect(refusal(ring, swapSizes("m1"))).toBe(
      "Gears a1 and b1 can't trade sizes: a ring must be larger than its pinion.",
    );
  });
});

describe("shafts and words", () => {
  it("sets title, notes and names", () => {
    const drive = edit(newDrive(), setTitle("<b>Mill</b>"), setNotes("Two\nlines"), rename("A", "Crank"));
    expect(drive).toMatchObject({ title: "<b>Mill</b>", notes: "Two\nlines", shafts: [{ id: "A", name: "Crank" }] });
  });

  it("sets and takes away pose, coaxial and frame", () => {
    const drive = read(press());
    const posed = edit(drive, setShaft("C", { pose: { ...FIRST_POSE, origin: [1, 2, 3] } }));
    expect(shaft(posed, "C")).toEqual({ id: "C", name: "", pose: { ...FIRST_POSE, origin: [1, 2, 3] } });
    expect(shaft(edit(posed, setShaft("C", { coaxial: "A", frame: "B" })), "C")).toEqual({
      id: "C",
      name: "",
      coaxial: "A",
      frame: "B",
    });
    expect(shaft(edit(drive, setShaft("D", { frame: null })), "D")).toEqual({ id: "D", name: "" });
  });

  it.each([
    [
      setShaft("A", { pose: null }),
      "No shaft has a pose; expected at least one that says where it stands, to place the others from.",
    ],
    [setShaft("C", { frame: "D" }), "Shafts C and D carry one another in a circle; leave frame out on one of them."],
    [
      setShaft("D", { frame: "D" }),
      "Shaft D carries itself; expected another shaft's id, or no frame where the ground carries it.",
    ],
    [
      setShaft("C", { coaxial: "Z" }),
      "Shaft C: coaxial names Z, which is no shaft; expected the id of a shaft of this drive.",
    ],
    [
      setShaft("A", { pose: { origin: [0, 0, 0], axis: [0, 0, 0], ref: [1, 0, 0] } }),
      "Shaft A: axis has zero length; expected a direction such as [1, 0, 0].",
    ],
    [
      setShaft("A", { pose: { origin: [0, Number.NaN, 0], axis: [1, 0, 0], ref: [0, 0, 1] } }),
      "Shaft A: item 2 is not a number; expected a number.",
    ],
    [
      addShaft({ coaxial: "Q" }),
      "Shaft E: coaxial names Q, which is no shaft; expected the id of a shaft of this drive.",
    ],
  ])("refuses what breaks a rule: %#", (one, sentence) => {
    expect(refusal(read(press()), one)).toBe(sentence);
  });
});

describe("ports", () => {
  it("puts, replaces and takes away", () => {
    const drive = edit(
      newDrive(),
      addStage({ shaft: "A", kind: "spur-pair" }),
      setPort("B", { role: "output", torque: 4 }),
    );
    expect(drive.ports).toEqual([
      { shaft: "A", role: "input", speed: 60 },
      { shaft: "B", role: "output", torque: 4 },
    ]);
    const after = edit(
      drive,
      setPort("B", { role: "output", torque: undefined, power: 9 }),
      setPort("A", { role: "held" }),
    );
    expect(after.ports).toEqual([
      { shaft: "A", role: "held" },
      { shaft: "B", role: "output", power: 9 },
    ]);
    expect(edit(after, setPort("B", null), setPort("B", null)).ports).toHaveLength(1);
    expect(refusal(drive, setPort("A", { role: "input" }))).toMatch(/speed is missing/);
    expect(refusal(drive, setPort("A", { role: "held", speed: 3 }))).toMatch(/speed does not belong to a held port/);
    expect(refusal(drive, setPort("A", { role: "output", torque: 1, power: 1 }))).toMatch(
      /torque and power stand together/,
    );
  });

  it("keeps the digits of a speed while they say the same", () => {
    const speedDigits = "60.00000000000000000001";
    const drive = edit(newDrive(), setPort("A", { role: "input", speed: 60, speedDigits }));
    const [port] = drive.ports;
    expect(port).toHaveProperty("speedDigits", speedDigits);
    expect(edit(drive, setPort("A", { ...port, role: "input", torque: 3 })).ports[0]).toHaveProperty("speedDigits");
    expect(edit(drive, setPort("A", { ...port, role: "input", speed: 61 })).ports[0]).not.toHaveProperty("speedDigits");
  });

  it("drives from another shaft: driver and driven trade roles", () => {
    const drive = read(mixer());
    expect(edit(drive, driveFrom("C")).ports).toEqual([
      { shaft: "C", role: "input", speed: 1450 },
      { shaft: "A", role: "output", torque: 40 },
    ]);
    expect(edit(drive, driveFrom("B")).ports).toEqual([
      { shaft: "B", role: "input", speed: 1450 },
      { shaft: "C", role: "output", torque: 40 },
    ]);
    expect(edit(drive, driveFrom("C"), driveFrom("A"))).toStrictEqual(drive);
    expect(driveFrom("A")(drive)).toBe(drive);
    expect(edit(drive, setPort("A", null), driveFrom("B")).ports.at(-1)).toEqual({
      shaft: "B",
      role: "input",
      speed: 60,
    });
  });
});

describe("add a stage", () => {
  it("puts a pair between the shaft and a new one", () => {
    const drive = edit(
      newDrive(),
      addStage({ shaft: "A", kind: "spur-pair", teeth: [18, 54], azimuth: 90, name: "Drum" }),
    );
    expect(drive.shafts[1]).toEqual({ id: "B", name: "Drum" });
    expect(drive.gears).toMatchObject([
      { id: "a1" },
      { id: "a2", teeth: 18, module: 2, at: 30 },
      { id: "b1", shaft: "B", teeth: 54, at: 0 },
    ]);
    expect(drive.meshes).toEqual([{ id: "m1", gears: ["a2", "b1"], azimuth: 90, efficiency: 1 }]);
  });

  it("takes a gear that is there as the first, with its module, pressure angle and shift", () => {
    const start = edit(newDrive(), setGear("a1", { module: 3, pressureAngle: 25, shift: 0.2, face: 12 }));
    const spur = edit(start, addStage({ shaft: "A", gear: "a1", kind: "spur-pair" }));
    expect(spur.gears).toMatchObject([
      { id: "a1" },
      { id: "b1", teeth: 40, module: 3, pressureAngle: 25, shift: -0.2, face: 12 },
    ]);
    const ring = edit(start, addStage({ shaft: "A", gear: "a1", kind: "ring-pair" }));
    expect(ring.gears[1]).toMatchObject({ kind: "internal", shift: 0.2 });
    const inside = edit(ring, addStage({ shaft: "B", gear: "b1", kind: "ring-pair", teeth: [40, 15] }));
    expect(inside.gears[2]).toMatchObject({ id: "c1", kind: "spur", teeth: 15 });
    expect(refusal(start, addStage({ shaft: "A", gear: "a1", kind: "bevel-pair" }))).toMatch(
      /^Gear a1 is of kind spur, which a .* does not take; choose another gear or kind of mesh\.$/,
    );
  });

  it("puts a bevel pair at 90 degrees, with faces no wider than a third of the cone distance", () => {
    const drive = edit(newDrive(), addStage({ shaft: "A", kind: "bevel-pair", teeth: [16, 20], module: 1 }));
    // R = 1/2 · sqrt(16² + 20²) = 12.8 mm, a third of it 4.27.
    expect(drive.gears).toMatchObject([
      {},
      { kind: "bevel", apex: "+", face: 4 },
      { kind: "bevel", apex: "-", face: 4 },
    ]);
    expect(drive.meshes[0]).toMatchObject({ shaftAngle: 90 });
    const wide = edit(
      newDrive(),
      addStage({
        shaft: "A",
        kind: "bevel-pair",
        teeth: [16, 20],
        module: 1,
        face: 9,
        shaftAngle: 70,
        apexes: ["-", "+"],
      }),
    );
    expect(wide.gears).toMatchObject([{}, { face: 9, apex: "-" }, { face: 9, apex: "+" }]);
  });

  it("takes friction pairs with diameters, and the pinion inside a ring that is new", () => {
    const drive = edit(
      newDrive(),
      addStage({ shaft: "A", kind: "wheel-pair", diameters: [60, 120], normalForce: 200, friction: 0.3 }),
    );
    expect(drive.gears).toMatchObject([{}, { kind: "wheel", diameter: 60 }, { kind: "wheel", diameter: 120 }]);
    expect(drive.meshes[0]).toMatchObject({ normalForce: 200, friction: 0.3 });
    const ring = edit(newDrive(), addStage({ shaft: "A", kind: "ring-pair", swapped: true, teeth: [60, 20] }));
    expect(ring.gears).toMatchObject([{}, { kind: "internal", teeth: 60 }, { kind: "spur", teeth: 20 }]);
  });

  it("moves an output on to the new shaft, and stays on the carrier of the first", () => {
    const drive = edit(read(mixer()), addStage({ shaft: "C", kind: "spur-pair" }));
    expect(drive.ports[1]).toEqual({ shaft: "D", role: "output", torque: 40 });
    expect(edit(read(press()), addStage({ shaft: "D", kind: "cone-pair" })).shafts.at(-1)).toEqual({
      id: "E",
      name: "",
      frame: "C",
    });
  });

  it.each([
    [{ shaft: "Z", kind: "spur-pair" }, /^There is no shaft Z in this drive any more; choose another\.$/],
    [{ shaft: "A", gear: "z", kind: "spur-pair" }, /^There is no gear on shaft A called z /],
    [{ shaft: "A", kind: "worm" }, /^There is no kind of mesh worm; choose one of spur-pair, /],
    [{ shaft: "A", kind: "spur-pair", teeth: [20, 0] as const }, /^Gear b1: teeth is 0; expected a whole number/],
    [{ shaft: "A", kind: "spur-pair", shaftAngle: 90 }, /takes no shaft angle/],
    [{ shaft: "A", kind: "bevel-pair", shaftAngle: 180 }, /^Mesh m1: shaftAngle is 180/],
  ])("refuses %j", (fields, words) => {
    expect(refusal(newDrive(), addStage(fields))).toMatch(words);
  });

  it("never takes an id twice, past Z too", () => {
    let drive = newDrive();
    for (let i = 0; i < 30; i++)
      drive = edit(drive, addStage({ shaft: drive.shafts.at(-1)?.id ?? "", kind: "spur-pair" }));
    expect(ids(drive.shafts)).toBe("A B C D E F G H I J K L M N O P Q R S T U V W X Y Z AA AB AC AD AE");
    expect(ids(drive.gears).endsWith("z1 z2 aa1 aa2 ab1 ab2 ac1 ac2 ad1 ad2 ae1")).toBe(true);
  });
});

describe("taking away", () => {
  it("takes a shaft with all that hangs on it alone, and gives its output to the one before", () => {
    const drive = edit(read(mixer()), addStage({ shaft: "C", kind: "spur-pair" }));
    const after = edit(drive, removeShaft("C"));
    expect([ids(after.shafts), ids(after.gears), ids(after.meshes)]).toEqual(["A B", "a1 b1 b2", "m1"]);
    expect(after.ports).toEqual([
      { shaft: "A", role: "input", speed: 1450 },
      { shaft: "B", role: "output", torque: 40 },
    ]);
  });

  it("leaves what is reached another way", () => {
    const loop = edit(
      newDrive(),
      addStage({ shaft: "A", gear: "a1", kind: "spur-pair" }),
      addStage({ shaft: "A", gear: "a1", kind: "spur-pair", azimuth: 90 }),
      joinMesh("b1", "c1"),
    );
    expect(ids(edit(loop, removeShaft("B")).shafts)).toBe("A C");
  });

  it("takes coaxial shafts along, and hands what was carried to the carrier's carrier", () => {
    const drive = read(press());
    const after = edit(drive, removeShaft("C"));
    expect(shaft(after, "D")).toEqual({ id: "D", name: "" });
    const two = edit(drive, addShaft({ pose: FIRST_POSE }), removeShaft("A"));
    expect(ids(two.shafts)).toBe("E");
  });

  it("refuses to take the only place to stand", () => {
    expect(refusal(read(mixer()), removeShaft("A"))).toBe(
      "Shaft A holds the place of the whole drive; give another shaft a pose first, or begin a new drive.",
    );
  });

  it("takes a gear with its meshes, a mesh alone, and any part by its kind", () => {
    const drive = read(mixer());
    expect(ids(edit(drive, removeGear("b2")).meshes)).toBe("m1");
    const after = edit(drive, removeMesh("m2"));
    expect([ids(after.shafts), ids(after.meshes)]).toEqual(["A B C", "m1"]);
    expect(edit(drive, removePart({ kind: "gear", id: "b2" }))).toStrictEqual(edit(drive, removeGear("b2")));
    expect(refusal(drive, removePart({ kind: "mesh", id: "q" }))).toBe(
      "There is no mesh q in this drive any more; choose another.",
    );
  });
});

describe("duplicate", () => {
  it("meshes the copy with the same mates, at a free place", () => {
    const planetary = read({
      format: "turnwise.drive",
      version: 1,
      title: "Carousel",
      shafts: [
        { id: "S", pose: FIRST_POSE },
        { id: "R", coaxial: "S" },
        { id: "C", coaxial: "S" },
        { id: "P", frame: "C" },
      ],
      gears: [
        { id: "s", shaft: "S", kind: "spur", teeth: 24, module: 2 },
        { id: "p", shaft: "P", kind: "spur", teeth: 18, module: 2 },
        { id: "r", shaft: "R", kind: "internal", teeth: 60, module: 2 },
      ],
      meshes: [
        { id: "m1", gears: ["s", "p"] },
        { id: "m2", gears: ["p", "r"] },
      ],
    });
    const after = edit(planetary, duplicateStage("P"), duplicateStage("P"));
    expect(after.shafts.slice(4)).toEqual([
      { id: "A", name: "", frame: "C" },
      { id: "B", name: "", frame: "C" },
    ]);
    expect(after.meshes.slice(2).map(({ gears, azimuth }) => [...gears, azimuth])).toEqual([
      ["s", "a1", 120],
      ["a1", "r", 120],
      ["s", "b1", 240],
      ["b1", "r", 240],
    ]);
  });

  it("puts the copy of a root shaft beside it, without its port", () => {
    const after = edit(newDrive(), duplicateStage("A"));
    expect(after.shafts[1]).toMatchObject({ id: "B", name: "Motor", pose: { origin: [0, -60, 0] } });
    expect(after.gears[1]).toMatchObject({ id: "b1", shaft: "B", teeth: 20 });
    expect(after.ports).toHaveLength(1);
  });
});

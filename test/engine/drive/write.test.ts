import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newDrive } from "../../../src/engine/drive/defaults";
import { parseDrive, readDrive } from "../../../src/engine/drive/parse";
import { writeDrive } from "../../../src/engine/drive/write";
import { driveFiles, mixer, press } from "./files";

const parsed = (text: string) => {
  const { drive, faults } = parseDrive(text);
  if (!drive) throw new Error(faults.map(({ pointer, message }) => `${pointer}: ${message}`).join("\n"));
  return drive;
};

describe("the canonical writer", () => {
  it("writes one part a line, in the format's order of keys, without defaults", () => {
    const drive = parsed(JSON.stringify(mixer()));
    expect(writeDrive(drive)).toBe(`{
  "format": "turnwise.drive",
  "version": 1,
  "title": "Right-angle mixer",
  "shafts": [
    { "id": "A", "name": "Motor", "pose": { "origin": [0, 0, 0], "axis": [1, 0, 0], "ref": [0, 0, 1] } },
    { "id": "B", "name": "Cross shaft" },
    { "id": "C", "name": "Mixer" }
  ],
  "gears": [
    { "id": "a1", "shaft": "A", "kind": "spur", "teeth": 20, "module": 2, "face": 20 },
    { "id": "b1", "shaft": "B", "kind": "spur", "teeth": 50, "module": 2, "face": 20 },
    { "id": "b2", "shaft": "B", "at": 60, "kind": "bevel", "teeth": 16, "module": 3, "face": 14 },
    { "id": "c1", "shaft": "C", "kind": "bevel", "teeth": 32, "module": 3, "face": 14, "apex": "-" }
  ],
  "meshes": [
    { "id": "m1", "gears": ["a1", "b1"] },
    { "id": "m2", "gears": ["b2", "c1"], "shaftAngle": 90, "efficiency": 0.97 }
  ],
  "ports": [
    { "shaft": "A", "role": "input", "speed": 1450 },
    { "shaft": "C", "role": "output", "torque": 40 }
  ]
}
`);
  });

  it("gives the same drive and the same bytes back, for 1,000 random drives", () => {
    fc.assert(
      fc.property(driveFiles, (file) => {
        const drive = parsed(JSON.stringify(file));
        const text = writeDrive(drive);
        const again = parsed(text);
        expect(again).toStrictEqual(drive);
        expect(writeDrive(again)).toBe(text);
      }),
      { numRuns: 1000 },
    );
  });

  it("reads a value and its text alike", () => {
    fc.assert(
      fc.property(driveFiles, (file) => {
        const value: unknown = JSON.parse(JSON.stringify(file));
        expect(readDrive(value)).toStrictEqual(parseDrive(JSON.stringify(file)));
      }),
    );
  });

  it("keeps x- keys at every level, after the known ones and in their own order", () => {
    const file = { "x-b": [1, { "x-y": null }], ...mixer(), "x-a": { deep: [[]] } };
    file.shafts[0]["x-colour"] = "blue";
    file.shafts[0].pose["x-why"] = -0;
    file.gears[0]["x-made"] = { __proto__: null, part: 12 };
    const text = writeDrive(parsed(JSON.stringify(file).replace('"x-why":0', '"x-why":-0')));
    expect(text.endsWith('  ],\n  "x-b": [1, { "x-y": null }],\n  "x-a": { "deep": [[]] }\n}\n')).toBe(true);
    expect(text).toContain('"ref": [0, 0, 1], "x-why": -0 }, "x-colour": "blue" },');
    expect(text).toContain('"face": 20, "x-made": { "part": 12 } },');
  });

  it("keeps the digits of a speed and a diameter that no double holds", () => {
    const text = writeDrive(parsed(JSON.stringify(press())))
      .replace('"speed": 90', '"speed": -1450.00000000000000000001')
      .replace('"diameter": 60', '"diameter": 60.1234567890123456789');
    const drive = parsed(text);
    expect(drive.ports[0]).toMatchObject({ speed: -1450, speedDigits: "-1450.00000000000000000001" });
    expect(drive.gears[0]).toMatchObject({ diameterDigits: "60.1234567890123456789" });
    expect(writeDrive(drive)).toBe(text);
  });

  it("keeps no digits where the double says the same", () => {
    const text = JSON.stringify(press()).replace('"speed":90', '"speed":0.10000000000000000000000');
    expect(parsed(text).ports[0]).toStrictEqual({ shaft: "A", role: "input", speed: 0.1 });
    const tiny = parsed(JSON.stringify(press()).replace('"speed":90', '"speed":1e-390'));
    expect(tiny.ports[0]).toStrictEqual({ shaft: "A", role: "input", speed: 0, speedDigits: "1e-390" });
  });

  it("finds digits behind an escaped key, and takes the last of two", () => {
    const text = JSON.stringify(press()).replace(
      '"speed":90',
      '"spee\\u0064":1.00000000000000000001,"speed":2.00000000000000000001',
    );
    expect(parsed(text).ports[0]).toMatchObject({ speed: 2, speedDigits: "2.00000000000000000001" });
    const last = JSON.stringify(press()).replace('"speed":90', '"speed":1.00000000000000000001,"speed":2');
    expect(parsed(last).ports[0]).toStrictEqual({ shaft: "A", role: "input", speed: 2 });
  });

  it("shows no -0", () => {
    const text = JSON.stringify(mixer()).replace('"speed":1450', '"speed":-0');
    expect(Object.is(parsed(text).ports[0]?.speed, 0)).toBe(true);
  });

  it("writes what New gives as a drive that reads back", () => {
    expect(parsed(writeDrive(newDrive()))).toStrictEqual(newDrive());
  });
});

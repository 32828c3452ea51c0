/** Notes pinned to a drive: edits, what goes with its part, what is left alone. */
import { describe, expect, it } from "vitest";
import { type Edit, isRefused } from "../../../src/engine/drive/commands/edit";
import { addNote, changeNote, LONGEST_NOTE, MOST_NOTES, removeNote } from "../../../src/engine/drive/commands/notes";
import { removeGear, removeMesh, removeShaft } from "../../../src/engine/drive/commands/remove";
import { notesOf } from "../../../src/engine/drive/notes";
import { parseDrive, readDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { mixer } from "./files";

const driveWith = (notes?: unknown): Drive => {
  const { drive, faults } = readDrive(notes === undefined ? mixer() : { ...mixer(), "x-notes": notes });
  if (!drive) throw new Error(JSON.stringify(faults));
  return drive;
};
function made(drive: Drive, ...edits: readonly Edit[]): Drive {
  return edits.reduce((before, edit) => {
    const after = edit(before);
    if (isRefused(after)) throw new Error(after.refused);
    return after;
  }, drive);
}
const refusal = (drive: Drive, edit: Edit): string => {
  const result = edit(drive);
  return isRefused(result) ? result.refused : "";
};
const texts = (drive: Drive): string[] => notesOf(drive).map(({ text }) => text);

describe("adding, changing, removing", () => {
  it("writes the form that the README tells, and reads it back from the file", () => {
    const drive = made(
      driveWith(),
      addNote("Oil here", { part: "gear", id: "b1" }),
      addNote("Runs hot", { part: "mesh", id: "m2" }),
      addNote("Blue paint", { part: "shaft", id: "A" }),
      addNote("The wall", { part: "point", point: [0, -20, 100] }),
    );
    const file = JSON.parse(writeDrive(drive)) as Record<string, unknown>;
    expect(file["x-notes"]).toEqual([
      { text: "Oil here", at: { gear: "b1" } },
      { text: "Runs hot", at: { mesh: "m2" } },
      { text: "Blue paint", at: { shaft: "A" } },
      { text: "The wall", at: { point: [0, -20, 100] } },
    ]);
    const { drive: again } = parseDrive(writeDrive(drive));
    expect(again && notesOf(again)).toEqual(notesOf(drive));
    expect(notesOf(drive).map(({ number }) => number)).toEqual([1, 2, 3, 4]);
  });

  it("changes words and place, keeps what else an entry holds, and takes the key away with the last note", () => {
    const before = driveWith([{ text: "Oil", at: { gear: "b1" }, colour: "red" }]);
    const after = made(before, changeNote(0, { text: "Grease", at: { part: "shaft", id: "B" } }));
    expect(after["x-notes"]).toEqual([{ text: "Grease", at: { shaft: "B" }, colour: "red" }]);
    const none = made(after, removeNote(0));
    expect("x-notes" in none).toBe(false);
    expect(writeDrive(none)).toBe(writeDrive(driveWith()));
  });

  it("says why not", () => {
    const drive = driveWith();
    expect(refusal(drive, addNote(" \n", { part: "gear", id: "b1" }))).toMatch(/needs words/);
    expect(refusal(drive, addNote("x".repeat(LONGEST_NOTE + 1), { part: "gear", id: "b1" }))).toMatch(/1,001/);
    expect(refusal(drive, addNote("Oil", { part: "gear", id: "z9" }))).toMatch(/no gear z9/);
    expect(refusal(drive, addNote("Oil", { part: "point", point: [0, Number.NaN, 0] }))).toMatch(/three numbers/);
    expect(refusal(drive, changeNote(0, { text: "Oil" }))).toMatch(/not in the drive any more/);
    expect(refusal(drive, removeNote(3))).toMatch(/not in the drive any more/);
    const full = driveWith(Array.from({ length: MOST_NOTES }, () => ({ text: "Oil", at: { gear: "b1" } })));
    expect(refusal(full, addNote("One more", { part: "gear", id: "b1" }))).toMatch(/200 notes at most/);
  });
});

describe("a note goes with its part", () => {
  const drive = made(
    driveWith(),
    addNote("gear", { part: "gear", id: "b2" }),
    addNote("mesh", { part: "mesh", id: "m2" }),
    addNote("shaft", { part: "shaft", id: "C" }),
    addNote("point", { part: "point", point: [1, 2, 3] }),
    addNote("stays", { part: "gear", id: "a1" }),
  );
  it("with a mesh", () => expect(texts(made(drive, removeMesh("m2")))).toEqual(["gear", "shaft", "point", "stays"]));
  it("with a gear and its meshes", () =>
    expect(texts(made(drive, removeGear("b2")))).toEqual(["shaft", "point", "stays"]));
  it("with a shaft and all that hangs on it", () =>
    expect(texts(made(drive, removeShaft("C")))).toEqual(["gear", "point", "stays"]));
  it("but not one that had lost its part before", () => {
    const odd = driveWith([{ text: "of a part elsewhere", at: { gear: "z9" } }]);
    expect(texts(made(odd, removeMesh("m2")))).toEqual(["of a part elsewhere"]);
  });
});

describe("notes of another form", () => {
  const foreign: readonly unknown[] = [
    "a bare sentence",
    { text: 3, at: { gear: "b1" } },
    { text: "no place" },
    { text: "two places", at: { gear: "b1", shaft: "A" } },
    { text: "a flat point", at: { point: [1, 2] } },
    { text: "an inherited place", at: { toString: "x" } },
    null,
  ];
  it("are not read, and stay where they are, byte for byte, whatever is done to the rest", () => {
    const drive = driveWith(foreign);
    expect(notesOf(drive)).toEqual([]);
    const after = made(drive, addNote("ours", { part: "gear", id: "b1" }));
    expect(notesOf(after)).toMatchObject([{ entry: foreign.length, number: 1, text: "ours" }]);
    expect(made(after, removeGear("b1"))["x-notes"]).toEqual(foreign);
    expect(writeDrive(made(after, removeNote(foreign.length)))).toBe(writeDrive(drive));
  });
  it.each([{ kind: "notebook" }, "text", 7, null, false])(
    "no list at all (%j): none read, none added, nothing lost",
    (held) => {
      const drive = driveWith(held);
      expect(notesOf(drive)).toEqual([]);
      expect(refusal(drive, addNote("Oil", { part: "gear", id: "b1" }))).toMatch(/something else than a list of notes/);
      expect(made(drive, removeGear("b1"))["x-notes"]).toEqual(held);
    },
  );
});

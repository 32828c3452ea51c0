/** All saved drives in one file and back: letter by letter, whatever their names and digits are; and what is no such file. */
import { describe, expect, it } from "vitest";
import { newDrive } from "../../src/engine/drive/defaults";
import { parseDrive } from "../../src/engine/drive/parse";
import { writeDrive } from "../../src/engine/drive/write";
import { drivesFileName, type ReadDrives, readDrives, writeDrives } from "../../src/exchange/saved-file";
import { differential, picker, planetary, randomTree } from "../support/random-drives";

const EXACT = `{"format":"turnwise.drive","version":1,"title":"Exact","shafts":[{"id":"A","pose":{"origin":[0,0,0],"axis":[1,0,0],"ref":[0,0,1]}}],
  "gears":[{"id":"a","shaft":"A","kind":"wheel","diameter":33.333333333333333333333}],"x-drives":[{"drive":{"drives":[1]}}]}`;

const items = [
  ...[1, 2, 3, 4].map((seed) => ({ name: `Tree ${seed}`, text: writeDrive(randomTree(seed, 5, 3)) })),
  { name: 'A "name" \\ with } ] marks', text: writeDrive(planetary(12, 18, 48, 3)) },
  { name: "Ärmel 😀 ”", text: writeDrive({ ...differential(30, 20), notes: 'Two\nlines, "drives": [{' }) },
  { name: "Exact", text: writeDrive(parseDrive(EXACT).drive ?? newDrive()) },
];

const told = async (text: string): Promise<ReadDrives> => {
  const result = await readDrives(text, "file");
  if (typeof result === "string") throw new Error(result);
  return result;
};

describe("the file of all drives", () => {
  it("is JSON that any program can read, and gives every drive back byte for byte", async () => {
    const text = writeDrives(items);
    const plain = JSON.parse(text) as { format: string; drives: { name: string; drive: { format: string } }[] };
    expect(plain.format).toBe("turnwise.drives");
    expect(plain.drives.map(({ name, drive }) => [name, drive.format])).toEqual(
      items.map(({ name }) => [name, "turnwise.drive"]),
    );
    const { drives, left } = await told(text);
    expect(left).toEqual([]);
    expect(drives.map(({ name, drive }) => ({ name, text: writeDrive(drive) }))).toEqual(items);
  });

  it("of none is one as well", async () => {
    expect(await told(writeDrives([]))).toEqual({ drives: [], left: [] });
  });

  it("with a drive that is none: that one is left out, with its name and what is wrong", async () => {
    const text = writeDrives(items).replace('"teeth": ', '"teeth": 0.5e-1, "was": ');
    const { drives, left } = await told(text);
    expect(drives).toHaveLength(items.length - 1);
    expect(left).toEqual([{ name: "Tree 1", why: expect.stringMatching(/^Gear g1a: /) }]);
  });

  it("a file of one drive is taken as well, by its title", async () => {
    const { drives } = await told(EXACT);
    expect(drives.map(({ name }) => name)).toEqual(["Exact"]);
  });

  it.each([
    ["", /empty/],
    ["{", /not JSON/],
    ["[]", /The file holds an empty list/],
    ['{"format":"turnwise.drives","version":1,"drives":[', /breaks off/],
    ['{"format":"turnwise.drives","version":2,"drives":[]}', /newer Turnwise/],
    ['{"format":"turnwise.drives","version":1}', /no list of drives/],
  ])("%s: one sentence", async (text, sentence) => {
    const result = await readDrives(text, "file");
    expect(result).toMatch(sentence);
    expect(String(result).trim()).toMatch(/[.]$/);
  });

  it("damaged anywhere: a sentence, or drives that the parser passes; never an exception (seed 3)", async () => {
    const text = writeDrives(items.slice(3, 6));
    const pick = picker(3);
    for (let i = 0; i < 500; i++) {
      const at = pick.whole(0, text.length - 1);
      const put = pick.of(["", "0", '"', "{", "}", "]", ",", "null", "\ud800", '"drive":{}']);
      const result = await readDrives(text.slice(0, at) + put + text.slice(at + pick.whole(0, 4)), "file");
      if (typeof result === "string") continue;
      for (const { drive } of result.drives) expect(parseDrive(writeDrive(drive)).faults).toBeUndefined();
    }
  });

  it("is called after the day", () => {
    expect(drivesFileName(new Date("2026-11-25T10:00:00Z"))).toBe("turnwise-2026-11-25.drives.json");
  });
});

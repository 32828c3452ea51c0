/** Opening what is a drive and what is not: nothing is ever lost, and the reader is told in one sentence. */
import { beforeEach, describe, expect, it } from "vitest";
import { newDrive } from "../../src/engine/drive/defaults";
import { writeDrive } from "../../src/engine/drive/write";
import { fileName, shownName } from "../../src/exchange/file-name";
import { noticeStore, notify, refuse } from "../../src/exchange/notices";
import { onDrivesFile, openFile, openText } from "../../src/exchange/open";
import { writeDrives } from "../../src/exchange/saved-file";
import { documentStore, openDrive, undo } from "../../src/store/document";

const before = { ...newDrive(), title: "Kite winch" };
const file = (parts: BlobPart[], name: string, type = ""): File => new File(parts, name, { type });
const title = (): string => documentStore.getState().drive.title;

beforeEach(() => {
  openDrive(before);
  notify(null);
  refuse(null);
});

describe("opening a drive", () => {
  it("puts it in the place of the one before, which undo brings back", async () => {
    expect(await openFile(file([writeDrive({ ...before, title: "Mill" })], "mill.drive.json"))).toBe(true);
    expect(title()).toBe("Mill");
    undo();
    expect(title()).toBe("Kite winch");
  });

  it("tells the views to fit anew", async () => {
    const { opened } = documentStore.getState();
    await openText(writeDrive(before), "again");
    expect(documentStore.getState().opened).toBe(opened + 1);
  });
});

describe("a file of several drives", () => {
  const several = file([writeDrives([{ name: "Mill", text: writeDrive(before) }])], "all.drives.json");

  it("goes to who takes these, and the bench stays as it is", async () => {
    const taken: File[] = [];
    onDrivesFile((one) => taken.push(one));
    expect(await openFile(several)).toBe(false);
    expect(taken).toEqual([several]);
    expect(title()).toBe("Kite winch");
    expect(noticeStore.getState().notice).toBeNull();
  });
});

describe("opening what is no drive", () => {
  const PNG = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]);

  it.each([
    ["a photo", file([PNG], "holiday.png", "image/png"), /^holiday\.png is a picture, not a drive/],
    ["a photo without a type", file([PNG], "holiday"), /^holiday is something else, not a drive/],
    ["no text at all", file([""], "empty.json"), /^empty\.json was not opened, and nothing was changed: .*empty/],
    ["no JSON", file(["teeth: 20"], "notes.txt"), /^notes\.txt was not opened.*not JSON/],
    ["a list", file(["[]"], "list.json"), /^list\.json was not opened/],
  ])("%s: one sentence, and all stays as it was", async (_what, given, sentence) => {
    expect(await openFile(given)).toBe(false);
    expect(noticeStore.getState().notice).toMatchObject({ tone: "alert", text: expect.stringMatching(sentence) });
    expect(documentStore.getState().drive).toBe(before);
  });

  it("33 MiB: the size is told before anything is read", async () => {
    const big = file(["{}"], "big.json");
    Object.defineProperty(big, "size", { value: 33 * 1024 * 1024 });
    expect(await openFile(big)).toBe(false);
    expect(noticeStore.getState().notice?.text).toContain("33 MiB");
  });

  it("a drive with faults: all of them, each with its place", async () => {
    const text = writeDrive(before).replace('"teeth": 20', '"teeth": 12.5').replace('"module": 2', '"module": -2');
    expect(await openFile(file([text], "faulty.drive.json"))).toBe(false);
    const { refused } = noticeStore.getState();
    expect(refused?.name).toBe("faulty.drive.json");
    expect(refused?.faults.map(({ pointer }) => pointer)).toEqual(["/gears/0/teeth", "/gears/0/module"]);
    expect(documentStore.getState().drive).toBe(before);
  });

  it("a file that can't be read", async () => {
    const gone = file(["{}"], "gone.json");
    gone.text = () => Promise.reject(new Error("gone"));
    expect(await openFile(gone)).toBe(false);
    expect(noticeStore.getState().notice?.text).toMatch(/^gone\.json could not be read/);
  });
});

describe("names of files", () => {
  it.each([
    ["Right-angle mixer", "right-angle-mixer.drive.json"],
    ["  Été: ½ / 3? ", "ete-1-2-3.drive.json"],
    ["../../etc", "etc.drive.json"],
    ["", "drive.drive.json"],
    ["???", "drive.drive.json"],
  ])("%j is saved as %s", (given, name) => expect(fileName(given)).toBe(name));

  it("stay short in a sentence and can't turn it round", () => {
    expect(shownName(`a\u202Egnp.exe`)).toBe("agnp.exe");
    expect(shownName("x".repeat(500)).length).toBeLessThanOrEqual(60);
  });
});

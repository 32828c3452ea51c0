/** The history as a text: every drive of it comes back byte for byte, it stays small, and a damaged text gives no drive at all. */
import { beforeEach, describe, expect, it } from "vitest";
import { setGear } from "../../src/engine/drive/commands/gear";
import { setPort } from "../../src/engine/drive/commands/port";
import { setNotes, setTitle } from "../../src/engine/drive/commands/shaft";
import { newDrive } from "../../src/engine/drive/defaults";
import { parseDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { writeDrive } from "../../src/engine/drive/write";
import { readHistory, writeHistory } from "../../src/exchange/history-text";
import {
  beginDrag,
  currentHistory,
  documentStore,
  endDrag,
  type History,
  openDrive,
  openHistory,
  perform,
  redo,
  undo,
} from "../../src/store/document";
import { picker, randomTree } from "../support/random-drives";

const texts = ({ past, present, future }: History): readonly (readonly [string, string])[] =>
  [...past, present, ...future].map(({ drive, label }) => [label, writeDrive(drive)] as const);

const roundTrip = (): History => {
  const history = readHistory(writeHistory(currentHistory()));
  if (!history) throw new Error("The history was not read.");
  return history;
};

beforeEach(() => openDrive(newDrive()));

/** 21 shafts, 40 gears. */
const forty = (): Drive => randomTree(3, 21, 8);

const turnTeeth = (edits: number): void => {
  const pick = picker(1);
  for (let i = 0; i < edits; i++) {
    const { gears } = documentStore.getState().drive;
    perform(setGear(pick.of(gears).id, { at: i + 1 }), `place ${i}`);
  }
};

describe("the history as a text", () => {
  it("comes back with every drive, label and place", () => {
    turnTeeth(5);
    perform(setTitle("Mill"), "the title");
    perform(setNotes("Grain\n“fine”"), "the notes");
    openDrive(forty(), { keepHistory: true, label: "opening" });
    turnTeeth(6);
    undo();
    undo();
    const before = currentHistory();
    const after = roundTrip();
    expect(texts(after)).toEqual(texts(before));
    expect([after.past.length, after.future.length]).toEqual([before.past.length, 2]);
    openDrive(newDrive());
    openHistory(after);
    expect(documentStore.getState()).toMatchObject({ label: "place 3", refusal: null });
    redo();
    redo();
    expect(texts(currentHistory())).toEqual(texts(before));
    for (let steps = before.past.length + 2; steps > 0; steps--) undo();
    expect(writeDrive(documentStore.getState().drive)).toBe(writeDrive(newDrive()));
  });

  it("keeps digits beyond those of a double, x- keys, and a minus before nought in them", () => {
    const file = `{"format":"turnwise.drive","version":1,"title":"","shafts":[{"id":"A","pose":{"origin":[0,0,0],"axis":[1,0,0],"ref":[0,0,1],"x-p":[1]}}],
      "gears":[{"id":"a","shaft":"A","kind":"wheel","diameter":33.333333333333333333333,"x-g":{"b":-0,"a":null}}],
      "ports":[{"shaft":"A","role":"input","speed":0.1000000000000000000000000001}],"x-notes":[{"at":"a","text":"look"}]}`;
    const { drive } = parseDrive(file);
    if (!drive) throw new Error("The drive is none.");
    openDrive(drive);
    perform(setTitle("Mill"), "the title");
    perform((one) => ({ ...one, "x-notes": [] }), "a note");
    perform(setPort("A", { role: "held" }), "held");
    const before = currentHistory();
    expect(texts(roundTrip())).toEqual(texts(before));
    expect(texts(roundTrip())[0]?.[1]).toMatch(/33\.333333333333333333333.*"b": -0/);
  });

  it("takes a drag that is under way for one step", () => {
    perform(setTitle("one"), "title");
    beginDrag();
    turnTeeth(3);
    const { past, present, future } = roundTrip();
    expect(past.map(({ drive }) => drive.title)).toEqual(["New drive", "one"]);
    expect(present.drive.gears[0]?.at).toBe(3);
    expect(future).toEqual([]);
    endDrag();
    expect(texts(roundTrip())).toEqual(texts({ past, present, future }));
  });

  it("is nothing where there is nothing to undo", () => {
    expect(writeHistory(currentHistory())).toBe("");
    expect(readHistory("")).toBeNull();
  });

  it("shares what steps have in common, written and read", () => {
    openDrive(forty());
    turnTeeth(250);
    const text = writeHistory(currentHistory());
    const each = texts(currentHistory()).reduce((sum, [, drive]) => sum + drive.length, 0);
    // The 200 gears that were changed, the 100 parts at first, and some 50 letters a step.
    expect(text.length).toBeLessThan(60_000);
    expect(each).toBeGreaterThan(1_000_000);
    const { past, present } = readHistory(text) ?? {};
    expect(past).toHaveLength(200);
    expect(present?.drive.shafts).toBe(past?.[0]?.drive.shafts);
  });

  it("of a very large drive keeps the nearest steps", () => {
    openDrive(randomTree(1, 4000, 50));
    turnTeeth(30);
    const { past, present } = roundTrip();
    expect(past.length).toBeGreaterThan(5);
    expect(past.length).toBeLessThan(30);
    expect(writeDrive(present.drive)).toBe(writeDrive(documentStore.getState().drive));
    expect(past.at(-1)?.label).toBe("place 28");
  });

  it("damaged anywhere: no history, or one of drives that the parser passes; never an exception (seed 11)", () => {
    openDrive(randomTree(5, 4, 2));
    turnTeeth(6);
    undo();
    const text = writeHistory(currentHistory());
    const pick = picker(11);
    let refused = 0;
    for (let i = 0; i < 3000; i++) {
      const at = pick.whole(0, text.length - 1);
      const put = pick.of(["", "0", "9", "-", '"', "{", "]", ",", "e5", "null", "__proto__", "\ud800", "z"]);
      const history = readHistory(text.slice(0, at) + put + text.slice(at + pick.whole(0, 3)));
      if (!history) {
        refused += 1;
        continue;
      }
      for (const [, written] of texts(history)) expect(parseDrive(written).faults).toBeUndefined();
    }
    expect(refused).toBeGreaterThan(1000);
  });
});

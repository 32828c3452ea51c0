/** What a demonstration puts on the bench in the place of the drive: known to the clock, and gone with the drive that it was made of. */
import { beforeEach, expect, it } from "vitest";
import { drivenFrom } from "../../src/engine/demos/either";
import { demoPair } from "../../src/engine/demos/pair";
import { readDrive } from "../../src/engine/drive/parse";
import { solve } from "../../src/engine/solve";
import { clockStore, setRate } from "../../src/store/clock";
import { demoStore, isDemoOnBench, setDemo, solvedOnBench } from "../../src/store/demo";
import { documentStore, openDrive, perform } from "../../src/store/document";
import MIXER from "../support/mixer.drive.json";

const { drive: mixer } = readDrive(MIXER);

const shownFast = () => {
  const pair = demoPair(documentStore.getState().solved, "m2");
  const drive = pair && drivenFrom(pair, 1, 5800);
  if (!drive) throw new Error("not built");
  return { solved: solve(drive), words: "fast" };
};

beforeEach(() => {
  if (!mixer) throw new Error("no drive");
  openDrive(mixer);
  setRate(1);
});

it("is on the bench in the place of the drive, which stays", () => {
  const before = documentStore.getState().solved;
  const shown = shownFast();
  setDemo({ shown });
  expect(solvedOnBench()).toBe(shown.solved);
  expect(documentStore.getState().solved).toBe(before);
  setDemo({ shown: null });
  expect(solvedOnBench()).toBe(before);
});

it("slows the clock down, so that its teeth don't seem to run backwards", () => {
  const before = clockStore.getState().slowdown;
  setDemo({ shown: shownFast() });
  // A quarter pitch a frame at 60 frames a second is 900 pitches a minute; 32 teeth at 5800 rev/min pass 185,600.
  expect(clockStore.getState().slowdown).toBeCloseTo(900 / (32 * 5800), 12);
  expect(clockStore.getState().slowdown).toBeLessThan(before);
  setDemo({ shown: null });
  expect(clockStore.getState().slowdown).toBe(before);
});

it("goes when the drive changes or another is opened, and with another the chosen pair too", () => {
  setDemo({ shown: shownFast(), mesh: "m2" });
  expect(perform((drive) => ({ ...drive, title: "Other" }), "title")).toBe(true);
  expect(isDemoOnBench()).toBe(false);
  expect(demoStore.getState().mesh).toBe("m2");
  setDemo({ shown: shownFast() });
  if (mixer) openDrive(mixer);
  expect(demoStore.getState()).toMatchObject({ shown: null, mesh: null });
});

/**
 * Sequences of random edits through the store, by seed: never an invalid drive (the parser, which knows nothing of commands, is the
 * judge), undo all the way gives the first drive byte for byte and redo the last, and so does the history written and read.
 */
import { describe, expect, it } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { writeDrive } from "../../src/engine/drive/write";
import { readHistory, writeHistory } from "../../src/exchange/history-text";
import {
  beginDrag,
  cancelDrag,
  currentHistory,
  documentStore,
  endDrag,
  openDrive,
  openHistory,
  perform,
  redo,
  undo,
} from "../../src/store/document";
import { chain, differential, picker, planetary, randomTree } from "../support/random-drives";
import { randomEdit } from "../support/random-edits";

const SEQUENCES = process.env.SOAK ? 10_000 : 40;
/** Tests of one file follow one another: each has its share of the seeds, so that a failure names few. */
const SHARES = 10;
const EDITS = 50;

const firstDrive = (seed: number): Drive => {
  const pick = picker(seed);
  const teeth = pick.whole(12, 20);
  const made = pick.of([
    () => chain(pick.whole(1, 3), seed),
    () => randomTree(seed, pick.whole(2, 6), 3, { pairs: ["spur", "internal", "bevel", "wheel", "cone"] }),
    () => planetary(2 * teeth, teeth, 4 * teeth, pick.whole(1, 4)),
    () => differential(30, 20, 2),
  ])();
  // As a file would give it: what is undone to is what was opened.
  const { drive } = parseDrive(writeDrive(made));
  if (!drive) throw new Error(`The first drive of seed ${seed} is none.`);
  return drive;
};

const now = (): Drive => documentStore.getState().drive;
const text = (): string => writeDrive(now());

interface Told {
  readonly went: number;
  readonly refused: number;
}

/** Runs one sequence; throws with the seed and the edits so far where something is not as it must be. */
const play = (seed: number): Told => {
  const pick = picker(seed + 1_000_000);
  openDrive(firstDrive(seed));
  const first = text();
  const told: string[] = [];
  let [went, refused] = [0, 0];
  const fail = (what: string): never => {
    throw new Error(`Seed ${seed}, ${what} after:\n${told.join("\n")}`);
  };
  const edit = (): void => {
    const { words, edit } = randomEdit(pick, now());
    const before = now();
    const done = perform(edit, words);
    told.push(`${done ? "" : "refused: "}${words}`);
    if (!done) {
      refused += 1;
      if (now() !== before || !/^[A-Z"“].*[.]$/su.test(documentStore.getState().refusal ?? "")) fail("a poor refusal");
      return;
    }
    went += 1;
    if (now() === before) return;
    const written = text();
    const { drive, faults } = parseDrive(written);
    if (faults) fail(`not a drive (${faults[0]?.pointer} ${faults[0]?.message})`);
    else if (writeDrive(drive) !== written) fail("a drive that is read as another");
  };
  for (let i = 0; i < EDITS; i++) {
    const hand = pick.random();
    if (hand < 0.05) {
      beginDrag();
      for (let moves = pick.whole(0, 3); moves > 0; moves--) edit();
      if (pick.random() < 0.3) {
        told.push("cancelDrag");
        cancelDrag();
      } else endDrag();
    } else if (hand < 0.1) {
      undo();
      told.push("undo");
      if (pick.random() < 0.5) {
        redo();
        told.push("redo");
      }
    } else edit();
  }
  const last = text();
  const ways = documentStore.temporal.getState();
  const future = ways.futureStates.length;
  const kept = readHistory(writeHistory(currentHistory()));
  const upAndDown = (how: string): void => {
    while (documentStore.temporal.getState().pastStates.length > 0) undo();
    if (text() !== first) fail(`${how}, undo all the way gives another first drive`);
    // What was undone before the end lies beyond the last drive: that many steps are left alone.
    while (documentStore.temporal.getState().futureStates.length > future) redo();
    if (text() !== last) fail(`${how}, redo gives another last drive`);
  };
  upAndDown("as made");
  if (kept) {
    openHistory(kept);
    if (text() !== last) fail("the history read gives another drive");
    upAndDown("written and read");
  } else if (ways.pastStates.length + future > 0) fail("the history is not read");
  return { went, refused };
};

describe(`${SEQUENCES} sequences of ${EDITS} random edits`, () => {
  for (let share = 0; share < SHARES; share++) {
    const [from, to] = [share, share + 1].map((k) => Math.round((SEQUENCES * k) / SHARES)) as [number, number];
    it(`seeds ${from} to ${to - 1}`, { timeout: 3_600_000 }, () => {
      let [went, refused] = [0, 0];
      for (let seed = from; seed < to; seed++) {
        const told = play(seed);
        went += told.went;
        refused += told.refused;
      }
      // Both happen often, or the edits would not be what they are meant to be.
      expect(went).toBeGreaterThan((to - from) * EDITS * 0.4);
      expect(refused).toBeGreaterThan((to - from) * EDITS * 0.05);
    });
  }
});

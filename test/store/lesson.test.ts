/** Walking through a lesson: each step puts drive, question, panels and selection in their place, and leaving keeps the drive. */
import { beforeEach, describe, expect, it } from "vitest";
import { keepStep } from "../../src/engine/drive/commands/lesson-steps";
import { newDrive } from "../../src/engine/drive/defaults";
import { parseLesson } from "../../src/engine/drive/lesson-read";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { clockStore } from "../../src/store/clock";
import { closeStore } from "../../src/store/close-look";
import { demoStore, setDemo } from "../../src/store/demo";
import { documentStore, openDrive, perform, reveal, undo } from "../../src/store/document";
import { keptWords, stepOnScreen } from "../../src/store/lesson-keep";
import { freeHandle, lessonStore } from "../../src/store/lesson-state";
import { answer, backToOwnDrive, goTo, leaveLesson, startLesson, startOwnLesson } from "../../src/store/lesson-step";
import { setView, viewStore } from "../../src/store/view";
import MIXER from "../support/mixer.drive.json";

const mixer = readDrive(MIXER).drive as Drive;
const press = newDrive();
const steps = [
  { text: "One", drive: "mixer", panels: ["question"], hide: [{ shaft: "C", figures: ["direction"] }], turns: false },
  { text: "Two", lit: { gear: "b1" }, panels: ["parts", "workings"], free: "lean", turns: true },
  { text: "Three", panels: ["demonstrations"], demonstration: { kind: "taper", mesh: "m2" } },
  { text: "Four", panels: [], close: "m1", eye: { towards: [0, -1, 0], target: [1, 2, 3], distance: 50 } },
];
const lesson = parseLesson(
  JSON.stringify({
    format: "turnwise.lesson",
    version: 1,
    title: "Walk",
    drives: [{ name: "mixer", drive: MIXER }],
    steps,
  }),
).lesson;

const open = () => documentStore.getState();
const view = () => viewStore.getState();
const at = () => lessonStore.getState().at;

beforeEach(() => {
  leaveLesson();
  openDrive(press);
  setView({ panels: { parts: true, side: false }, aside: "structure", selection: null });
  setDemo({ mesh: null });
});

const start = (): void => {
  if (!lesson) throw new Error("no lesson");
  startLesson(lesson);
};

describe("a lesson with drives of its own", () => {
  it("puts the first step's drive on the bench, hides what it asks, and opens its panel; undo brings the own drive back", () => {
    start();
    expect(open().drive).toEqual(mixer);
    expect(open().solved.veil).toBeDefined();
    expect(view()).toMatchObject({ aside: "question", panels: { parts: false, side: false } });
    expect(clockStore.getState().playing).toBe(false);
    expect(lessonStore.getState().before).toBe(press);
    undo();
    expect(open().drive).toBe(press);
  });

  it("goes on: nothing is hidden any more, a part is lit, one handle is free", () => {
    start();
    goTo(1);
    expect(open().solved.veil).toBeUndefined();
    expect(view()).toMatchObject({
      selection: { kind: "gear", id: "b1" },
      panels: { parts: true, side: true },
      sideTab: "workings",
      aside: null,
    });
    expect(freeHandle(lessonStore.getState())).toBe("lean");
    expect(clockStore.getState().playing).toBe(true);
  });

  it("shows a demonstration and a close look, each put away by the next step", () => {
    start();
    goTo(2);
    expect(view()).toMatchObject({ aside: "demos", selection: { kind: "mesh", id: "m2" } });
    expect(demoStore.getState()).toMatchObject({ kind: "taper", mesh: "m2" });
    goTo(3);
    expect(closeStore.getState().mesh).toBe("m1");
    expect(view().camera.view).toEqual({
      name: "towards",
      towards: [0, -1, 0],
      near: { target: [1, 2, 3], distance: 50 },
    });
    goTo(0);
    expect(closeStore.getState().mesh).toBeNull();
  });

  it("begins a step with the drive as the lesson has it, whatever was changed in the step before; that is one undo step away", () => {
    start();
    goTo(1);
    expect(perform((drive) => ({ ...drive, title: "Spoilt" }), "title")).toBe(true);
    goTo(2);
    expect(open().drive.title).toBe(mixer.title);
    undo();
    expect(open().drive.title).toBe("Spoilt");
  });

  it("goes to no step that is not there", () => {
    start();
    goTo(99);
    goTo(-1);
    expect(at()).toBe(0);
  });

  it("is left with the drive kept, its question gone, and the panels as they were", () => {
    start();
    leaveLesson();
    expect(open().drive).toEqual(mixer);
    expect(open().solved.veil).toBeUndefined();
    expect(open().asked).toBeNull();
    expect(view()).toMatchObject({ aside: "structure", panels: { parts: true, side: false } });
    expect(lessonStore.getState().lesson).toBeNull();
  });

  it("gives the own drive back", () => {
    start();
    backToOwnDrive(press);
    expect(open().drive).toBe(press);
    expect(lessonStore.getState().lesson).toBeNull();
  });

  it("ends where somebody opens another drive, whose own question then stands", () => {
    start();
    openDrive({ ...mixer, "x-question": { hide: [{ shaft: "B", figures: ["direction"] }] } } as Drive);
    expect(lessonStore.getState().lesson).toBeNull();
    const { solved } = open();
    expect([0, 1, 2].map((shaft) => solved.veil?.hides(shaft, "direction"))).toEqual([false, true, false]);
  });

  it("hides in the place of the drive's own question, and what was revealed is hidden by the next step that asks", () => {
    start();
    reveal(true);
    expect(open().solved.veil).toBeUndefined();
    goTo(1);
    goTo(0);
    expect(open().solved.veil).toBeDefined();
  });

  it("remembers answers by step", () => {
    start();
    answer(2);
    goTo(1);
    answer(0);
    expect([...lessonStore.getState().answers]).toEqual([
      [0, 2],
      [1, 0],
    ]);
  });
});

describe("a drive's own lesson", () => {
  const withSteps = (): void => {
    openDrive(mixer);
    setView({
      aside: null,
      panels: { parts: true, side: true },
      sideTab: "workings",
      selection: { kind: "shaft", id: "B" },
    });
    perform(keepStep({ ...stepOnScreen("First."), free: "swing" }), "keeping");
    setView({ aside: "demos", selection: null });
    setDemo({ kind: "speeds", mesh: "m2" });
    perform(keepStep(stepOnScreen("Second.")), "keeping");
  };

  it("keeps what is on screen: panels, what is lit, the demonstration, the eye", () => {
    withSteps();
    expect(open().drive["x-lesson"]).toMatchObject({
      steps: [
        { text: "First.", lit: { shaft: "B" }, panels: ["parts", "workings"], free: "swing" },
        { text: "Second.", panels: ["parts", "demonstrations"], demonstration: { kind: "speeds", mesh: "m2" } },
      ],
    });
  });

  it("keeps what is hidden, while it is hidden", () => {
    openDrive({ ...mixer, "x-question": { hide: [{ shaft: "C", figures: ["ratio"] }] } } as Drive);
    expect(stepOnScreen("").hide).toEqual([{ shaft: "C", figures: ["ratio"] }]);
    expect(keptWords(stepOnScreen(""), open().drive)).toContain("hidden: ratio of Mixer");
    reveal(true);
    expect(stepOnScreen("").hide).toBeUndefined();
  });

  it("is walked through on the very drive, and read anew as it is reworded; its last step's removal ends it", () => {
    withSteps();
    startOwnLesson(1);
    expect([at(), lessonStore.getState().lesson?.steps.length]).toEqual([1, 2]);
    expect(view().aside).toBe("demos");
    goTo(0);
    expect(view()).toMatchObject({ aside: null, selection: { kind: "shaft", id: "B" } });
    undo();
    expect(lessonStore.getState().lesson?.steps.length).toBe(1);
    undo();
    expect(lessonStore.getState().lesson).toBeNull();
  });

  it("is offered when a drive that has one is opened, and not begun", () => {
    withSteps();
    const { drive } = open();
    openDrive(press);
    expect(lessonStore.getState().isOffered).toBe(false);
    openDrive(drive);
    expect(lessonStore.getState()).toMatchObject({ isOffered: true, lesson: null });
  });
});

/** Presenting: keys, panels one by one, ink, black, and a page that is afterwards as it was before. */
import { act, createEvent, fireEvent, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { listenForKeys, setSingleKeys } from "../../src/app/commands/keys";
import { COMMANDS } from "../../src/app/commands/list";
import { presentCommand } from "../../src/app/commands/present-command";
import { PRESENT_KEYS } from "../../src/app/dialogs/key-places";
import { inkPath } from "../../src/app/present/ink-path";
import { PresentSlot } from "../../src/app/present/present-slot";
import { presentStore } from "../../src/app/present/present-store";
import { stopPresenting } from "../../src/app/present/presenting";
import { typeScale } from "../../src/app/present/type-scale";
import { parseLesson } from "../../src/engine/drive/lesson-read";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { setShown, shownStore } from "../../src/panels/workings/shown";
import { clockStore, setPlaying } from "../../src/store/clock";
import { documentStore, openDrive } from "../../src/store/document";
import { leaveLesson, startLesson } from "../../src/store/lesson-step";
import { setView, viewStore } from "../../src/store/view";
import mixer from "../support/mixer.drive.json";

const drive = readDrive(mixer).drive as Drive;
let stop = (): void => undefined;

beforeEach(() => {
  act(() => {
    openDrive(drive);
    setView({ selection: null, adding: null, asking: null, aside: null, theme: "light", announcement: "" });
    setShown({ lines: null });
    setSingleKeys(true);
    setPlaying(true);
  });
  stop = listenForKeys(COMMANDS);
});
afterEach(() => {
  act(() => {
    stop();
    stopPresenting();
  });
  vi.unstubAllGlobals();
});

const present = async () => {
  const user = userEvent.setup();
  render(<PresentSlot />);
  await user.keyboard("p");
  await screen.findByRole("region", { name: "Presentation" });
  return user;
};
const panel = (): string => presentStore.getState().panel;
const root = document.documentElement;

describe("presenting", () => {
  it("starts with the bench alone, says so, and asks for the whole screen; a refusal is no fault", async () => {
    const refused = vi.fn().mockRejectedValue(new TypeError("not allowed"));
    root.requestFullscreen = refused;
    await present();
    expect(refused).toHaveBeenCalledOnce();
    expect(root.dataset.presenting).toBe("bench");
    expect(viewStore.getState().announcement).toMatch(/^Presenting\. Page Down/);
    Reflect.deleteProperty(root, "requestFullscreen");
  });

  it("goes through panels and the lines of the workings with the keys of a clicker, and back", async () => {
    const user = await present();
    await user.keyboard("{PageDown}");
    expect(panel()).toBe("readouts");
    expect(viewStore.getState().announcement).toBe("Readouts, 2 of 4.");
    expect(await screen.findByRole("region", { name: "Readouts, presented" })).toBeInTheDocument();
    await user.keyboard("{ArrowRight}");
    expect(await screen.findByText(/^line 1 of \d+$/)).toBeInTheDocument();
    const { count } = shownStore.getState();
    expect(count).toBeGreaterThan(3);
    for (let line = 2; line <= count; line++) {
      await user.keyboard("{PageDown}");
      expect(panel()).toBe("workings");
      expect(screen.getByText(`line ${line} of ${count}`)).toBeInTheDocument();
    }
    await user.keyboard("{PageDown}");
    expect(panel()).toBe("findings");
    await user.keyboard("{PageDown}");
    expect(panel()).toBe("findings");
    expect(viewStore.getState().announcement).toBe("This is the last panel.");
    await user.keyboard("{PageUp}{ArrowLeft}{ArrowLeft}");
    expect(panel()).toBe("bench");
    await user.keyboard("4");
    expect(panel()).toBe("findings");
  });

  it("goes through the steps of a lesson, whose drives and panels it follows, and then on to the other panels", async () => {
    const step = (text: string, panels: readonly string[]) => ({ text, drive: "idle", panels });
    const { lesson } = parseLesson(
      JSON.stringify({
        format: "turnwise.lesson",
        version: 1,
        title: "Walk",
        drives: [{ name: "idle", drive: { ...mixer, title: "Idle" } }],
        steps: [step("One.", []), step("Two.", ["structure"])],
      }),
    );
    if (!lesson) throw new Error("no lesson");
    act(() => startLesson(lesson));
    const user = await present();
    await user.keyboard("{PageDown}");
    expect(await screen.findByRole("region", { name: "Lesson: Walk" })).toHaveTextContent("One.");
    expect(presentStore.getState().panels).toEqual(["bench", "lesson", "readouts", "workings", "findings"]);
    await user.keyboard("{PageDown}");
    expect(screen.getByRole("region", { name: "Lesson: Walk" })).toHaveTextContent("Two.");
    expect(presentStore.getState()).toMatchObject({ panel: "lesson", aside: "structure" });
    expect(presentStore.getState().panels.at(-1)).toBe("aside");
    await user.keyboard("{PageDown}");
    expect(presentStore.getState().panel).toBe("readouts");
    await user.keyboard("{PageUp}{PageUp}");
    expect(screen.getByRole("region", { name: "Lesson: Walk" })).toHaveTextContent("One.");
    expect(viewStore.getState().presenting).toBe(true);
    act(() => leaveLesson());
    expect(presentStore.getState().panels).not.toContain("lesson");
  });

  it("blacks out and back by either key; a step only brings it back", async () => {
    const user = await present();
    await user.keyboard("b");
    expect(presentStore.getState().isBlack).toBe(true);
    await user.keyboard(".");
    expect(presentStore.getState().isBlack).toBe(false);
    await user.keyboard("b{PageDown}");
    expect(presentStore.getState()).toMatchObject({ isBlack: false, panel: "bench" });
  });

  it("draws ink by pointer and by keys, fades it at the next step, and clears it", async () => {
    const user = await present();
    expect(screen.queryByRole("application")).toBeNull();
    await user.keyboard("i");
    const sheet = screen.getByRole("application", { name: /^Ink/ });
    expect(sheet).toHaveFocus();
    fireEvent.pointerDown(sheet, { pointerId: 1, button: 0, clientX: 10, clientY: 20 });
    fireEvent.pointerMove(sheet, { pointerId: 1, clientX: 30, clientY: 20 });
    fireEvent.pointerMove(sheet, { pointerId: 2, clientX: 500, clientY: 500 });
    fireEvent.pointerUp(sheet, { pointerId: 1, clientX: 30, clientY: 20 });
    expect(presentStore.getState().strokes).toEqual(["M10.0 20.0L30.0 20.0"]);
    await user.keyboard(" {ArrowRight}{ArrowRight} ");
    expect(presentStore.getState().strokes).toHaveLength(2);
    expect(panel()).toBe("bench");
    await user.keyboard("{PageDown}");
    expect(presentStore.getState()).toMatchObject({ strokes: [], panel: "readouts" });
    expect(presentStore.getState().fading).toHaveLength(2);
    await vi.waitFor(() => expect(presentStore.getState().fading).toEqual([]), 3000);
    sheet.focus();
    await user.keyboard(" {ArrowDown} c");
    expect(presentStore.getState().strokes).toEqual([]);
    await user.keyboard("i");
    expect(screen.queryByRole("application")).toBeNull();
  });

  it("offers the question of a drive that asks one, as the last panel", async () => {
    act(() => openDrive({ ...drive, "x-question": { hide: [{ shaft: "C", figures: ["ratio"] }] } }));
    const user = await present();
    await user.click(screen.getByRole("button", { name: "Question" }));
    expect(root.dataset.presenting).toBe("aside");
    expect(viewStore.getState().aside).toBe("question");
    act(() => setView({ aside: null }));
    expect(root.dataset.presenting).toBe("bench");
  });

  it("lets no key change the drive", async () => {
    act(() => setView({ selection: { kind: "gear", id: "a1" } }));
    const user = await present();
    const before = documentStore.getState().drive;
    await user.keyboard("{Delete}{Backspace}nagwselutmqkf{Control>}z{/Control}");
    expect(documentStore.getState().drive).toBe(before);
    expect(viewStore.getState()).toMatchObject({ adding: null, asking: null, aside: null, presenting: true });
  });

  it("keeps letters from who has switched single keys off, but not the clicker", async () => {
    const user = await present();
    setSingleKeys(false);
    await user.keyboard("b{PageDown}");
    expect(presentStore.getState()).toMatchObject({ isBlack: false, panel: "readouts" });
    await user.keyboard("{Escape}");
    expect(viewStore.getState().presenting).toBe(false);
  });

  it("leaves the page just as it was", async () => {
    act(() => {
      setView({ selection: { kind: "gear", id: "a1" }, aside: "structure", sideTab: "findings" });
      setShown({ lines: 2 });
    });
    const seen = () => {
      const { announcement: _, hover: _hover, ...view } = viewStore.getState();
      const { count: _count, ...shown } = shownStore.getState();
      return { view, shown, playing: clockStore.getState().playing, drive: documentStore.getState() };
    };
    const before = seen();
    const user = await present();
    await user.keyboard("d3{PageDown} ");
    act(() => setView({ selection: null }));
    expect(viewStore.getState().theme).toBe("dark");
    expect(clockStore.getState().playing).toBe(false);
    await user.keyboard("{Escape}");
    await vi.waitFor(() => expect(seen()).toEqual(before));
    expect(root.dataset.presenting).toBeUndefined();
    expect(root.style.getPropertyValue("--type-scale")).toBe("");
  });

  it("waits until a stage that is being added is done with", () => {
    act(() => setView({ adding: { shaft: "A" } }));
    expect(presentCommand.guard()).toBe(false);
  });
});

it("the keys are those of the list", async () => {
  const user = await present();
  const keys = [
    ...["PageUp", "PageDown", "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End", "Enter", "Tab"],
    // Those of the commands, which are kept from the drive or go on as ever, are pressed above.
    ..."123456789.bicd",
  ];
  const taken = keys.filter((key) => {
    const press = createEvent.keyDown(document.body, { key });
    act(() => void fireEvent(document.body, press));
    return press.defaultPrevented;
  });
  const told = PRESENT_KEYS.lines.flatMap(({ presses }) => presses).filter((press) => !["P", "Escape"].includes(press));
  expect(taken.map((key) => (key.length === 1 ? key.toUpperCase() : key)).sort()).toEqual([...told].sort());
  await user.keyboard("p");
  expect(viewStore.getState().presenting).toBe(false);
});

it("type is 2.5 times as large at 1024 by 768, more on a finer picture, never smaller than the page's", () => {
  expect([typeScale(1024, 768), typeScale(1440, 900), typeScale(1920, 1080), typeScale(390, 844)]).toEqual([
    2.5, 2.93, 3.52, 1.125,
  ]);
});

it("ink is a dot, a line, or a curve through its points", () => {
  expect(inkPath([])).toBe("");
  expect(inkPath([{ x: 1, y: 2 }])).toBe("M1.0 2.0h0");
  expect(inkPath([0, 10, 20].map((x) => ({ x, y: x * x })))).toBe("M0.0 0.0Q10.0 100.0 15.0 250.0L20.0 400.0");
});

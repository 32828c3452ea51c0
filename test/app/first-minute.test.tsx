/** The first minute: a question whose answer one sees, skipped with one key, never shown twice. */
import { act, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { addStageCommand } from "../../src/app/commands/edit-commands";
import { listenForKeys } from "../../src/app/commands/keys";
import { COMMANDS } from "../../src/app/commands/list";
import { dialogStore } from "../../src/app/dialogs/dialog-store";
import { ANSWER, FirstMinute, QUESTION } from "../../src/app/first-minute/first-minute";
import { claimFirstVisit, FIRST_KEY } from "../../src/app/first-minute/first-visit";
import { openingDrive } from "../../src/app/opening-drive";
import { setTitle } from "../../src/engine/drive/commands/shaft";
import { newDrive } from "../../src/engine/drive/defaults";
import { clockStore, now, setPlaying } from "../../src/store/clock";
import { documentStore, openDrive, perform, undo } from "../../src/store/document";
import { setView, viewStore } from "../../src/store/view";

const angle = (): number | undefined => documentStore.getState().drive.meshes[0]?.shaftAngle;
const steps = (): number => documentStore.temporal.getState().pastStates.length;

/** As on a page whose bench turns: each 250 ms the clock has moved on. */
const pass = (ms: number): void => {
  for (let gone = 0; gone < ms; gone += 50) {
    act(() => {
      if (clockStore.getState().playing) now.time += 0.001;
      vi.advanceTimersByTime(50);
    });
  }
};
const still = (isStill: boolean): void => {
  vi.stubGlobal("matchMedia", (query: string) => ({
    matches: isStill && query.includes("reduced-motion"),
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  }));
};

let stopKeys = (): void => undefined;

beforeEach(() => {
  vi.useFakeTimers();
  still(false);
  localStorage.clear();
  window.history.replaceState(null, "", "/");
  openDrive(openingDrive());
  setPlaying(true);
  setView({ selection: null, adding: null, ghost: null, announcement: "" });
  stopKeys = listenForKeys(COMMANDS);
});
afterEach(() => {
  stopKeys();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const untilAsked = () => {
  const page = render(<FirstMinute />);
  pass(6000);
  return page;
};

describe("the question", () => {
  it("comes after some seconds of motion, which has eased to a stop by then", () => {
    render(<FirstMinute />);
    pass(3500);
    expect(screen.queryByRole("group")).toBeNull();
    expect(clockStore.getState().playing).toBe(true);
    pass(600);
    expect(clockStore.getState().playing).toBe(false);
    const before = now.time;
    pass(400);
    const early = now.time - before;
    pass(400);
    expect(early).toBeGreaterThan(0);
    expect(now.time - before - early).toBeLessThan(early);
    pass(1000);
    expect(screen.getByRole("group", { name: QUESTION })).toBeInTheDocument();
    expect(viewStore.getState().announcement).toContain(QUESTION);
    expect(document.body).toHaveFocus();
  });

  it("waits until the bench moves at all", () => {
    render(<FirstMinute />);
    act(() => vi.advanceTimersByTime(20_000));
    expect(screen.queryByRole("group")).toBeNull();
    pass(6000);
    expect(screen.getByRole("group", { name: QUESTION })).toBeInTheDocument();
  });

  it.each(["Faster", "Slower", "The same"])(
    "answered with %s shows the same: the shaft leans, the ratio stays",
    (answer) => {
      untilAsked();
      const ratio = documentStore.getState().solved.motion.ratios[1];
      const button = screen.getByRole("button", { name: answer });
      button.focus();
      fireEvent.click(button);
      pass(700);
      const between = angle() ?? 0;
      expect(between).toBeLessThan(90);
      expect(between).toBeGreaterThan(60);
      expect(screen.getByText(/^At .*°: 2 turns of the crank give 1 of the shaft\.$/)).toBeInTheDocument();
      pass(2000);
      expect(angle()).toBe(60);
      expect(documentStore.getState().solved.motion.ratios[1]).toEqual(ratio);
      expect(screen.getByText(ANSWER)).toBeInTheDocument();
      expect(screen.queryByText(/wrong|sorry|not quite/i)).toBeNull();
      expect(viewStore.getState()).toMatchObject({ announcement: ANSWER, selection: { kind: "mesh", id: "m1" } });
      expect(clockStore.getState().playing).toBe(true);
      expect(steps()).toBe(1);
      expect(screen.getByRole("group", { name: "What comes of it" })).toHaveFocus();
      act(() => undo());
      expect(angle()).toBe(90);
    },
  );

  it("leans in one step, and asks without motion, where reduced motion is wished for", () => {
    still(true);
    setPlaying(false);
    untilAsked();
    fireEvent.click(screen.getByRole("button", { name: "The same" }));
    expect(angle()).toBe(60);
    expect(steps()).toBe(1);
    expect(screen.getByText(ANSWER)).toBeInTheDocument();
    expect(clockStore.getState().playing).toBe(false);
  });
});

describe("skipping", () => {
  it("by Escape, from anywhere: the drive is as it was and turns again", () => {
    untilAsked();
    fireEvent.keyDown(document.body, { key: "Escape" });
    expect(screen.queryByRole("group")).toBeNull();
    expect(angle()).toBe(90);
    expect(clockStore.getState().playing).toBe(true);
    expect(steps()).toBe(0);
  });

  it("by the button", () => {
    untilAsked();
    fireEvent.click(screen.getByRole("button", { name: "Skip" }));
    expect(screen.queryByRole("group")).toBeNull();
    expect(clockStore.getState().playing).toBe(true);
  });

  it("while it leans puts it where it was going, as one undo step", () => {
    untilAsked();
    fireEvent.click(screen.getByRole("button", { name: "Slower" }));
    pass(500);
    fireEvent.keyDown(document.body, { key: "Escape" });
    expect(screen.queryByRole("group")).toBeNull();
    expect(angle()).toBe(60);
    expect(steps()).toBe(1);
    expect(clockStore.getState().playing).toBe(true);
  });

  it("before the question: Escape, an edit, a stage, another drive", () => {
    const leaves = [
      () => fireEvent.keyDown(document.body, { key: "Escape" }),
      () => act(() => void perform(setTitle("Mine"), "the title")),
      () => act(() => void addStageCommand.perform()),
      () => act(() => openDrive(newDrive())),
    ];
    for (const leave of leaves) {
      localStorage.clear();
      openDrive(openingDrive());
      setView({ adding: null });
      const page = render(<FirstMinute />);
      pass(1000);
      leave();
      pass(8000);
      expect(screen.queryByRole("group")).toBeNull();
      expect(clockStore.getState().playing).toBe(true);
      page.unmount();
    }
  });

  it("once told, leads to the lesson on why", () => {
    untilAsked();
    fireEvent.click(screen.getByRole("button", { name: "The same" }));
    pass(3000);
    fireEvent.click(screen.getByRole("button", { name: "Why? A lesson tells…" }));
    expect(dialogStore.getState().open).toBe("lessons");
    expect(screen.queryByText(ANSWER)).toBeNull();
    act(() => dialogStore.setState({ open: null }));
  });

  it("once told, Escape closes the card and leaves the handle", () => {
    untilAsked();
    fireEvent.click(screen.getByRole("button", { name: "The same" }));
    pass(2500);
    fireEvent.keyDown(document.body, { key: "Escape" });
    expect(screen.queryByRole("group")).toBeNull();
    expect(viewStore.getState().selection).toEqual({ kind: "mesh", id: "m1" });
  });
});

describe("the first visit", () => {
  it("is one only once, also where it was left in its first second", () => {
    const page = render(<FirstMinute />);
    pass(500);
    page.unmount();
    untilAsked();
    expect(screen.queryByRole("group")).toBeNull();
  });

  it("is none with ?first=no in the address, which notes nothing", () => {
    expect(claimFirstVisit(openingDrive(), "?first=no")).toBe(false);
    expect(localStorage.getItem(FIRST_KEY)).toBeNull();
    expect(claimFirstVisit(openingDrive(), "")).toBe(true);
  });

  it("is none with a drive from before", () => {
    expect(claimFirstVisit(newDrive(), "")).toBe(false);
  });

  it("is none where the browser keeps nothing, since it could come again", () => {
    const refuse = vi.spyOn(Storage.prototype, "setItem").mockImplementation(() => {
      throw new DOMException("no", "SecurityError");
    });
    expect(claimFirstVisit(openingDrive(), "")).toBe(false);
    refuse.mockRestore();
  });
});

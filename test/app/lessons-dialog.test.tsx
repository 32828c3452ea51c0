/** The dialog of lessons: what is on screen kept as a step, reworded, moved, removed, walked; a lesson that does not come. */
import { act, render, screen, waitFor, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { showDialog } from "../../src/app/dialogs/dialog-store";
import { LessonsDialog } from "../../src/app/dialogs/lessons-dialog";
import { type Lesson, lessonOf } from "../../src/engine/drive/lesson-read";
import { LESSONS } from "../../src/exchange/lessons";
import { noticeStore } from "../../src/exchange/notices";
import { onLessonFile, openFile } from "../../src/exchange/open";
import { undo } from "../../src/store/document";
import { lessonStore } from "../../src/store/lesson-state";
import { leaveLesson } from "../../src/store/lesson-step";
import { setView } from "../../src/store/view";
import { drive, MIXER, open, violations } from "../panels/support";

beforeEach(() => {
  open(MIXER);
  // jsdom has no dialogs of the browser's own.
  HTMLDialogElement.prototype.showModal = function show() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    this.open = false;
  };
});
afterEach(() => {
  act(() => {
    leaveLesson();
    showDialog(null);
    noticeStore.setState({ notice: null, refused: null });
  });
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const texts = (): readonly string[] => ((lessonOf(drive()) as Lesson | null)?.steps ?? []).map(({ text }) => text);

describe("keeping a step", () => {
  it("says what it keeps, wants one sentence, and is one undo step", async () => {
    const user = userEvent.setup();
    act(() => setView({ selection: { kind: "gear", id: "b1" }, panels: { parts: true, side: false } }));
    const { container } = render(<LessonsDialog />);
    expect(screen.getByText(/^What is on screen now: .*open: parts list; lit: gear b1; /)).toBeInTheDocument();
    await user.click(screen.getByRole("button", { name: "Keep as step 1" }));
    expect(screen.getByRole("alert")).toHaveTextContent("Write what this step says; one sentence will do.");
    expect(screen.getByRole("textbox", { name: "What the step says" })).toHaveFocus();
    await user.keyboard("Why so slow?");
    await user.selectOptions(screen.getByRole("combobox", { name: "May be pulled" }), "lean");
    await user.click(screen.getByRole("button", { name: "Keep as step 1" }));
    expect(drive()["x-lesson"]).toMatchObject({
      steps: [{ text: "Why so slow?", lit: { gear: "b1" }, free: "lean", panels: ["parts"] }],
    });
    expect(await violations(container)).toEqual([]);
    act(() => undo());
    expect(texts()).toEqual([]);
  });
});

describe("the steps of a drive's own lesson", () => {
  beforeEach(() => open({ ...MIXER, "x-lesson": { steps: [{ text: "one" }, { text: "two", lit: { gear: "z9" } }] } }));

  it("are reworded, moved and removed", async () => {
    const user = userEvent.setup();
    render(<LessonsDialog />);
    expect(screen.getByText("Step 2: there is no gear z9 in the drive; name one that is there.")).toBeInTheDocument();
    const first = screen.getByRole("textbox", { name: "What step 1 says" });
    await user.clear(first);
    await user.tab();
    expect(texts()).toEqual(["one", "two"]);
    await user.type(first, "uno");
    await user.tab();
    expect(texts()).toEqual(["uno", "two"]);
    await user.click(screen.getByRole("button", { name: "Move step 2 earlier" }));
    expect(texts()).toEqual(["two", "uno"]);
    await user.click(screen.getByRole("button", { name: "Remove step 1" }));
    expect(texts()).toEqual(["uno"]);
  });

  it("are walked from any of them", async () => {
    const user = userEvent.setup();
    render(<LessonsDialog />);
    await user.click(screen.getByRole("button", { name: "Go to step 2" }));
    await waitFor(() => expect(lessonStore.getState()).toMatchObject({ isOwn: true, at: 1 }));
  });

  it("that can't be read are said to be so, and kept", () => {
    open({ ...MIXER, "x-lesson": 7 });
    render(<LessonsDialog />);
    expect(
      within(screen.getByRole("region", { name: "The lesson of this drive" })).getByRole("alert"),
    ).toHaveTextContent("The drive's own lesson can't be read: it is no object.");
    expect(drive()["x-lesson"]).toBe(7);
  });
});

it("says of a lesson that does not come what to do", async () => {
  const user = userEvent.setup();
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("offline")));
  render(<LessonsDialog />);
  await user.click(screen.getByRole("button", { name: new RegExp(`^${LESSONS[0]?.title}`) }));
  await waitFor(() =>
    expect(noticeStore.getState().notice?.text).toBe(
      `The lesson "${LESSONS[0]?.title}" could not be fetched: try again when you are online.`,
    ),
  );
  expect(drive().title).toBe(MIXER.title);
});

it("a file that says it is a lesson goes to who takes lessons, not to the bench", async () => {
  const take = vi.fn();
  onLessonFile(take);
  const text = '{ "format": "turnwise.lesson", "version": 1 }';
  expect(await openFile(new File([text], "walk.lesson.json"))).toBe(false);
  expect(take).toHaveBeenCalledWith(text, "walk.lesson.json");
});

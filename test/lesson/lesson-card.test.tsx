/** The card of a lesson: read, answered right and wrong, gone through by keyboard and by ear. */
import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { parseLesson } from "../../src/engine/drive/lesson-read";
import { LessonCard } from "../../src/lesson/lesson-card";
import { documentStore, perform } from "../../src/store/document";
import { lessonStore } from "../../src/store/lesson-state";
import { leaveLesson, startLesson } from "../../src/store/lesson-step";
import { viewStore } from "../../src/store/view";
import { MIXER, open, violations } from "../panels/support";

const { lesson } = parseLesson(
  JSON.stringify({
    format: "turnwise.lesson",
    version: 1,
    title: "Walk",
    drives: [{ name: "mixer", drive: MIXER }],
    steps: [
      { title: "Ratio", text: "So {turns of A and C}.\n\nLook.", drive: "mixer", lit: { gear: "b1" } },
      {
        title: "Ask",
        text: "Now.",
        ask: {
          text: "What of {speed of C}?",
          choices: [
            { text: "Faster", because: "It is slower." },
            { text: "Slower", right: true, because: "Five to one." },
          ],
        },
      },
    ],
  }),
);

const said = (): string => viewStore.getState().announcement;

beforeEach(() => {
  open(MIXER);
  if (!lesson) throw new Error("no lesson");
  startLesson(lesson);
});
afterEach(() => act(() => leaveLesson()));

it("says its step with the drive's own figures, and begins at its title", async () => {
  const { container } = render(<LessonCard onBack={null} />);
  const card = screen.getByRole("region", { name: "Lesson: Walk" });
  expect(within(card).getByText("So 5 turns of Motor give 1 of Mixer.")).toBeInTheDocument();
  expect(screen.getByRole("heading", { name: "Ratio" })).toHaveFocus();
  expect(screen.getByRole("button", { name: "Back" })).toBeDisabled();
  expect(await violations(container)).toEqual([]);
});

it("goes on and back by keyboard, and says each step", async () => {
  const user = userEvent.setup();
  render(<LessonCard onBack={null} />);
  screen.getByRole("button", { name: "Next" }).focus();
  await user.keyboard("{Enter}");
  expect(screen.getByRole("heading", { name: "Ask" })).toHaveFocus();
  expect(said()).toBe("Now.");
  await user.selectOptions(screen.getByRole("combobox", { name: "Step of the lesson" }), "0");
  expect(screen.getByRole("heading", { name: "Ratio" })).toHaveFocus();
});

it("answers a wrong choice with its reason and leaves the others open", async () => {
  const user = userEvent.setup();
  render(<LessonCard onBack={null} />);
  await user.click(screen.getByRole("button", { name: "Next" }));
  const ask = screen.getByRole("group", { name: "What of 290 rev/min?" });
  await user.click(within(ask).getByRole("button", { name: "Faster" }));
  expect(said()).toBe("Not so. It is slower.");
  expect(within(ask).getByText("It is slower.", { exact: false })).toBeInTheDocument();
  await user.click(within(ask).getByRole("button", { name: "Slower" }));
  expect(said()).toBe("Right. Five to one.");
  expect(within(ask).queryByText("It is slower.", { exact: false })).toBeNull();
  expect(within(ask).getByRole("button", { name: "Slower" })).toHaveAttribute("aria-pressed", "true");
});

it("says what of a step is gone, and has the step's own drive back", async () => {
  const user = userEvent.setup();
  render(<LessonCard onBack={null} />);
  act(() => {
    perform((drive) => ({ ...drive, gears: drive.gears.filter(({ id }) => id !== "b1"), meshes: [] }), "cutting");
  });
  expect(screen.getByRole("alert")).toHaveTextContent(/there is no gear b1 in the drive\. Start this step anew/);
  await user.click(screen.getByRole("button", { name: "Start this step anew" }));
  expect(screen.queryByRole("alert")).toBeNull();
  expect(documentStore.getState().drive.gears.some(({ id }) => id === "b1")).toBe(true);
});

it("says where undo went back beyond its drive", async () => {
  render(<LessonCard onBack={null} />);
  act(() => {
    perform((drive) => ({ ...drive, title: "Mine" }), "title");
  });
  expect(screen.getByRole("alert")).toHaveTextContent(
    "This step can’t be shown whole: another drive is on the bench. Start this step anew to have its own drive back.",
  );
});

it("ends at its last step, or by leaving; the own drive is offered back", async () => {
  const user = userEvent.setup();
  const back = vi.fn();
  render(<LessonCard onBack={back} />);
  await user.click(screen.getByRole("button", { name: "Next" }));
  await user.click(screen.getByRole("button", { name: "Your own drive" }));
  expect(back).toHaveBeenCalledOnce();
  await user.click(screen.getByRole("button", { name: "Done" }));
  expect(lessonStore.getState().lesson).toBeNull();
  expect(screen.queryByRole("region")).toBeNull();
});

import { act, cleanup, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { useState } from "react";
import { beforeEach, describe, expect, it } from "vitest";
import { setGear } from "../../src/engine/drive/commands/gear";
import { LIMITS } from "../../src/engine/drive/types";
import { LocalNumber } from "../../src/panels/add-stage/local-number";
import { tryEdit } from "../../src/panels/edit";
import { NumberField } from "../../src/panels/fields/number-field";
import { documentStore, redo, undo, useDocument } from "../../src/store/document";
import { drive, MIXER, open, violations } from "./support";

function Teeth() {
  const gear = useDocument((state) => state.drive.gears[0]);
  return (
    <NumberField
      label="Teeth of a1"
      hint="Number of teeth."
      value={gear && "teeth" in gear ? gear.teeth : null}
      whole
      least={1}
      most={LIMITS.teeth}
      spokenUnit="teeth"
      steppers
      onChange={(teeth) => tryEdit(setGear("a1", { teeth }), "teeth of a1")}
    />
  );
}

const teeth = () => {
  const gear = drive().gears[0];
  return gear && "teeth" in gear ? gear.teeth : null;
};
const field = () => screen.getByRole("spinbutton", { name: "Teeth of a1" });
const steps = () => documentStore.temporal.getState().pastStates.length;

beforeEach(() => {
  open(MIXER);
  render(<Teeth />);
});

function Chosen() {
  const [value, setValue] = useState(10);
  return <LocalNumber label="Chosen" value={value} onChange={setValue} />;
}

it("a number that is not the drive's goes back to what it was before a bad text, steps included", async () => {
  render(<Chosen />);
  const user = userEvent.setup();
  const chosen = screen.getByRole("spinbutton", { name: "Chosen" });
  chosen.focus();
  await user.keyboard("{ArrowUp}");
  await user.clear(chosen);
  await user.type(chosen, "2:5");
  await user.tab();
  expect(screen.getAllByRole("alert").at(-1)).toHaveTextContent("Kept 11.");
  expect(chosen).toHaveValue("11");
});

describe("a number field", () => {
  it("changes the drive while one types, and is one undo step", async () => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), "3");
    expect(teeth()).toBe(3);
    await user.type(field(), "5");
    expect(teeth()).toBe(35);
    await user.keyboard("{Enter}");
    expect(steps()).toBe(1);
    undo();
    expect(teeth()).toBe(20);
    redo();
    expect(teeth()).toBe(35);
  });

  it("settles when it is left", async () => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), "28");
    await user.click(document.body);
    expect([teeth(), steps()]).toEqual([28, 1]);
  });

  it("takes all back on Escape", async () => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), "77{Escape}");
    expect([teeth(), steps()]).toEqual([20, 0]);
    expect(field()).toHaveValue("20");
  });

  it.each([
    ["twelve", "is not a number"],
    ["12.5", "Only whole numbers go here: 12 or 13"],
    ["0", "It must be at least 1."],
    ["-4", "It must be at least 1."],
    ["1e400", "too large"],
    ["NaN", "is not a number"],
    ["Infinity", "is not a number"],
    ["1/0", "divided by 0"],
    ["100001", "at most 100\u202f000"],
    ["1,450", "can be read two ways"],
  ])("says why %j is no good and keeps the drive as it is", async (text, why) => {
    const user = userEvent.setup();
    const before = drive();
    field().focus();
    await user.paste(text);
    expect(drive()).toBe(before);
    expect(field()).toBeInvalid();
    expect(field()).toHaveAccessibleDescription(expect.stringContaining(why));
    await user.tab();
    expect(field()).toHaveValue("20");
    expect(screen.getByRole("alert")).toHaveTextContent("Kept 20.");
    expect(steps()).toBe(0);
  });

  it.each(["1/0", "2:5", "10^400", "25abc", "0x10"])(
    "%j, typed: the good beginning of a bad text is taken back",
    async (text) => {
      const user = userEvent.setup();
      const before = drive();
      await user.clear(field());
      await user.type(field(), text);
      await user.keyboard("{Enter}");
      expect(drive()).toBe(before);
      expect(field()).toHaveValue(text);
      await user.tab();
      expect(field()).toHaveValue("20");
      expect(screen.getByRole("alert")).toHaveTextContent("Kept 20.");
      expect([drive(), steps()]).toEqual([before, 0]);
    },
  );

  it.each(["20", "25{Backspace}{Backspace}20"])("there and back again (%s) is nothing to undo", async (text) => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), text);
    await user.tab();
    expect([teeth(), steps()]).toEqual([20, 0]);
  });

  it("says that a half-typed number is not finished, and takes it once it is", async () => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), "40/");
    expect(field()).toHaveAccessibleDescription(expect.stringContaining("not finished"));
    await user.type(field(), "2");
    expect(field()).toBeValid();
    expect(teeth()).toBe(20);
  });

  it("refuses a page of text", async () => {
    const user = userEvent.setup();
    field().focus();
    await user.paste(`The mill\nstands by the river.\n${"12 ".repeat(4000)}`);
    expect(field()).toHaveValue("20");
    expect(screen.getByRole("alert")).toHaveTextContent("a page of text, not a number");
    expect(teeth()).toBe(20);
  });

  it("steps with the arrow keys, a held key being one undo step", async () => {
    const user = userEvent.setup();
    await user.click(field());
    await user.keyboard("{ArrowUp>3/}");
    expect([teeth(), steps()]).toEqual([23, 1]);
    await user.keyboard("{PageDown}");
    expect([teeth(), steps()]).toEqual([13, 2]);
    await user.keyboard("{PageDown}{PageDown}");
    expect(teeth()).toBe(1);
  });

  it("steps with its buttons", async () => {
    const user = userEvent.setup();
    await user.click(screen.getByRole("button", { name: "Teeth of a1: more" }));
    await user.click(screen.getByRole("button", { name: "Teeth of a1: more" }));
    await user.click(screen.getByRole("button", { name: "Teeth of a1: less" }));
    expect([teeth(), steps()]).toEqual([21, 3]);
  });

  it("settles what was typed when it goes away", async () => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), "24");
    cleanup();
    expect([teeth(), steps()]).toEqual([24, 1]);
  });

  it("begins a new undo step after an undo in the middle of typing", async () => {
    const user = userEvent.setup();
    await user.clear(field());
    await user.type(field(), "24");
    act(undo);
    expect(teeth()).toBe(20);
    await user.type(field(), "0");
    await user.type(field(), "0{Enter}");
    expect(steps()).toBe(1);
  });

  it("has nothing that axe objects to, in error too", async () => {
    const user = userEvent.setup();
    expect(await violations(document.body)).toEqual([]);
    await user.clear(field());
    expect(field()).toHaveAttribute("aria-valuetext", "20 teeth");
    expect(await violations(document.body)).toEqual([]);
  });
});

/** Adding a stage in the panel: three gestures by mouse and by keys, one undo step, the ghost, ratios as typed, places that are taken. */
import { act, render, screen, waitFor } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { CommandButton } from "../../src/app/command-button";
import { addStageCommand } from "../../src/app/commands/edit-commands";
import { listenForKeys } from "../../src/app/commands/keys";
import { COMMANDS } from "../../src/app/commands/list";
import { addStage } from "../../src/engine/drive/commands/stage";
import { newDrive } from "../../src/engine/drive/defaults";
import type { Drive } from "../../src/engine/drive/types";
import { AddStage } from "../../src/panels/add-stage/add-stage";
import { documentStore, openDrive, perform, undo } from "../../src/store/document";
import { select, setView, viewStore } from "../../src/store/view";

const drive = (): Drive => documentStore.getState().drive;
const steps = (): number => documentStore.temporal.getState().pastStates.length;
const radio = (name: string | RegExp) => screen.getByRole<HTMLInputElement>("radio", { name });
const live = () => screen.getAllByRole("status").find((element) => element.tagName === "OUTPUT");

const start = () => {
  render(
    <>
      <CommandButton command={addStageCommand} />
      <AddStage />
    </>,
  );
  return userEvent.setup();
};

let stopKeys = (): void => undefined;

beforeEach(() => {
  stopKeys = listenForKeys(COMMANDS);
  openDrive(newDrive());
  setView({ selection: { kind: "shaft", id: "A" }, adding: null, ghost: null, announcement: "" });
});
afterEach(() => stopKeys());

describe("the defaults", () => {
  it("take three gestures: one stage, one undo step, the new shaft selected, told once", async () => {
    const user = start();
    const told: string[] = [];
    const stop = viewStore.subscribe(({ announcement }, before) => {
      if (announcement !== before.announcement) told.push(announcement);
    });
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    expect(drive().shafts).toHaveLength(1);
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().gears).toMatchObject([
      { id: "a1", teeth: 20 },
      { shaft: "B", kind: "spur", teeth: 40, module: 2 },
    ]);
    expect(steps()).toBe(1);
    expect(viewStore.getState()).toMatchObject({ adding: null, ghost: null, selection: { kind: "shaft", id: "B" } });
    expect(told).toEqual(["Shaft B added: 2 turns of Motor give 1 of B."]);
    act(() => undo());
    expect(drive()).toEqual(newDrive());
    stop();
  });

  it("take three gestures by keys: A, Space, Enter", async () => {
    const user = start();
    await user.keyboard("a");
    await waitFor(() => expect(radio("Beside it")).toHaveFocus());
    await user.keyboard(" {Enter}");
    expect(drive().shafts.map(({ id }) => id)).toEqual(["A", "B"]);
    expect(steps()).toBe(1);
  });

  it("build two stages with a bevel pair in six gestures, each from the shaft that came before", async () => {
    const user = start();
    for (const kind of ["Beside it", "At an angle"]) {
      await user.click(screen.getByRole("button", { name: "Add a stage" }));
      await user.click(radio(kind));
      await user.click(screen.getByRole("button", { name: "Put it there" }));
    }
    const { solved } = documentStore.getState();
    expect(solved.motion.status).toBe("determined");
    expect(solved.motion.ratios[2]).toEqual({ n: expect.anything(), d: 4n });
    expect(drive().meshes[1]).toMatchObject({ gears: ["b2", "c1"], shaftAngle: 90 });
    expect(solved.findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(steps()).toBe(2);
  });

  it("move an output that stood at the first shaft on to the new one", async () => {
    const user = start();
    openDrive({ ...newDrive(), ports: [{ shaft: "A", role: "output", torque: 3 }] });
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    await user.keyboard("{Enter}");
    expect(drive().ports).toEqual([{ shaft: "B", role: "output", torque: 3 }]);
  });
});

describe("what would come", () => {
  it("stands on the bench as a ghost while it is chosen, and goes with Escape, all as it was", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    expect(viewStore.getState().ghost).toBeNull();
    await user.click(radio("At an angle"));
    const { ghost } = viewStore.getState();
    expect(ghost?.shafts).toEqual(["B"]);
    expect(ghost?.gears).toEqual(["a2"]);
    expect(ghost?.solved.motion.speed[1]).toBeCloseTo(30, 12);
    await user.click(radio("below"));
    expect(viewStore.getState().ghost?.solved.placement.shafts[1]?.axis[2]).toBeCloseTo(-1, 12);
    await user.keyboard("{Escape}");
    expect(viewStore.getState()).toMatchObject({ adding: null, ghost: null });
    expect(drive()).toEqual(newDrive());
    expect(steps()).toBe(0);
  });

  it("goes with Escape from the field of the ratio too, and the focus goes back", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    await waitFor(() => expect(radio("Beside it")).toHaveFocus());
    await user.type(screen.getByLabelText("or a ratio"), "1/3");
    await user.keyboard("{Escape}");
    expect(viewStore.getState()).toMatchObject({ adding: null, ghost: null });
    expect(screen.getByRole("button", { name: "Add a stage" })).toHaveFocus();
  });

  it("is told in a line: turns, direction with its end, speed", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    expect(live()).toHaveTextContent(
      "2 turns of Motor give 1 of B; B turns counterclockwise seen from the left end, at 30 rev/min.",
    );
  });

  it("goes when its shaft goes", async () => {
    const user = start();
    perform(addStage({ shaft: "A", gear: "a1", kind: "spur-pair" }), "a stage");
    select({ kind: "shaft", id: "B" });
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    act(() => undo());
    expect(viewStore.getState()).toMatchObject({ adding: null, ghost: null });
  });

  it("follows another shaft that is picked meanwhile", async () => {
    const user = start();
    perform(addStage({ shaft: "A", gear: "a1", kind: "spur-pair" }), "a stage");
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    act(() => select({ kind: "shaft", id: "B" }));
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().meshes[1]?.gears).toEqual(["b2", "c1"]);
  });
});

describe("sizes", () => {
  it.each([
    ["1/2", [20, 40], "2 turns of the input give 1 of the output (output speed over input speed)."],
    ["2:1", [20, 40], "2 turns of the input give 1 of the output (turns of the input to turns of the output)."],
    ["0.5", [20, 40], "2 turns of the input give 1 of the output (output speed over input speed)."],
    ["2", [20, 10], "1 turn of the input gives 2 of the output (output speed over input speed)."],
  ] as const)("a ratio typed as %s is read, shown and put in teeth", async (text, teeth, words) => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    await user.type(screen.getByLabelText("or a ratio"), text);
    expect(screen.getByText(words)).toBeInTheDocument();
    await user.keyboard("{Enter}");
    expect(drive().gears.map((gear) => "teeth" in gear && gear.teeth)).toEqual(teeth);
  });

  it("a bad ratio says why and puts nothing there", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    await user.type(screen.getByLabelText("or a ratio"), "half{Enter}");
    expect(screen.getByText(/“half” is not a ratio/)).toBeInTheDocument();
    expect(drive().shafts).toHaveLength(1);
  });

  it("step by buttons, in one undo step together with the stage", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    await user.click(screen.getByRole("button", { name: "Teeth on B: more" }));
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().gears[1]).toMatchObject({ teeth: 41 });
    expect(steps()).toBe(1);
  });

  it("are put back by Escape in their field; the next Escape leaves", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    const field = screen.getByRole("spinbutton", { name: "Teeth on B" });
    await user.clear(field);
    await user.type(field, "57");
    expect(viewStore.getState().ghost?.solved.drive.gears[1]).toMatchObject({ teeth: 57 });
    await user.keyboard("{Escape}");
    expect(field).toHaveValue("40");
    expect(viewStore.getState().ghost?.solved.drive.gears[1]).toMatchObject({ teeth: 40 });
    await user.keyboard("{Escape}");
    expect(viewStore.getState().adding).toBeNull();
    expect(steps()).toBe(0);
  });

  it("the gear that is there can be used or left", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    const gear = screen.getByLabelText("Gear on Motor");
    expect(gear).toHaveDisplayValue("a1, which is there: 20 teeth");
    await user.selectOptions(gear, "a new one");
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().meshes[0]?.gears).toEqual(["a2", "b1"]);
  });
});

describe("the angle", () => {
  it("of 70 also shows its other reading, 110, each with the end that the shaft leans to", async () => {
    const user = start();
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("At an angle"));
    expect(screen.queryByRole("radiogroup")).toBeNull();
    const field = screen.getByRole("spinbutton", { name: "Another angle" });
    await user.clear(field);
    await user.type(field, "70");
    expect(radio("70° the new shaft leans back towards the motor end")).toBeChecked();
    // Back means what it says: the new shaft's axis points to the motor's side, which is -x.
    expect(viewStore.getState().ghost?.solved.placement.shafts[1]?.axis[0]).toBeCloseTo(
      -Math.cos((70 * Math.PI) / 180),
    );
    await user.click(radio("110° the new shaft leans on towards the right end"));
    expect(viewStore.getState().ghost?.solved.placement.shafts[1]?.axis[0]).toBeCloseTo(Math.cos((70 * Math.PI) / 180));
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().meshes[0]?.shaftAngle).toBe(110);
  });
});

describe("a place that is taken", () => {
  it("is grey and says why; the next one is chosen", async () => {
    const user = start();
    openDrive(newDrive());
    perform(addStage({ shaft: "A", gear: "a1", kind: "spur-pair", azimuth: 0 }), "a stage");
    select({ kind: "gear", id: "a1" });
    await user.click(screen.getByRole("button", { name: "Add a stage" }));
    await user.click(radio("Beside it"));
    expect(radio("above")).toBeDisabled();
    expect(radio("above")).toHaveAccessibleDescription("Not above: Gear c1 would stand in b1 (40 teeth, on B).");
    expect(screen.getAllByRole("radio", { checked: true }).map((one) => one.parentElement?.textContent)).toContain(
      "in front",
    );
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().meshes[1]).toMatchObject({ gears: ["a1", "c1"], azimuth: 90 });
  });
});

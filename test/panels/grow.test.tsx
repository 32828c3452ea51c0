/** Growing from the picture: the choices, the mixer by keys (counted), ghosts before anything is put down, places that are taken, one undo step. */
import { act, render, screen, waitFor } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { growCommand } from "../../src/app/commands/edit-commands";
import { newCommand } from "../../src/app/commands/file-commands";
import { listenForKeys } from "../../src/app/commands/keys";
import { COMMANDS } from "../../src/app/commands/list";
import { newDrive } from "../../src/engine/drive/defaults";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { Grow } from "../../src/panels/grow/grow-panel";
import { documentStore, openDrive, undo } from "../../src/store/document";
import { growFrom, growSpots, growStore, setGrow } from "../../src/store/growing";
import { select, setView, viewStore } from "../../src/store/view";
import { MIXER, violations } from "./support";

const drive = (): Drive => documentStore.getState().drive;
const steps = (): number => documentStore.temporal.getState().pastStates.length;
const radio = (name: string | RegExp) => screen.getByRole<HTMLInputElement>("radio", { name });
const mixer = (): Drive => readDrive(MIXER).drive as Drive;

let stopKeys = (): void => undefined;
beforeEach(() => {
  stopKeys = listenForKeys(COMMANDS);
  act(() => {
    openDrive(newDrive());
    setView({ selection: { kind: "gear", id: "a1" }, adding: null, ghost: null, announcement: "" });
  });
});
afterEach(() => stopKeys());

const start = () => {
  render(<Grow />);
  return userEvent.setup();
};
const from = (part: { readonly gear?: string; readonly shaft: string; readonly side?: 1 | -1 }): void =>
  act(() => growFrom(part));

describe("the mixer of the format's example, by keys alone", () => {
  it("takes at most 60 presses from New", async () => {
    const user = start();
    let presses = 0;
    const type = async (keys: readonly string[]): Promise<void> => {
      for (const key of keys) {
        presses++;
        await user.keyboard(key);
      }
    };
    const choices = (name: string) => waitFor(() => expect(radio(name)).toHaveFocus());
    await type(["n", "g"]);
    await choices("Beside it");
    await type([..."50", "{Tab}", ..."20", "{Enter}", "g"]);
    await choices("Beside it");
    await type(["b", ..."16:32", "{Tab}", ..."14", "{Tab}", "3", "{Tab}", ..."60", "{Tab}", ..."0.97", "{Tab}"]);
    await type([..."40", "{Enter}"]);
    await waitFor(() => expect(drive().shafts).toHaveLength(3));
    const wanted = mixer();
    expect(drive().gears).toEqual(wanted.gears);
    expect(drive().meshes).toEqual(wanted.meshes);
    expect(drive().ports[1]).toEqual(wanted.ports[1]);
    // New of what is new already changes nothing.
    expect(steps()).toBe(2);
    expect(presses).toBeLessThan(60);
  });
});

describe("a choice", () => {
  it("shows its ghost and tells direction and ratio before it is put down", async () => {
    const user = start();
    from({ shaft: "A", gear: "a1" });
    await user.type(screen.getByRole("textbox", { name: "Teeth" }), "{Control>}a{/Control}50");
    expect(drive().shafts).toHaveLength(1);
    expect(viewStore.getState().ghost).toMatchObject({ shafts: ["B"] });
    const words = screen.getAllByRole("status").map((one) => one.textContent);
    expect(words.join(" ")).toContain("B turns the other way: 5 turns of Motor give 2 of B.");
    await user.hover(screen.getByText("Inside a ring"));
    expect(viewStore.getState().ghost?.solved.drive.meshes[0]?.gears).toEqual(["a1", "b1"]);
    expect(viewStore.getState().ghost?.solved.drive.gears[1]?.kind).toBe("internal");
    await user.keyboard("{Escape}");
    expect(viewStore.getState()).toMatchObject({ adding: null, ghost: null });
    expect(drive()).toEqual(newDrive());
  });

  it("puts down one undo step, the new shaft selected, told once", async () => {
    const user = start();
    from({ shaft: "A", gear: "a1" });
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(drive().shafts.map(({ id }) => id)).toEqual(["A", "B"]);
    expect(viewStore.getState()).toMatchObject({ adding: null, selection: { kind: "shaft", id: "B" } });
    expect(viewStore.getState().announcement).toMatch(/^Shaft B added\. B turns the other way: /);
    act(() => undo());
    expect(drive()).toEqual(newDrive());
    expect(steps()).toBe(0);
  });

  it("at an angle shows one of both readings at a time, with the arc, and asks which way the new shaft points", async () => {
    const user = start();
    from({ shaft: "A", side: 1 });
    await user.click(radio("At an angle"));
    const angle = screen.getByRole("spinbutton", { name: "Another angle" });
    await user.clear(angle);
    await user.type(angle, "70");
    const axis = () => viewStore.getState().ghost?.solved.placement.shafts[1]?.axis ?? [0, 0, 0];
    expect(viewStore.getState().ghost?.leaning).toBe("m1");
    const sharp = axis();
    await user.click(radio(/^110°/));
    const blunt = axis();
    // Of two lines that cross, the other reading has the new shaft lean to the other end of the first.
    expect(Math.sign(sharp[0])).toBe(-Math.sign(blunt[0]));
    expect(Math.abs(sharp[0])).toBeCloseTo(Math.cos((70 * Math.PI) / 180), 9);
  });

  it("between puts an idler in: the mate turns the other way, the ratio stays", async () => {
    const user = start();
    from({ shaft: "A", gear: "a1" });
    await user.keyboard("{Enter}");
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    const before = documentStore.getState().solved.motion.speed[1] ?? 0;
    from({ shaft: "A", gear: "a1" });
    await user.click(radio("Between"));
    await user.click(screen.getByRole("button", { name: "Put it there" }));
    expect(documentStore.getState().solved.motion.speed[1]).toBeCloseTo(-before, 12);
    expect(drive().meshes.map(({ gears }) => gears)).toEqual([
      ["a1", "c1"],
      ["c1", "b1"],
    ]);
  });
});

describe("a place", () => {
  beforeEach(() => act(() => openDrive(mixer())));

  it("that is taken is passed over, with the part in the way named", async () => {
    start();
    from({ shaft: "A", gear: "a1" });
    // Straight up stands the cross shaft's wheel of 50 teeth.
    act(() => setGrow({ settings: { azimuth: 0 } }));
    expect(
      await screen.findByText(/^Not where it was asked for, but .*: .*would stand in b1 \(50 teeth, on Cross shaft\)/),
    ).toBeVisible();
    expect(viewStore.getState().ghost).not.toBeNull();
  });

  it("swings from one free place to the next with the arrow keys", async () => {
    const user = start();
    from({ shaft: "A", gear: "a1" });
    const dial = screen.getByRole("slider", { name: "Place round Motor" });
    act(() => dial.focus());
    const seen = new Set([dial.getAttribute("aria-valuenow")]);
    for (let k = 0; k < 6; k++) {
      await user.keyboard("{ArrowRight}");
      seen.add(dial.getAttribute("aria-valuenow"));
    }
    expect(seen.size).toBe(7);
    for (const at of seen) expect(Number(at) % 15).toBe(0);
    expect(screen.queryByText(/^Not where/)).toBeNull();
  });

  it("that the pointer is over goes before one that was chosen, as long as it is there", () => {
    start();
    from({ shaft: "A", gear: "a1" });
    const azimuth = () => viewStore.getState().ghost?.solved.drive.meshes.at(-1)?.azimuth;
    act(() => setGrow({ settings: { azimuth: 180 } }));
    expect(azimuth()).toBe(180);
    act(() => setGrow({ pointed: 240 }));
    expect(azimuth()).toBe(240);
    act(() => setGrow({ pointed: null }));
    expect(azimuth()).toBe(180);
  });
});

describe("what stands at an end", () => {
  it("is set there: a motor's speed is typed at once", async () => {
    const user = start();
    await user.keyboard("gg");
    await waitFor(() => expect(radio("Beside it")).toHaveFocus());
    expect(viewStore.getState().adding).toMatchObject({ shaft: "A", grow: { side: 1 } });
    await user.keyboard("p1450{Enter}");
    expect(drive().ports).toEqual([{ shaft: "A", role: "input", speed: 1450 }]);
    expect(viewStore.getState()).toMatchObject({ adding: null, selection: { kind: "gear", id: "a1" } });
  });

  it("stands at neither a port nor beyond an apex", () => {
    openDrive(mixer());
    const { solved } = documentStore.getState();
    const of = (id: string) => growSpots(solved, { kind: "shaft", id }).map(({ side }) => side);
    expect(of("A")).toEqual([1]);
    // The bevel pinion's apex is at the + end, where the mixer's shaft passes.
    expect(of("B")).toEqual([-1]);
    expect(growSpots(solved, { kind: "gear", id: "b2" })[0]).toEqual({ shaft: "B", gear: "b2" });
  });
});

describe("bad input", () => {
  it("is answered with a sentence and puts nothing down", async () => {
    const user = start();
    from({ shaft: "A", gear: "a1" });
    const teeth = screen.getByRole("textbox", { name: "Teeth" });
    for (const text of ["0", "abc", "7.5:20", "1e9", "20:0"]) {
      await user.clear(teeth);
      await user.type(teeth, text);
      expect(teeth).toHaveAttribute("aria-invalid", "true");
      await user.keyboard("{Enter}");
      expect(drive()).toEqual(newDrive());
    }
    await user.clear(teeth);
    await user.type(teeth, "1/3");
    expect(teeth).not.toHaveAttribute("aria-invalid");
    await user.keyboard("{Enter}");
    expect(documentStore.getState().solved.motion.ratios[1]).toEqual({ n: -1n, d: 3n });
  });

  it("closes when its part goes", () => {
    start();
    from({ shaft: "A", gear: "a1" });
    act(() => openDrive({ ...newDrive(), gears: [] }));
    expect(viewStore.getState().adding).toBeNull();
  });
});

it("New selects its gear, and the command begins there", async () => {
  act(() => select(null));
  await act(async () => newCommand.perform());
  expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "a1" });
  act(() => void growCommand.perform());
  expect(viewStore.getState().adding).toMatchObject({ gear: "a1" });
  expect(growStore.getState().settings).toEqual({});
});

it("has names and roles right", async () => {
  const { container } = render(<Grow />);
  from({ shaft: "A", side: 1 });
  act(() => setGrow({ option: "bevel-pair" }));
  expect(await violations(container)).toEqual([]);
});

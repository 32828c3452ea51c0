import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { describe, expect, it } from "vitest";
import { clearance } from "../../src/engine/collisions/clearance";
import { spaceOf } from "../../src/engine/drive/space";
import { writeDrive } from "../../src/engine/drive/write";
import { quantity } from "../../src/engine/wording";
import { SpacePanel } from "../../src/panels/space/space-panel";
import { beginDrag, documentStore, endDrag, perform, undo } from "../../src/store/document";
import { followTrouble, lookForTrouble, troubleStore } from "../../src/store/trouble";
import { viewStore } from "../../src/store/view";
import { planetary } from "../support/random-drives";
import { drive, MIXER, open, violations } from "./support";

const field = (name: string): HTMLElement => screen.getByRole("spinbutton", { name });
const CROWDED = JSON.parse(writeDrive(planetary(20, 20, 60, 8)));

describe("space and clearance", () => {
  it("tells the room that the drive takes, with its unit", () => {
    open(MIXER);
    render(<SpacePanel />);
    const room = within(screen.getByRole("region", { name: "Room that the drive takes" }));
    expect(room.getAllByText(/^[\d.]+ mm$/)).toHaveLength(3);
  });

  it("takes a space side by side, says whether it fits, and one undo takes a side back", async () => {
    open(MIXER);
    render(<SpacePanel />);
    const user = userEvent.setup();
    expect(screen.getByText(/No space is given/)).toBeVisible();
    expect(field("Left side at")).toBeDisabled();
    await user.type(field("Width, left to right"), "900{Enter}");
    expect(spaceOf(drive())).toEqual({ size: [900, null, null], corner: [null, null, null] });
    expect(screen.getByText("Fits.")).toBeVisible();
    await user.type(field("Height, bottom to top"), "2 cm{Enter}");
    expect(spaceOf(drive())?.size).toEqual([900, null, 20]);
    expect(screen.getByText(/The drive sticks out of its space by .* mm at the bottom/)).toBeVisible();
    act(undo);
    expect(spaceOf(drive())?.size).toEqual([900, null, null]);
    await user.type(field("Left side at"), "5000{Enter}");
    expect(screen.getByText(/sticks out of its space by .* mm on the left/)).toBeVisible();
    await user.clear(field("Width, left to right"));
    expect(spaceOf(drive())).toBeNull();
  });

  it("keeps what is no size out of the drive, and says why", async () => {
    open(MIXER);
    render(<SpacePanel />);
    await userEvent.setup().type(field("Depth, near to far"), "-5{Enter}");
    expect(
      screen
        .getAllByRole("alert")
        .map(({ textContent }) => textContent)
        .join(""),
    ).toMatch(/above 0|more than 0/);
    expect(spaceOf(drive())).toBeNull();
  });

  it("tells the clearance of two chosen parts, the selected one first", async () => {
    open(MIXER);
    act(() => viewStore.setState({ selection: { kind: "gear", id: "b2" } }));
    render(<SpacePanel />);
    expect(screen.getByRole("combobox", { name: "From" })).toHaveValue("gear b2");
    const user = userEvent.setup();
    await user.selectOptions(screen.getByRole("combobox", { name: "To" }), "gear c1");
    expect(screen.getByText(/in mesh/)).toBeVisible();
    await user.selectOptions(screen.getByRole("combobox", { name: "To" }), "shaft A");
    const told = clearance(documentStore.getState().solved, { kind: "gear", id: "b2" }, { kind: "shaft", id: "A" });
    expect("gap" in told && told.gap).toBeGreaterThan(0);
    expect(screen.getByText(`${quantity("gap" in told ? told.gap : 0, "mm", 4)} clear`)).toBeVisible();
  });

  it("has nothing that axe objects to", async () => {
    open({ ...MIXER, "x-space": { size: [10, null, null] } });
    render(<SpacePanel />);
    expect(await violations(document.body)).toEqual([]);
  });
});

describe("the marks of parts that something is wrong with", () => {
  it("name what collides and what sticks out, and go with it", () => {
    open({ ...CROWDED, "x-space": { size: [null, 130, null] } });
    act(lookForTrouble);
    const { words, box } = troubleStore.getState();
    expect(words.get("gear p1")).toBe("collides");
    expect(words.get("gear r")).toBe("sticks out");
    expect(words.has("gear s")).toBe(false);
    expect(box?.sides[0]).toBeNull();
    open(MIXER);
    act(lookForTrouble);
    expect(troubleStore.getState()).toEqual({ words: new Map(), box: null });
  });

  it("follow an edit once it has settled, and not while a part is dragged", async () => {
    open(MIXER);
    const stop = followTrouble();
    const collides = (): string | undefined => troubleStore.getState().words.get("gear p1");
    open(CROWDED);
    expect(collides()).toBeUndefined();
    await expect.poll(collides).toBe("collides");
    beginDrag();
    act(() => {
      perform((drive) => ({ ...drive, gears: drive.gears.filter(({ id }) => id === "s"), meshes: [] }), "removing");
    });
    await new Promise((done) => setTimeout(done, 400));
    expect(collides()).toBe("collides");
    act(endDrag);
    await expect.poll(collides).toBeUndefined();
    stop();
  });
});

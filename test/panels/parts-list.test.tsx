import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { describe, expect, it } from "vitest";
import { PartsList } from "../../src/panels/parts-list/parts-list";
import { documentStore, undo } from "../../src/store/document";
import { hover, select, viewStore } from "../../src/store/view";
import { drive, MIXER, open, sample, violations } from "./support";

const number = (name: string) => screen.getByRole("spinbutton", { name });
const port = (shaft: string) => drive().ports.find((port) => port.shaft === shaft);

async function choose(menu: string, item: string) {
  const user = userEvent.setup();
  await user.click(screen.getByRole("button", { name: menu }));
  await user.click(await screen.findByRole("menuitem", { name: item }));
}

function show(file: unknown = MIXER) {
  open(file);
  render(<PartsList />);
}

describe("the parts list", () => {
  it("shows every shaft, gear, mesh and port with its numbers", () => {
    show();
    for (const name of ["A", "B", "C"])
      expect(screen.getByRole("textbox", { name: `Name of shaft ${name}` })).toBeVisible();
    for (const gear of ["a1", "b1", "b2", "c1"]) {
      for (const what of ["Teeth of", "Module of", "Face width of"]) expect(number(`${what} ${gear}`)).toBeVisible();
    }
    expect(number("Shaft angle of mesh m2")).toHaveValue("90");
    expect(number("Efficiency of mesh m2")).toHaveValue("0.97");
    expect(number("Speed of Motor")).toHaveValue("1450");
    expect(number("Load torque at Mixer")).toHaveValue("40");
    expect(screen.getByText("spur gear", { exact: false, selector: "[data-part='gear a1'] h4" })).toBeVisible();
  });

  it("edits a drive in place, and undo restores it", async () => {
    show();
    const user = userEvent.setup();
    const before = drive();
    await user.clear(number("Teeth of b2"));
    await user.type(number("Teeth of b2"), "18{Enter}");
    await user.clear(number("Shaft angle of mesh m2"));
    await user.type(number("Shaft angle of mesh m2"), "70{Enter}");
    expect(drive().gears[2]).toMatchObject({ teeth: 18 });
    expect(drive().meshes[1]).toMatchObject({ shaftAngle: 70 });
    act(undo);
    expect(number("Shaft angle of mesh m2")).toHaveValue("90");
    act(undo);
    expect(drive()).toBe(before);
    expect(number("Teeth of b2")).toHaveValue("16");
  });

  it("renames a shaft, and Escape leaves its name", async () => {
    show();
    const user = userEvent.setup();
    const name = screen.getByRole("textbox", { name: "Name of shaft B" });
    await user.clear(name);
    await user.type(name, "Layshaft{Escape}");
    expect(drive().shafts[1]?.name).toBe("Cross shaft");
    await user.clear(name);
    await user.type(name, "Layshaft{Enter}");
    expect(drive().shafts[1]?.name).toBe("Layshaft");
  });

  it("offers the usual efficiency with its source, and takes it only when asked", async () => {
    show();
    const user = userEvent.setup();
    expect(drive().meshes[0]?.efficiency).toBe(1);
    await user.click(screen.getByRole("button", { name: "Use 0.98, the usual efficiency, at mesh m1" }));
    expect(drive().meshes[0]?.efficiency).toBe(0.98);
    expect(screen.queryByRole("button", { name: /usual efficiency .* at mesh m1/ })).toBeNull();
  });

  it("takes torque or power at a port, never both", async () => {
    show();
    const user = userEvent.setup();
    await user.click(number("Load power at Mixer"));
    await user.keyboard("500{Enter}");
    expect(port("C")).toMatchObject({ power: 500 });
    expect(port("C")?.torque).toBeUndefined();
    await user.clear(number("Load power at Mixer"));
    await user.keyboard("{Enter}");
    expect(port("C")?.power).toBeUndefined();
  });

  it("changes what stands at a shaft, and what drives now", async () => {
    show();
    const user = userEvent.setup();
    await user.selectOptions(screen.getByRole("combobox", { name: "Driven now by" }), "Mixer");
    expect(port("C")?.role).toBe("input");
    expect(port("A")?.role).toBe("output");
    await user.selectOptions(screen.getByRole("combobox", { name: "What stands at Motor" }), "nothing: runs free");
    expect(port("A")).toBeUndefined();
    await user.selectOptions(screen.getByRole("combobox", { name: "What stands at Cross shaft" }), "held still");
    expect(port("B")?.role).toBe("held");
  });

  it("points a shaft round its mate on the clock dial", async () => {
    show();
    const user = userEvent.setup();
    const dial = screen.getByRole("slider", { name: /Where Cross shaft lies round Motor/ });
    expect(dial).toHaveAttribute("aria-valuetext", "above");
    const [, , z = 0] = documentStore.getState().solved.placement.shafts[1]?.origin ?? [];
    expect(z).toBeCloseTo(70, 9);
    dial.focus();
    await user.keyboard("{ArrowRight>3/}");
    // Seen from the right end (+x, looking to the left) three o'clock is the far side, +y.
    expect(dial).toHaveAttribute("aria-valuetext", "behind");
    const [, y = 0] = documentStore.getState().solved.placement.shafts[1]?.origin ?? [];
    expect(y).toBeCloseTo(70, 6);
  });

  it("adds, duplicates, swaps and removes by its menus", async () => {
    show();
    await choose("Commands for mesh m1", "Swap sizes of the two gears");
    expect(drive().gears.slice(0, 2)).toMatchObject([{ teeth: 50 }, { teeth: 20 }]);
    await choose("Commands for shaft Mixer", "Duplicate this stage");
    expect(drive().shafts).toHaveLength(4);
    // Two of one name are told apart by their ids.
    await choose("Commands for shaft Mixer (C)", "Remove this shaft");
    expect(drive().shafts.map(({ id }) => id)).not.toContain("C");
    await choose("Commands for gear b1", "Add a stage from this gear…");
    expect(viewStore.getState().adding).toEqual({ shaft: "B", gear: "b1" });
  });

  it("says why a command can't be carried out", async () => {
    show();
    await choose("Commands for shaft Motor", "Remove this shaft");
    expect(drive().shafts).toHaveLength(3);
    expect(
      screen
        .getAllByRole("alert")
        .map((alert) => alert.textContent)
        .join(""),
    ).toMatch(/\w+/);
  });

  it("lights up with the bench and lights the bench up", async () => {
    show();
    const user = userEvent.setup();
    const row = () => document.querySelector("[data-part='gear b2']");
    act(() => select({ kind: "gear", id: "b2" }));
    expect(row()).toHaveAttribute("data-selected");
    act(() => hover({ kind: "gear", id: "b2" }));
    expect(row()).toHaveAttribute("data-lit");
    await user.click(number("Teeth of a1"));
    expect(viewStore.getState().selection).toEqual({ kind: "gear", id: "a1" });
  });

  it("opens the finer numbers of a gear", async () => {
    show();
    const user = userEvent.setup();
    await user.click(screen.getByRole("button", { name: "More numbers of gear b2" }));
    const row = within(document.querySelector<HTMLElement>("[data-part='gear b2']") as HTMLElement);
    for (const name of ["Pressure angle", "Addendum", "Clearance", "Profile shift", "Bore", "Backlash", "Phase"]) {
      expect(row.getByRole("spinbutton", { name: new RegExp(`^${name}`) })).toBeVisible();
    }
    await user.selectOptions(row.getByRole("combobox", { name: "Which end b2 faces" }), "left end");
    expect(drive().gears[2]?.apex).toBe("-");
  });

  it("shows shafts of a name that runs from right to left, and markup as text", () => {
    const named = structuredClone(MIXER) as unknown as { shafts: { name: string }[] };
    Object.assign(named.shafts[1] ?? {}, { name: "<script>alert(1)</script>" });
    show(named);
    expect(screen.getByRole("textbox", { name: "Name of shaft B" })).toHaveValue("<script>alert(1)</script>");
    expect(document.querySelector("script")).toBeNull();
  });

  it("shows friction pairs with the force that presses them", () => {
    show(sample("juice-press"));
    expect(screen.getByRole("spinbutton", { name: /^Pressing force/ })).toHaveValue("200");
    expect(screen.getByRole("spinbutton", { name: /^Friction coefficient/ })).toHaveValue("0.3");
  });

  it("has nothing that axe objects to", async () => {
    show();
    await userEvent.setup().click(screen.getByRole("button", { name: "More numbers of gear b2" }));
    expect(await violations(document.body)).toEqual([]);
  });

  it("stays small with 10,000 shafts, and reaches each of them", async () => {
    const count = 10_000;
    const shafts = Array.from({ length: count }, (_, i) => ({
      id: `s${i}`,
      name: `Roller ${i}`,
      pose: { origin: [0, 20 * i, 0], axis: [1, 0, 0], ref: [0, 0, 1] },
    }));
    const gears = shafts.map(({ id }, i) => ({ id: `g${i}`, shaft: id, kind: "spur", teeth: 10, module: 2 }));
    show({ format: "turnwise.drive", version: 1, shafts, gears });
    const rows = () => screen.getAllByRole("textbox", { name: /Name of shaft/ });
    expect(rows()).toHaveLength(40);
    const user = userEvent.setup();
    await user.click(screen.getByRole("button", { name: /^Show 40 more of 10,000 shafts/ }));
    expect(rows()).toHaveLength(80);
    act(() => select({ kind: "gear", id: "g9000" }));
    expect(screen.getByRole("textbox", { name: "Name of shaft s9000" })).toBeVisible();
    await user.type(screen.getByRole("searchbox", { name: "Find a shaft" }), "Roller 777");
    expect(screen.getByText("11 found")).toBeVisible();
  });
});

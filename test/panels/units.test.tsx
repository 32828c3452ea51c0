/** The chosen units in the fields, in the readouts and workings, and in the dialog that chooses them. */
import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { UnitsDialog } from "../../src/app/dialogs/units-dialog";
import { setGear } from "../../src/engine/drive/commands/gear";
import { FILE_UNITS } from "../../src/engine/units/choice";
import { tryEdit } from "../../src/panels/edit";
import { NumberField } from "../../src/panels/fields/number-field";
import { fullText, restText, shownStep, steppedIn } from "../../src/panels/fields/number-text";
import { PartsList } from "../../src/panels/parts-list/parts-list";
import { Readouts } from "../../src/panels/readouts/readouts";
import { Workings } from "../../src/panels/workings/workings";
import { documentStore, undo, useDocument } from "../../src/store/document";
import { chooseUnits, systemSign, UNIT_CHOICES, type UnitSettings, unitsStore } from "../../src/store/units";
import { drive, MIXER, open, violations } from "./support";

const METRIC: UnitSettings = {
  length: "mm",
  tooth: "module",
  speed: "rev/min",
  torque: "N·m",
  power: "W",
  force: "N",
  ratio: "output",
  figures: 4,
  decimal: ".",
};
const INCH: Partial<UnitSettings> = { length: "in", tooth: "pitch", torque: "lbf·ft", power: "hp", force: "lbf" };

const number = (name: string) => screen.getByRole("spinbutton", { name });
const port = (shaft: string) => drive().ports.find((port) => port.shaft === shaft);
const moduleOf = (id: string) => {
  const gear = drive().gears.find((gear) => gear.id === id);
  return gear && "module" in gear ? gear.module : null;
};

async function enter(name: string, text: string) {
  const user = userEvent.setup({ delay: null });
  act(() => number(name).focus());
  await user.clear(number(name));
  await user.paste(text);
  await user.keyboard("{Enter}");
}

beforeEach(() => chooseUnits(METRIC));
afterEach(() => act(() => chooseUnits(METRIC)));

describe("a number at rest", () => {
  const inches = { ...FILE_UNITS, length: "in" } as const;
  it.each([
    [40, "mm", FILE_UNITS, "40"],
    [40, "mm", inches, "≈1.575"],
    [12.7, "mm", inches, "0.5"],
    [25.4 / 12, "module", FILE_UNITS, "≈2.117"],
    [25.4 / 12, "module", { ...FILE_UNITS, tooth: "pitch" }, "12"],
    [1.5, "mm", { ...FILE_UNITS, decimalSign: "," }, "1,5"],
    [1450.25, "rev/min", FILE_UNITS, "1450.25"],
    [123456789012, "mm", FILE_UNITS, "≈1.235e11"],
    [1e20, "mm", FILE_UNITS, "1e20"],
    [-1 / 3, "mm", { ...FILE_UNITS, figures: 6 }, "≈-0.333333"],
    [1e-9, "mm", FILE_UNITS, "1e-9"],
  ] as const)("%d in a field of %s", (value, unit, units, text) => {
    expect(restText(value, unit, units)).toBe(text);
    // Never longer than the ten characters that a field grows to.
    expect(text.length).toBeLessThanOrEqual(10);
  });

  it("has all its digits while it is edited, the file's own too", () => {
    expect(fullText(40, "mm", inches)).toBe("1.5748031496062993");
    expect(fullText(Number("1450.12345678901234"), "rev/min", FILE_UNITS, "1450.12345678901234")).toBe(
      "1450.12345678901234",
    );
    expect(restText(Number("1450.12345678901234"), "rev/min", FILE_UNITS, "1450.12345678901234")).toBe("≈1450");
  });

  it("steps by round numbers of the chosen unit", () => {
    expect(shownStep(1, "mm", inches)).toBe(0.05);
    expect(shownStep(10, "rev/min", { ...FILE_UNITS, speed: "rad/s" })).toBe(1);
    expect(shownStep(0.5, "module", { ...FILE_UNITS, tooth: "pitch" })).toBe(1);
    expect(steppedIn(12.7, 1, 1, { unit: "mm" }, inches)).toBe(13.97);
    expect(
      steppedIn(25.4 / 12, 0.5, 1, { unit: "module", least: 0, above: true }, { ...FILE_UNITS, tooth: "pitch" }),
    ).toBe(25.4 / 13);
    expect(steppedIn(25.4, 0.5, -1, { unit: "module", least: 0, above: true }, { ...FILE_UNITS, tooth: "pitch" })).toBe(
      25.4,
    );
  });
});

describe("the parts list in chosen units", () => {
  beforeEach(() => {
    open(MIXER);
    render(<PartsList />);
  });

  it("takes units that are typed, says what they were taken for, and keeps the file's own", async () => {
    const user = userEvent.setup({ delay: null });
    act(() => number("Face width of a1").focus());
    await user.clear(number("Face width of a1"));
    await user.paste("0.5 in");
    expect(number("Face width of a1")).toHaveAccessibleDescription("0.5 in = 12.7 mm");
    await user.keyboard("{Enter}");
    expect(drive().gears.find((gear) => gear.id === "a1")?.face).toBe(12.7);
    expect(number("Face width of a1")).toHaveValue("12.7");
  });

  it("shows inches, diametral pitch and the rest, and leaves the drive as it was", () => {
    const before = drive();
    act(() => chooseUnits(INCH));
    expect(number("Face width of b2")).toHaveValue("≈0.5512");
    expect(number("Face width of b2")).toHaveAttribute("aria-valuetext", "about 0.5512 inches");
    expect(number("Diametral pitch of a1")).toHaveValue("12.7");
    expect(number("Load torque at Mixer")).toHaveValue("≈29.5");
    expect(drive()).toBe(before);
  });

  it("keeps a typed diametral pitch exactly, on the mate too, and one undo takes it back", async () => {
    act(() => chooseUnits(INCH));
    await enter("Diametral pitch of a1", "12");
    expect([moduleOf("a1"), moduleOf("b1")]).toEqual([25.4 / 12, 25.4 / 12]);
    expect(number("Diametral pitch of b1")).toHaveValue("12");
    act(() => chooseUnits(METRIC));
    expect(number("Module of b1")).toHaveValue("≈2.117");
    act(undo);
    expect(moduleOf("a1")).toBe(2);
  });

  it("offers the modules of ISO 54, and takes others", async () => {
    const user = userEvent.setup({ delay: null });
    const list = screen.getByRole("combobox", { name: "Modules of ISO 54 for a1" });
    act(() => list.focus());
    expect(
      within(list)
        .getAllByRole("group")
        .map((group) => group.getAttribute("label")),
    ).toEqual(["ISO 54, series I (first choice)", "ISO 54, series II"]);
    expect(list).toHaveDisplayValue("2 mm");
    await user.selectOptions(list, "2.5 mm");
    expect([moduleOf("a1"), moduleOf("b1")]).toEqual([2.5, 2.5]);
    expect(documentStore.temporal.getState().pastStates).toHaveLength(1);
    await enter("Module of a1", "2.3");
    expect(moduleOf("a1")).toBe(2.3);
    expect(list).toHaveDisplayValue("another size");
  });

  it("offers usual diametral pitches where that unit is chosen", async () => {
    const user = userEvent.setup({ delay: null });
    act(() => chooseUnits(INCH));
    const list = screen.getByRole("combobox", { name: "Usual diametral pitches for b2" });
    act(() => list.focus());
    await user.selectOptions(list, "8 /in");
    expect(moduleOf("b2")).toBe(25.4 / 8);
  });

  it("reads a motor's label and a crank at an input, and tells what they give", async () => {
    await enter("Available power at Motor", "12 V 1.5 A");
    expect(port("A")?.power).toBe(18);
    // 18 W at 1450 rev/min: 18 × 60 / (2π × 1450) = 0.11854 N·m.
    expect(screen.getByText("At most 18 W, 0.1185 N·m at 1450 rev/min.")).toBeVisible();
    await enter("Available power at Motor", "50 N x 150 mm");
    expect(port("A")).toMatchObject({ torque: 7.5 });
    expect(port("A")?.power).toBeUndefined();
    expect(number("Available torque at Motor")).toHaveValue("7.5");
    expect(screen.getByText("At most 7.5 N·m, 1139 W at 1450 rev/min.")).toBeVisible();
  });

  it("keeps digits of a speed that a double doesn't hold", async () => {
    await enter("Speed of Motor", "1450.12345678901234567");
    expect(port("A")?.speedDigits).toBe("1450.12345678901234567");
    act(() => number("Speed of Motor").focus());
    expect(number("Speed of Motor")).toHaveValue("1450.12345678901234567");
    await enter("Speed of Motor", "60");
    expect(port("A")?.speedDigits).toBeUndefined();
  });

  it("reads and shows a decimal comma", async () => {
    act(() => chooseUnits({ decimal: "," }));
    await enter("Module of a1", "1,125");
    expect(moduleOf("a1")).toBe(1.125);
    expect(number("Module of a1")).toHaveValue("1,125");
    expect(number("Efficiency of mesh m2")).toHaveValue("0,97");
    expect(number("Efficiency of mesh m2")).toHaveAttribute("aria-valuetext", "0.97");
  });

  it("has nothing that axe objects to", async () => {
    act(() => chooseUnits(INCH));
    expect(await violations(document.body)).toEqual([]);
  });
});

function Face() {
  const gear = useDocument((state) => state.drive.gears[0]);
  return (
    <NumberField
      label="Face width of a1"
      value={gear?.face ?? null}
      unit="mm"
      least={0}
      above
      width={4}
      onChange={(face) => tryEdit(setGear("a1", { face }), "face of a1")}
    />
  );
}

describe("a field in inches", () => {
  beforeEach(() => {
    open(MIXER);
    render(<Face />);
  });

  it.each([
    ["2:5", "“2:5” is a ratio"],
    ["12 kg", "“kg” is no unit of a length"],
    [`The mill\nstands by the river.\n${"12 ".repeat(4000)}`, "a page of text"],
    ["0", "It must be more than 0 in."],
  ])("refuses %j with a reason and keeps what stood there", async (text, why) => {
    act(() => chooseUnits(INCH));
    const before = drive();
    const user = userEvent.setup({ delay: null });
    act(() => number("Face width of a1").focus());
    await user.clear(number("Face width of a1"));
    await user.paste(text);
    expect(drive()).toBe(before);
    expect(document.body).toHaveTextContent(why);
  });

  it("grows for a long number while it is edited, so that nothing of it is cut off", () => {
    act(() => chooseUnits(INCH));
    const field = number("Face width of a1");
    const room = () => Number(field.style.getPropertyValue("--characters"));
    expect(room()).toBeGreaterThanOrEqual("≈0.7874".length);
    act(() => field.focus());
    expect(room()).toBe((field as HTMLInputElement).value.length);
  });
});

describe("readouts and workings", () => {
  it("follow at once", () => {
    open(MIXER);
    const { container } = render(
      <>
        <Readouts />
        <Workings />
      </>,
    );
    expect(container).toHaveTextContent("40 N·m");
    act(() => chooseUnits({ ...INCH, speed: "rad/s", decimal: ",", figures: 3 }));
    expect(container).toHaveTextContent("29,5 lbf·ft");
    expect(container).toHaveTextContent("30,4 rad/s");
    // 40 N·m at 290 rev/min: 1214.7 W = 1.629 hp.
    expect(container).toHaveTextContent("1,63 hp");
    expect(container).not.toHaveTextContent(/N·m|rev\/min| mm/);
    expect(screen.getAllByText("1.63 horsepower", { exact: false }).length).toBeGreaterThan(0);
  });
});

describe("the dialog", () => {
  beforeEach(() => {
    HTMLDialogElement.prototype.showModal = function () {
      this.open = true;
    };
    HTMLDialogElement.prototype.close = function () {
      this.open = false;
    };
  });

  it("chooses each unit, shows what it does, and is remembered", async () => {
    const user = userEvent.setup({ delay: null });
    render(<UnitsDialog />);
    const example = screen.getByRole("status");
    expect(example).toHaveTextContent(
      "A gear 63.5 mm across, module 2.54 mm. At most 7.5 N·m, 1139 W at 1450 rev/min.",
    );
    await user.click(screen.getByRole("button", { name: "All inch" }));
    expect(example).toHaveTextContent("A gear 2.5 in across, diametral pitch 10 /in. At most 5.532 lbf·ft, 1.527 hp");
    await user.click(
      within(screen.getByRole("group", { name: "Significant figures" })).getByRole("radio", { name: "3" }),
    );
    await user.click(screen.getByRole("radio", { name: "comma, 1,5" }));
    await user.click(screen.getByRole("radio", { name: "rad/s" }));
    expect(example).toHaveTextContent("5,53 lbf·ft, 1,53 hp at 152 rad/s.");
    expect(JSON.parse(localStorage.getItem("turnwise.units") ?? "")).toEqual({
      ...unitsStore.getState().settings,
      length: "in",
      figures: 3,
      decimal: ",",
    });
    expect(await violations(document.body)).toEqual([]);
  });
});

describe("the store", () => {
  it("knows the decimal sign of a language", () => {
    expect([["en-GB"], ["de-DE"], ["fr-CH"], ["pl"], [], ["not a language"]].map((all) => systemSign(all))).toEqual([
      ".",
      ",",
      expect.stringMatching(/[.,]/),
      ",",
      expect.stringMatching(/[.,]/),
      ".",
    ]);
  });

  it("takes nothing from storage that is no choice", async () => {
    const { vi } = await import("vitest");
    for (const [kept, wanted] of [
      ['{"length":"in","figures":12,"speed":"furlong","x":1}', { length: "in", figures: 4, speed: "rev/min" }],
      ["not JSON", { length: "mm" }],
      ["null", { length: "mm" }],
    ] as const) {
      localStorage.setItem("turnwise.units", kept);
      vi.resetModules();
      const fresh = await import("../../src/store/units");
      expect(fresh.unitsStore.getState().settings).toMatchObject(wanted);
      expect(Object.keys(fresh.unitsStore.getState().settings).sort()).toEqual(Object.keys(UNIT_CHOICES).sort());
    }
  });
});

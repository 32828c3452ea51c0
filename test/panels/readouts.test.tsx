import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, describe, expect, it, vi } from "vitest";
import { setGear } from "../../src/engine/drive/commands/gear";
import { setPort } from "../../src/engine/drive/commands/port";
import { Readouts } from "../../src/panels/readouts/readouts";
import { turnsText } from "../../src/panels/readouts/turn-counter";
import { beginDrag, endDrag, perform } from "../../src/store/document";
import { chooseUnits } from "../../src/store/units";
import { viewStore } from "../../src/store/view";
import { MIXER, open, sample, violations } from "./support";

const card = (name: string) => within(screen.getByRole("article", { name }));
/** What stands on a card for the eye, in one line. */
const text = (name: string) => {
  const copy = screen.getByRole("article", { name }).cloneNode(true) as HTMLElement;
  for (const heard of copy.querySelectorAll("[class*='heard'], title")) heard.remove();
  return copy.textContent ?? "";
};

function show(file: unknown = MIXER) {
  open(file);
  render(<Readouts />);
}

afterEach(() => vi.useRealTimers());

// Figures of the mixer: the example of the format's description, and by hand 40 N·m / (5 · 0.97) = 8.247 N·m.
describe("the readouts", () => {
  it("say the ratio in turns first, then as a fraction of a named kind, then as a decimal", () => {
    show();
    expect(screen.getByText("5 turns of Motor give 1 of Mixer")).toBeVisible();
    expect(screen.getByText("5", { selector: "[aria-hidden]" })).toBeVisible();
    expect(screen.getByText("five")).toBeInTheDocument();
    expect(screen.getByText(/input speed over output speed/)).toBeVisible();
    expect(screen.getByText("turns", { selector: "strong" })).toBeVisible();
  });

  it("give the fraction the other way round where somebody has chosen so, and name it", () => {
    act(() => chooseUnits({ ratio: "input" }));
    show();
    expect(screen.getByText("5 turns of Motor give 1 of Mixer")).toBeVisible();
    expect(screen.getByText("1/5 = 0.2")).toBeVisible();
    expect(screen.getByText("one fifth")).toBeInTheDocument();
    expect(screen.getByText(/output speed over input speed/)).toBeVisible();
    act(() => chooseUnits({ ratio: "output" }));
  });

  it("show direction, speed, torque and power of every shaft, without a sign", () => {
    show();
    expect(text("Motor, drives")).toMatch(/(?<!counter)clockwise seen from the motor end/);
    expect(text("Motor, drives")).toMatch(/1450 rev\/min/);
    expect(text("Motor, drives")).toMatch(/8\.247 N·m/);
    expect(text("Cross shaft")).toMatch(/580 rev\/min.*20\.62 N·m.*1252 W/);
    expect(text("Mixer, output")).toMatch(/seen from the mixer end.*290 rev\/min.*40 N·m.*1215 W/);
    for (const name of ["Motor, drives", "Cross shaft", "Mixer, output"]) expect(text(name)).not.toMatch(/[−-]\d/);
  });

  it("spell numbers out for a screen reader", () => {
    show();
    expect(card("Mixer, output").getByText("290 revolutions per minute")).toBeInTheDocument();
    expect(card("Mixer, output").getByText("40 newton metres")).toBeInTheDocument();
  });

  it("name each mesh between its cards, and only call parallel shafts the same or the other way", () => {
    show();
    expect(screen.getByRole("button", { name: /20 drives 50/ })).toHaveTextContent("the other way");
    const bevel = screen.getByRole("button", { name: /16 drives 32/ });
    expect(bevel).toHaveTextContent(/near-side arrows (meet|part)/);
    expect(bevel).not.toHaveTextContent(/same way|other way/);
  });

  it("draw power as an area: equal where nothing is lost, smaller by the losses", () => {
    show();
    const area = (name: string) => {
      const box = screen.getByRole("article", { name }).querySelector("rect");
      return Number(box?.getAttribute("width")) * Number(box?.getAttribute("height"));
    };
    expect(area("Cross shaft")).toBeCloseTo(area("Motor, drives"), 6);
    expect(area("Mixer, output") / area("Cross shaft")).toBeCloseTo(0.97, 9);
  });

  it("say what torque is multiplied by where no load is given, and draw nothing", () => {
    const unloaded = structuredClone(MIXER) as unknown as { ports: object[]; meshes: { efficiency?: number }[] };
    unloaded.ports[1] = { shaft: "C", role: "output" };
    unloaded.meshes[1] = { ...unloaded.meshes[1], efficiency: 1 };
    show(unloaded);
    expect(text("Mixer, output")).toContain("torque × 5, no losses");
    expect(document.querySelector("rect")).toBeNull();
    expect(text("Mixer, output")).not.toContain("N·m");
  });

  it("show what an edit changed beside it, until the next", () => {
    show();
    act(() => void perform(setGear("b2", { teeth: 32 }), "teeth of b2"));
    expect(text("Mixer, output")).toMatch(/580 rev\/min\s*was 290 rev\/min/);
    expect(screen.getByText("was 5 turns of Motor give 1 of Mixer")).toBeVisible();
    act(() => void perform(setPort("A", { role: "input", speed: -1450 }), "speed of Motor"));
    expect(text("Mixer, output")).not.toMatch(/was 290/);
    expect(text("Mixer, output")).toMatch(/seen from the mixer end\s*was (counter)?clockwise/);
  });

  it("say in plain words when the drive can't run as it is", () => {
    show({ ...MIXER, ports: [] });
    expect(screen.getByText("needs one more input")).toBeVisible();
  });

  it("name a jammed drive", () => {
    const wheel = (id: string) => ({ id: id.toLowerCase(), shaft: id, kind: "spur", teeth: 20, module: 2 });
    show({
      format: "turnwise.drive",
      version: 1,
      shafts: [{ ...MIXER.shafts[0] }, { id: "B", name: "Second" }, { id: "C", name: "Third" }],
      gears: ["A", "B", "C"].map(wheel),
      meshes: [
        { id: "m1", gears: ["a", "b"], azimuth: 0 },
        { id: "m2", gears: ["a", "c"], azimuth: 60 },
        { id: "m3", gears: ["b", "c"] },
      ],
      ports: [{ shaft: "A", role: "input", speed: 100 }],
    });
    expect(screen.getByText("jammed")).toBeVisible();
    expect(screen.getByText(/^The drive can't turn: /)).toBeVisible();
    expect(text("Motor, drives")).toContain("stands still");
  });

  it("count turns as sizes", () => {
    expect(turnsText(0, ".")).toBe("0.0");
    expect(turnsText(-25 * Math.PI, ".")).toBe("12.5");
    expect(turnsText(-25 * Math.PI, ",")).toBe("12,5");
    expect(turnsText(Number.NaN, ".")).toBe("–");
  });

  it("select what is clicked and look from the end that is named", async () => {
    show();
    const user = userEvent.setup();
    await user.click(card("Cross shaft").getByRole("button", { name: "Cross shaft" }));
    expect(viewStore.getState().selection).toEqual({ kind: "shaft", id: "B" });
    await user.click(screen.getByRole("button", { name: /16 drives 32/ }));
    expect(viewStore.getState().selection).toEqual({ kind: "mesh", id: "m2" });
    await user.click(screen.getByRole("button", { name: "Look at Mixer from the mixer end" }));
    expect(viewStore.getState().camera.view).toMatchObject({ name: "along", shaft: "C" });
  });

  it("tell a screen reader what changed once the hand lets go", () => {
    vi.useFakeTimers();
    show();
    act(() => {
      beginDrag();
      perform(setGear("b2", { teeth: 24 }), "teeth of b2");
      vi.advanceTimersByTime(1000);
    });
    expect(viewStore.getState().announcement).toBe("");
    act(() => {
      perform(setGear("b2", { teeth: 32 }), "teeth of b2");
      endDrag();
      vi.advanceTimersByTime(1000);
    });
    expect(viewStore.getState().announcement).toMatch(
      /^Mixer: 580 revolutions per minute, (counter)?clockwise seen from/,
    );
  });

  it("give the cautions wherever torque stands", () => {
    show();
    // jsdom opens no popovers; that the press shows it is tested in a real browser.
    const box = document.getElementById(
      screen.getByRole("button", { name: "Cautions" }).getAttribute("popovertarget") ?? "",
    );
    expect(box).toHaveTextContent(/Guard meshing gears and turning shafts/);
    expect(box).toHaveTextContent(/qualified engineer/);
  });

  it("keep the output's card apart from branches", () => {
    show(sample("paper-carousel"));
    expect(
      within(screen.getByRole("region", { name: "Output" })).getByRole("article", { name: "Carousel, output" }),
    ).toBeVisible();
    expect(screen.getByText("7 turns of Sun give 2 of Carousel")).toBeVisible();
  });

  it.each(["mixer", "paper-carousel", "three-jam-four-turn"])("have nothing that axe objects to: %s", async (name) => {
    show(name === "mixer" ? MIXER : sample(name));
    expect(await violations(document.body)).toEqual([]);
  });
});

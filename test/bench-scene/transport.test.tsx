import { act, fireEvent, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { beforeEach, describe, expect, it } from "vitest";
import { slowdownWords, Transport } from "../../src/bench/transport";
import { Views } from "../../src/bench/views";
import { FILE_UNITS } from "../../src/engine/units/choice";
import { clockStore, now, reset, reverse, setPlaying, setRate } from "../../src/store/clock";
import { documentStore, openDrive } from "../../src/store/document";
import { setView, viewStore } from "../../src/store/view";
import { chain } from "../support/random-drives";

beforeEach(() => {
  act(() => openDrive(chain(2)));
  setRate(0.5);
  setPlaying(false);
  reset();
  setView({ selection: null });
});

describe("the transport bar", () => {
  it("plays and pauses", async () => {
    render(<Transport />);
    const user = userEvent.setup();
    await user.click(screen.getByRole("button", { name: "Play" }));
    expect(clockStore.getState().playing).toBe(true);
    await user.click(screen.getByRole("button", { name: "Pause" }));
    expect(clockStore.getState().playing).toBe(false);
  });

  it("steps by one tooth and pauses", async () => {
    render(<Transport />);
    const user = userEvent.setup();
    await user.click(screen.getByRole("button", { name: "Step forward" }));
    expect(now.time).toBeGreaterThan(0);
    expect(clockStore.getState().playing).toBe(false);
    await user.click(screen.getByRole("button", { name: "Step back" }));
    expect(now.time).toBeCloseTo(0, 15);
  });

  it("runs backwards, and says so", async () => {
    render(<Transport />);
    const user = userEvent.setup();
    const button = screen.getByRole("button", { name: "Run backwards" });
    expect(button).toHaveAttribute("aria-pressed", "false");
    await user.click(button);
    expect(clockStore.getState().direction).toBe(-1);
    expect(button).toHaveAttribute("aria-pressed", "true");
    expect(screen.getByText(/backwards$/)).toBeInTheDocument();
    act(() => reverse());
  });

  it("names how much slower than true speed it is shown", () => {
    expect(slowdownWords(1, FILE_UNITS)).toBe("shown at true speed");
    expect(slowdownWords(1 / 32, FILE_UNITS)).toBe("shown 32 times slower");
    expect(slowdownWords(1 / 2.53, FILE_UNITS)).toBe("shown 2.5 times slower");
    expect(slowdownWords(1 / 2.53, { ...FILE_UNITS, decimalSign: "," })).toBe("shown 2,5 times slower");
    expect(slowdownWords(1 / 120.4, FILE_UNITS)).toBe("shown 120 times slower");
  });

  it("has a speed slider from a hundredth to all of what can be shown", () => {
    render(<Transport />);
    const slider = screen.getByRole("slider", { name: "Speed shown" });
    fireEvent.change(slider, { target: { value: "0" } });
    expect(clockStore.getState().rate).toBeCloseTo(0.01, 9);
    fireEvent.change(slider, { target: { value: "40" } });
    expect(clockStore.getState().rate).toBeCloseTo(1, 9);
    expect(slider).toHaveAttribute("aria-valuetext", expect.stringMatching(/^shown/));
  });
});

describe("named views", () => {
  it("wish for the front, the top, the side, the end of the input's shaft, and all of it", async () => {
    render(<Views />);
    const user = userEvent.setup();
    for (const [button, name] of [
      ["Corner", "home"],
      ["Front", "front"],
      ["Top", "top"],
      ["Side", "right"],
      ["End", "along"],
      ["Fit", "fit"],
    ] as const) {
      const { count } = viewStore.getState().camera;
      await user.click(screen.getByRole("button", { name: button }));
      expect(viewStore.getState().camera).toMatchObject({ view: { name }, count: count + 1 });
    }
  });

  it("offer an eye at each end of the selected shaft, by the names of its ends", async () => {
    render(<Views />);
    const user = userEvent.setup();
    const { drive } = documentStore.getState();
    const id = drive.shafts[0]?.id ?? "";
    expect(screen.queryAllByRole("button", { name: /^from the/ })).toHaveLength(0);
    act(() => setView({ selection: { kind: "shaft", id } }));
    const eyes = screen.getAllByRole("button", { name: /^from the .+ end$/ });
    expect(eyes).toHaveLength(2);
    await user.click(eyes[0] as HTMLElement);
    expect(viewStore.getState().camera.view).toEqual({ name: "along", shaft: id, end: "+" });
    await user.click(eyes[1] as HTMLElement);
    expect(viewStore.getState().camera.view).toEqual({ name: "along", shaft: id, end: "-" });
  });
});

describe("what is shown", () => {
  it("teeth, pitch surfaces, or both", async () => {
    render(<Transport />);
    const choice = screen.getByRole("combobox", { name: "Show" });
    await userEvent.selectOptions(choice, "show surfaces");
    expect(viewStore.getState()).toMatchObject({ showTeeth: false, showSurfaces: true });
    await userEvent.selectOptions(choice, "show teeth");
    expect(viewStore.getState()).toMatchObject({ showTeeth: true, showSurfaces: false });
    await userEvent.selectOptions(choice, "show all");
    expect(viewStore.getState()).toMatchObject({ showTeeth: true, showSurfaces: true });
  });
});

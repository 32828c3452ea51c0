/** The animation in the dialog of figures: what it says beforehand, and why there is none. Making it needs a real browser. */
import "../support/draft-here";
import { act, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FiguresDialog } from "../../src/app/dialogs/figures-dialog";
import { lengthTrouble, lengthWords } from "../../src/app/dialogs/loop-words";
import { REASONS } from "../../src/bench/frame-rate";
import type { Drive } from "../../src/engine/drive/types";
import { openDrive } from "../../src/store/document";
import { setView } from "../../src/store/view";
import { drive, MIXER, open, violations } from "../panels/support";

beforeEach(() => {
  open(MIXER);
  HTMLDialogElement.prototype.showModal = function showModal() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    this.open = false;
  };
});
afterEach(() => act(() => setView({ drawing: "full", drawingReason: null, showTeeth: true, ghost: null })));

const shown = async () => {
  const user = userEvent.setup();
  const { container } = render(<FiguresDialog />);
  await user.selectOptions(screen.getByRole("combobox", { name: "Figure of" }), "3D, looped animation (GIF)");
  await screen.findByRole("combobox", { name: "Marks" });
  return { user, container };
};
const change = (patch: Partial<Drive>): void => act(() => openDrive({ ...drive(), ...patch }));
const made = () => screen.queryByRole("button", { name: "Make the animation" });

describe("a looped animation", () => {
  it("says how long it lasts, and refuses a width that no slide has", async () => {
    const { user, container } = await shown();
    await user.selectOptions(screen.getByRole("combobox", { name: "Marks" }), "shown");
    expect(
      screen.getByText(/whole turns, since marks show\)\..* The animation lasts .* s.*, in \d+ pictures\.$/),
    ).toBeVisible();
    const width = screen.getByRole("textbox", { name: "GIF width" });
    for (const bad of ["", "12.5", "99", "1201"]) {
      await user.clear(width);
      if (bad) await user.type(width, bad);
      expect(width).toHaveAccessibleDescription(/^The width is a whole number of pixels from 100 to 1200/);
      expect(made()).toHaveAttribute("aria-disabled", "true");
    }
    expect(await violations(container)).toEqual([]);
  });

  it("says in a sentence why there is none", async () => {
    await shown();
    const alert = () => screen.getByRole("alert");
    expect(screen.queryByRole("alert")).toBeNull();
    expect(made()).not.toBeNull();
    const { ports } = drive();
    change({ ports: [] });
    expect(alert()).toHaveTextContent("The motion of this drive is not determined");
    change({ ports: ports.map((port) => (port.role === "input" ? { ...port, speed: 0 } : port)) });
    expect(alert()).toHaveTextContent("The drive stands still");
    change({ ports, "x-question": { hide: [{ shaft: "C", figures: ["direction"] }] } });
    expect(alert()).toHaveTextContent("Closed until the question is revealed");
    change({ "x-question": undefined });
    // A pitch of 20 takes half a million minutes.
    change({ ports: ports.map((port) => (port.role === "input" ? { ...port, speed: 1e-7 } : port)) });
    expect(alert()).toHaveTextContent("It takes more than a day");
    change({ ports });
    act(() => setView({ drawing: "simple" }));
    expect(alert()).toHaveTextContent("Without teeth and marks no turning would be seen");
    act(() => setView({ drawing: "flat" }));
    expect(alert()).toHaveTextContent("The bench draws flat");
    act(() => setView({ drawingReason: REASONS.noWebGL }));
    expect(alert()).toHaveTextContent("This browser offers no 3D graphics (WebGL)");
    act(() => setView({ drawingReason: REASONS.lost }));
    expect(alert()).toHaveTextContent("The 3D picture was lost");
    act(() => setView({ drawing: "full", drawingReason: null }));
    expect(screen.queryByRole("alert")).toBeNull();
    change({ shafts: [], gears: [], meshes: [], ports: [] });
    expect(alert()).toHaveTextContent("The drive has nothing to animate");
    expect(made()).toBeNull();
  });
});

describe("the length of an animation", () => {
  const seconds = (s: number): string => `${s} s`;
  const long = { whole: 24, shown: 8, frames: 200, hasMarks: true, hasCarrier: false, faster: 3, bare: 0.4, seconds };

  it("longer than ten seconds is told, with what would be shorter", () => {
    expect(lengthWords(long)).toBe(
      "The drive looks as it did after 24 s at the bench's speed (whole turns, since marks show). That is longer than 10 s; with the marks hidden it is 0.4 s. The animation lasts 8 s, 3 times faster, in 200 pictures.",
    );
    expect(lengthWords({ ...long, whole: 9, faster: 1, shown: 9 })).not.toContain("longer");
    expect(lengthWords({ ...long, hasMarks: false, hasCarrier: true })).toContain(
      "(whole tooth pitches and whole turns of carriers, since no marks show)",
    );
  });

  it("is refused beyond a thousand pictures, and warned of where the eye would see teeth run backwards", () => {
    expect(lengthTrouble({ frames: 1000, pitches: 0.4 })).toBeNull();
    expect(lengthTrouble({ frames: 1001, pitches: 0.1 })?.isRefused).toBe(true);
    expect(lengthTrouble({ frames: Number.POSITIVE_INFINITY, pitches: 0.1 })?.isRefused).toBe(true);
    expect(lengthTrouble({ frames: 20, pitches: 0.5 })).toMatchObject({ isRefused: false });
  });
});
